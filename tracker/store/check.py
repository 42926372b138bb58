"""Check the whole store: the file, its references, every piece, every version worked out again."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from sqlalchemy.exc import DBAPIError
from sqlmodel import col, select

from tracker.errors import TrackerError
from tracker.history.replay import check_again
from tracker.history.version import Address, Version, version_digest
from tracker.pattern.canonical import canonical
from tracker.pattern.checks_names import astray
from tracker.store import version_codec
from tracker.store.clients import ClientShelf
from tracker.store.fittings import FittingShelf
from tracker.store.patterns import PatternShelf
from tracker.store.tables import (
    ClientRow,
    JournalRow,
    PatternRow,
    PieceRow,
    VersionPieceRow,
    VersionRow,
)


@dataclass(frozen=True, slots=True)
class StoreChecked:
    """What checking the whole store showed.

    Attributes:
        damage: what is not as it was written; empty when all is well.
        notes: what is worth saying and is no damage.
        clients: how many clients were looked at,
        versions: how many versions were worked out again,
        pieces: and how many pieces had their digest taken.
    """

    damage: tuple[str, ...]
    notes: tuple[str, ...]
    clients: int
    versions: int
    pieces: int

    @property
    def sound(self) -> bool:
        """Tell whether nothing is damaged."""
        return not self.damage


@contextmanager
def going_on(damage: list[str], what: str) -> Iterator[None]:
    """Write down what stops one look, so that the next can be taken."""
    try:
        yield
    except (sqlite3.Error, DBAPIError) as fault:
        reason = fault.orig if isinstance(fault, DBAPIError) else fault
        damage.append(f"{what} cannot be read to the end: {reason}")
    except TrackerError as fault:
        damage.append(f"{what}: {fault.sentence}")


class CheckShelf(ClientShelf, PatternShelf, FittingShelf):
    """The look over everything."""

    def raw_check(
        self, progress: Callable[[str, int, int], None] = lambda *_: None
    ) -> StoreChecked:
        """Check everything that can be checked, and never stop at the first damage.

        Args:
            progress: told each version's address before it is looked at, which one it is
                (from 1), and of how many.
        """
        damage: list[str] = []
        notes: list[str] = []
        clients = versions = pieces = 0
        with going_on(damage, "the file"):
            self._look_at_file(damage)
        with going_on(damage, "the list of clients"):
            clients = self._look_at_clients(damage)
        with going_on(damage, "the list of pieces"):
            pieces = self._look_at_pieces(damage, notes)
        with going_on(damage, "the list of versions"):
            versions = self._look_at_versions(damage, notes, progress)
        return StoreChecked(tuple(dict.fromkeys(damage)), tuple(notes), clients, versions, pieces)

    def _look_at_file(self, damage: list[str]) -> None:
        for (told,) in self.driver.execute("PRAGMA integrity_check"):
            if told != "ok":
                damage.append(f"the file is damaged: {' '.join(str(told).split())}")
        for table, row, parent, _ in self.driver.execute("PRAGMA foreign_key_check"):
            damage.append(f"row {row} of {table} refers to a {parent} that is gone")

    def _look_at_clients(self, damage: list[str]) -> int:
        codes = self.work.exec(select(ClientRow.code).order_by(col(ClientRow.code))).all()
        reads = (self.client, self.sessions, self.garments, self.fittings, self.notes, self.journal)
        for code in codes:
            for read in reads:
                with going_on(damage, f"{code}'s {read.__name__}"):
                    read(code)
        return len(codes)

    def _look_at_pieces(self, damage: list[str], notes: list[str]) -> int:
        rows = self.work.exec(select(PieceRow)).all()
        for row in rows:
            _, fault = version_codec.read_piece(row, {})
            if fault:
                who = self._versions_with(row.digest)
                if who:
                    damage += [f"{address} is damaged: {fault}" for address in who]
                else:
                    notes.append(f"a piece that no version has is damaged: {fault}")
        return len(rows)

    def _versions_with(self, digest: str) -> list[Address]:
        found = self.work.exec(
            select(ClientRow.code, PatternRow.name, VersionRow.number)
            .join(PatternRow, col(PatternRow.client_id) == col(ClientRow.id))
            .join(VersionRow, col(VersionRow.pattern_id) == col(PatternRow.id))
            .join(VersionPieceRow, col(VersionPieceRow.version_id) == col(VersionRow.id))
            .where(VersionPieceRow.piece_digest == digest)
            .order_by(col(VersionRow.id))
        ).all()
        return [Address(*one) for one in found]

    def _look_at_versions(
        self,
        damage: list[str],
        notes: list[str],
        progress: Callable[[str, int, int], None],
    ) -> int:
        damage += self._numbering_faults()
        rows = self.work.exec(
            select(ClientRow.code, PatternRow.name, VersionRow)
            .join(PatternRow, col(PatternRow.client_id) == col(ClientRow.id))
            .join(VersionRow, col(VersionRow.pattern_id) == col(PatternRow.id))
            .order_by(col(VersionRow.id))
        ).all()
        sound: dict[str, Version] = {}
        for done, (code, name, row) in enumerate(rows, 1):
            address = Address(code, name, row.number)
            progress(str(address), done, len(rows))
            with going_on(damage, str(address)):
                version = self._as_written(address, row, damage)
                if version is not None and self._worked_out(version, sound, damage, notes):
                    sound[str(address)] = version
                if version is not None:
                    notes += [f"{address}: {told}" for _, _, told in astray(version.pattern)]
        return len(rows)

    def _as_written(self, address: Address, row: VersionRow, damage: list[str]) -> Version | None:
        """Return a version if it is as it was written, to the last letter."""
        kept = self._as_kept(address, row)
        if kept.version is not None and not kept.faults:
            steps = self._step_rows(row)
            kept.faults += version_codec.written_otherwise(kept.version, row, steps)
            kept.faults += self._standing_faults(address, row)
        damage += [f"{address} is damaged: {fault}" for fault in kept.faults]
        return None if kept.faults else kept.version

    def _worked_out(
        self,
        version: Version,
        sound: dict[str, Version],
        damage: list[str],
        notes: list[str],
    ) -> bool:
        """Work a version out again from its parent; parents are stored before children."""
        parent = None if version.parent is None else sound.get(version.parent)
        if version.parent is not None and parent is None:
            notes.append(
                f"{version.address} is as it was written, but cannot be worked out again while "
                f"{version.parent} is damaged"
            )
            return version_digest(version) == version.digest
        again = check_again(version, parent)
        damage += again.damage
        notes += again.notes
        return again.sound

    def _standing_faults(self, address: Address, row: VersionRow) -> list[str]:
        """The digest does not cover a standing; the journal has it a second time."""
        told = self.work.exec(
            select(JournalRow.after)
            .where(JournalRow.subject == "version", JournalRow.subject_key == str(address))
            .order_by(col(JournalRow.id).desc())
        ).first()
        kept = {"standing": row.standing, "by": row.standing_by, "on": row.standing_on}
        if told is None or told == canonical(kept):
            return []
        return [f"it stands as {row.standing!r}, which is not what the journal says"]

    def _numbering_faults(self) -> list[str]:
        """A changed number would show nowhere else: a digest does not cover the address."""
        found = self.work.exec(
            select(ClientRow.code, PatternRow.name, VersionRow.number)
            .join(PatternRow, col(PatternRow.client_id) == col(ClientRow.id))
            .join(VersionRow, col(VersionRow.pattern_id) == col(PatternRow.id), isouter=True)
            .order_by(col(PatternRow.id), col(VersionRow.number))
        ).all()
        numbers: dict[str, list[int]] = {}
        for code, name, number in found:
            numbers.setdefault(f"{code}/{name}", []).append(number)
        return [
            f"{pattern} should have versions 1 to {len(have)} and has "
            f"{', '.join(map(str, have))}; take it from a backup"
            for pattern, have in numbers.items()
            if have != list(range(1, len(have) + 1))
        ]
