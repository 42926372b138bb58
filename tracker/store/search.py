"""Full-text search over the notes of fittings."""

import sqlite3
from typing import Any

#: What is searched: words, and the sign and place by which she may remember a note.
SEARCHED = ("fitter_words", "client_words", "direction", "sign", "seam", "piece", "edge")

_NAMES = ", ".join(f'"{name}"' for name in SEARCHED)
_NEW = ", ".join(f'new."{name}"' for name in SEARCHED)
_OLD = ", ".join(f'old."{name}"' for name in SEARCHED)
_FORGET = (
    f'INSERT INTO "observation_fts" ("observation_fts", rowid, {_NAMES}) '
    f"VALUES('delete', old.rowid, {_OLD});"
)
_LEARN = f'INSERT INTO "observation_fts" (rowid, {_NAMES}) VALUES (new.rowid, {_NEW});'

#: The index and the triggers that keep it in step. They have the names and the shape that
#: sqlite-utils looks for, and are written out because a migration must say for ever what it did.
#: Accents do not matter: "decollete" finds "décolleté".
SEARCH_DDL = (
    f'CREATE VIRTUAL TABLE "observation_fts" USING FTS5 ({_NAMES}, '
    "tokenize='unicode61 remove_diacritics 2', content=\"observation\")",
    f'CREATE TRIGGER "observation_ai" AFTER INSERT ON "observation" BEGIN {_LEARN} END',
    f'CREATE TRIGGER "observation_ad" AFTER DELETE ON "observation" BEGIN {_FORGET} END',
    f'CREATE TRIGGER "observation_au" AFTER UPDATE ON "observation" BEGIN {_FORGET} {_LEARN} END',
)

#: Writes the index afresh: a deleted word otherwise lingers in it until it is next merged.
REBUILD = "INSERT INTO observation_fts(observation_fts) VALUES('rebuild')"


def matching_rows(connection: sqlite3.Connection, words: str) -> list[int]:
    """Return the row numbers of the notes that have all these words, best match first.

    A star stands for the rest of a word: ``gap*`` finds "gaping". Any other sign is taken as it
    stands.
    """
    import sqlite_utils

    terms = [_term(word) for word in words.replace('"', " ").split()]
    if not any(terms):
        return []
    # recursive_triggers would be a pragma on a connection that is not ours to set up.
    database = sqlite_utils.Database(connection, recursive_triggers=False)
    table: Any = database["observation"]
    return [row["id"] for row in table.search(" ".join(t for t in terms if t), columns=["id"])]


def _term(word: str) -> str:
    stem = word.rstrip("*")
    return f'"{stem}"{"*" if stem != word else ""}' if stem else ""
