"""What an alteration goes against: the garment's allowance, or what was seen."""

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.level_an_edge import LevelEdge
from tracker.alterations.kinds.raise_an_edge import Height, RaiseEdge
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.fitting.garment import FittingError, Garment, GarmentKind
from tracker.fitting.grown import let_out
from tracker.fitting.observation import Observation, Sign
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern

#: What of an outlet must stay as a seam when the rest is let out.
LEAST_SEAM_MM = 6.0


class NoOutletLeft(FittingError):
    """Letting out more than the garment has allowance for."""


def check_outlet(
    kind: Kind, garment: Garment, before: Pattern | None = None, after: Pattern | None = None
) -> None:
    """Refuse to let out a garment cut in its cloth by more than its allowance holds.

    A test garment is cut anew, so nothing limits it.

    Args:
        kind: the alteration.
        garment: the garment.
        before: the pattern; with the next, what an alteration whose amount does not say how far
            an edge goes out is measured by.
        after: the pattern altered.

    Raises:
        NoOutletLeft: with the most that can be let out on each piece.
    """
    if garment.kind is GarmentKind.TEST_GARMENT:
        return
    found = _let_out(kind)
    if found is None and kind.word in _MEASURED and before is not None and after is not None:
        found = let_out(before, after)
    if found is None:
        return
    line, on_a_piece = found
    most = max(garment.outlet_mm - LEAST_SEAM_MM, 0.0)
    if on_a_piece > most + 0.05:
        raise NoOutletLeft(
            f"the {line} would be let out {on_a_piece:.1f} mm on a piece, and "
            f"{most:.0f} mm is the most: the garment has {garment.outlet_mm:.0f} mm of allowance, "
            f"of which {LEAST_SEAM_MM:.0f} mm stays as the seam"
        )


def _let_out(kind: Kind) -> tuple[str, float] | None:
    """The line that is let out, and by how much on the piece that has most of it."""
    match kind:
        case TakeIn():
            out = max((-a.amount_mm for a in kind.amounts), default=0.0)
            return f"{kind.seam} seam", out * max(kind.share, 1 - kind.share)
        case ReshapeEdge():
            out = max((-a.amount_mm for a in kind.amounts), default=0.0)
            return f"{kind.edge} of the {kind.piece}", out
        case ShiftSeam():  # what one piece loses the other has to find in its allowance
            return f"{kind.seam} seam", max(abs(a.amount_mm) for a in kind.amounts)
        case RaiseEdge() if kind.edge in _LOWER:
            lowers = kind.by_mm if kind.to == Height.LOWER else -kind.by_mm
            return kind.edge, lowers
        case LevelEdge() if kind.edge in _LOWER:
            return kind.edge, max(r.height_mm for r in kind.readings) - kind.wanted_mm
    return None


#: Kinds that draw edges out by less, or more, than their amount.
_MEASURED = ("change the shoulder slope", "change the shoulder length", "change the neckline",
             "raise or lower the armhole", "move a corner", "taper or widen")  # fmt: skip

#: Two amounts nearer to each other than this are at the same place, mm.
_SAME_PLACE_MM = 40.0


def against_each_other(one: Kind, other: Kind) -> str | None:
    """Say where two alterations, of different notes, undo one another.

    Both are made as they stand, one after the other; a fitter would look again which is so.
    """
    if isinstance(one, TakeIn) and isinstance(other, TakeIn):
        sides = {one.side, other.side}
        if one.seam != other.seam or sides == {BodySide.RIGHT, BodySide.LEFT}:
            return None
        for a in one.amounts:
            for b in other.amounts:
                near = abs(a.distance_mm - b.distance_mm) < _SAME_PLACE_MM
                if a.corner == b.corner and near and a.amount_mm * b.amount_mm < 0:
                    return f"take the {one.seam} seam in and let it out {a.words}"
        return None
    mine, theirs = one.parameters(), other.parameters()
    where = [name for name in mine if name not in ("to", "by_mm")]
    if one.word != other.word or any(mine[name] != theirs.get(name) for name in where):
        return None
    to, back = mine.get("to"), theirs.get("to")
    if to != back and to is not None:
        return f"go {to} and {back} in “{one.word}”"
    return None


#: Edges at the foot of a piece; they are let down out of their turning.
_LOWER = ("hem", "wrist", "hip")
_TIGHT = (Sign.TOO_TIGHT, Sign.STRAIN)
_LOOSE = (Sign.TOO_LOOSE, Sign.FOLDS_ALONG, Sign.GAPING)


def against_the_sign(note: Observation, kind: Kind) -> str | None:
    """Say where an alteration goes the other way than what was seen asks for."""
    if not isinstance(kind, TakeIn):
        return None
    amount = kind.amount_mm
    if note.sign in _TIGHT and amount > 0:
        return (
            f"note {note.number} says {note.sign}, and this takes the {kind.seam} seam in; a gap, "
            "or a minus before the amount, lets it out"
        )
    if note.sign in _LOOSE and amount < 0:
        return (
            f"note {note.number} says {note.sign}, and this lets the {kind.seam} seam out; a "
            "pinned fold takes it in"
        )
    return None


#: Kinds that open or lengthen the cloth inside a piece: paper can, cut cloth cannot.
_OPENING = ("slash and spread", "slash across the pieces", "lengthen or shorten",
            "more or less bust volume", "change the width across", "change the upper arm",
            "change the crotch depth", "change the crotch length")  # fmt: skip


def only_for_the_next(kind: Kind, garment: Garment) -> str | None:
    """Say where an alteration adds cloth inside a piece that is cut already."""
    if garment.kind is GarmentKind.TEST_GARMENT or kind.word not in _OPENING:
        return None
    given = kind.parameters()
    to = str(given.get("to", ""))
    amounts = [v for name, v in given.items() if name in ("by_mm", "first_mm", "last_mm",
               "front_mm", "back_mm") and isinstance(v, int | float)]  # fmt: skip
    adds = to in ("wider", "fuller") or (not to and any(a > 0 for a in amounts))
    if not adds:
        return None
    most = max(garment.outlet_mm - LEAST_SEAM_MM, 0.0)
    return (
        f"the garment is cut in its cloth already: “{kind.word}” alters the pattern for the next "
        f"one; on this one only seams are let out, by {most:.0f} mm on a piece at most"
    )
