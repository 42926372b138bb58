"""Patterns and their versions."""

import datetime as dt
from dataclasses import dataclass

from sqlalchemy.dialects.sqlite import insert
from sqlmodel import col, func, select

from tracker.history.version import Address, Standing, Version, version_digest
from tracker.store.opening import NotStored
from tracker.store.records import iso
from tracker.store.shelf import DamagedRecord, Shelf, readable
from tracker.store.tables import (
    ClientRow,
    PatternRow,
    PieceRow,
    PrintingRow,
    StepRow,
    VersionPieceRow,
    VersionRow,
)
from tracker.store.version_codec import (
    AsKept,
    piece_row,
    read_version,
    step_fields,
    version_fields,
)


class DamagedVersion(DamagedRecord):
    """A version that is not as it was written; nothing may be cut from it."""


class NumberNotNext(NotStored):
    """A version whose number does not follow the newest one's."""


@dataclass(frozen=True, slots=True)
class VersionLine:
    """What a listing says of a version, without its geometry.

    Attributes:
        address: which version.
        parent: the version it was made from, by address; none for a root.
        sentence: what it is.
        made_on: the date, ISO.
        standing: how far it has come, in words.
        standing_by: who approved it,
        standing_on: and when, ISO.
        digest: its digest.
        steps: how many steps made it.
    """

    address: Address
    parent: str | None
    sentence: str
    made_on: str
    standing: str
    standing_by: str
    standing_on: str | None
    digest: str
    steps: int


class PatternShelf(Shelf):
    """Every version of every pattern."""

    def pattern_names(self, client: str) -> tuple[str, ...]:
        """Return the names of a client's patterns, in the order they were begun."""
        return tuple(self._pattern_names(self._client_row(client)))

    def next_number(self, client: str, pattern: str) -> int:
        """Return the number the next version of a pattern has: 1 for one not begun."""
        owner = self._client_row(client)
        newest = self.work.exec(
            select(func.max(VersionRow.number))
            .join(PatternRow, col(PatternRow.id) == col(VersionRow.pattern_id))
            .where(PatternRow.client_id == owner.id, PatternRow.name == pattern)
        ).first()
        return (newest or 0) + 1

    def add_version(self, version: Version) -> None:
        """Put a version into the books; the first one begins its pattern.

        Raises:
            UnknownClient, UnknownPattern, UnknownVersion: client or parent is not there.
            NumberNotNext: the number does not follow the newest one's.
            NotStored: its digest is not that of what it holds, or its parent has changed.
        """
        address = version.address
        owner = self._client_row(address.client)
        due = self.next_number(address.client, address.pattern)
        if address.number != due:
            raise NumberNotNext(
                f"{address} cannot be stored: the next version of "
                f"{address.client}/{address.pattern} is {due}"
            )
        if version_digest(version) != version.digest:
            raise NotStored(f"{address} was changed after it was made; make it again from its step")
        parent = self._parent_row(version, owner.id)
        row = VersionRow(
            pattern_id=self._pattern_for(owner, address.pattern).id,
            number=address.number,
            parent_id=None if parent is None else parent.id,
            **version_fields(version),
        )
        self.work.add(row)
        pieces = [piece_row(piece) for piece in version.pattern.pieces]
        if pieces:
            self.work.exec(insert(PieceRow).on_conflict_do_nothing(), params=pieces)
        self.work.flush()
        for position, piece in enumerate(pieces):
            self.work.add(
                VersionPieceRow(version_id=row.id, position=position, piece_digest=piece["digest"])
            )
        for position, taken in enumerate(version.taken):
            self.work.add(StepRow(version_id=row.id, position=position, **step_fields(taken)))
        self.work.flush()
        # What cannot be read back as it was is not stored at all.
        kept = self._as_kept(address, row)
        if kept.faults or kept.version is None:
            raise NotStored(f"{address} cannot be kept without loss: {'; '.join(kept.faults)}")

    def _parent_row(self, version: Version, client_id: int | None) -> VersionRow | None:
        if version.parent is None:
            return None
        row = self._version_at(version.parent, client_id, f"{version.address}")
        if row.digest != version.parent_digest:
            raise NotStored(
                f"{version.address} was made from another {version.parent} than the one in the "
                "store; make it again from that"
            )
        return row

    def _pattern_for(self, owner: ClientRow, name: str) -> PatternRow:
        wanted = select(PatternRow).where(PatternRow.client_id == owner.id, PatternRow.name == name)
        row = self.work.exec(wanted).first()
        if row is None:
            row = PatternRow(client_id=owner.id, name=name)
            self.work.add(row)
            self.work.flush()
        return row

    def version(self, client: str, pattern: str, number: int | None = None) -> Version:
        """Return a version, the newest if no number is given.

        Raises:
            UnknownClient, UnknownPattern, UnknownVersion: it is not there.
            DamagedVersion: it is not as it was written; ``as_kept`` still returns it.
        """
        return self._sound(self.as_kept(client, pattern, number))

    def versions(self, client: str, pattern: str) -> tuple[Version, ...]:
        """Return all versions of a pattern, oldest first.

        Raises:
            DamagedVersion: one of them is not as it was written.
        """
        return tuple(
            self._sound(self._as_kept(Address(client, pattern, row.number), row))
            for row in self._version_rows(client, pattern)
        )

    def as_kept(self, client: str, pattern: str, number: int | None = None) -> AsKept:
        """Return a version as the store has it, with what is wrong with it."""
        row = self._version_row(client, pattern, number)
        return self._as_kept(Address(client, pattern, row.number), row)

    def versions_listed(self, client: str, pattern: str) -> tuple[VersionLine, ...]:
        """Return what a listing needs of each version, oldest first, damaged ones too."""
        rows = self._version_rows(client, pattern)
        counted = dict(
            self.work.exec(
                select(StepRow.version_id, func.count())
                .where(col(StepRow.version_id).in_([row.id for row in rows]))
                .group_by(col(StepRow.version_id))
            ).all()
        )
        return tuple(
            VersionLine(
                address=Address(client, pattern, row.number),
                parent=self._address_of(row.parent_id),
                sentence=row.sentence,
                made_on=row.made_on,
                standing=row.standing,
                standing_by=row.standing_by,
                standing_on=row.standing_on,
                digest=row.digest,
                steps=counted.get(row.id or 0, 0),
            )
            for row in rows
        )

    def set_standing(self, address: Address, standing: Standing, by: str, on: dt.date) -> None:
        """Say how far a version has come; the journal keeps how it stood."""
        row = self._version_row(address.client, address.pattern, address.number)
        with readable(f"the standing of {address}"):
            before = {"standing": row.standing, "by": row.standing_by, "on": row.standing_on}
        row.standing, row.standing_by, row.standing_on = str(standing), by, iso(on)
        self.work.add(row)
        self._write_down(
            f"{address} is now {standing}", "version", str(address), before,
            {"standing": str(standing), "by": by, "on": iso(on)},
            self._client_row(address.client).id,
        )  # fmt: skip
        self.work.flush()

    def mark_printed(self, address: Address, on: dt.date) -> None:
        """Remember that a version was printed."""
        row = self._version_row(address.client, address.pattern, address.number)
        self.work.add(PrintingRow(version_id=row.id, printed_on=on.isoformat()))
        self.work.flush()

    def last_printed(self, client: str, pattern: str) -> tuple[Address, dt.date] | None:
        """Return which version of a pattern was printed last, and when."""
        owner = self._pattern_row(client, pattern)
        found = self.work.exec(
            select(VersionRow.number, PrintingRow.printed_on)
            .join(VersionRow, col(VersionRow.id) == col(PrintingRow.version_id))
            .where(VersionRow.pattern_id == owner.id)
            .order_by(col(PrintingRow.printed_on).desc(), col(PrintingRow.id).desc())
        ).first()
        if found is None:
            return None
        with readable(f"when {client}/{pattern} was printed"):
            return Address(client, pattern, found[0]), dt.date.fromisoformat(found[1])

    # -- reading ---------------------------------------------------------------------------

    def _version_rows(self, client: str, pattern: str) -> list[VersionRow]:
        owner = self._pattern_row(client, pattern)
        return list(
            self.work.exec(
                select(VersionRow)
                .where(VersionRow.pattern_id == owner.id)
                .order_by(col(VersionRow.number))
            )
        )

    def _step_rows(self, row: VersionRow) -> list[StepRow]:
        return list(
            self.work.exec(
                select(StepRow).where(StepRow.version_id == row.id).order_by(col(StepRow.position))
            )
        )

    def _as_kept(self, address: Address, row: VersionRow) -> AsKept:
        steps = self._step_rows(row)
        listed = self.work.exec(
            select(VersionPieceRow.position, PieceRow)
            .join(
                PieceRow,
                col(PieceRow.digest) == col(VersionPieceRow.piece_digest),
                isouter=True,
            )
            .where(VersionPieceRow.version_id == row.id)
            .order_by(col(VersionPieceRow.position))
        ).all()
        try:
            parent = self._address_of(row.parent_id)
        except DamagedRecord:
            return AsKept(address, None, ["the version it was made from is gone"])
        if any(piece is None for _, piece in listed):
            return AsKept(address, None, ["a piece of it is gone"])
        placed = [step.position for step in steps], [position for position, _ in listed]
        if placed != (list(range(len(steps))), list(range(len(listed)))):
            return AsKept(address, None, ["a step or a piece of it is gone or out of order"])
        pieces = [piece for _, piece in listed]
        return read_version(address, row, parent, steps, pieces, self._kept)

    def _sound(self, kept: AsKept) -> Version:
        if kept.faults or kept.version is None:
            raise DamagedVersion(
                f"{kept.address} is damaged: {'; '.join(kept.faults)}; cut nothing from it; check "
                "the whole store, and take it from a backup"
            )
        return kept.version
