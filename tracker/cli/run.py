"""Run one command; the only place where what went wrong becomes a sentence and an exit status.

0: done. 1: it could not be done. 2: it was typed wrong.
"""

import os
import sys
from collections.abc import Sequence
from typing import Any

from typer.main import get_command

from tracker.cli.show import begun
from tracker.errors import TrackerError

INTERRUPTED = 130


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command that was typed and return its exit status."""
    from tracker.cli.app import app

    try:
        outcome = get_command(app).main(arguments, prog_name="tracker", standalone_mode=False)
        sys.stdout.flush()
    except Exception as fault:
        return _told(fault)
    except KeyboardInterrupt:
        return INTERRUPTED
    return outcome if isinstance(outcome, int) else 0


def _told(fault: Exception) -> int:
    """Say what went wrong and return the exit status for it."""
    from typer.exceptions import Abort

    if isinstance(fault, TrackerError):
        return _say(fault.sentence, fault.exit_code)
    if hasattr(fault, "format_message"):
        return _typed_wrong(fault)
    if isinstance(fault, Abort):
        return _say("stopped; nothing was changed", 1)
    if isinstance(fault, BrokenPipeError):
        _hush()
        return 1
    if isinstance(fault, OSError) and fault.filename:
        return _say(f"{fault.filename}: {(fault.strerror or 'cannot be used').lower()}", 1)
    return _unforeseen(fault)


def _typed_wrong(fault: Any) -> int:
    """Say in a line or two what was typed wrong; a command without anything shows its help."""
    context = getattr(fault, "ctx", None)
    if type(fault).__name__ == "NoArgsIsHelpError":
        print(fault.format_message())
        return 0
    hint = f"\nTry: {context.command_path} --help" if context is not None else ""
    return _say(f"{_one_line(fault.format_message())}{hint}", 2)


def _one_line(text: str) -> str:
    return " ".join(text.split())


def _unforeseen(fault: Exception) -> int:
    """Own up to a fault of the program; the details are for those who ask."""
    if os.environ.get("TRACKER_DEBUG"):
        import traceback

        traceback.print_exception(fault)
    return _say(
        f"this is a fault of the program, not yours: {type(fault).__name__}: "
        f"{_one_line(str(fault))[:200]}\nNothing is half stored; see what is there before you "
        "type it again. TRACKER_DEBUG=1 shows the details to report.",
        1,
    )


def _say(sentence: str, status: int) -> int:
    text = begun(sentence)
    if text[-1:] not in ".?!" and "\n" not in text:
        text += "."
    print(text, file=sys.stderr)
    return status


def _hush() -> None:
    """Keep Python from complaining about the closed pipe while it ends."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        return
