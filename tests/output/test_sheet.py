"""The large sheet, measured from the PDF's own coordinates with general-purpose PDF readers."""

import functools
import io
import itertools
from dataclasses import replace

import pdfplumber
import pytest
import shapely
from wardrobe import bodice, paper

from tracker.geometry.transform import Motion
from tracker.output import sheet
from tracker.output.order import CannotPrint, NotACorrection
from tracker.output.pen import CUTTING, FOLD, NOTCH, SEWING
from tracker.output.sheet import MARGIN_MM, large_svg
from tracker.pattern.bodyside import BodySide
from tracker.pattern.walk import side_lengths
from tracker.units import Unit

MM = 25.4 / 72
# The same orders come up in many tests; each is laid out once.
large_sheet = functools.cache(sheet.large_sheet)
compose = functools.cache(sheet.compose)


def pages(pdf):
    return pdfplumber.open(io.BytesIO(pdf)).pages


def of_style(paths, style):
    return [
        p
        for p in paths
        if p.dash_mm == style.dash_mm
        and p.weight_mm == pytest.approx(style.weight_mm, abs=0.002)
        and p.filled == style.filled
    ]


def squares(paths, side_mm):
    """Closed paths of four equal sides; their sides in millimetres."""
    out = []
    for path in paths:
        points = [path.chain.start, *(run[-1] for run in path.chain.runs)]
        sides = [abs(b - a) for a, b in itertools.pairwise(points)]
        if len(sides) == 4 and all(abs(s - side_mm) < 1 for s in sides):
            out.append(sides)
    return out


def test_the_page_is_just_large_enough_for_what_is_on_it(order):
    (page,) = pages(large_sheet(order))
    laid = compose(order)
    assert float(page.width) * MM == pytest.approx(laid.width_mm, abs=0.01)
    assert float(page.height) * MM == pytest.approx(laid.height_mm, abs=0.01)
    ink = [o for kind in ("lines", "curves", "rects") for o in getattr(page, kind)]
    low = min(o["x0"] for o in ink) * MM, min(o["top"] for o in ink) * MM
    high = max(o["x1"] for o in ink) * MM, max(o["bottom"] for o in ink) * MM
    # The margin is white, and no more than the margin; Bézier boxes may be taken by handles.
    assert low == pytest.approx((MARGIN_MM, MARGIN_MM), abs=3)
    assert high[0] == pytest.approx(laid.width_mm - MARGIN_MM, abs=3)
    assert high[1] == pytest.approx(laid.height_mm - MARGIN_MM, abs=3)


def test_both_test_squares_measure_what_they_say(order, read_paths):
    paths = read_paths(large_sheet(order))
    for side, name in ((100.0, "100 mm"), (101.6, "4 in")):  # 1 in = 25.4 mm exactly
        found = [s for s in squares(paths, side) if s[0] == pytest.approx(side, abs=0.2)]
        assert len(found) == 1, name
        assert found[0] == pytest.approx([side] * 4, abs=0.01)


def test_another_reader_finds_the_same_test_square(order):
    (page,) = pages(large_sheet(order))
    boxes = [
        ((o["x1"] - o["x0"]) * MM, (o["bottom"] - o["top"]) * MM) for o in page.rects + page.curves
    ]
    found = [box for box in boxes if box == pytest.approx((100.0, 100.0), abs=0.05)]
    assert len(found) == 1


@pytest.mark.parametrize("test_garment", [False, True])
def test_every_edge_on_the_paper_is_as_long_as_in_the_pattern(order, read_paths, test_garment):
    order = replace(order, test_garment=test_garment)
    paths = read_paths(large_sheet(order))
    for placed in compose(order).placed:
        for edge in placed.piece.edges:
            style = FOLD if edge.name == placed.piece.fold else SEWING
            found = 0.0
            for part in edge.parts:
                ends = placed.motion.of(part.start), placed.motion.of(part.end)
                (line,) = [
                    p.chain
                    for p in of_style(paths, style)
                    if abs(p.chain.start - ends[0]) < 0.01 and abs(p.chain.end - ends[1]) < 0.01
                ]
                found += line.length
            assert found == pytest.approx(edge.length, abs=0.05), (placed.piece.name, edge.name)


def test_seams_on_the_paper_have_the_planned_ease(order, read_paths):
    paths = of_style(read_paths(large_sheet(order)), SEWING)
    laid = compose(order)
    motions = {p.piece.name: p.motion for p in laid.placed}
    for seam in order.pattern.seams:
        if seam.on_itself:
            continue
        lengths = []
        for side in (seam.first, seam.second):
            length = 0.0
            for run in side:
                for part in order.pattern.edge_of(run).parts:
                    start = motions[run.piece].of(part.start)
                    end = motions[run.piece].of(part.end)
                    length += next(
                        p.chain.length
                        for p in paths
                        if abs(p.chain.start - start) < 0.01 and abs(p.chain.end - end) < 0.01
                    )
            lengths.append(length)
        assert lengths == pytest.approx(side_lengths(order.pattern, seam), abs=0.05)


@pytest.mark.parametrize(
    ("unit", "test_garment", "mm"),
    [(Unit.CM, False, 15.0), (Unit.INCH, False, 15.875), (Unit.CM, True, 25.0)],
)
def test_the_cutting_line_on_the_paper_keeps_the_allowance(
    order, read_paths, unit, test_garment, mm
):
    order = replace(order, unit=unit, test_garment=test_garment)
    paths = read_paths(large_sheet(order))
    cuts = [p for p in of_style(paths, CUTTING) if p.chain.length > 100]  # not the key's sample
    assert len(cuts) == 2
    lines = shapely.union_all(
        [shapely.LineString([(p.real, p.imag) for p in c.chain.flattened(0.01)]) for c in cuts]
    )
    fold_x = next(p.chain.start.real for p in of_style(paths, FOLD))
    measured = 0
    for path in of_style(paths, SEWING):
        chain = path.chain
        if chain.length < 60:
            continue
        point = chain.point_at(chain.length / 2)
        away = lines.distance(shapely.Point(point.real, point.imag))
        if away > mm + 5 or abs(point.real - fold_x) < 2 * mm:
            continue  # the legs of a dart, deep in the piece
        assert away == pytest.approx(mm, abs=0.05)
        measured += 1
    assert measured >= 9


def test_notches_run_square_from_the_sewing_line_to_the_cutting_line(order, read_paths):
    paths = read_paths(large_sheet(order))
    notches = of_style(paths, NOTCH)
    assert len([n for n in notches if n.chain.length == pytest.approx(15, abs=0.01)]) >= 5
    for placed in compose(order).placed:
        for notch in placed.piece.notches:
            edge = placed.piece.edge(notch.edge, notch.side)
            feet = []
            for path in notches:
                foot = path.chain.start
                back = Motion.move(-placed.motion.shift).of(foot)
                along, gap = edge.nearest(back)
                if gap < 0.01:
                    heading = edge.heading_at(along)
                    assert abs((path.chain.end_heading / heading).real) < 1e-3
                    feet.append(along)
            assert len(feet) == notch.count
            middle = sum(feet) / len(feet)
            wanted = notch.distance_mm
            if notch.corner == edge.end:
                wanted = edge.length - wanted
            assert middle == pytest.approx(wanted, abs=0.02)


def test_pieces_do_not_overlap(order):
    rings = [
        shapely.Polygon([(p.real, p.imag) for p in placed.cutting])
        for placed in compose(order).placed
    ]
    for one, other in itertools.combinations(rings, 2):
        assert one.distance(other) > 5


def test_the_words_of_a_piece_cover_none_of_its_lines(order):
    (page,) = pages(large_sheet(replace(order, test_garment=True)))
    words = page.extract_words()
    assert {"FRONT", "BACK"} <= {w["text"] for w in words}
    laid = compose(replace(order, test_garment=True))
    for placed in laid.placed:
        darts = [
            shapely.LineString(
                [(q.real, q.imag) for q in map(placed.motion.of, leg.flattened(0.1))]
            )
            for dart in placed.piece.darts
            for leg in dart.legs
        ]
        legs = shapely.union_all(darts)
        for word in words:
            if word["bottom"] - word["top"] < 3.5 / MM:
                continue
            low = laid.height_mm - word["bottom"] * MM
            box = shapely.box(
                word["x0"] * MM, low, word["x1"] * MM, laid.height_mm - word["top"] * MM
            )
            assert not box.intersects(legs), word["text"]


def test_every_piece_says_what_it_is(order):
    order = replace(
        order, estimated=("armhole depth", "across back", "side length", "hip depth", "arm length")
    )
    text = pages(large_sheet(order))[0].extract_text()
    for wanted in (
        "FRONT", "BACK", "cut 1 on the fold", "cut 2, a pair", "for a test garment",
        "25 November 2026",
    ):  # fmt: skip
        assert wanted in text
    flat = " ".join(text.split())
    assert flat.count("A-017 bodice@3") == 3  # two pieces and the title
    assert flat.count("starting point for a") == 3
    assert "and 1 more, listed on the first sheet" in flat
    assert "hip depth, arm length" in flat


def test_a_piece_for_one_side_of_the_body_says_whose_and_which_way_up(order):
    left = replace(bodice().piece("back"), side=BodySide.LEFT)
    left = replace(
        left,
        edges=tuple(replace(e, side=BodySide.LEFT) for e in left.edges),
        darts=tuple(replace(d, side=BodySide.LEFT) for d in left.darts),
        notches=tuple(replace(n, side=BodySide.LEFT) for n in left.notches),
        levels=tuple(replace(v, side=BodySide.LEFT) for v in left.levels),
    )
    order = replace(order, pattern=replace(bodice(), pieces=(left,), seams=()))
    flat = " ".join(pages(large_sheet(order))[0].extract_text().split())
    assert "LEFT BACK" in flat
    assert "WEARER'S LEFT" in flat
    assert "CUT 1, RIGHT SIDE UP" in flat
    assert "a pair" not in flat


def test_letters_of_other_alphabets_arrive_whole(order):
    order = replace(order, client_code="Zoë Łukasz ½ Ελένη Дарья")
    assert "Zoë Łukasz ½ Ελένη Дарья" in pages(large_sheet(order))[0].extract_text()


def test_a_printer_that_prints_small_is_made_up_for(order, read_paths):
    paths = read_paths(large_sheet(replace(order, printed_square_mm=(98.0, 99.0))))
    (sides,) = [s for s in squares(paths, 102) if s[0] == pytest.approx(100 / 0.98, abs=0.1)]
    # Sides in turn: across, up, across, up. Printed small again they are 100 mm.
    assert [sides[0] * 0.98, sides[1] * 0.99] == pytest.approx([100, 100], abs=0.01)


@pytest.mark.parametrize("measured", [50.0, 126.0])
def test_a_square_no_printer_makes_is_refused(order, measured):
    with pytest.raises(NotACorrection, match="100 %"):
        replace(order, printed_square_mm=(measured, 100.0))


def test_a_pattern_without_outlines_is_sent_to_its_marking_up_sheet(order):
    with pytest.raises(CannotPrint, match="marking-up sheet"):
        large_sheet(replace(order, pattern=paper()))


def test_the_same_order_gives_the_same_bytes(order):
    assert sheet.large_sheet(order) == sheet.large_sheet(order)


def test_nobody_is_named_in_the_file(order):
    meta = pdfplumber.open(io.BytesIO(large_sheet(order))).metadata
    assert meta["Title"] == "A-017 bodice@3"
    assert not meta["Author"]


def test_the_svg_is_in_millimetres(order):
    svg = large_svg(order)
    laid = compose(order)
    assert f'width="{laid.width_mm:.3f}'.rstrip("0") in svg
    assert "<title>A-017 bodice@3</title>" in svg
