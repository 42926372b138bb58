"""DXF on the layers of ASTM D6673 (ANSI/AAMA 292): written, and read whoever wrote it.

Layers by the standard's table; the words of its text labels are from memory. ezdxf, a library
for DXF of any sort, reads and writes beside us.
"""

import io
from typing import Any

import ezdxf
import pytest
from ezdxf import units
from sleeved import sleeved
from tracings import assert_alike, patterns

from tracker.geometry.area import polygon
from tracker.history.replay import furthest_apart
from tracker.tracing.dxf_out import dxf_of
from tracker.tracing.faults import NotATracing
from tracker.tracing.reading_in import traced_in


def opened(text: str) -> Any:
    return ezdxf.read(io.StringIO(text))


@pytest.mark.parametrize("name", ["with a sleeve", "with a fish dart", "right and left apart"])
def test_what_is_written_reads_back_as_the_same_pieces(name: str) -> None:
    pattern = patterns()[name]
    again = traced_in(dxf_of(pattern, name)).pattern
    assert furthest_apart(pattern, again)[0] <= 0.1
    assert [p.key for p in again.pieces] == [p.key for p in pattern.pieces]
    for one, other in zip(pattern.pieces, again.pieces, strict=True):
        assert_alike(one, other, 0.1)


def test_a_block_a_piece_and_everything_on_the_layer_of_the_standard() -> None:
    pattern = sleeved()
    doc = opened(dxf_of(pattern, "mara/bodice@3"))
    assert not doc.audit().errors
    assert doc.units == units.MM
    inserted = {entity.dxf.name for entity in doc.modelspace().query("INSERT")}
    assert inserted == {"front", "back", "sleeve"}
    texts = [t.dxf.text for t in doc.modelspace().query("TEXT")]
    assert "Units: METRIC" in texts
    for piece in pattern.pieces:
        block = doc.blocks.get(piece.label)
        layers: dict[str, set[str]] = {}
        for entity in block:
            layers.setdefault(entity.dxf.layer, set()).add(entity.dxftype())
        assert layers["1"] == {"POLYLINE", "TEXT"}
        assert layers["2"] == layers["3"] == layers["4"] == {"POINT"}
        assert ("6" in layers) == (piece.fold is not None)
        assert "7" in layers
        assert set(layers) <= {"1", "2", "3", "4", "6", "7", "8", "13", "15"}
        (boundary,) = [e for e in block.query("POLYLINE") if e.dxf.layer == "1"]
        assert boundary.is_closed
        spots = [(p.x, p.y) for p in boundary.points()]
        from shapely import Polygon

        assert Polygon(spots).buffer(0).area == pytest.approx(
            polygon(piece.plain_ring).area, rel=0.01
        )
        corners = [e.dxf.location for e in block.query("POINT") if e.dxf.layer in ("2", "3")]
        assert len(corners) == len(spots)


def made_elsewhere(*, inches: bool = False, said: bool = True) -> str:
    """A yoke another program might write: no words of ours, inches if wanted."""
    doc = ezdxf.new("R12")
    per = 25.4 if inches else 1.0
    block = doc.blocks.new("YOKE")

    def spot(x: float, y: float) -> tuple[float, float]:
        return x / per, y / per

    curve = [(300 - 10 * k, 100 + 0.004 * (10 * k) * (300 - 10 * k)) for k in range(1, 30)]
    outline = [(0, 0), (300, 0), (300, 100), *curve, (0, 100)]
    points = [spot(*p) for p in outline]
    block.add_polyline2d(points, close=True, dxfattribs={"layer": "1"})
    for p in outline[:3] + outline[-1:]:
        block.add_point(spot(*p), dxfattribs={"layer": "2"})
    for p in curve:
        block.add_point(spot(*p), dxfattribs={"layer": "3"})
    block.add_line(spot(0, 0), spot(0, 100), dxfattribs={"layer": "6"})
    block.add_line(spot(150, 80), spot(150, 20), dxfattribs={"layer": "7"})
    block.add_point(spot(300, 40), dxfattribs={"layer": "4"})
    block.add_line(spot(0, 50), spot(300, 50), dxfattribs={"layer": "8"})
    if said:
        doc.modelspace().add_text(f"UNITS: {'ENGLISH' if inches else 'METRIC'}")
    doc.modelspace().add_blockref("YOKE", (0, 0))
    out = io.StringIO()
    doc.write(out)
    return out.getvalue()


@pytest.mark.parametrize("inches", [False, True])
def test_a_piece_written_elsewhere_is_read_with_edges_from_corner_to_corner(inches: bool) -> None:
    traced = traced_in(made_elsewhere(inches=inches))
    piece = traced.pattern.piece("YOKE")
    assert [e.name for e in piece.edges] == ["edge 1", "edge 2", "edge 3", "edge 4"]
    # A parabola of height h over a chord c adds two thirds of c·h (Archimedes).
    assert piece.area_mm2 == pytest.approx(300 * 100 + 2 / 3 * 300 * 90, rel=1e-4)
    assert piece.fold == "edge 4"
    assert piece.grain == pytest.approx((150 + 20j, 150 + 80j))
    assert piece.notches[0].edge == "edge 2"
    assert len(piece.levels) == 1
    assert any("gives no sewing line" in note for note in traced.notes)
    assert any("edges have no names" in note for note in traced.notes)
    assert traced.furthest_mm < 0.3


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (made_elsewhere(said=False), "does not say its unit"),
        ("0\nSECTION\n2\nHEADER\n", "no DXF that can be read"),
        ("0\nSECTION\n2\nENTITIES\n0\nPOINT\nten\n", "no DXF that can be read"),
        (made_elsewhere()[:900], "no DXF that can be read"),
        (made_elsewhere().replace("YOKE", "YOKE\n 70\ninf", 1), "no DXF that can be read"),
        (
            dxf_of(sleeved(), "x").replace("body side both", "body side bth", 1),
            "“bth” is no body side; it is both, right, left, centre",
        ),
    ],
)
def test_what_cannot_be_read_is_told(text: str, says: str) -> None:
    with pytest.raises(NotATracing) as fault:
        traced_in(text)
    assert says in fault.value.sentence


def test_a_drawing_without_pieces_is_told() -> None:
    doc = ezdxf.new("R2000")
    doc.units = units.MM
    doc.modelspace().add_line((0, 0), (1, 1))
    out = io.StringIO()
    doc.write(out)
    with pytest.raises(NotATracing) as fault:
        traced_in(out.getvalue())
    assert "a piece is a block with its outline on layer 1" in fault.value.sentence
