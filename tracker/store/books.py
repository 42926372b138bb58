"""The books: everything that can be looked up or put down inside one transaction."""

import json

from sqlmodel import col, select

from tracker.store.check import CheckShelf
from tracker.store.shelf import JournalEntry, readable
from tracker.store.tables import ClientRow, JournalRow, PreferenceRow


class Books(CheckShelf):
    """What ``Store.reading`` and ``Store.writing`` hand over; see the parts for the rest."""

    # -- preferences -----------------------------------------------------------------------

    def preference(self, name: str) -> str | None:
        """Return a choice of the maker's, if she has made it."""
        row = self.work.get(PreferenceRow, name)
        return None if row is None else row.value

    def preferences(self) -> dict[str, str]:
        """Return every choice the maker has made."""
        rows = self.work.exec(select(PreferenceRow).order_by(col(PreferenceRow.name)))
        return {row.name: row.value for row in rows}

    def set_preference(self, name: str, value: str) -> None:
        """Keep a choice of the maker's; the journal keeps the one before."""
        row = self.work.get(PreferenceRow, name)
        if row is not None and row.value == value:
            return
        before = None if row is None else {"value": row.value}
        if row is None:
            row = PreferenceRow(name=name, value=value)
        row.value = value
        self.work.add(row)
        self._write_down(
            f"{name} was chosen: {value}", "preference", name, before, {"value": value}
        )
        self.work.flush()

    # -- journal ---------------------------------------------------------------------------

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
