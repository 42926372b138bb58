"""Draft the next migration from what has changed in ``tracker/store/tables.py``.

For developers: ``python migrations/draft.py "keep more than one photograph of a note"``. An empty
store is taken through every migration there is, compared with the models, and the difference is
written as a new file in ``versions``. Read it, write the paragraph of why, make dropped triggers
again, add the number to ``REVISIONS`` in ``tracker/store/opening.py``, and put a store made by
the release before into ``tests/stores``.
"""

import sys
from pathlib import Path

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine
from sqlalchemy.pool import StaticPool


def draft(what: str, folder: Path) -> Path:
    """Write a draft into the folder's ``versions`` and return it."""
    config = Config()
    config.set_main_option("script_location", str(folder))
    config.set_main_option("path_separator", "os")
    head = ScriptDirectory.from_config(config).get_current_head()
    number = f"{int(head or 0) + 1:04}"
    engine = create_engine("sqlite://", poolclass=StaticPool)
    with engine.connect() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")
        made = command.revision(config, what, autogenerate=True, rev_id=number)
    engine.dispose()
    assert made is not None
    assert not isinstance(made, list)
    return Path(made.path)


if __name__ == "__main__":
    if len(sys.argv) != 2:
        raise SystemExit('say what it does: python migrations/draft.py "keep more photographs"')
    print(draft(sys.argv[1], Path(__file__).parent))
