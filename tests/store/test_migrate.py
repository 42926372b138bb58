"""Migrations: one line of them, the same schema as a new store, nothing lost, nothing half done."""

import re
import shutil
import sqlite3
import subprocess
import sys
import textwrap
from contextlib import closing
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from stores.studio import NOW

from tracker.resources import shipped
from tracker.store import migrate, opening
from tracker.store.engine import Store, engine_for
from tracker.store.migrate import NotUpdated, needs_update, update
from tracker.store.opening import StoreBusy, StoreTooNew
from tracker.store.tables import METADATA


def script() -> ScriptDirectory:
    config = Config()
    config.set_main_option("script_location", str(shipped("migrations")))
    config.set_main_option("path_separator", "os")
    return ScriptDirectory.from_config(config)


def dump(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def laid_out(path: Path) -> dict[str, tuple[str, ...]]:
    """Return each table, index and trigger: its columns in order, then its constraints in any."""
    with closing(sqlite3.connect(path)) as connection:
        found = connection.execute("SELECT type, name, sql FROM sqlite_master").fetchall()
    parts: dict[str, tuple[str, ...]] = {}
    for kind, name, sql in found:
        text = re.sub(r"\s+", " ", sql or "")
        if kind == "table" and not text.startswith("CREATE VIRTUAL"):
            lines = re.split(r", (?=CONSTRAINT)", text.rstrip(" )").replace("( ", "("))
            parts[name] = (lines[0], *sorted(line.rstrip(" )") for line in lines[1:]))
        else:
            parts[name] = (text,)
    return parts


@pytest.fixture
def migrated(tmp_path: Path) -> Path:
    """An empty file taken through every migration."""
    path = tmp_path / "migrated.db"
    sqlite3.connect(path).close()
    path.touch()
    engine = engine_for(path, 1.0, begin="BEGIN IMMEDIATE", foreign_keys=False)
    with engine.begin() as connection:
        migrate.migrate(connection, "nothing")
    return path


def test_the_migrations_stand_in_one_line_that_the_program_knows() -> None:
    revisions = [r.revision for r in script().walk_revisions()]
    assert tuple(reversed(revisions)) == opening.REVISIONS
    assert script().get_heads() == [opening.NEWEST]


def test_every_migration_says_why() -> None:
    for revision in script().walk_revisions():
        assert len((revision.module.__doc__ or "").split()) > 40, revision.revision


def test_a_migrated_store_is_laid_out_as_a_new_one(migrated: Path, empty: Store) -> None:
    assert laid_out(migrated) == laid_out(empty.path)
    assert "observation_au" in laid_out(migrated)


def test_the_models_are_the_schema(empty: Store) -> None:
    engine = engine_for(empty.path, 1.0, begin="BEGIN")
    with engine.connect() as connection:
        context = MigrationContext.configure(
            connection,
            opts={
                "compare_type": True,
                "include_object": lambda thing, name, kind, reflected, twin: (
                    not (kind == "table" and name.startswith("observation_fts"))
                ),
            },
        )
        assert compare_metadata(context, METADATA) == []


def test_every_constraint_has_a_name(empty: Store) -> None:
    for table in METADATA.tables.values():
        for constraint in table.constraints:
            assert constraint.name, table.name
    with closing(sqlite3.connect(empty.path)) as connection:
        unnamed = connection.execute(
            "SELECT name, sql FROM sqlite_master WHERE sql LIKE '%PRIMARY KEY%' "
            "AND sql NOT LIKE '%CONSTRAINT%' AND name NOT LIKE 'observation_fts%'"
        ).fetchall()
    assert unnamed == []


def test_a_store_that_is_up_to_date_is_left_alone(path: Path) -> None:
    before = path.read_bytes()
    assert not needs_update(path)
    assert update(path, NOW) is None
    assert path.read_bytes() == before
    assert list(path.parent.iterdir()) == [path]


# -- the way it is done, shown on migrations that are not ours ------------------------------

#: Rebuilds the table that most others refer to, which is where rows are lost when done wrongly.
REBUILD_CLIENTS = """
with op.batch_alter_table("client", recreate="always") as table:
    table.add_column(sa.Column("born", sa.String()))
"""
FAILS_HALF_WAY = f"""
{REBUILD_CLIENTS}
op.execute("UPDATE client SET name = 'gone'")
op.execute("DELETE FROM reading")
op.execute("UPDATE no_such_table SET x = 1")
"""
LEAVES_ORPHANS = f"""
{REBUILD_CLIENTS}
op.execute("DELETE FROM garment")
"""


@pytest.fixture
def next_migration(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Let the program know one migration more, in a folder of its own."""

    def write(body: str) -> None:
        folder = tmp_path / "next" / "migrations"
        shutil.copytree(shipped("migrations"), folder)
        (folder / "versions" / "0002_next.py").write_text(
            "import sqlalchemy as sa\nfrom alembic import op\n"
            "revision = '0002'\ndown_revision = '0001'\n\n\n"
            "def upgrade():\n" + textwrap.indent(body.strip(), "    ") + "\n"
        )
        monkeypatch.setattr(migrate, "shipped", lambda name: folder)
        monkeypatch.setattr(opening, "REVISIONS", ("0001", "0002"))
        monkeypatch.setattr(opening, "NEWEST", "0002")

    return write


def test_rebuilding_a_table_keeps_every_row_that_refers_to_it(path: Path, next_migration) -> None:
    def counted() -> dict[str, int]:
        with closing(sqlite3.connect(path)) as other:
            return {
                name: other.execute(f"SELECT count(*) FROM {name}").fetchone()[0]
                for name in METADATA.tables
            }

    next_migration(REBUILD_CLIENTS)
    before, rows = dump(path), counted()
    assert needs_update(path)
    copy = update(path, NOW)
    assert copy == path.with_name("studio.before-0002.db")
    assert opening.backups_beside(path) == (copy,)
    assert dump(copy) == before
    assert counted() == rows | {"journal": rows["journal"] + 1}
    assert not needs_update(path)
    with Store.open(path).reading() as books:
        assert books.raw_check().sound
        assert books.driver.execute("PRAGMA foreign_keys").fetchone() == (1,)
        assert "born" in books.driver.execute(
            "SELECT sql FROM sqlite_master WHERE name = 'client'"
        ).fetchone()[0]  # fmt: skip
        entry = books.journal()[-1]
    assert entry.when == NOW.isoformat()
    assert entry.what == (
        "the store was updated from 0001 to 0002; the copy made first is studio.before-0002.db"
    )


@pytest.mark.parametrize(
    ("body", "sentence"),
    [
        (
            FAILS_HALF_WAY,
            r"from 0001 to 0002 failed and the store was left as it was.*no_such_table",
        ),
        (
            LEAVES_ORPHANS,
            r"would have left \d+ rows that refer to nothing \(of fitting, to garment",
        ),
        ("raise RuntimeError('power')", r"failed and the store was left as it was \(power\)"),
    ],
)
def test_an_update_that_fails_leaves_the_store_to_the_last_row_as_it_was(
    path: Path, next_migration, body: str, sentence: str
) -> None:  # fmt: skip
    next_migration(body)
    before = dump(path)
    with pytest.raises(NotUpdated, match=sentence) as told:
        update(path, NOW)
    assert dump(path) == before
    assert "studio.before-0002.db" in told.value.sentence
    assert "\n" not in told.value.sentence
    assert needs_update(path)


def test_an_earlier_copy_is_never_written_over(path: Path, next_migration) -> None:
    next_migration(REBUILD_CLIENTS)
    path.with_name("studio.before-0002.db").write_text("mine")
    assert update(path, NOW) == path.with_name("studio.before-0002-2.db")
    assert path.with_name("studio.before-0002.db").read_text() == "mine"


def test_a_store_in_use_is_not_updated(
    path: Path, next_migration, monkeypatch: pytest.MonkeyPatch
) -> None:  # fmt: skip
    next_migration(REBUILD_CLIENTS)
    monkeypatch.setattr(opening, "WAIT_S", 0.05)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreBusy):
            update(path, NOW)
        other.execute("ROLLBACK")
    assert opening.backups_beside(path) == ()


def test_a_newer_store_is_not_taken_back(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("UPDATE alembic_version SET version_num = '9999'")
        other.commit()
    with pytest.raises(StoreTooNew):
        update(path, NOW)


def test_the_next_migration_is_drafted_from_the_models(tmp_path: Path) -> None:
    import importlib.util

    folder = tmp_path / "migrations"
    shutil.copytree(shipped("migrations"), folder)
    spec = importlib.util.spec_from_file_location("draft", folder / "draft.py")
    assert spec is not None
    assert spec.loader is not None
    draft = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(draft)
    made = draft.draft("keep more photographs", folder)
    text = made.read_text()
    assert made.name == f"{len(opening.REVISIONS) + 1:04}_keep_more_photographs.py"
    assert f'down_revision = "{opening.NEWEST}"' in text.replace("'", '"')
    assert "op." not in text  # the models are the schema: nothing to change


# -- what is imported ----------------------------------------------------------------------

HEAVY = ("sqlmodel", "sqlalchemy", "alembic", "pydantic", "numpy", "sqlite_utils")


@pytest.mark.parametrize(
    ("work", "absent"),
    [
        ("from tracker.store.quick import client_rows; assert len(client_rows(path)) == 2", HEAVY),
        (
            "from tracker.store.engine import Store\n"
            "with Store.open(path).reading() as books: assert len(books.clients()) == 2",
            ("alembic", "sqlite_utils", "numpy"),
        ),
    ],
)
def test_an_ordinary_command_does_without_the_heavy_libraries(
    path: Path, work: str, absent: tuple[str, ...]
) -> None:
    code = (
        f"import sys; from pathlib import Path; path = Path(sys.argv[1])\n{work}\n"
        f"print([m for m in {absent!r} if m in sys.modules])"
    )
    told = subprocess.run(
        [sys.executable, "-c", code, path], capture_output=True, text=True, check=True
    )
    assert told.stdout == "[]\n"
