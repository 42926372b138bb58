"""Amounts read at a line of the body: a length there, or the width round it."""

from tracker.alterations.kind import Kind, kind_named
from tracker.alterations.kinds.lengthen_or_shorten import FROM_LINE_MM
from tracker.errors import TrackerError
from tracker.fitting.by_cause import by_its_cause
from tracker.fitting.causes import CAUSES
from tracker.fitting.counting import Spot, read_for
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.reading import Reading, ReadingKind
from tracker.fitting.scene import Scene, part_of
from tracker.fitting.suggest import chosen
from tracker.pattern.pattern import Pattern

#: Whose line is too tight or too loose has that cause; common practice, no source.
_AT = {
    "bust line": ("full bust", "small bust"),
    "waist line": ("waist too tight", "waist too loose"),
    "hip line": ("hips too tight", "hips too loose"),
    "across back": ("broad back", "narrow back"),
    "across front": ("broad chest", "narrow chest"),
    "upper arm line": ("full upper arm", "thin upper arm"),
    "elbow line": ("sleeve tight below the elbow", "sleeve loose below the elbow"),
    "wrist line": ("sleeve tight below the elbow", "sleeve loose below the elbow"),
    "crotch line": ("thigh too tight", "thigh too loose"),
    "knee line": ("leg too narrow", "leg too wide"),
}
_TIGHT = (Sign.TOO_TIGHT, Sign.STRAIN, Sign.RIDING_UP)
_LOOSE = (Sign.TOO_LOOSE, Sign.FOLDS_ALONG, Sign.GAPING, Sign.STANDING_AWAY)
_LENGTH = (Sign.TOO_LONG, Sign.TOO_SHORT, Sign.FOLDS_ACROSS)


def at_the_line(
    pattern: Pattern, note: Observation, line: str, reading: Reading
) -> tuple[tuple[Kind, ...], str]:
    """Return a length folded out, or let in, right across; or the line's own cause for a width.

    Raises:
        TrackerError: it cannot be taken so.
    """
    if note.sign in _LENGTH:
        counted = read_for("lengthen or shorten", reading.kind, reading.value_mm, Spot.ACROSS)
        above = reading.distance_mm or FROM_LINE_MM
        kind = kind_named("lengthen or shorten").from_parameters(
            {"line": line, "above_mm": above, "by_mm": -counted.amount_mm,
             "side": Scene(pattern, note).side}
        )  # fmt: skip
        return (kind,), counted.echo
    name = _cause(pattern, note, line, reading)
    if name is not None:
        made = chosen(pattern, note, CAUSES[name])
        return made.kinds, f"{name}; {made.echo}"
    return by_its_cause(pattern, note, f"at the {line}")


def _cause(pattern: Pattern, note: Observation, line: str, reading: Reading) -> str | None:
    """The cause of a line that is too tight or too loose, where it is one of the body's."""
    behind = any(part_of(p) == "back" for p in pattern.pieces if p.name == note.piece)
    if behind and line == "bust line":
        line = "across back"
    if line not in _AT:
        return None
    lets_in = reading.kind is ReadingKind.GAP or reading.value_mm < 0
    tight = note.sign in _TIGHT or (note.sign not in _LOOSE and lets_in)
    name = _AT[line][0 if tight else 1]
    try:
        chosen(pattern, note, CAUSES[name], 1.0)
    except TrackerError:
        return None  # no place for it here: what else is likely is looked at
    return name


__all__ = ["at_the_line"]
