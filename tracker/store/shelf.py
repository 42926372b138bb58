"""What the parts of the books share: the open transaction, the journal, and looking up."""

import datetime as dt
import json
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, TypeVar

from sqlmodel import Session, col, select

from tracker.errors import TrackerError, nearest_names
from tracker.history.version import Address
from tracker.pattern.canonical import canonical
from tracker.store.opening import StoreError
from tracker.store.tables import ClientRow, JournalRow, PatternRow, Row, VersionRow

R = TypeVar("R", bound=Row)

#: The largest number SQLite keeps.
LARGEST = 2**63 - 1


class UnknownClient(TrackerError):
    """No client has this code."""


class UnknownPattern(TrackerError):
    """The client has no pattern of this name."""


class UnknownVersion(TrackerError):
    """The pattern has no such version."""


class DamagedRecord(StoreError):
    """Something in the store cannot be read as it was written."""


@dataclass(frozen=True, slots=True)
class JournalEntry:
    """One change: how it stood before and after.

    Attributes:
        when: the moment, ISO, in the time it was stamped with.
        client: the client's code; none for what concerns the whole studio.
        what: what happened, in words.
        subject: the sort of thing that was changed.
        subject_key: which one: its opaque id or address.
        before: how it stood; none for something new.
        after: how it stands.
    """

    when: str
    client: str | None
    what: str
    subject: str
    subject_key: str
    before: dict[str, Any] | None
    after: dict[str, Any] | None


class Shelf:
    """The common ground of the books."""

    def __init__(self, session: Session, now: dt.datetime | None = None) -> None:
        self.work = session
        self._now = now
        self._kept: dict[str, Any] = {}
        self.someone_was_erased = False

    @property
    def driver(self) -> sqlite3.Connection:
        """The plain connection under the transaction, for sqlite-utils and pragmas."""
        driver: Any = self.work.connection().connection.driver_connection
        assert isinstance(driver, sqlite3.Connection)
        return driver

    # -- looking up ------------------------------------------------------------------------

    def _client_row(self, code: str) -> ClientRow:
        row = self.work.exec(select(ClientRow).where(ClientRow.code == code)).first()
        if row is None:
            known = sorted(self.work.exec(select(ClientRow.code)))
            if not known:
                raise UnknownClient(f"no client is called {code!r}; the store has no clients yet")
            raise UnknownClient(f"no client has the code {code!r}.{nearest_names(code, known)}")
        return row

    def _pattern_row(self, client: str, pattern: str) -> PatternRow:
        owner = self._client_row(client)
        row = self.work.exec(
            select(PatternRow).where(PatternRow.client_id == owner.id, PatternRow.name == pattern)
        ).first()
        if row is None:
            known = self._pattern_names(owner)
            has = f"; she has {', '.join(known)}." if known else "; she has none yet"
            raise UnknownPattern(
                f"{client} has no pattern called {pattern!r}{has}{nearest_names(pattern, known)}"
            )
        return row

    def _pattern_names(self, owner: ClientRow) -> list[str]:
        return list(
            self.work.exec(
                select(PatternRow.name)
                .where(PatternRow.client_id == owner.id)
                .order_by(col(PatternRow.id))
            )
        )

    def _version_row(self, client: str, pattern: str, number: int | None) -> VersionRow:
        owner = self._pattern_row(client, pattern)
        wanted = select(VersionRow).where(VersionRow.pattern_id == owner.id)
        if number is not None:
            # Compared as a number of the store's: no pattern has as many versions as fit in it.
            wanted = wanted.where(VersionRow.number == min(number, LARGEST))
        row = self.work.exec(wanted.order_by(col(VersionRow.number).desc())).first()
        if row is None:
            numbers = self.work.exec(
                select(VersionRow.number)
                .where(VersionRow.pattern_id == owner.id)
                .order_by(col(VersionRow.number))
            )
            raise UnknownVersion(
                f"{client}/{pattern} has no version {number}; it has {_listed(list(numbers))}"
            )
        return row

    def _version_at(self, address: str, client_id: int | None, what: str) -> VersionRow:
        """Return the row of a version something of this client's refers to."""
        client, pattern, number = Address.parse(address)
        row = self._version_row(client, pattern, number)
        owner = self._referred(PatternRow, row.pattern_id)
        if owner.client_id != client_id:
            raise UnknownVersion(
                f"{what} cannot refer to {address}, which belongs to another client; what is hers "
                "must stay whole when another client is erased"
            )
        return row

    def _address_of(self, version_id: int | None) -> str | None:
        """Return a version's address in words; "" would be no version, none is none given."""
        if version_id is None:
            return None
        found = self.work.exec(
            select(ClientRow.code, PatternRow.name, VersionRow.number)
            .join(PatternRow, col(PatternRow.client_id) == col(ClientRow.id))
            .join(VersionRow, col(VersionRow.pattern_id) == col(PatternRow.id))
            .where(VersionRow.id == version_id)
        ).first()
        if found is None:
            raise _gone("version")
        return str(Address(*found))

    def _referred(self, table: type[R], row_id: int) -> R:
        """Return a row that another refers to, and that is there unless the store is damaged."""
        row = self.work.get(table, row_id)
        if row is None:
            raise _gone(str(table.__tablename__))
        return row

    # -- the journal -----------------------------------------------------------------------

    def journal(self, client_code: str | None = None) -> tuple[JournalEntry, ...]:
        """Return what was changed, oldest first; of one client only, if asked."""
        wanted = select(JournalRow, ClientRow.code).join(
            ClientRow, col(ClientRow.id) == col(JournalRow.client_id), isouter=True
        )
        if client_code is not None:
            wanted = wanted.where(JournalRow.client_id == self._client_row(client_code).id)
        found = []
        for row, code in self.work.exec(wanted.order_by(col(JournalRow.id))).all():
            with readable(f"the journal of {row.written_at}"):
                found.append(
                    JournalEntry(
                        when=row.written_at,
                        client=code,
                        what=row.what,
                        subject=row.subject,
                        subject_key=row.subject_key,
                        before=None if row.before is None else json.loads(row.before),
                        after=None if row.after is None else json.loads(row.after),
                    )
                )
        return tuple(found)

    def _write_down(
        self,
        what: str,
        subject: str,
        key: str,
        before: dict[str, Any] | None,
        after: dict[str, Any] | None,
        client_id: int | None = None,
    ) -> None:
        self.work.add(
            JournalRow(
                written_at=self._moment(),
                client_id=client_id,
                subject=subject,
                subject_key=key,
                what=what,
                before=None if before is None else canonical(before),
                after=None if after is None else canonical(after),
            )
        )

    def _moment(self) -> str:
        if self._now is not None:
            return self._now.isoformat(timespec="seconds")
        (moment,) = self.driver.execute("SELECT strftime('%Y-%m-%dT%H:%M:%SZ', 'now')").fetchone()
        return str(moment)


@contextmanager
def readable(what: str) -> Iterator[None]:
    """Turn a record that cannot be read back into a sentence."""
    try:
        yield
    except (ArithmeticError, AttributeError, LookupError, TypeError, ValueError) as fault:
        raise DamagedRecord(
            f"{what} cannot be read as it was written ({fault}); check the whole store, and take "
            "it from a backup"
        ) from fault


def _gone(what: str) -> DamagedRecord:
    return DamagedRecord(
        f"a {what} that something refers to is gone from the store; check the whole store, and "
        "take it from a backup"
    )


def _listed(numbers: list[int]) -> str:
    if len(numbers) > 3 and numbers == list(range(numbers[0], numbers[-1] + 1)):
        return f"{numbers[0]} to {numbers[-1]}"
    return ", ".join(map(str, numbers))
