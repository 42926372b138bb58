"""Drawings with named lines, as a drawing program or a person writes them."""

import xml.etree.ElementTree as ElementTree

import pytest
from svgpathtools import svgstr2paths
from wardrobe import bodice

from tracker.tracing.faults import NotATracing
from tracker.tracing.making import Traced
from tracker.tracing.reading_in import text_of, traced_in
from tracker.tracing.svg_out import svg_of

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="600mm" viewBox="0 0 300 600">'

#: A skirt's half, drawn in any order and any direction, y down, with a dart in its waist.
SKIRT = f"""{HEAD}
<metadata>
pieces
piece,fold,cut
back,centre back,cut 1 on the fold
seams
seam,sewn,piece,edge
side,first,back,side
side,second,back,side
</metadata>
<g id="back">
<path id="hem" d="M240 600H0"/>
<path id="side" d="M200 5 C 220 60, 240 120, 240 200 V 600"/>
<path id="centre_back" d="M0 0 V600"/>
<path id="waist" d="M0 0 H90 M120 0 L200 5"/>
<path d="M120 0 L105 130 L90 0"><title>dart waist dart</title><desc>stand back 1 cm</desc></path>
<path d="M60 500 V200"><title>grain</title></path>
<path d="M0 200 H240"><title>line hip line</title></path>
<path d="M240 200 h-5"><title>notch hip notch</title></path>
<path d="M50 80 h2"><title>mark seat</title></path>
<path d="M7 7 L 9 9"/>
<text x="5" y="5">a remark</text>
</g>
</svg>
"""


def faults_of(text: str) -> list[str]:
    with pytest.raises(NotATracing) as fault:
        traced_in(text)
    return [f.sentence for f in fault.value.faults]


def rewritten(old: str, new: str) -> str:
    assert old in SKIRT
    return SKIRT.replace(old, new)


def traced(text: str) -> Traced:
    return traced_in(text)


def without_seams() -> str:
    seams = SKIRT[SKIRT.index("seams\n") : SKIRT.index("</metadata>")]
    return SKIRT.replace(seams, "")


def test_a_drawing_becomes_a_piece_right_way_round() -> None:
    piece = traced(without_seams()).pattern.piece("back")
    assert piece.edges[0].name in {"hem", "side"}
    assert piece.area_mm2 > 0
    assert piece.fold == "centre back"
    assert piece.cut == "cut 1 on the fold"
    assert piece.corner("side hem") == 240 - 600j
    (dart,) = piece.darts
    assert (dart.mouth, dart.pivot, dart.stand_back_mm) == ("waist", 105 - 130j, 10.0)
    assert piece.edge("waist").length == pytest.approx(90 + abs(80 + 5j), abs=1e-6)
    assert piece.grain == (60 - 500j, 60 - 200j)
    assert piece.level("hip line").strokes == ((0 - 200j, 240 - 200j),)
    (notch,) = piece.notches
    assert (notch.edge, notch.corner) == ("side", "side waist")
    assert piece.mark("seat").point == 50 - 80j


@pytest.mark.parametrize(
    ("size", "factor"),
    [
        ('width="30cm" height="60cm"', 1.0),
        ('width="150mm" height="300mm"', 0.5),
        ('width="10in" height="20in"', 25.4 / 30),
        ('width="300" height="600"', 25.4 / 96),  # CSS: 96 to the inch
        ('width="288pt" height="576pt"', 25.4 * 4 / 300),
    ],
)
def test_its_scale_is_its_size_by_its_view_box(size: str, factor: float) -> None:
    text = without_seams().replace('width="300mm" height="600mm"', size)
    was, now = (traced(t).pattern.piece("back") for t in (without_seams(), text))
    assert now.area_mm2 == pytest.approx(was.area_mm2 * factor**2, rel=1e-6)


@pytest.mark.parametrize(
    "transform",
    [
        "translate(30,-20)", "rotate(90)", "rotate(30 100 50)", "matrix(0 1 -1 0 5 6)",
        "scale(1 -1) translate(0 10)",
    ],
)  # fmt: skip
def test_transforms_move_it_and_leave_its_size(transform: str) -> None:
    text = without_seams().replace('<g id="back">', f'<g id="back" transform="{transform}">')
    was, now = (traced(t).pattern.piece("back") for t in (without_seams(), text))
    assert now.area_mm2 == pytest.approx(was.area_mm2, rel=1e-6)
    for edge in was.edges:
        assert now.edge(edge.name).length == pytest.approx(edge.length, abs=1e-5)


def test_the_encoding_a_drawing_names_makes_no_difference() -> None:
    text = f'<?xml version="1.0" encoding="ISO-8859-1"?>\n{without_seams()}'.replace(
        "seat", "größe"
    )
    piece = traced(text_of(text.encode("latin-1"))).pattern.piece("back")
    assert piece.marks[0].name == "größe"
    assert traced(text.replace("ISO-8859-1", "no-such")).pattern.piece("back") == piece


def test_paths_without_groups_name_their_piece_and_other_shapes_are_lines_too() -> None:
    text = f"""{HEAD}
    <line id="band.top" x1="0" y1="0" x2="200" y2="0"/>
    <polyline id="band.ends" points="200,0 200,40"/>
    <path id="band/lower" d="m200 40h-200"/>
    <path d="M0 40V0"><title>band: fold</title></path></svg>"""
    piece = traced(text).pattern.piece("band")
    assert piece.area_mm2 == pytest.approx(8000)
    assert {e.name for e in piece.edges} == {"top", "ends", "lower", "fold"}


def test_a_double_pointed_dart_may_be_drawn_as_one_closed_line() -> None:
    text = without_seams().replace(
        "</g>", '<path d="M150 200L160 300 150 400 140 300Z"><title>dart fish</title></path></g>'
    )
    dart = traced(text).pattern.piece("back").dart("fish")
    assert dart.double_pointed
    assert (dart.legs[0].start, dart.legs[0].end) == (150 - 200j, 150 - 400j)
    assert dart.intake_mm == pytest.approx(20)


@pytest.mark.parametrize(
    ("text", "says", "line"),
    [
        ("<svg", "this is not SVG", 1),
        ("<html></html>", "this is <html>, not <svg>", 1),
        (SKIRT.replace(' width="300mm"', ""), "does not say how large it is", 1),
        (SKIRT.replace('width="300mm"', 'width="100%"'), "does not say how large it is", 1),
        (SKIRT.replace('width="300mm"', 'width="200mm"'), "do not fit its viewBox", 1),
        (rewritten("M240 600H0", "M240 600K0"), "hem: “K” is no command", 12),
        (rewritten("M240 600H0", "M240 600"), "hem has no length", 12),
        (rewritten("M240 600H0", "M240 590H0"), "stops 10.0 mm from where the", None),
        (rewritten("M120 0 L105 130 L90 0", "M120 0 L105 130"), "from its mouth to its point", 16),
        (rewritten("M120 0 L105 130 L90 0", "M150 0 L105 130 L20 0"), "where no dart has", 15),
        (rewritten("stand back 1 cm", "stand back far"), "is not a length", 16),
        (rewritten("M240 200 h-5", "M200 200 h-5"), "mm off the side", 19),
        (rewritten('id="back"', 'id="back" transform="spin(3)"'), "“spin(3)” cannot be read", 11),
        (rewritten('<g id="back">', "<g>"), "is in no named group", 12),
        (rewritten("back,centre back,cut", "back,centre bak,cut"), "Did you mean centre back", 5),
        (f"{HEAD}<g id='a'></g></svg>", "no named path", 1),
        (
            "<!DOCTYPE svg [<!ENTITY a 'aaaa'>]><svg>&a;</svg>",
            "it declares entities", 1,
        ),
    ],
)  # fmt: skip
def test_every_fault_of_a_drawing_is_told_with_its_line(
    text: str, says: str, line: int | None
) -> None:
    told = faults_of(text)
    found = [t for t in told if says in t]
    assert found, told
    assert line is None or found[0].startswith(f"line {line}: "), found


def test_what_we_write_is_svg_that_others_read_at_the_same_size() -> None:
    pattern = bodice()
    text = svg_of(pattern, "a <title> & more")
    root = ElementTree.fromstring(text)
    assert root.attrib["width"].endswith("mm")
    assert root.find("{http://www.w3.org/2000/svg}title").text == "a <title> & more"
    # svgpathtools measures the paths in the units of the view box, which are millimetres.
    lengths = sorted(round(p.length(), 2) for p in svgstr2paths(text)[0])
    edges = [e for piece in pattern.pieces for e in piece.edges]
    for edge in edges:
        assert any(abs(length - edge.length) < 0.02 for length in lengths), edge.name
