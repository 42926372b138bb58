"""Build the demo store: the scenario is a script among the shipped folders."""

import importlib.util
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

from tracker.errors import TrackerError
from tracker.resources import shipped


def run(folder: Path, again: bool, say: Callable[[str], None]) -> None:
    """Build the demo in a folder, through the same tasks a person uses.

    Args:
        folder: where the store, reports and print go; made if it is not there.
        again: replace what an earlier run left there.
        say: is told what happens, line by line.

    Raises:
        TrackerError: there is something in the folder that was not to be replaced.
    """
    _scenario().build(folder, again=again, say=say)


def _scenario() -> ModuleType:
    path = shipped("demo_db") / "scenario.py"
    found = importlib.util.spec_from_file_location("tracker_demo_scenario", path)
    if found is None or found.loader is None or not path.is_file():
        raise TrackerError(f"the demo's scenario is missing: {path}; install the program again")
    module = importlib.util.module_from_spec(found)
    found.loader.exec_module(module)
    return module
