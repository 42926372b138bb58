"""A tape difference shared out over several seams: each edge gives as much as every other."""

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.fitting.from_piece import one_kind
from tracker.fitting.garment import FittingError
from tracker.fitting.observation import Observation
from tracker.fitting.reading import Reading, ReadingKind
from tracker.fitting.scene import NotHere, Scene
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.units import write_both


def shared_out(
    pattern: Pattern, note: Observation, also: tuple[str, ...]
) -> tuple[tuple[Kind, ...], str]:
    """Return what takes in (or lets out) a note's seam and others by a tape difference.

    A seam of both body sides has four edges, a centre seam two; every edge gives the same share
    (total divided by the number of seam edges: Central Washington University costume text,
    chapter 17). Places are taken over to the other seams at the same height.

    Raises:
        FittingError: the note has no tape difference at a seam, or a seam is named twice.
        TrackerError: a seam the pattern has not.
    """
    if note.seam is None or not note.readings:
        raise FittingError("only a tape difference read at a seam is shared out over other seams")
    if one_kind(note.readings) is not ReadingKind.TAPE_DIFFERENCE:
        raise FittingError(
            f"a {note.readings[0].kind} was read at the {note.seam} seam itself and belongs there; "
            "only a tape difference is shared out over other seams"
        )
    names = (note.seam, *also)
    if len(set(names)) < len(names):
        raise FittingError("each seam is named once; the note's own is always one of them")
    seams = [pattern.seam(name, note.side) for name in names]
    one_side = note.side in (BodySide.RIGHT, BodySide.LEFT)
    edges = sum(2 if one_side or s.side is BodySide.CENTRE else 4 for s in seams)
    first = _first(pattern, seams[0])
    made: list[Kind] = []
    for seam in seams:
        amounts = tuple(
            AmountAt(corner=corner, distance_mm=distance, amount_mm=r.value_mm * 2 / edges)
            for r in note.readings
            for corner, distance in [
                (r.corner, r.distance_mm) if seam is seams[0]
                else _same_height(pattern, note, first, r, seam)
            ]
        )  # fmt: skip
        centre = seam.side is BodySide.CENTRE
        side = BodySide.BOTH if centre else note.side
        made.append(TakeIn(seam=seam.name, side=side, amounts=amounts))
    most = max((abs(r.value_mm) for r in note.readings), default=0.0)
    return tuple(made), (
        f"tape difference {write_both(most)}: shared by {edges} edges of the {', '.join(names)} "
        f"seams, {write_both(most / edges)} at each"
    )


def _first(pattern: Pattern, seam: Seam) -> tuple[Piece, Edge, Run]:
    run = seam.first[0]
    piece = pattern.piece(run.piece, run.side)
    return piece, piece.edge(run.edge, run.side), run


def _same_height(
    pattern: Pattern,
    note: Observation,
    at: tuple[Piece, Edge, Run],
    reading: Reading,
    seam: Seam,
) -> tuple[str, float]:
    """The place of another seam at the height of a reading: its end of that name, or by a line."""
    piece, edge, _ = at
    other, along, run = _first(pattern, seam)
    ends = (along.end, along.start) if run.backward else (along.start, along.end)
    last_word = reading.corner.rpartition(" ")[2]
    if not reading.distance_mm:
        for end in ends:
            if end.rpartition(" ")[2] == last_word:
                return end, 0.0
    if not (piece.has_outline and other.has_outline):
        raise FittingError(
            f"without outlines the place of “{reading.corner}” on the {seam.name} seam is not "
            "known; give each seam its own note"
        )
    where = edge.point_at(
        min(reading.distance_mm, edge.length) if reading.corner == edge.start
        else max(edge.length - reading.distance_mm, 0.0)
    )  # fmt: skip
    scene = Scene(pattern, note)
    lines = [
        (abs(where.imag - height), name, where.imag - height)
        for name in ("bust line", "waist line", "hip line", "crotch line", "knee line")
        if (height := scene.height(piece, line=name)) is not None
        and scene.height(other, line=name) is not None
    ]
    if not lines:
        raise FittingError(f"the {seam.name} seam has no line in common with the {note.seam} seam")
    _, line, above = min(lines)
    try:
        return ends[0], scene.at_line(
            other, along.name, ends[0], otherwise=0.0, line=line, up_mm=above
        )
    except NotHere:  # beyond its end: the nearer end
        wanted = scene.height(other, line=line)
        assert wanted is not None
        return min(
            ((end, 0.0) for end in ends),
            key=lambda e: abs(other.corner(e[0]).imag - wanted - above),
        )
