"""Files as makers write them: what they become, and what is said of what is wrong."""

import csv
import io
import json
import re

import pytest
from altering import A_THIRD
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import corner_angle, girth
from tracker.resources import shipped
from tracker.tracing.faults import NotATracing
from tracker.tracing.layout import TABLES, described
from tracker.tracing.reading_in import text_of, traced_in

EXAMPLE = (shipped("templates") / "tracing-example.csv").read_text("utf-8")

SKIRT = """units,cm
points
piece,edge,point,x,y,kind,name
back,centre back,1,0,60,corner,
back,hem,1,0,0,corner,
back,side,1,24,0,corner,
back,side,2,24,20,curve,
back,side,3,24,40,curve,
back,side,4,23.7,45,curve,
back,side,5,22.6,52,curve,
back,side,6,20.95,58,curve,
back,waist,1,20,61,corner,
back,waist,2,14,60.2,mouth,waist dart
back,waist,3,11,60.1,mouth,waist dart
back,waist,4,6,60,curve,
darts
piece,dart,x,y,stand back,pressed
back,waist dart,12.5,48,,
"""


def rewritten(old: str, new: str, text: str = SKIRT) -> str:
    assert old in text
    return text.replace(old, new, 1)


def faults_of(text: str) -> list[str]:
    with pytest.raises(NotATracing) as fault:
        traced_in(text)
    return [f.sentence for f in fault.value.faults]


def line_of(text: str, words: str) -> int:
    return next(k for k, line in enumerate(text.splitlines(), 1) if words in line)


def test_the_example_reads_as_a_bodice_that_hangs_together() -> None:
    traced = traced_in(EXAMPLE)
    assert [p.label for p in traced.pattern.pieces] == ["front", "back"]
    assert traced.furthest_mm <= 0.3
    assert not traced.notes
    assert all(s.agrees for s in traced.seams)
    codes = {f.code for f in check(traced.pattern).findings}
    assert codes <= {"joins", "fold", "folded edge"}  # readings to half a millimetre
    front = traced.pattern.piece("front")
    assert front.fold == "centre front"
    assert front.corner("underarm point") == pytest.approx(57.5 + 243.5j)
    assert [d.name for d in front.darts] == ["bust dart", "waist dart"]
    assert girth(traced.pattern, "bust line") == pytest.approx(970, abs=3)
    shoulder = traced.pattern.seam("shoulder")
    assert shoulder.ease[0].amount_mm == 6.0
    assert shoulder.second[0].backward
    side = traced.pattern.seam("side")
    assert [(m.first, m.second) for m in side.matches] == [("side notch", "side notch")]
    assert traced.pattern.seam("centre back").side is BodySide.CENTRE


def test_corners_written_once_or_with_both_edges_are_the_same_outline() -> None:
    once = traced_in(SKIRT)
    twice = SKIRT
    for row, last in (
        ("back,hem,1", "back,centre back,2,0,0,corner,"),
        ("back,side,1", "back,hem,2,24,0,corner,"),
        ("back,waist,1", "back,side,9,20,61,corner,"),
        ("darts", "back,waist,5,0,60,corner,"),
    ):
        twice = rewritten(f"\n{row}", f"\n{last}\n{row}", twice)
    assert traced_in(twice).pattern == once.pattern


def test_edges_in_any_order_and_either_direction_are_the_same_outline() -> None:
    rows = {
        "centre back": ["0,60", "0,0"],
        "side": ["24,60", "24,0"],
        "hem": ["0,0", "24,0"],
        "waist": ["24,60", "0,60"],
    }
    head = "units,cm\npiece,edge,x,y\n"
    body = [f"back,{edge},{xy}" for edge, spots in rows.items() for xy in spots]
    one = traced_in(head + "\n".join(body)).pattern.piece("back")
    assert one.area_mm2 == pytest.approx(240 * 600)
    turned = [f"back,{edge},{xy}" for edge, spots in reversed(rows.items()) for xy in spots]
    other = traced_in(head + "\n".join(turned)).pattern.piece("back")
    assert other.area_mm2 == pytest.approx(240 * 600)
    assert {e.name: {e.start, e.end} for e in other.edges} == {
        e.name: {e.start, e.end} for e in one.edges
    }


def test_corners_get_the_trades_names_and_the_makers_own_where_she_gave_one() -> None:
    piece = traced_in(SKIRT).pattern.piece("back")
    assert piece.corners == (
        "centre back waist", "centre back hem", "side hem", "side waist",
    )  # fmt: skip
    own = rewritten("back,waist,1,20,61,corner,", "back,waist,1,20,61,corner,hip bone")
    assert traced_in(own).pattern.piece("back").corners[3] == "hip bone"


@pytest.mark.parametrize(
    ("unit", "per"), [("mm", 10.0), ("cm", 1.0), ("inch", 1 / 2.54), ("IN", 1 / 2.54)]
)
def test_the_unit_at_the_head_is_the_unit_of_every_length(unit: str, per: float) -> None:
    def scaled(found: re.Match[str]) -> str:
        return f"{float(found[0]) * per:.6f}"

    head, body = SKIRT.split("\n", 1)
    rows = [
        ",".join(
            re.sub(r"^-?[\d.]+$", scaled, c)
            if k in (3, 4) or (k == 2 and "dart" in line[:16])
            else c
            for k, c in enumerate(line.split(","))
        )
        for line in body.split("\n")
    ]
    assert head == "units,cm"
    other = traced_in("\n".join([f"units,{unit}", *rows])).pattern.piece("back")
    piece = traced_in(SKIRT).pattern.piece("back")
    assert other.area_mm2 == pytest.approx(piece.area_mm2, rel=1e-5)


def test_inches_with_fractions_and_a_unit_in_the_heading_are_read() -> None:
    text = (
        "piece,edge,x (in),y (in)\n"
        "band,top,0,2 1/2\nband,end,0,0\nband,bottom,10 1/4,0\nband,front,10.25,2½\n"
    )
    piece = traced_in(text).pattern.piece("band")
    assert piece.area_mm2 == pytest.approx(10.25 * 2.5 * 25.4**2)
    cell = traced_in(text.replace("10.25", "260.35 mm")).pattern.piece("band")
    assert cell.area_mm2 == pytest.approx(piece.area_mm2)


def test_what_spreadsheets_write_is_read() -> None:
    plain = traced_in(SKIRT).pattern
    semicolons = SKIRT.replace(",", ";").replace(".", ",")
    tabs = SKIRT.replace(",", "\t")
    padded = "\r\n".join(line + "," * (7 - line.count(",")) for line in SKIRT.splitlines())
    remarks = SKIRT.replace("points\n", "# a remark, with commas\npoints\n").replace("\n", "\n\n")
    for text in (semicolons, tabs, padded, remarks):
        assert traced_in(text).pattern == plain
    for content in (
        b"\xef\xbb\xbf" + SKIRT.encode(), SKIRT.encode("utf-16"),
        SKIRT.replace("20,61", "20½,61").encode("cp1252"),
    ):  # fmt: skip
        assert traced_in(text_of(content)).pattern.pieces[0].name == "back"


def test_the_same_tables_as_json_are_the_same_pattern() -> None:
    tables: dict[str, list[dict[str, str]]] = {}
    name, heads = "", []
    for row in csv.reader(io.StringIO(EXAMPLE)):
        if not row or row[0].startswith("#"):
            continue
        if len(row) == 1:
            name, heads = row[0], []
        elif row[0] == "units":
            continue
        elif not heads:
            heads = row
        else:
            cells = dict(zip(heads, row, strict=True))
            tables.setdefault(name, []).append(
                {k: float(v) if k in "xy" and v else v for k, v in cells.items()}
            )
    text = json.dumps({"units": "cm", **tables}, indent=1)
    assert traced_in(text).pattern == traced_in(EXAMPLE).pattern


def test_a_piece_that_lay_as_the_left_half_is_turned_over() -> None:
    pieces = "pieces\npiece,half\nback,left\npoints\n"
    right = traced_in(SKIRT).pattern.piece("back")
    left = traced_in(rewritten("points\n", pieces)).pattern.piece("back")
    assert left.area_mm2 == pytest.approx(right.area_mm2)
    assert left.corner("side hem") == pytest.approx(-240 + 0j)


def test_dart_legs_are_made_equal_and_the_mouth_moves_along_them() -> None:
    traced = traced_in(rewritten("14,60.2,mouth", "14,60.3,mouth"))
    (dart,) = traced.pattern.piece("back").darts
    assert dart.legs[0].length == pytest.approx(dart.legs[1].length, abs=1e-5)
    assert any("were made" in note for note in traced.notes)
    assert dart.pivot == 125 + 480j
    assert dart.pressed == "to the centre"


def test_a_line_ends_on_the_outline_and_is_broken_by_a_dart() -> None:
    hips = "lines\npiece,line,x,y\nback,high hip,0.1,55\nback,high hip,21.8,55\n"
    piece = traced_in(SKIRT + hips).pattern.piece("back")
    one, two = piece.level("high hip").strokes
    assert one[0] == pytest.approx(550j)
    for stroke, end in ((one, -1), (two, 0)):
        assert min(leg.nearest(stroke[end])[1] for leg in piece.darts[0].legs) < 1e-4
    assert piece.edge("side").nearest(two[-1])[1] < 1e-4


def test_notches_are_put_where_they_were_seen() -> None:
    seen = "notches\npiece,notch,edge,x,y\nback,hip notch,side,24.1,40\n"
    (notch,) = traced_in(SKIRT + seen).pattern.piece("back").notches
    assert notch.corner == "side waist"
    piece = traced_in(SKIRT).pattern.piece("back")
    assert piece.edge("side").length - notch.distance_mm == pytest.approx(400, abs=0.5)


def test_a_double_pointed_dart_is_told_by_two_points_and_its_width() -> None:
    fish = (
        "fish dart,12,30\n", "legs\npiece,dart,leg,x,y\nback,fish dart,1,11,38\n"
        "back,fish dart,2,13,38\n",
    )  # fmt: skip
    text = f"{SKIRT}back,fish dart,12,46,,\nback,{fish[0].strip()},,\n{fish[1]}"
    dart = traced_in(text).pattern.piece("back").dart("fish dart")
    assert dart.double_pointed
    assert dart.pivot == 120 + 460j
    assert dart.intake_mm == pytest.approx(20, abs=0.5)


def test_how_near_the_lines_came_and_how_the_tape_agrees_is_told() -> None:
    text = f"{SKIRT}edges\npiece,edge,length\nback,side,61.4\nback,hem,24.9\n"
    traced = traced_in(text)
    fits = {e.edge: e for e in traced.edges}
    assert fits["side"].points == 7
    assert 0 < fits["side"].furthest_mm <= 0.3
    assert fits["hem"].furthest_mm == 0
    assert [n for n in traced.notes if "by the tape" in n] == [
        "back, hem: 240.0 mm through its points and 249.0 mm by the tape; one of them is 9.0 mm out"
    ]


def test_a_mistyped_point_is_pointed_at() -> None:
    text = rewritten("back,side,4,23.7,45", "back,side,4,26.3,45")
    (note,) = [n for n in traced_in(text).notes if "neighbours" in n]
    assert f"point 4 (line {line_of(text, '26.3')})" in note


def test_seams_whose_sides_differ_are_told() -> None:
    front = SKIRT.split("points\n")[1].split("darts")[0].replace("back,", "front,")
    front = "\n".join(front.splitlines()[1:]).replace("centre back", "centre front")
    front = front.replace("24,0", "24,-1").replace("mouth,waist dart", "curve,")
    seam = "seams\nseam,sewn,piece,edge\nside,first,back,side\nside,second,front,side\n"
    traced = traced_in(rewritten("darts\n", f"{front}\ndarts\n") + seam)
    (sides,) = traced.seams
    assert not sides.agrees
    assert sides.second_mm - sides.first_mm == pytest.approx(10, abs=0.2)
    # Both were traced with the side to the right: one lies as her left half.
    assert any("and was turned over" in note for note in traced.notes)
    assert traced.pattern.piece("front").corner("side hem").real < 0
    # Said to lie as her right half it stays, and the seam shows that it cannot.
    kept = rewritten("points\n", "pieces\npiece,half\nfront,right\npoints\n")
    traced = traced_in(kept.replace("darts\n", f"{front}\ndarts\n") + seam)
    assert any("different sides of the cloth up" in note for note in traced.notes)
    assert not any("was turned over" in note for note in traced.notes)


PAPER = """units,cm
pieces
piece,fold,cut
front,centre front,cut 1 on the fold
back,,
edges
piece,edge,from,to,length
front,centre front,centre front waist,centre front neck,34.5
front,neckline,,neck point,
front,shoulder,,,12.3
front,armhole,,,
front,side,,,20.5
front,waist,,,
back,side,side waist,underarm point,20.7
back,armhole,,,
back,shoulder,,,12.8
back,neckline,,,
back,centre back,,,
back,waist,,,
notches
piece,notch,edge,from,distance
front,side notch,side,underarm point,12
back,side notch,side,underarm point,12
seams
seam,sewn,piece,edge
side,first,front,side
side,second,back,side
shoulder,first,front,shoulder
shoulder,second,back,shoulder
"""


def test_a_paper_pattern_is_kept_by_its_edges_and_lengths() -> None:
    traced = traced_in(PAPER)
    front, back = traced.pattern.pieces
    assert not front.has_outline
    assert front.edge("side").declared_mm == 205
    assert front.edge("neckline").declared_mm is None
    assert front.corners == (
        "centre front waist", "centre front neck", "neck point", "shoulder point",
        "underarm point", "side waist",
    )  # fmt: skip
    assert back.notches[0].distance_mm == 120
    sides = {s.seam: s for s in traced.seams}
    assert sides["side"].second_mm - sides["side"].first_mm == pytest.approx(2)
    assert not sides["side"].agrees
    assert traced.pattern.seam("side").second[0].backward
    assert "without outlines" in traced.sentence


def damaged() -> list[tuple[str, str, str | int]]:
    """A file with something wrong, what is said, and the line (by what stands in it)."""
    return [
        ("# nothing", "no piece", 0),
        (SKIRT.replace("units,cm\n", ""), "names no unit", 0),
        (rewritten("units,cm", "units,furlong"), "“furlong” is not a unit", 1),
        (rewritten("x,y", "x (mm),y"), "this is in mm, but line 1 says cm", 3),
        (rewritten("points", "pionts"), "Did you mean points?", 2),
        (rewritten(",kind,", ",kidn,"), "no column “kidn”; it has", 3),
        (rewritten(",y,", ",y,y,"), "there twice", 3),
        (SKIRT.replace("edge,", "", 1), "lacks its column “edge”", 3),
        (rewritten("24,20", ",20"), "no x is given here", "side,2"),
        (rewritten("24,20", "twenty,20"), "x: “twenty” is not a length", "side,2"),
        (rewritten("24,20", '"1,234",20'), "can be read two ways", "side,2"),
        (rewritten("24,20", "99999999,20"), "longer than anything", "side,2"),
        (rewritten("24,20,curve", "24,20,bend"), "corner, curve, square or mouth, not", "bend"),
        (rewritten("side,2", "side,two"), "its number along the line, not “two”", "side,two"),
        (rewritten("side,2", "side,3"), "stands in line", "side,3,24,40"),
        (rewritten("24,40", "24,20"), "points 2 and 3 of the side of the back", "side,3"),
        (rewritten("20,61", "20,61,corner,,,,surplus"), "stands under no heading", "surplus"),
        (rewritten("60.2,mouth,waist dart", "60.2,mouth,"), "name the dart", "60.2"),
        (rewritten("60.2,mouth", "60.2,curve"), "only one is here", "60.1"),
        (rewritten("waist dart,12.5", "wast dart,12.5"), "add it to the table", "waist,1"),
        (rewritten("12.5,48", "30,48"), "sewn to each other", "30,48"),
        (rewritten("12.5,48,,", "12.5,48,40,"), "cannot be sewn", "12.5,48"),
        (rewritten("24,40", "-24,40"), "crosses itself", 4),
        (f"{SKIRT}grain\npiece,x,y\nback,5,5\n", "takes two points", "back,5,5"),
        (f"{SKIRT}lines\npiece,line,x,y\nback,hip line,5,5\n", "two points at least", "hip line"),
        (f"{SKIRT}lines\npiece,line,edge\nback,hip line,hemm\n", "Did you mean hem?", "hemm"),
        (f"{SKIRT}notches\npiece,notch,edge,x,y\nback,n,side,22,30\n", "off the side", "n,side"),
        (f"{SKIRT}notches\npiece,notch,edge\nback,n,side\n", "say where the notch is", "n,side"),
        (
            f"{SKIRT}notches\npiece,notch,edge,from,distance\nback,n,side,neck point,3\n",
            "runs from the side hem to the side waist", "n,side",
        ),
        (
            f"{SKIRT}notches\npiece,notch,edge,from,distance\nback,n,side,side hem,90\n",
            "off the side, which is", "n,side",
        ),
        (f"{SKIRT}pieces\npiece,fold\nback,centre bak\n", "Did you mean centre back?", "bak"),
        (f"{SKIRT}pieces\npiece,layer\nback,shel\n", "Did you mean shell?", "shel"),
        (f"{SKIRT}pieces\npiece,copies\nback,none\n", "a whole number from 1", "none"),
        (f"{SKIRT}pieces\npiece\nback\nback\n", "stands in line", "back"),
        (f"{SKIRT}pieces\npiece,taken from\nback,frnt\n", "no piece here", "frnt"),
        (f"{SKIRT}edges\npiece,edge,length\nback,yoke,12\n", "none for its yoke", "yoke"),
        (
            f"{SKIRT}seams\nseam,sewn,piece,edge\nside,first,bakc,side\n",
            "Did you mean back?", "bakc",
        ),
        (
            f"{SKIRT}seams\nseam,sewn,piece,edge\nside,first,back,sied\n",
            "Did you mean side?", "sied",
        ),
        (
            f"{SKIRT}seams\nseam,sewn,piece,edge\nside,thrid,back,side\n",
            "sewn is first, 1, second or 2", "thrid",
        ),
        (
            f"{SKIRT}seams\nseam,sewn,piece,edge,starts at\nside,first,back,side,neck\n",
            "runs from the side hem to the side waist", "neck",
        ),
        (
            f"{SKIRT}ease\nseam,amount,from,to\nside,1,a,b\n", "no seam called side", "a,b",
        ),
        ('{"units": "cm", "points": [{"piece": "a"]}', "this is not JSON", 1),
        ('{"units": "cm",\n "pionts": []}', "Did you mean points?", 2),
        ('{"units": "cm",\n "points": [\n  7]}', "an object with named cells", 3),
        ('{"units": "cm",\n "points": {}}', "a list of objects", 2),
        ('{"units": "cm", "points": [\n{"piece": "a", "edge": "b", "x": [1], "y": 2}]}',
         "x is a number or words", 2),
        ("[]", "JSON without tables", 1),
    ]  # fmt: skip


@pytest.mark.parametrize(("text", "says", "where"), damaged())
def test_every_fault_is_told_in_a_sentence_with_its_line(
    text: str, says: str, where: str | int
) -> None:
    told = faults_of(text)
    line = where if isinstance(where, int) else None
    found = [t for t in told if says in t]
    assert found, told
    if line is None:
        lines = [k for k, row in enumerate(text.splitlines(), 1) if str(where) in row]
        assert any(found[0].startswith(f"line {k}: ") for k in lines), found
    elif line:
        assert found[0].startswith(f"line {line}: "), found
    assert "\n" not in found[0]


def test_all_faults_are_told_at_once() -> None:
    text = rewritten("24,20,curve", "24,2o,curve")
    text = rewritten("0,0,corner", "0,0,crner", text)
    told = faults_of(text)
    assert len(told) == 2
    with pytest.raises(NotATracing) as fault:
        traced_in(text)
    assert fault.value.sentence.startswith("2 things stand in the way:\n")


@pytest.mark.parametrize("content", [b"", b"  \n", b"\x00\x01\x02PK", b"x" * 5_000_000])
def test_what_is_no_text_is_told(content: bytes) -> None:
    with pytest.raises(NotATracing):
        text_of(content)


@pytest.mark.parametrize("keep", range(1, 60, 7))
def test_half_a_file_is_never_more_than_a_sentence(keep: int) -> None:
    """However a file breaks off, it is read or told of."""
    text = "\n".join(EXAMPLE.splitlines()[: keep * 2]) + "\nfront,side,"
    try:
        outcome = traced_in(text).sentence
    except NotATracing as fault:
        outcome = fault.sentence
    assert outcome


def test_every_table_and_column_is_described() -> None:
    told = described()
    assert len(told) == len(TABLES)
    for (title, columns), table in zip(told, TABLES.values(), strict=True):
        assert title.startswith(f"{table.name}: ")
        assert all(says for _, says, _ in columns)


@settings(max_examples=A_THIRD)
@given(
    source=st.sampled_from([SKIRT, PAPER]),
    at=st.floats(0, 1),
    word=st.sampled_from(
        ["0", "-1", "1e9", "nan", "", '"', ";", "\n", "corner", "mouth", "front", "{", "ë"]
    ),
    line=st.floats(0, 1),
)
def test_a_file_with_anything_in_it_is_read_or_told_of(
    source: str, at: float, word: str, line: float
) -> None:
    cells = list(re.finditer(r"[^,\n]+", source))
    cell = cells[int(at * (len(cells) - 1))]
    lines = (source[: cell.start()] + word + source[cell.end() :]).split("\n")
    del lines[int(line * (len(lines) - 1))]
    try:
        outcome = [traced_in("\n".join(lines)).sentence]
    except NotATracing as fault:
        outcome = [f.sentence for f in fault.faults]
    assert outcome
    assert all("\n" not in sentence for sentence in outcome)


def _square(text: str, corners: dict[str, str]) -> str:
    for old, new in corners.items():
        text = rewritten(old, new, text)
    return text


def test_a_corner_said_to_be_square_is_drawn_so_within_what_paper_is_read_to() -> None:
    plain = traced_in(SKIRT).pattern.piece("back")
    waist = plain.edge("waist")
    read = corner_angle(plain, plain.edge("centre back"), at_end=False)
    assert abs(read - 90.0) > 0.2
    text = _square(SKIRT, {"1,0,60,corner": "1,0,60,square"})
    traced = traced_in(text)
    back = traced.pattern.piece("back")
    assert corner_angle(back, back.edge("centre back"), at_end=False) == pytest.approx(90, abs=0.02)
    # The centre back stays, the waist gives way, and by less than a reading is good to.
    assert back.edge("centre back").parts == plain.edge("centre back").parts
    for k in range(21):
        spot = back.edge("waist").point_at(back.edge("waist").length * k / 20)
        assert waist.nearest(spot)[1] < 0.3
    assert any("is drawn square; the waist was bent for it" in note for note in traced.notes)


def test_a_corner_that_is_far_from_square_is_not_made_so() -> None:
    text = rewritten("1,20,61,corner", "1,20,66,square")
    (fault,) = faults_of(text)
    assert "is said to be square and was read at" in fault
    assert "or say corner" in fault


@pytest.mark.parametrize("off_mm", [-0.5, 0.5])
def test_readings_to_half_a_millimetre_make_square_corners_square(off_mm: float) -> None:
    """A neckline that crosses the centre front square, its second reading half a millimetre out."""
    text = EXAMPLE
    traced = traced_in(text)
    front = traced.pattern.piece("front")
    edge = front.edge("neckline")
    at_end = "centre front" in edge.end
    rows = [
        line for line in text.splitlines() if line.startswith("front,neckline,")
    ]  # fmt: skip
    near = rows[-2] if at_end else rows[1]
    corner = rows[-1] if at_end else rows[0]
    cells = near.split(",")
    cells[4] = f"{float(cells[4]) + off_mm / 10:g}"
    moved = rewritten(near, ",".join(cells), text)
    squared = rewritten(corner, corner.replace(",corner", ",square", 1), moved)
    new = traced_in(squared).pattern.piece("front")
    assert corner_angle(new, new.edge("neckline"), at_end) == pytest.approx(90.0, abs=0.02)
