"""A collar or band made to match its neckline again, at its centre back."""

from collections.abc import Sequence

from tracker.alterations.adjusted import adjusted
from tracker.alterations.out_of_date import out_of_date
from tracker.alterations.shaping import EdgeAt, at, shaped
from tracker.geometry.profile import Profile
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.trace import Trace
from tracker.pattern.walk import side_lengths

NECKLINE = "neckline"
CENTRE_BACK = "centre back"


def collars(pattern: Pattern) -> tuple[Seam, ...]:
    """Return the seams in which a neckline is sewn to something else."""
    return tuple(s for s in pattern.seams if _far_side(s) is not None)


def cut_by_a_step(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether a seam's collar was cut by a step, which draws it again when it is asked to."""
    return any(pattern.piece(r.piece, r.side).traced for r in _far_side(seam) or ())


def drawn_to_shape(pattern: Pattern, seam: Seam) -> str:
    """Return the collar of a neck seam that is drawn again when the neckline changes.

    A flat collar's and a shaped stand's whole line is their neckline's: let out behind only, they
    would not lie on it. One that she has made her own since, and a straight one, is not.
    """
    for run in _far_side(seam) or ():
        traced = pattern.piece(run.piece, run.side).traced
        shaped_to = traced is not None and (
            traced.word == "cut a flat collar" or traced.parameters.get("shorter_mm")
        )
        if shaped_to and run.piece not in {o.piece for o in out_of_date(pattern)}:
            return run.piece
    return ""


def _far_side(seam: Seam) -> tuple[Run, ...] | None:
    """The collar's side of a neck seam."""
    necks = [all(r.edge == NECKLINE for r in runs) for runs in (seam.first, seam.second)]
    if necks == [True, False]:
        return seam.second
    if necks == [False, True]:
        return seam.first
    return None


def collar_lengthened(
    old: Pattern, new: Pattern, seam: Seam, step_id: str
) -> tuple[Pattern, float, Trace] | None:
    """Let a collar out (or take it in) at its centre back until its seam is as it was.

    All of a change of a neckband or collar is made at the centre back (The New Dressmaker,
    1921).

    Args:
        old: the pattern before the neckline changed.
        new: the pattern with the new neckline.
        seam: the neck seam.
        step_id: the id the displacement carries.

    Returns:
        The pattern, by how much the collar grew in the garment, and the trace; nothing where
        the collar has no fold or seam at its centre back.
    """
    found = _centre_back(new, _far_side(seam) or ())
    if found is None:
        return None
    piece, edge = found
    key: EdgeAt = at(piece, edge)
    was = _ease(old, seam)
    before = piece.edge((_far_side(seam) or ())[0].edge).length

    def drawn(amounts: Sequence[float]) -> tuple[Pattern, Trace]:
        return shaped(new, {key: (Profile(((0.0, amounts[0]),)),)}, step_id)

    def misses(amounts: Sequence[float]) -> list[float]:
        return [_ease(drawn(amounts)[0], seam) - was]

    away = 1.0 if _far_side(seam) is seam.first else -1.0
    (amount,) = adjusted(
        misses, [0.0], [away], f"the collar of the {seam.name} seam cannot be made to match"
    )
    made, trace = drawn((amount,))
    after = made.piece(*piece.key).edge((_far_side(seam) or ())[0].edge).length
    return made, (after - before) * piece.copies, trace


def _ease(pattern: Pattern, seam: Seam) -> float:
    first, second = side_lengths(pattern, seam)
    return second - first


def _centre_back(pattern: Pattern, runs: tuple[Run, ...]) -> tuple[Piece, Edge] | None:
    for run in runs:
        piece = pattern.piece(run.piece, run.side)
        sewn = piece.edge(run.edge, run.side)
        for edge in (piece.before(sewn), piece.after(sewn)):
            if edge.name == CENTRE_BACK and edge.parts:
                return piece, edge
    return None
