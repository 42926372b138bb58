"""Readings at a piece's own edges and across its inside, turned into alterations."""

from collections.abc import Sequence

from tracker.alterations.kind import Kind, kind_named
from tracker.errors import nearest_names
from tracker.fitting.counting import Spot, read_for
from tracker.fitting.garment import FittingError
from tracker.fitting.observation import Observation
from tracker.fitting.reading import ON_ONE_LAYER, Reading, ReadingKind
from tracker.fitting.scene import Scene
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.units import write_both

#: Edges that run up and down; a fold across a piece ends on two of them.
_UPRIGHT = ("centre front", "centre back", "side", "armhole", "front princess", "back princess",
            "inside leg", "crotch")  # fmt: skip
#: A cut is told from a line at least this far off.
_LEAST_MM = 12.0


def places_of(
    pattern: Pattern, note: Observation, nothing_at: Sequence[tuple[str, float]] = ()
) -> tuple[tuple[Piece, Edge, Reading], ...]:
    """Return each reading with the piece and the edge it lies on.

    Raises:
        TrackerError: a corner is none of the piece's, or two edges meet at it and none was named.
    """
    readings = list(note.readings)
    if readings and nothing_at:
        kind = readings[0].kind
        readings += [
            Reading(kind=kind, corner=c, distance_mm=d, value_mm=0.0) for c, d in nothing_at
        ]
    return tuple((*_lies(pattern, note, r), r) for r in readings if r.corner)


def _lies(pattern: Pattern, note: Observation, reading: Reading) -> tuple[Piece, Edge]:
    corner, named = reading.corner, reading.edge or note.edge
    pieces = _pieces(pattern, note, reading)
    found: list[tuple[Piece, Edge]] = []
    for piece in pieces:
        found += [
            (piece, e) for e in piece.edges
            if corner in (e.start, e.end) and (named is None or e.name == named)
        ]  # fmt: skip
    if not found:
        edges = [e for p in pieces for e in p.edges if named in (None, e.name)]
        corners = list(dict.fromkeys(c for e in edges for c in (e.start, e.end)))
        where = f"the {named} of " if named else ""
        raise FittingError(
            f"{where}the {pieces[0].label} has no corner called “{corner}”; it has "
            f"{', '.join(corners)}.{nearest_names(corner, corners)}"
        )
    names = list(dict.fromkeys(e.name for _, e in found))
    if len(names) > 1:
        upright = [n for n in names if n in _UPRIGHT]
        if len(upright) == 1:
            names = upright
        elif reading.distance_mm:
            raise FittingError(
                f"the {corner} is an end of the {' and of the '.join(names)}; say which, as in "
                f"“… from {corner} on {names[0]}”"
            )
    return next((p, e) for p, e in found if e.name == names[0])


def _pieces(pattern: Pattern, note: Observation, reading: Reading) -> list[Piece]:
    name = reading.piece or note.piece
    if name is not None:
        known = [p for p in pattern.pieces if p.name == name]
        sided = [
            p for p in known if note.side in (p.side, BodySide.BOTH) or p.side is BodySide.BOTH
        ]
        return sided or known or [pattern.piece(name, note.side)]
    having = [
        p for p in pattern.pieces
        if p.layer == "shell" and any(e.name == note.edge for e in p.edges)
    ]  # fmt: skip
    if not having:
        known_edges = list(dict.fromkeys(e.name for p in pattern.pieces for e in p.edges))
        raise FittingError(
            f"no piece of this pattern has an edge called “{note.edge}”."
            f"{nearest_names(note.edge or '', known_edges)}"
        )
    return having


def one_kind(readings: Sequence[Reading]) -> ReadingKind:
    """Return how readings were read, all in the same way.

    Raises:
        FittingError: they were read in several ways.
    """
    kinds = {r.kind for r in readings}
    if len(kinds) > 1:
        raise FittingError(
            "one note reads its amounts in one way; these are read as "
            f"{' and '.join(sorted(str(k) for k in kinds))}: make a note of each"
        )
    return kinds.pop()


def across_piece(
    pattern: Pattern, note: Observation, placed: Sequence[tuple[Piece, Edge, Reading]]
) -> tuple[tuple[Kind, ...], str]:
    """Return a fold, or a slash, from one edge of a piece to another.

    The larger amount is the mouth; where the other is not nothing, the pieces all round are
    shortened (or lengthened) by it first and the wedge takes the rest.

    Raises:
        FittingError: it does not run from one edge to another, or cannot be taken so.
    """
    one, other = _ends(placed)
    kind = one[2].kind
    piece, mouth, big = one
    _, hinge, small = other
    spot = Spot.ONE_SIDE if note.side in (BodySide.RIGHT, BodySide.LEFT) else Spot.PAIR
    if mouth.name in _UPRIGHT:
        spot = Spot.ACROSS
    word = "fold out" if _takes_out(kind, big.value_mm) else "slash and spread"
    counted = read_for(word, kind, big.value_mm, spot)
    rest = read_for(word, kind, small.value_mm, spot)
    steps: list[Kind] = []
    whole, even = abs(counted.amount_mm), abs(rest.amount_mm)
    if counted.amount_mm * rest.amount_mm < 0:
        raise FittingError("one end is taken out and the other let in; make a note of each")
    if even:
        if mouth.name not in _UPRIGHT or hinge.name not in _UPRIGHT:
            raise FittingError(
                "a fold with an amount at both ends takes the piece in from edge to edge; take "
                "it in at a seam beside it, or say that it runs to nothing at one end"
            )
        steps.append(_shortened(pattern, note, piece, mouth, big, even if counted.amount_mm < 0
                                else -even))  # fmt: skip
    if whole - even > 0.05:
        centre = "straighten the fold" if piece.fold in (mouth.name, hinge.name) else "refuse"
        steps.append(
            kind_named(word).from_parameters(
                {"piece": piece.name, "mouth_edge": mouth.name, "mouth_corner": big.corner,
                 "mouth_mm": big.distance_mm, "hinge_edge": hinge.name,
                 "hinge_corner": small.corner, "hinge_mm": small.distance_mm,
                 "by_mm": round(whole - even, 6), "centre": centre, "side": _side(note)}
            )
        )  # fmt: skip
    echo = counted.echo
    if even and whole - even > 0.05:
        echo += (
            f"; {write_both(even)} of it right round, and the rest to nothing at the {hinge.name}"
        )
    elif even:
        echo = read_for("lengthen or shorten", kind, big.value_mm, Spot.ACROSS).echo
    return tuple(steps), echo


def _ends(
    placed: Sequence[tuple[Piece, Edge, Reading]],
) -> tuple[tuple[Piece, Edge, Reading], tuple[Piece, Edge, Reading]]:
    edges = {(p.name, e.name) for p, e, _ in placed}
    if len(edges) == 1:
        piece, edge, _ = placed[0]
        raise FittingError(
            f"where does it run out? From the {edge.name} of the {piece.label} it ends at another "
            f"edge of it: say “nothing at 4cm from {_far(piece, edge)}”, or name the edge with "
            "--edge where it only gapes there"
        )
    if len(placed) > 2 or len({p.name for p, _, _ in placed}) > 1:
        raise FittingError(
            "a fold or slash across one piece has two ends, each on an edge of that piece; a line "
            "over several pieces is made with: tracker alter make “slash across the pieces”"
        )
    ordered = sorted(placed, key=lambda at: -abs(at[2].value_mm))
    return ordered[0], ordered[1]


def _far(piece: Piece, edge: Edge) -> str:
    near = {edge.start, edge.end}
    upright = [e for e in piece.edges if e.name != edge.name and e.name in _UPRIGHT]
    return next((c for e in upright for c in (e.start, e.end) if c not in near), piece.corners[0])


def _takes_out(kind: ReadingKind, value_mm: float) -> bool:
    return value_mm > 0 and kind is not ReadingKind.GAP


def _shortened(
    pattern: Pattern, note: Observation, piece: Piece, edge: Edge, reading: Reading, by_mm: float
) -> Kind:
    """All pieces longer or shorter at the height of a place, told from the nearest line.

    Between the waist and the crotch of trousers that is their crotch depth.
    """
    scene = Scene(pattern, note)
    if scene.garment == "trousers" and _above_the_crotch(scene, piece, edge, reading):
        given = {"by_mm": by_mm, "side": scene.side}
        return kind_named("change the crotch depth").from_parameters(given)
    if not piece.has_outline:
        corner_waist = "waist" in reading.corner
        above = max(reading.distance_mm, _LEAST_MM) if corner_waist else 63.5
        return kind_named("lengthen or shorten").from_parameters(
            {"line": "waist line", "above_mm": above, "by_mm": by_mm, "side": _side(note)}
        )
    height = _point(edge, reading).imag
    offs = []
    for level in piece.levels:
        at = level.strokes[0][0].imag if level.strokes else None
        if at is None:
            at = piece.edge(level.edges[0]).point_at(0.0).imag
        if level.name in ("bust line", "waist line", "hip line"):
            offs.append((abs(height - at), level.name, height - at))
    far_enough = [o for o in offs if o[0] >= _LEAST_MM]
    if not far_enough:
        raise FittingError(
            f"the {piece.label} has no line the height can be told from; use tracker alter make "
            "“lengthen or shorten”"
        )
    _, line, above = min(far_enough)
    return kind_named("lengthen or shorten").from_parameters(
        {"line": line, "above_mm": round(above, 1), "by_mm": by_mm, "side": _side(note)}
    )


def _above_the_crotch(scene: Scene, piece: Piece, edge: Edge, reading: Reading) -> bool:
    if not piece.has_outline:
        return "waist" in reading.corner
    crotch = scene.height(piece, line="crotch line")
    return crotch is not None and _point(edge, reading).imag > crotch


def _point(edge: Edge, reading: Reading) -> complex:
    along = reading.distance_mm if reading.corner == edge.start else edge.length - (
        reading.distance_mm
    )  # fmt: skip
    return edge.point_at(min(max(along, 0.0), edge.length))


def _side(note: Observation) -> str:
    return Scene(_EMPTY, note).side


def seam_of_edge(pattern: Pattern, piece: Piece, edge: Edge) -> str | None:
    """Return the seam an edge is wholly one side of: a side, a shoulder, a panel seam."""
    for seam in pattern.seams_on(piece, edge):
        if len(seam.first) == 1 and len(seam.second) == 1:
            return seam.name
    return None


def as_seam_note(note: Observation, seam: str) -> Observation:
    """Return the same note at the seam its edge is sewn in; a line on one layer says which."""
    from dataclasses import replace

    readings = tuple(
        replace(r, piece=r.piece or note.piece if r.kind in ON_ONE_LAYER else r.piece, edge=None)
        for r in note.readings
    )
    return replace(note, seam=seam, piece=None, edge=None, readings=readings)


_EMPTY = Pattern((), ())

__all__ = [
    "across_piece", "as_seam_note", "one_kind", "places_of", "seam_of_edge",
]  # fmt: skip
