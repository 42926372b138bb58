"""How Alembic runs the migrations of a store.

Not to be run as it stands on somebody's store: ``tracker store update`` first makes a copy, opens
one transaction with foreign keys off, hands its connection over in ``config.attributes`` and looks
for orphans before it commits (``tracker/store/migrate.py``). A migration here only says what is to
change.
"""

from alembic import context

from tracker.store.tables import METADATA


def ours(thing: object, name: str | None, kind: str, reflected: bool, twin: object) -> bool:
    """Leave the full-text index out of comparisons: the models do not know it."""
    return not (kind == "table" and (name or "").startswith("observation_fts"))


connection = context.config.attributes.get("connection")
if connection is None:
    raise SystemExit("a store is updated with `tracker store update`, which makes a copy first")

context.configure(
    connection=connection,
    target_metadata=METADATA,
    transactional_ddl=True,
    render_as_batch=True,
    compare_type=True,
    include_object=ours,
)
with context.begin_transaction():
    context.run_migrations()
