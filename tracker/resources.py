"""Where the shipped folders lie: in a wheel beside the package, in a checkout above it."""

from pathlib import Path

from tracker.errors import TrackerError


def shipped(name: str) -> Path:
    """Return the folder ``templates``, ``migrations`` or ``demo_db`` of this installation.

    Raises:
        TrackerError: the folder was not installed with the program.
    """
    package = Path(__file__).resolve().parent
    # A checkout comes first: an editable install leaves a stale copy under _data.
    for folder in (package.parent / name, package / "_data" / name):
        if folder.is_dir() and (folder.parent.name == "_data" or _is_checkout(package.parent)):
            return folder
    raise TrackerError(f"the folder {name!r} is missing from this installation; install it again")


def _is_checkout(folder: Path) -> bool:
    return (folder / "pyproject.toml").is_file() and (folder / "tracker").is_dir()
