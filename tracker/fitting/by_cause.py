"""Amounts whose place alone does not say what is altered: the likeliest cause that fits them."""

from tracker.alterations.kind import Kind
from tracker.errors import TrackerError
from tracker.fitting.garment import FittingError
from tracker.fitting.observation import Observation
from tracker.fitting.suggest import chosen, likely
from tracker.pattern.pattern import Pattern


def by_its_cause(pattern: Pattern, note: Observation, where: str) -> tuple[tuple[Kind, ...], str]:
    """Return the first likely cause whose remedy goes the way that was read.

    Args:
        pattern: the pattern.
        note: the note, with a reading at least.
        where: the place in words, for what is said when no cause fits: "at the waist of the back".

    Raises:
        TrackerError: no likely cause fits the reading.
    """
    refused: TrackerError | None = None
    for suggestion in likely(pattern, note):
        if suggestion.remedy is None:
            continue
        try:
            made = chosen(pattern, note, suggestion.cause)
            made.kinds[0].sentence(pattern)
        except TrackerError as fault:
            refused = refused or fault
            continue
        return made.kinds, f"{suggestion.cause.name}; {made.echo}"
    if refused is not None and len(note.readings) == 1:
        raise refused
    raise FittingError(
        f"an amount {where} alone does not say what is to be altered, seen as “{note.sign}”; say "
        "what is seen there (tracker note change NOTE --sign gaping), where it runs out to, or the "
        "cause with --as"
    )
