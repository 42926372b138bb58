"""Parting a piece on a line: two pieces, and where every edge of them came from."""

import math
from dataclasses import dataclass, replace

from tracker.drafting.style_region import (
    MEET_MM,
    Region,
    joined_strokes,
    region_of,
    strokes_by_region,
)
from tracker.drafting.style_section import Section, notches_on, section
from tracker.errors import TrackerError
from tracker.geometry.crossing import of_curves
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Mark, Notch
from tracker.pattern.piece import Piece

#: A style line keeps this far from a corner, so that what is left of the edge can be sewn.
FROM_CORNER_MM = 12.0
#: A line may touch the outline within this of its own ends.
AT_END_MM = 0.5
#: The ends of a cut lie on the outline within this: what dart legs may differ by.
MEETS_MM = 0.02


class CannotPart(TrackerError):
    """A piece that cannot be parted on a line, or not yet by this program."""


@dataclass(frozen=True)
class Cut:
    """A line from one edge of a piece to another.

    Where it runs down a dart's legs it has two faces, and the dart goes into the seam.

    Attributes:
        name: the name of the seam it makes, and of both new edges.
        top: the edge it starts from.
        top_mm: how far along that edge, as sewn.
        bottom: the edge it ends on.
        bottom_mm: how far along that edge.
        ahead: its line as the piece that lies ahead of the top place (going round) has it.
        behind: its line as the other piece has it.
        dart: the dart whose legs it follows, if any.
    """

    name: str
    top: Edge
    top_mm: float
    bottom: Edge
    bottom_mm: float
    ahead: Curve
    behind: Curve
    dart: Dart | None = None

    @property
    def top_corner(self) -> str:
        """The name of the new corner at its top: "front princess shoulder"."""
        return f"{self.name} {self.top.name}"

    @property
    def bottom_corner(self) -> str:
        """The name of the new corner at its foot: "front princess waist"."""
        return f"{self.name} {self.bottom.name}"


@dataclass(frozen=True)
class Half:
    """One of the two pieces.

    Attributes:
        piece: the piece, not yet given its own name.
        sections: where each of its edges came from, in the piece's order.
    """

    piece: Piece
    sections: tuple[Section, ...]


def place_inside(edge: Edge, at_mm: float, where: str, corner: str) -> None:
    """Refuse a place too near an edge's ends, or on a dart's mouth.

    Args:
        edge: the edge.
        at_mm: how far along it, going round the piece.
        where: the piece, in words.
        corner: the corner the place is told from.

    Raises:
        CannotPart: it is; the sentence says what would work.
    """
    length = edge.length
    if not FROM_CORNER_MM <= at_mm <= length - FROM_CORNER_MM:
        told = length - at_mm if edge.end == corner else at_mm
        raise CannotPart(
            f"the line cannot meet the {edge.name} of {where} {told:.0f} mm from the {corner}: "
            f"the {edge.name} is {length:.0f} mm long; choose a place from "
            f"{FROM_CORNER_MM:.0f} to {math.floor(length - FROM_CORNER_MM)} mm"
        )
    offset = 0.0
    for part, mouth in zip(edge.drawn, edge.mouths, strict=False):
        offset += part.length
        if abs(at_mm - offset) < FROM_CORNER_MM:
            raise CannotPart(
                f"the line would run into the mouth of the {mouth} of {where}; turn that dart "
                f"elsewhere first, or choose a place {FROM_CORNER_MM:.0f} mm away from it"
            )


def refuse_crossings(piece: Piece, line: Curve, what: str) -> None:
    """Refuse a line that leaves the piece or runs over one of its darts.

    Raises:
        CannotPart: it does.
    """
    for edge in piece.edges:
        for part in edge.drawn:
            _refuse(line, part, f"{what} would cross the {edge.name} of the {piece.label}")
    for dart in piece.darts:
        for leg in dart.legs:
            _refuse(line, leg, f"{what} would cross the {dart.name} of the {piece.label}")
    if not Region(piece.plain_ring).holds(line.point_at(line.length / 2)):
        raise CannotPart(f"{what} would lie outside the {piece.label}; choose another place")


def _refuse(line: Curve, other: Curve, sentence: str) -> None:
    for crossing in of_curves(line, other):
        if AT_END_MM < crossing.first_mm < line.length - AT_END_MM:
            raise CannotPart(f"{sentence}; choose another place for it, or turn the dart first")


def split_piece(piece: Piece, cut: Cut) -> tuple[Half, Half]:
    """Part a piece on a line.

    Args:
        piece: the piece.
        cut: the line.

    Returns:
        The half ahead of the line's top, going round the piece, and the other. Both keep the
        piece's name; edges cut in two keep theirs on both.
    """
    first, last = piece.edge_index(cut.top), piece.edge_index(cut.bottom)
    between = _round(piece, first, last)
    beyond = _round(piece, last, first)
    top, bottom = cut.top, cut.bottom
    to_bottom = section(bottom, 0.0, cut.bottom_mm, bottom.start, cut.bottom_corner)
    from_bottom = section(bottom, cut.bottom_mm, bottom.length, cut.bottom_corner, bottom.end)
    to_top = section(top, 0.0, cut.top_mm, top.start, cut.top_corner)
    from_top = section(top, cut.top_mm, top.length, cut.top_corner, top.end)
    ahead = (
        (from_top, Section(top, cut.top_mm, top.length)),
        *((e, Section(e, 0.0, e.length)) for e in between),
        (to_bottom, Section(bottom, 0.0, cut.bottom_mm)),
        (_seam_edge(cut, cut.ahead.reversed, cut.bottom_corner, cut.top_corner), Section(None)),
    )
    behind = (
        (from_bottom, Section(bottom, cut.bottom_mm, bottom.length)),
        *((e, Section(e, 0.0, e.length)) for e in beyond),
        (to_top, Section(top, 0.0, cut.top_mm)),
        (_seam_edge(cut, cut.behind, cut.top_corner, cut.bottom_corner), Section(None)),
    )
    halves = tuple(
        replace(
            piece,
            edges=tuple(_meeting([e for e, _ in half])),
            darts=tuple(d for d in piece.darts if _opens_from(d, [e for e, _ in half])),
        )
        for half in (ahead, behind)
    )
    regions = tuple(Region(h.ring) for h in halves)
    cuts = (cut.ahead, cut.behind)
    # A material line drawn over a dart's mouth is broken there too: the mouth is no cloth.
    breaks = (*cuts, *(leg for d in piece.darts for leg in d.legs))
    whole = [
        replace(
            half,
            darts=(
                *half.darts,
                *(
                    d
                    for d in piece.darts
                    if d.double_pointed and d != cut.dart and region_of(_middle(d), regions) == i
                ),
            ),
            notches=_notches(piece, half, sections),
            levels=_levels(piece, half, i, regions, breaks),
            marks=_marks(piece.marks, i, regions),
            fold=piece.fold if any(e.name == piece.fold for e in half.edges) else None,
        )
        for i, (half, sections) in enumerate(zip(halves, (ahead, behind), strict=True))
    ]  # fmt: skip
    return (
        Half(whole[0], tuple(s for _, s in ahead)),
        Half(whole[1], tuple(s for _, s in behind)),
    )


def _round(piece: Piece, after: int, before: int) -> list[Edge]:
    n = len(piece.edges)
    return [piece.edges[i % n] for i in range(after + 1, before if before > after else before + n)]


def _seam_edge(cut: Cut, line: Curve, start: str, end: str) -> Edge:
    return Edge(cut.name, cut.top.side, start, end, (line,))


def _meeting(edges: list[Edge]) -> list[Edge]:
    """Let the new line's ends be the very points where the cut edges now end."""
    *old, seam = edges
    line, start, end = seam.parts[0], old[-1].parts[-1].end, old[0].parts[0].start
    off = max(abs(line.start - start), abs(line.end - end))
    if off > MEETS_MM:
        raise CannotPart(
            f"the {seam.name} line ends {off:.1f} mm away from the edges it should part; it "
            "has to run from edge to edge"
        )
    return [*old, replace(seam, parts=(line.started_at(start).ended_at(end),))]


def _opens_from(dart: Dart, edges: list[Edge]) -> bool:
    return any(dart.name in e.mouths and dart.side is e.side for e in edges)


def _middle(dart: Dart) -> Point:
    return (dart.legs[0].start + dart.legs[0].end) / 2


def _notches(
    piece: Piece, half: Piece, parts: tuple[tuple[Edge, Section], ...]
) -> tuple[Notch, ...]:
    out: list[Notch] = []
    for edge, (_, came) in zip(half.edges, parts, strict=True):
        if came.old is not None:
            out.extend(notches_on(piece.notches, came.old, came, edge))
    return tuple(out)


def _levels(
    piece: Piece, half: Piece, which: int, regions: tuple[Region, ...], cuts: tuple[Curve, ...]
) -> tuple[Level, ...]:
    out = []
    names = {e.key for e in half.edges}
    for level in piece.levels:
        strokes = joined_strokes(strokes_by_region(level.strokes, cuts, regions)[which])
        edges = tuple(e for e in level.edges if (e, level.side) in names)
        if strokes or edges:
            out.append(replace(level, strokes=strokes, edges=edges))
    return tuple(out)


def _marks(marks: tuple[Mark, ...], which: int, regions: tuple[Region, ...]) -> tuple[Mark, ...]:
    """A mark on the line itself (the bust point) is kept on both pieces, where both reach it."""
    return tuple(
        m
        for m in marks
        if regions[which].off(m.point) < MEET_MM or region_of(m.point, regions) == which
    )
