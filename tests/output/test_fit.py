"""What is checked of a print: cutting lines, labels that stand clear, estimated values named."""

from dataclasses import replace

import pytest
from wardrobe import bodice

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.cut_a_band import CutBand
from tracker.alterations.kinds.cut_a_stand_collar import CutStandCollar
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.tracing import EdgeOf
from tracker.geometry.area import polygon
from tracker.geometry.curve import Curve
from tracker.output.drawing import Look, draw_piece
from tracker.output.fit import fit_to_print
from tracker.output.label import label_of, label_words, short_label_words
from tracker.output.order import PrintOrder
from tracker.output.pen import RecordingPen
from tracker.output.title import title_words
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def faced(width_mm: float = 60.0) -> Pattern:
    edges = (EdgeOf(piece="front", edge="neckline"),)
    facing = TraceFacing(name="front facing", edges=edges, width_mm=width_mm)
    waist = (EdgeOf(piece="front", edge="waist"), EdgeOf(piece="back", edge="waist"))
    block = apply_step(facing, bodice(), "one").pattern
    block = apply_step(CutBand(name="band", edges=waist), block, "two").pattern
    return apply_step(CutStandCollar(name="collar"), block, "three").pattern


def order(pattern: Pattern, **changed: object) -> PrintOrder:
    plain = PrintOrder(
        pattern=pattern, client_code="mara", address="bodice@3", standing="for a test garment",
        day="5 March 2026",
    )  # fmt: skip
    return replace(plain, **changed)


def test_a_faced_bodice_fits_to_print_with_a_figure_for_each_piece() -> None:
    checked = fit_to_print(order(faced()))
    assert checked.clean
    names = {"the front", "the back", "the front facing", "the band", "the collar"}
    for code in ("cutting line", "label"):
        assert {
            w.removeprefix(f"{code}: ") for w, _ in checked.figures if w.startswith(f"{code}:")
        } == names
    assert ("cutting line: the front", "0.0 mm") in checked.figures


@pytest.mark.parametrize("name", ["front", "front facing", "collar", "band"])
def test_a_label_stands_inside_its_piece_whichever_way_it_is_turned(name: str) -> None:
    import shapely
    from shapely import affinity

    asked = order(faced(50.0), test_garment=True, estimated=("back width", "arm length"))
    piece = asked.pattern.piece(name)
    label = label_of(piece, asked, Look(allowances=asked.added, levels=True))
    assert label.scale > 0
    wide, high = label.block.width_mm / 2, label.block.height_mm / 2
    box = affinity.rotate(shapely.box(-wide, -high, wide, high), label.angle_deg, origin=(0, 0))
    box = affinity.translate(box, label.middle.real, label.middle.imag)
    assert box.within(polygon(piece.plain_ring))


def sliver() -> Piece:
    """A strip 9 mm wide: no letters fit on it."""
    a, b, c, d = 0j, 60 + 0j, 60 + 9j, 9j
    corners = ("a", "b", "c", "d")
    lines = zip(corners, (*corners[1:], "a"), (a, b, c, d), (b, c, d, a), strict=True)
    edges = tuple(Edge(f"{s}{e}", BodySide.BOTH, s, e, (Curve.line(p, q),)) for s, e, p, q in lines)
    return Piece("strap", BodySide.BOTH, edges)


def test_a_label_that_fits_nowhere_is_found() -> None:
    checked = fit_to_print(order(Pattern((sliver(),))))
    (finding,) = checked.findings
    assert (finding.code, finding.place) == ("label", "the strap")
    assert "write the piece's name on it by hand" in finding.remedy


def test_fold_lines_and_centre_lines_are_drawn_on_every_print() -> None:
    band = faced().piece("band")
    pen = RecordingPen()
    draw_piece(band, pen, Look(levels=False))
    assert any("fold line" in repr(stroke) for stroke in pen.strokes)


def test_the_notches_of_a_band_say_what_meets_them() -> None:
    pen = RecordingPen()
    draw_piece(faced().piece("band"), pen, Look())
    told = repr(pen.strokes)
    for name in ("centre front", "right side", "left side"):
        assert name in told


def words(piece: Piece, asked: PrintOrder) -> str:
    return " / ".join(w.text for w in label_words(piece, asked))


def test_an_estimated_arm_is_marked_on_the_sleeve_alone_and_a_body_on_every_piece() -> None:
    block = faced()
    sleeve = replace(block.piece("back"), name="sleeve")
    block = replace(block, pieces=(*block.pieces, sleeve))
    arm = (("sleeve", ("upper arm girth",)),)
    asked = order(block, estimated=("back width",), estimated_of=arm)
    assert "estimated, not measured: back width / " in words(block.piece("front"), asked)
    assert "not measured: back width, upper arm girth" in words(block.piece("sleeve"), asked)
    assert "upper arm" not in words(block.piece("front facing"), asked)
    title = " ".join(w.text for w in title_words(asked))
    assert "Estimated, not measured: back width, upper arm girth." in title
    short = " / ".join(w.text for w in short_label_words(block.piece("sleeve"), asked))
    assert "2 estimated, not measured" in short


def test_a_cuff_of_a_sleeve_from_an_estimated_arm_is_marked_too() -> None:
    block = bodice()
    sleeve = replace(block.piece("back"), name="sleeve")
    block = replace(block, pieces=(*block.pieces, sleeve))
    cuff = CutBand(name="cuff", edges=(EdgeOf(piece="sleeve", edge="waist"),))
    block = apply_step(cuff, block, "cuff").pattern
    asked = order(block, estimated_of=(("sleeve", ("wrist girth",)),))
    assert "not measured: wrist girth" in words(block.piece("cuff"), asked)


def test_pieces_kept_back_are_named_on_the_title() -> None:
    title = " ".join(w.text for w in title_words(order(faced(), kept_back=("front facing",))))
    assert "Out of date, so not printed: front facing." in title
