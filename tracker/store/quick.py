"""The list of clients, read with plain ``sqlite3``: asked for often, so it must not keep waiting.

Nothing here imports SQLModel; the store is checked by the same rules as by ``Store.open``.
"""

from pathlib import Path
from typing import NamedTuple

from tracker.store import opening


class ClientRow(NamedTuple):
    """A line of the list; dates are ISO text."""

    code: str
    name: str
    patterns: int
    measured_on: str | None
    fitted_on: str | None
    waiting: int


_CLIENTS = """
SELECT client.code, client.name,
  (SELECT count(*) FROM pattern WHERE pattern.client_id = client.id),
  (SELECT max(held_on) FROM measuring_session WHERE measuring_session.client_id = client.id),
  max(fitting.held_on),
  count(observation.id) FILTER (WHERE observation.state IN ('open', 'came back'))
FROM client
LEFT JOIN garment ON garment.client_id = client.id
LEFT JOIN fitting ON fitting.garment_id = garment.id
LEFT JOIN observation ON observation.fitting_id = fitting.id
GROUP BY client.id
ORDER BY client.code
"""


def client_rows(path: Path, wait_s: float = opening.WAIT_S) -> list[ClientRow]:
    """Return each client with what there is of hers: patterns, latest dates, notes waiting.

    Raises:
        StoreError: the store is missing, not a store, of another version or locked.
    """
    opening.check_openable(path, wait_s)
    with opening.telling(path):
        connection = opening.connect(path, wait_s)
        try:
            return [ClientRow(*row) for row in connection.execute(_CLIENTS)]
        finally:
            connection.close()


def prefers_inches(path: Path) -> bool:
    """Tell whether the maker's unit is the inch; a store that cannot be read is not asked."""
    import sqlite3

    try:
        connection = opening.connect(path, 0.0)
    except (opening.NotStored, OSError, sqlite3.Error):
        return False
    try:
        rows = connection.execute("SELECT value FROM preference WHERE name = 'unit'").fetchall()
    except sqlite3.Error:
        return False
    finally:
        connection.close()
    return rows == [("inch",)]
