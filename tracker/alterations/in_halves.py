"""A piece opened out across the centre, worked on as a right and a left half and opened again."""

from dataclasses import replace

from tracker.alterations.bodyside import Split, marked_at_the_centre
from tracker.alterations.opened_out import MEET_MM, as_a_pair, halves_of
from tracker.drafting.style_split import CannotPart
from tracker.pattern.bodyside import BodySide
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace


def in_halves(pattern: Pattern, names: tuple[str, ...]) -> tuple[Split, tuple[str, ...]]:
    """Return a pattern with the named pieces that are opened out cut as a pair.

    Returns:
        The pattern with what became of the pieces, and the names of the seams between the
        halves, for ``opened_again``.

    Raises:
        PatternError: a piece lies across the centre and has no two halves.
    """
    trace, seams = Trace(), []
    for piece in pattern.pieces:
        if piece.name in names and piece.side is BodySide.CENTRE and piece.has_outline:
            pattern, made = as_a_pair(pattern, piece, *halves_of(piece))
            trace = trace.beside(made)
            seams.append(pattern.seams[-1].name)
    return Split(pattern, trace), tuple(seams)


def opened_again(pattern: Pattern, trace: Trace, seams: tuple[str, ...]) -> Split:
    """Return a pattern whose halves are cut in one across the centre again.

    Args:
        pattern: the pattern.
        trace: what became of everything since before the halves were made.
        seams: the seams between the halves.

    Raises:
        CannotPart: the halves' centres are no longer alike.
    """
    for name in seams:
        seam = next(s for s in pattern.seams if s.name == name and s.side is BodySide.CENTRE)
        rights, lefts = ([r.piece for r in side] for side in (seam.first, seam.second))
        if set(rights) != set(lefts):
            raise CannotPart(
                f"the line ends at the {name} of a piece that is cut in one across it; on one "
                "side only it would need a seam there: sew one first, or part both sides"
            )
        for one in dict.fromkeys(rights):
            halves = tuple(pattern.piece(one, s) for s in (BodySide.RIGHT, BodySide.LEFT))
            whole, made = _joined(halves[0], halves[1], seam)
            pattern = replace(
                pattern,
                pieces=tuple(
                    whole if p.key == halves[0].key else p
                    for p in pattern.pieces
                    if p.key != halves[1].key
                ),
            )
            trace = trace.then(made)
        pattern = replace(pattern, seams=tuple(s for s in pattern.seams if s is not seam))
        gone = Renamed("seam", ("", ""), ("", name))
        trace = replace(trace, renamed=tuple(r for r in trace.renamed if r != gone))
    # Line that was only there meanwhile is no one's.
    return Split(pattern, replace(trace, fates=tuple(f for f in trace.fates if f.old or f.new)))


def _joined(right: Piece, left: Piece, seam: Seam) -> tuple[Piece, Trace]:
    name = seam.name
    one, other = right.edge(name, BodySide.RIGHT), left.edge(name, BodySide.LEFT)
    # A mirrored half runs the other way round.
    a, b = one.drawn[0].start, one.drawn[-1].end
    off = max(abs(a - other.drawn[-1].end), abs(b - other.drawn[0].start))
    if off > MEET_MM:
        raise CannotPart(
            f"the two halves of the {right.name} would meet the {name} {off:.1f} mm apart; it is "
            "cut in one across it, so both have to end at one place there"
        )
    rings = []
    for piece, edge in ((right, one), (left, other)):
        at = piece.edge_index(edge)
        rings.append([*piece.edges[at + 1 :], *piece.edges[:at]])
    for ring, start, end in ((rings[0], b, a), (rings[1], a, b)):
        first, last = ring[0], ring[-1]
        ring[0] = replace(first, parts=(first.parts[0].started_at(start), *first.parts[1:]))
        last = ring[-1]
        ring[-1] = replace(last, parts=(*last.parts[:-1], last.parts[-1].ended_at(end)))
    both = (right, left)
    whole = replace(
        right,
        side=BodySide.CENTRE,
        edges=(*rings[0], *rings[1]),
        darts=tuple(d for p in both for d in p.darts),
        notches=tuple(n for p in both for n in p.notches if n.edge != name),
        levels=(
            *(v for p in both for v in p.levels),
            Level(name, BodySide.CENTRE, ((a, b),)),
        ),
        marks=(*right.marks, *left.marks, *marked_at_the_centre(one, right.notches)),
        fold=None,
        copies=1,
        cut="cut 1, opened out",
    )
    fates = tuple(
        Fate(Stretch.whole(p, e), None if e.name == name else Stretch.whole(p, e), still=True)
        for p in both
        for e in p.edges
    )
    renamed = tuple(
        Renamed("piece", (p.name, str(p.side)), (whole.name, str(whole.side))) for p in both
    )
    return whole, Trace(fates, renamed)


__all__ = ["in_halves", "opened_again"]
