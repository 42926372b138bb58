"""The books: everything that can be looked up or put down inside one transaction."""

from pathlib import Path

from sqlmodel import col, select

from tracker.store.check import CheckShelf
from tracker.store.tables import JournalRow, PreferenceRow

#: What the journal calls a copy of the whole store.
_COPY = "copy of the store"


class Books(CheckShelf):
    """What ``Store.reading`` and ``Store.writing`` hand over; see the parts for the rest."""

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

    def copy_made(self, path: Path) -> None:
        """Write down where a copy of the store was put: whoever is erased here is still in it."""
        where = str(path.absolute())
        self._write_down("the store was copied", _COPY, where, None, {"path": where})
        self.work.flush()

    def copies_made(self) -> tuple[Path, ...]:
        """Return where copies of the store were put, oldest first, whether still there or not."""
        rows = self.work.exec(
            select(JournalRow.subject_key)
            .where(JournalRow.subject == _COPY)
            .order_by(col(JournalRow.id))
        )
        return tuple(dict.fromkeys(Path(where) for where in rows))
