"""A row's edges followed on over the panels beside its pieces, laid together at their seams."""

from dataclasses import replace

from tracker.drafting.laid_flat import Laid, Row, closed_backward, closed_forward
from tracker.geometry.point import turn_between
from tracker.geometry.transform import Motion
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run


def over_panels(pattern: Pattern, row: Row, align_mm: float) -> tuple[Row, tuple[str, ...]]:
    """Return a row that goes on at both ends over the panel beside, as a cutter lays them.

    A shoulder parted by a princess seam is one line again: the panel is laid to the row's piece
    with the tops of the seam together.

    Args:
        pattern: the pattern.
        row: a row.
        align_mm: the panels lie on one another at their seam this far from the row.

    Returns:
        The row and what was laid to what: "the side panel at the front princess seam". The row
        itself and nothing where its ends go on in no other piece.
    """
    before, after = row.beside_start[0], row.beside_end[-1]
    ahead = _beside(pattern, after, align_mm, at_end=True)
    behind = _beside(pattern, before, align_mm, at_end=False)
    told = []
    if behind:
        row = replace(row, further_before=(behind[0], *row.further_before))
        told.append(behind[1])
    if ahead:
        row = replace(row, further_after=(*row.further_after, ahead[0]))
        told.append(ahead[1])
    return row, tuple(dict.fromkeys(told))


def _beside(
    pattern: Pattern, laid: Laid, align_mm: float, *, at_end: bool
) -> tuple[Laid, str] | None:
    """What an edge goes on in, beyond the panel seam at its end, laid to it."""
    piece = laid.piece
    panel_seam = piece.after(laid.edge) if at_end else piece.before(laid.edge)
    found = _sewn_to(pattern, piece, panel_seam)
    if found is None:
        return None
    panel, theirs, name = found
    edge = panel.after(theirs) if at_end else panel.before(theirs)
    if not _in_one_seam(pattern, (piece, laid.edge), (panel, edge)):
        return None
    if at_end:
        ours = closed_forward(piece, panel_seam, laid.last).line
        other = closed_backward(panel, theirs).line.reversed
    else:
        ours = closed_backward(piece, panel_seam, laid.first).line.reversed
        other = closed_forward(panel, theirs).line
    reach = min(align_mm, ours.length, other.length)
    way, way_other = ours.point_at(reach) - ours.start, other.point_at(reach) - other.start
    turn = Motion.turn(other.start, turn_between(way_other, way))
    onto = turn.then(Motion.move(ours.start - other.start))
    lay = closed_forward if at_end else closed_backward
    return lay(panel, edge, onto), f"the {panel.name} laid to it at the {name} seam"


def _sewn_to(pattern: Pattern, piece: Piece, edge: Edge) -> tuple[Piece, Edge, str] | None:
    """The one edge of another piece that an edge is sewn to all along."""
    for seam in pattern.seams:
        for one, other in ((seam.first, seam.second), (seam.second, seam.first)):
            if len(one) == len(other) == 1 and _is(pattern, one[0], piece, edge):
                panel = pattern.piece(other[0].piece, other[0].side)
                if panel.key != piece.key:
                    return panel, panel.edge(other[0].edge, other[0].side), seam.name
    return None


def _in_one_seam(pattern: Pattern, one: tuple[Piece, Edge], other: tuple[Piece, Edge]) -> bool:
    """Tell whether two edges follow one another on one side of a seam."""
    return any(
        any(_is(pattern, r, *one) for r in runs) and any(_is(pattern, r, *other) for r in runs)
        for seam in pattern.seams
        for runs in (seam.first, seam.second)
    )


def _is(pattern: Pattern, run: Run, piece: Piece, edge: Edge) -> bool:
    return pattern.piece(run.piece, run.side).key == piece.key and (
        pattern.edge_of(run).key == edge.key
    )


__all__ = ["over_panels"]
