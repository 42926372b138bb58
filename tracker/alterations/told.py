"""What an alteration of edges made, told: the effect, and what it leaves to be done elsewhere."""

from collections.abc import Iterable
from dataclasses import replace

from tracker.alterations.along_seams import left_to_do
from tracker.alterations.bodyside import Split, split_sides
from tracker.alterations.effect import Effect, effect_between
from tracker.alterations.kind import Applied
from tracker.alterations.lines_cut import lines_cut
from tracker.alterations.seams_apart import seams_apart
from tracker.geometry.profile import Profile
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import closes
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Trace
from tracker.units import write_tenths

ONE_SIDE = (BodySide.RIGHT, BodySide.LEFT)
#: A seam's sides, or a corner, changed by less is not worth a word.
_WORTH_DEG = 1.0
#: Places nearer each other than this are one, millimetres.
_AT_MM = 0.01


def mm(value: float) -> str:
    """Write millimetres as a sentence has them: "5 mm", "2.5 mm"."""
    return write_tenths(value)


def whose(side: BodySide) -> str:
    """Begin a sentence: "", or "Right side only: "."""
    return f"{side.capitalize()} side only: " if side in ONE_SIDE else ""


def parted(pattern: Pattern, names: Iterable[str], side: BodySide) -> Split:
    """Split the named pieces where only the wearer's right or left is meant."""
    return split_sides(pattern, names if side in ONE_SIDE else ())


def on_paper(pattern: Pattern, sentence: str) -> Applied:
    """Leave a pattern without outlines as it is, and say what to mark on the paper."""
    effect = effect_between(pattern, pattern, leaves=(f"mark it on the paper: {sentence}",))
    return Applied(pattern, effect, Trace())


def only_on_paper(piece: Piece, notch: str) -> bool:
    """Whether a notch can only be one on the paper: the piece is not drawn and records none."""
    return not piece.has_outline and all(n.name != notch for n in piece.notches)


def edges_meant(
    pattern: Pattern, piece: str, edge: str, side: BodySide
) -> tuple[tuple[Piece, Edge], ...]:
    """Return the edges of a name on the pieces of a name that a body side means.

    Raises:
        UnknownName: there is no such piece or edge.
        PatternError: the edge lies across the centre and one side of it was asked for.
    """
    found = tuple(
        (p, e)
        for p in pattern.pieces
        if p.name == piece
        for e in p.edges
        if e.name == edge and (side not in ONE_SIDE or e.side in (side, BodySide.BOTH))
    )
    if not found:
        known = pattern.piece(piece, side).edge(edge, side)
        raise PatternError(
            f"the {known.name} of the {piece} lies across the centre and has no {side} half"
        )
    return found


def centre_ends(pattern: Pattern, piece: Piece, edge: Edge) -> tuple[bool, bool]:
    """Tell whether an edge starts, and whether it ends, at the centre of the garment.

    At a fold, a seam that exists once, or where the other half of the same edge begins.
    """

    def central(other: Edge) -> bool:
        if other.name in (edge.name, piece.fold):
            return True
        return any(s.side is BodySide.CENTRE for s in pattern.seams_on(piece, other))

    return central(piece.before(edge)), central(piece.after(edge))


def centre_corners(piece: Piece, edge: Edge) -> tuple[str, ...]:
    """The corners of an edge beyond which its other half goes on, over a fold or opened out."""
    over = (edge.name, piece.fold)
    ends = ((piece.before(edge), edge.start), (piece.after(edge), edge.end))
    return tuple(corner for other, corner in ends if other.name in over)


def kept_at_the_centre(piece: Piece, edge: Edge, moved: Profile, side: BodySide) -> Profile:
    """Return a profile that is nothing where the half that stays goes on, for one body side.

    Raises:
        PatternError: an amount is stated right there, where the halves would no longer meet.
    """
    if side not in ONE_SIDE:
        return moved
    ends = (
        (piece.before(edge), 0.0, edge.start),
        (piece.after(edge), edge.base_length, edge.end),
    )
    for other, centre, corner in ends:
        if other.name != edge.name:
            continue
        there = [by for at_mm, by in moved.knots if abs(at_mm - centre) < _AT_MM]
        if any(there):
            raise PatternError(
                f"the {edge.name} of the {piece.name} goes on over the {corner} to the half that "
                f"stays, so nothing can be changed right there on the {side} side only; say how "
                "much a way off it, or alter both sides"
            )
        if not there:
            moved = Profile(tuple(sorted((*moved.knots, (centre, 0.0)))))
    return moved


def one_sided(pattern: Pattern, piece: Piece, edge: Edge, side: BodySide) -> Profile:
    """Return the profile of 1 all along; on one body side only, to nothing at the centre."""
    if side not in ONE_SIDE:
        return Profile(((0.0, 1.0),))
    start, end = centre_ends(pattern, piece, edge)
    whole = edge.base_length
    if start == end:
        return Profile(((0.0, 1.0),))
    return Profile(((0.0, 0.0), (whole, 1.0)) if start else ((0.0, 1.0), (whole, 0.0)))


def applied(
    before: Pattern,
    after: Pattern,
    trace: Trace,
    *,
    notches: Iterable[str] = (),
    leaves: Iterable[str] = (),
    notes: Iterable[str] = (),
) -> Applied:
    """Measure what was done, and offer what it leaves to be done."""
    notes = (*notes, *dict.fromkeys(lines_cut(before, after)))
    effect = effect_between(before, after, notches=notches, notes=notes)
    apart, bent = seams_apart(after, effect), _bent(after, effect)
    told = (*left_to_do(before, after), *apart, *bent, *leaves)
    return Applied(after, replace(effect, leaves=told), trace)


def _bent(after: Pattern, effect: Effect) -> Iterable[str]:
    for join in effect.joins:
        if abs(join.by) >= _WORTH_DEG and join.after is not None and join.before is not None:
            if abs(join.after - 180) <= abs(join.before - 180):
                continue
            seam = join.what.removeprefix("right ").removeprefix("left ")
            if any(closes(after, s) for s in after.seams if seam.startswith(f"{s.name} seam")):
                continue  # two other seams meet there, and how they run on is the style's
            yield (
                f"{join.what}: the corners add up to {join.after:.1f} degrees, {abs(join.by):.1f} "
                f"{'more' if join.by > 0 else 'less'} than before; true the join, by "
                f"{abs(join.after - join.before) / 2:.1f} degrees on each piece"
            )
