"""The root of every error a person may meet.

A child lives beside the code that raises it. Its message is one clear sentence: what is
wrong, where, and what would work.
"""


class TrackerError(Exception):
    """Something a person asked for could not be done; the message is for that person."""

    exit_code = 1

    @property
    def sentence(self) -> str:
        """The one sentence to show."""
        return str(self.args[0]) if self.args else "it could not be done"


def nearest_names(wanted: str, known: list[str], most: int = 3) -> str:
    """Return `` Did you mean …?`` for the known names closest to one that was typed, or ``""``."""
    import difflib

    lowered = {name.lower(): name for name in known}
    close = difflib.get_close_matches(wanted.lower(), list(lowered), n=most, cutoff=0.5)
    if not close:
        close = [name for name in lowered if wanted and wanted.lower() in name][:most]
    names = [lowered[name] for name in close]
    return f" Did you mean {' or '.join(names)}?" if names else ""
