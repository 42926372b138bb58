"""Where a straight cut across a piece, square to its grain, meets the outline."""

import itertools
import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from tracker.alterations.slash import FROM_END_MM, CutAt
from tracker.geometry.crossing import with_line
from tracker.geometry.point import Point, dot, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.errors import NoOutline, PatternError
from tracker.pattern.piece import Piece


@dataclass(frozen=True, slots=True)
class Across:
    """A cut right across a piece.

    Attributes:
        left: where it begins, going square to the grain, to the right as the piece is drawn.
        right: where it ends.
        up: the direction of the grain.
    """

    left: CutAt
    right: CutAt
    up: Point

    @property
    def length_mm(self) -> float:
        """How long the cut is."""
        return abs(self.right.point - self.left.point)

    def beside(self, upper: bool) -> Point:
        """Return a point just above, or just below, the middle of the cut."""
        middle = (self.left.point + self.right.point) / 2
        return middle + self.up * (1.0 if upper else -1.0)


@dataclass(frozen=True, slots=True)
class _Met:
    at: float  # along the cut's line
    edge: Edge | None
    along_mm: float
    dart: Dart | None


def up_of(piece: Piece) -> Point:
    """Return the direction of a piece's grain line, towards its upper end.

    Raises:
        PatternError: it has none.
    """
    if piece.grain is None:
        raise PatternError(
            f"the {piece.label} has no grain line, and a cut across it is square to the grain; "
            "mark the grain line first"
        )
    return unit(piece.grain[1] - piece.grain[0])


def point_of(piece: Piece, line: str, side: BodySide | None = None) -> Point:
    """Return the point of a material line nearest to the piece's grain line."""
    up = up_of(piece)
    assert piece.grain is not None
    foot = piece.grain[0]
    level = piece.level(line, side)

    def off(point: Point) -> float:
        return abs((point - foot).real * up.imag - (point - foot).imag * up.real)

    points: list[Point] = []
    for stroke in level.strokes:
        for a, b in itertools.pairwise(stroke):
            points += [a, b]
            det = (b - a).real * up.imag - (b - a).imag * up.real
            if det:
                t = ((foot - a).real * up.imag - (foot - a).imag * up.real) / det
                points += [a + (b - a) * t] if 0 <= t <= 1 else []
    for name in level.edges:
        for part in piece.edge(name, level.side).parts:
            points += [part.start, part.end, *(c.point for c in with_line(part, foot, up))]
    return min(points, key=lambda p: (round(off(p), 6), dot(p, up)))


def cut_across(piece: Piece, line: str, above_mm: float) -> Across:
    """Return the cut square to the grain, so far above a material line (below when negative).

    Raises:
        NoOutline: the piece is not drawn.
        PatternError: there is no such height, or a dart opens there; the sentence says what
            would do.
    """
    if not piece.has_outline:
        raise NoOutline(f"the {piece.label} has no outline to cut across; mark it on paper")
    up = up_of(piece)
    along = complex(up.imag, -up.real)
    foot = point_of(piece, line)
    through = foot + up * above_mm
    met = sorted(_meetings(piece, through, along), key=lambda m: m.at)
    if len(met) < 2 or met[-1].at - met[0].at < FROM_END_MM:
        heights = [dot(p - foot, up) for e in piece.edges for p in _spots(e)]
        raise PatternError(
            f"{height(above_mm, line)} a cut would miss the {piece.label}, which reaches from "
            f"{height(math.ceil(min(heights)), line)} to {height(math.floor(max(heights)), line)}"
        )
    ends = []
    for end in (met[0], met[-1]):
        if end.edge is None:
            assert end.dart is not None
            raise PatternError(_at_a_dart(piece, end.dart, foot, up, line))
        ends.append(CutAt(end.edge, end.along_mm))
    return Across(ends[0], ends[1], up)


def cut_from(piece: Piece, start: CutAt, line: str) -> CutAt:
    """Return where a cut square to the grain ends that begins at a place of the outline.

    Args:
        piece: the piece.
        start: where it begins.
        line: the material line heights are told from.

    Raises:
        PatternError: it does not run across the piece, or ends where a dart opens.
    """
    up = up_of(piece)
    along = complex(up.imag, -up.real)
    met = _meetings(piece, start.point, along)
    far = max(met, key=lambda m: abs(m.at), default=None)
    if far is None or abs(far.at) < FROM_END_MM:
        raise PatternError(
            f"a cut from the {start.edge.name} of the {piece.label} does not run across it there; "
            "choose another height"
        )
    if far.edge is None:
        assert far.dart is not None
        raise PatternError(_at_a_dart(piece, far.dart, point_of(piece, line), up, line))
    return CutAt(far.edge, far.along_mm)


def _meetings(piece: Piece, through: Point, along: Point) -> list[_Met]:
    met: list[_Met] = []
    for edge in piece.edges:
        before = 0.0
        for part in edge.parts:
            for c in with_line(part, through, along):
                met.append(_Met(c.second_mm, edge, before + c.first_mm, None))
            before += part.length
    for dart in piece.darts:
        if dart.mouth is not None:
            for leg in dart.legs:
                for c in with_line(leg, through, along):
                    met.append(_Met(c.second_mm, None, 0.0, dart))
    # At a mouth's corner edge and leg meet the line together: the edge is told first.
    return sorted(met, key=lambda m: m.edge is None)


def _spots(edge: Edge) -> list[Point]:
    return [p for part in edge.parts for p in part.flattened(1.0)]


def _at_a_dart(piece: Piece, dart: Dart, foot: Point, up: Point, line: str) -> str:
    ends = sorted(dot(p - foot, up) for p in (dart.mouth_start, dart.mouth_end))
    low = math.floor(ends[0] - FROM_END_MM)
    high = math.ceil(ends[1] + FROM_END_MM)
    return (
        f"the {dart.name} of the {piece.label} opens where the cut would end; "
        f"{height(low, line)} or less, or {height(high, line)} or more, would do"
    )


def height(above_mm: float, line: str) -> str:
    """Say how far above or below a line: "63.5 mm above the waist line"."""
    told = f"{abs(above_mm):.1f}".removesuffix(".0")
    return f"{told} mm {'above' if above_mm >= 0 else 'below'} the {line}"


def names_listed(parameters: Mapping[str, Any]) -> dict[str, Any]:
    """Return parameters with pieces that were typed as one text, "back, front", taken apart."""
    given = dict(parameters)
    if isinstance(given.get("pieces"), str):
        names = str(given["pieces"]).replace(" and ", ",").split(",")
        given["pieces"] = tuple(n.strip() for n in names if n.strip())
    return given
