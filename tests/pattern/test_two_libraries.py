"""Outlines measured by two general-purpose libraries that know nothing of patterns.

Lengths: svgpathtools and fontTools. Areas: fontTools (Green's theorem on the curves) and Shapely
(many chords). Lines moved all along: svgpathtools (its own normals) and Shapely (its offset).
Allowances: Shapely's distance and offset, and ezdxf's offset.
"""

import warnings
from functools import cache

import pytest
import shapely
from ezdxf.math import area as polygon_area
from ezdxf.math import offset_vertices_2d
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.perimeterPen import PerimeterPen
from irregular import SORTS, block

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.errors import TrackerError
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.output.allowance import Allowances, cutting_line
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level
from tracker.pattern.measure import level_length
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def taken_in(pattern: Pattern) -> Pattern:
    """The pattern with its first two-piece seam taken in unevenly: drawn lines, not drafted."""
    seam = next(s for s in pattern.seams if not s.on_itself and len(s.first) == 1)
    edge = pattern.edge_of(seam.first[0])
    amounts = tuple(
        AmountAt(corner=edge.start, distance_mm=share * edge.length, amount_mm=mm)
        for share, mm in ((0.0, 0.0), (0.4, 7.0), (1.0, -5.0))
    )
    return apply_step(TakeIn(seam=seam.name, amounts=amounts), pattern, "one").pattern


@cache
def patterns() -> dict[str, Pattern]:
    found = {f"{sort} {n}": block(sort, n) for sort in SORTS for n in range(3)}
    return found | {f"{name}, taken in": taken_in(p) for name, p in found.items()}


every = pytest.mark.parametrize(
    "name", [f"{sort} {n}{how}" for sort in SORTS for n in range(3) for how in ("", ", taken in")]
)


def xy(point: Point) -> tuple[float, float]:
    return point.real, point.imag


def theirs(curve: Curve) -> "list[object]":
    """The line as svgpathtools has it."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        from svgpathtools import CubicBezier, Line

    return [Line(*s) if len(s) == 2 else CubicBezier(*s) for s in curve.segments]


def draw(curves: tuple[Curve, ...], pen: object, closed: bool) -> None:
    """Draw lines that follow on one another with a fontTools pen."""
    pen.moveTo(xy(curves[0].start))
    for curve in curves:
        for run in curve.runs:
            (pen.lineTo if len(run) == 1 else pen.curveTo)(*map(xy, run))
    (pen.closePath if closed else pen.endPath)()


@every
def test_edges_are_as_long_as_two_libraries_say(name: str) -> None:
    for piece in patterns()[name].pieces:
        for edge in piece.edges:
            one = sum(s.length(error=1e-9) for part in edge.drawn for s in theirs(part))
            assert edge.length == pytest.approx(one, abs=1e-5), (piece.label, edge.name)
            two = 0.0
            for part in edge.drawn:
                pen = PerimeterPen(tolerance=1e-6)
                draw((part,), pen, closed=False)
                two += pen.value
            assert edge.length == pytest.approx(two, abs=1e-3), (piece.label, edge.name)


@every
def test_pieces_have_the_area_two_libraries_find(name: str) -> None:
    for piece in patterns()[name].pieces:
        pen = AreaPen()
        draw(piece.ring, pen, closed=True)
        assert piece.area_mm2 == pytest.approx(pen.value, abs=1e-3), piece.label
        chords = [p for curve in piece.ring for p in curve.flattened(1e-4)[:-1]]
        shape = shapely.Polygon([xy(p) for p in chords])
        assert piece.area_mm2 == pytest.approx(shape.area, abs=0.5), piece.label
        # And as many square millimetres as its chords have by the surveyor's formula.
        assert shape.area == pytest.approx(abs(polygon_area([xy(p) for p in chords])), abs=1e-3)


@every
def test_a_straight_line_across_a_piece_is_as_wide_as_shapely_finds_the_piece_there(
    name: str,
) -> None:
    seen = 0
    for piece in patterns()[name].pieces:
        shape = shapely.Polygon([xy(p) for c in piece.plain_ring for p in c.flattened(1e-3)[:-1]])
        for level in piece.levels:
            points = [p for stroke in level.strokes for p in stroke]
            if level.edges or len(points) < 2 or level.name == "upper arm line":
                continue  # from corner to corner the cap may dip under it by a hair
            way = (points[-1] - points[0]) / abs(points[-1] - points[0])
            if max(abs(((p - points[0]) / way).imag) for p in points) > 1e-4:
                continue  # a line broken at a dart's angle
            ends = points[0] - way * 2000, points[0] + way * 2000
            across = shape.intersection(shapely.LineString([xy(p) for p in ends]))
            spans = [s for s in shapely.get_parts(across) if s.distance(_middle(level)) < 1e-6]
            if len(level.strokes) > 1 or len(spans) != 1:
                continue
            assert level_length(piece, level) == pytest.approx(spans[0].length, abs=0.01), (
                piece.label, level.name,
            )  # fmt: skip
            seen += 1
    assert seen > 1


def _middle(level: Level) -> shapely.Point:
    a, b = level.strokes[0][0], level.strokes[0][-1]
    return shapely.Point(*xy((a + b) / 2))


def plain_edges(pattern: Pattern) -> list[tuple[Piece, Edge]]:
    return [
        (piece, edge)
        for piece in pattern.pieces
        for edge in piece.edges
        if not edge.mouths and edge.length > 60 and edge.name not in (piece.fold, "cap")
    ]


@pytest.mark.parametrize("mm", [6.0, -9.0])
@pytest.mark.parametrize("name", [f"{sort} {n}" for sort in SORTS[1:] for n in range(2)])
def test_an_edge_moved_all_along_lies_where_two_libraries_put_it(name: str, mm: float) -> None:
    pattern = patterns()[name]
    tried = 0
    for piece, edge in plain_edges(pattern)[::2]:
        step = ReshapeEdge(
            piece=piece.name, edge=edge.name,
            amounts=(AmountAt(corner=edge.start, distance_mm=0.0, amount_mm=mm),),
        )  # fmt: skip
        try:
            moved = apply_step(step, pattern, "one").pattern.piece(*piece.key).edge(*edge.key)
        except TrackerError:  # the test is of lines that can be drawn
            continue
        tried += 1
        (line,), (old,) = moved.drawn, edge.drawn
        drawn = shapely.LineString([xy(p) for p in line.flattened(0.002)])
        # svgpathtools: a point and its own normal, to the right; the piece lies to the left.
        spots = [
            xy(segment.point(k / 8) - segment.normal(k / 8) * mm)
            for segment in theirs(old)
            for k in range(1, 8)
        ]
        assert furthest_off(drawn, spots) < 0.05, (piece.label, edge.name)
        # Shapely: the offset of the chords, to the left for what goes into the piece.
        chords = shapely.LineString([xy(p) for p in old.flattened(0.002)])
        offset = shapely.offset_curve(chords, mm, join_style="mitre", quad_segs=64)
        spots = [tuple(p) for p in shapely.get_coordinates(shapely.segmentize(offset, 2.0))]
        assert furthest_off(drawn, spots) < 0.06, (piece.label, edge.name)
    assert tried > 1


def furthest_off(line: shapely.LineString, spots: list[tuple[float, float]]) -> float:
    """How far the spots lie from a line, those beyond its trimmed ends left out."""
    beside = [p for p in map(shapely.Point, spots) if 0.5 < line.project(p) < line.length - 0.5]
    assert len(beside) > 3
    return max(line.distance(p) for p in beside)


@pytest.mark.parametrize("mm", [6.35, 15.0])
@pytest.mark.parametrize("name", ["panelled bodice 0", "panelled bodice 1", "sleeved bodice 1"])
def test_one_allowance_all_round_is_the_offset_of_two_libraries(name: str, mm: float) -> None:
    plain = [p for p in patterns()[name].pieces if not (p.darts or p.fold)]
    assert plain
    for piece in plain:
        cut = shapely.Polygon([xy(p) for p in cutting_line(piece, Allowances(seam_mm=mm))])
        chords = [xy(p) for curve in piece.ring for p in curve.flattened(0.01)[:-1]]
        mitred = shapely.Polygon(chords).buffer(mm, join_style="mitre", mitre_limit=2.0)
        assert shapely.symmetric_difference(cut, mitred).area < 0.05, piece.label
        other = shapely.Polygon(
            [(v.x, v.y) for v in offset_vertices_2d(chords, -mm, closed=True)]
        ).buffer(0)
        assert shapely.symmetric_difference(cut, other).area < 0.3, piece.label


@pytest.mark.parametrize("name", [f"{sort} {n}" for sort in SORTS[1:] for n in range(2)])
def test_each_edge_has_its_own_allowance_square_to_it_by_another_librarys_normals(
    name: str,
) -> None:
    for piece in patterns()[name].pieces:
        wanted = Allowances(seam_mm=10.0, hem_mm=32.0)
        for k, edge in enumerate(piece.edges):
            wanted = wanted.with_own(edge.name, 8.0 + 5.0 * (k % 3), piece.name)
        ring = shapely.LinearRing([xy(p) for p in cutting_line(piece, wanted)])
        for edge in piece.edges:
            if edge.name == piece.fold:
                continue
            mm = wanted.of(piece, edge)
            for part in edge.drawn:
                reach = 0.0
                for segment, long in zip(theirs(part), part.lengths, strict=True):
                    for t in (0.2, 0.4, 0.6, 0.8):
                        along = reach + segment.length(0, t)
                        if min(along, part.length - along) < 2.2 * mm:
                            continue  # near a corner the neighbour's allowance has its say
                        # Their normal lies to the right of the line: out of the piece.
                        spot = shapely.Point(*xy(segment.point(t) + segment.normal(t) * mm))
                        assert ring.distance(spot) < 0.06, (piece.label, edge.name, t)
                    reach += long
