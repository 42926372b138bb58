"""Clients and their measuring sessions."""

from sqlmodel import col, delete, select

from tracker.body.client import Client
from tracker.body.session import MeasuringSession
from tracker.errors import TrackerError
from tracker.store import codec
from tracker.store.opening import NotStored
from tracker.store.records import client_record
from tracker.store.shelf import Shelf, readable
from tracker.store.tables import ClientRow, ReadingRow, SessionRow


class CodeTaken(TrackerError):
    """Another client has this code."""


class UnknownSession(TrackerError):
    """No measuring session has this id."""


class ClientShelf(Shelf):
    """What the studio knows of its clients."""

    def add_client(self, client: Client) -> None:
        """Put a client into the books.

        Raises:
            CodeTaken: another client has this code.
        """
        taken = self.work.exec(select(ClientRow).where(ClientRow.code == client.code)).first()
        if taken is not None:
            raise CodeTaken(
                f"the code {client.code!r} belongs to {taken.name} already; give another, such as "
                f"{self._free_code(client.code)}"
            )
        self.work.add(ClientRow(**codec.client_fields(client)))
        self.work.flush()

    def _free_code(self, code: str) -> str:
        known = set(self.work.exec(select(ClientRow.code)))
        number = 2
        while f"{code[:20]}-{number}" in known:
            number += 1
        return f"{code[:20]}-{number}"

    def client(self, code: str) -> Client:
        """Return a client.

        Raises:
            UnknownClient: no client has this code; the nearest are named.
        """
        row = self._client_row(code)
        with readable(f"the card of {code}"):
            return codec.client_of(row)

    def clients(self) -> tuple[Client, ...]:
        """Return all clients by code."""
        found = []
        for row in self.work.exec(select(ClientRow).order_by(col(ClientRow.code))):
            with readable(f"the card of {row.code}"):
                found.append(codec.client_of(row))
        return tuple(found)

    def change_client(self, client: Client) -> None:
        """Replace what is known of a client; the old card is kept in the journal.

        Raises:
            UnknownClient: no client has this code.
        """
        row = self._client_row(client.code)
        before, after = client_record(self.client(client.code)), client_record(client)
        if before == after:
            return
        for name, value in codec.client_fields(client).items():
            setattr(row, name, value)
        self.work.add(row)
        self._write_down("her card was changed", "client", client.code, before, after, row.id)
        self.work.flush()

    # -- measuring sessions ----------------------------------------------------------------

    def add_session(self, client_code: str, session_id: str, session: MeasuringSession) -> None:
        """Put a measuring session into the books under an opaque id.

        Raises:
            UnknownClient: no client has this code.
            NotStored: the id is in use.
        """
        owner = self._client_row(client_code)
        taken = self.work.exec(
            select(SessionRow.id).where(SessionRow.session_id == session_id)
        ).first()
        if taken is not None:
            raise NotStored(f"a measuring session {session_id} is in the store already")
        row = SessionRow(session_id=session_id, client_id=owner.id, **codec.session_fields(session))
        self.work.add(row)
        self.work.flush()
        assert row.id is not None
        self.work.add_all(codec.reading_rows(session, row.id))
        self.work.flush()

    def sessions(self, client_code: str) -> tuple[MeasuringSession, ...]:
        """Return a client's measuring sessions, oldest first."""
        return tuple(self._session_from(row) for row in self._session_rows(client_code))

    def session_ids(self, client_code: str) -> tuple[str, ...]:
        """Return the ids of a client's measuring sessions, in the order of ``sessions``."""
        return tuple(row.session_id for row in self._session_rows(client_code))

    def session(self, session_id: str) -> MeasuringSession:
        """Return one measuring session.

        Raises:
            UnknownSession: no session has this id.
        """
        return self._session_from(self._session_row(session_id))

    def correct_session(self, session_id: str, session: MeasuringSession) -> None:
        """Replace what was entered for a session; the earlier values stay in the journal.

        Raises:
            UnknownSession: no session has this id.
        """
        row = self._session_row(session_id)
        assert row.id is not None
        before, after = self._session_from(row).to_record(), session.to_record()
        if before == after:
            return
        for name, value in codec.session_fields(session).items():
            setattr(row, name, value)
        self.work.add(row)
        self.work.exec(delete(ReadingRow).where(col(ReadingRow.session_id) == row.id))
        self.work.add_all(codec.reading_rows(session, row.id))
        self._write_down(
            f"the measurements of {before['on']} were corrected",
            "measuring session", session_id, before, after, row.client_id,
        )  # fmt: skip
        self.work.flush()

    def _session_rows(self, client_code: str) -> list[SessionRow]:
        owner = self._client_row(client_code)
        return list(
            self.work.exec(
                select(SessionRow)
                .where(SessionRow.client_id == owner.id)
                .order_by(col(SessionRow.held_on), col(SessionRow.id))
            )
        )

    def _session_row(self, session_id: str) -> SessionRow:
        row = self.work.exec(select(SessionRow).where(SessionRow.session_id == session_id)).first()
        if row is None:
            raise UnknownSession(f"no measuring session has the id {session_id!r}")
        return row

    def _session_from(self, row: SessionRow) -> MeasuringSession:
        readings = self.work.exec(
            select(ReadingRow)
            .where(ReadingRow.session_id == row.id)
            .order_by(col(ReadingRow.position))
        )
        with readable(f"the measuring session of {row.held_on}"):
            return codec.session_of(row, list(readings))
