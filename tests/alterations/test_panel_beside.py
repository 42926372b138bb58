"""A panel line beside the bust point: what is left of the dart, to the last of its angle."""

import math

import irregular
import pytest
import wardrobe
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.drafting.style_leftover import MOST_EASE_MM, Leftover
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.dart import Dart
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths, stations

BLOCKS = {"by hand": wardrobe.bodice(), **{f"drafted {n}": drafted(n) for n in range(3)}}
SEAM = "front princess"

lines = st.builds(
    PanelFront,
    start=st.sampled_from(["shoulder", "armhole"]),
    share=st.floats(0.35, 0.6),
    beside_mm=st.one_of(st.floats(3, 22), st.floats(-22, -3)),
    leftover=st.sampled_from(Leftover),
)


def made(pattern: Pattern, step: PanelFront) -> Applied:
    return apply_step(step, pattern, "one")


def rough(beside_mm: float, start: str = "shoulder") -> PanelFront:
    """With a short dart and nothing rounded: every angle as it was parted."""
    return PanelFront(
        start=start, beside_mm=beside_mm, leftover=Leftover.DART, rounding_mm=0.0
    )  # fmt: skip


def holds(pattern: Pattern, beside_mm: float) -> tuple[Piece, Piece]:
    """The panel that holds the bust point, and the other."""
    panels = pattern.piece("centre front"), pattern.piece("side front")
    return panels if beside_mm > 0 else panels[::-1]


def waist_dart_angle(pattern: Pattern, beside_mm: float) -> float:
    """The angle the two panels' edges stand open below the line's corner at the bust line.

    Taken at the corner: lower down the edges are bowed by what keeps the waist.
    """
    holding, plain = holds(pattern, beside_mm)
    edge = holding.edge(SEAM)
    at_start = edge.start == f"{SEAM} waist"
    below = edge.parts[0].reversed if at_start else edge.parts[-1]
    (line,) = plain.edge(SEAM).parts
    at, off = line.nearest(below.start)
    assert off < 1e-5
    before, after = line.split(at)
    other = before.reversed if plain.edge(SEAM).start == f"{SEAM} waist" else after
    return abs(turn_between(below.start_heading, other.start_heading))


@pytest.mark.parametrize("beside_mm", [20.0, 7.5, -15.0, 38.0])
@pytest.mark.parametrize("start", ["shoulder", "armhole"])
@pytest.mark.parametrize("name", BLOCKS)
def test_the_angles_left_and_in_the_seam_are_the_angles_of_the_darts_there_were(
    name: str, start: str, beside_mm: float
) -> None:
    """The cone's angle deficit (Gauss and Bonnet): what two darts took is taken still."""
    block = BLOCKS[name]
    front = block.piece("front")
    new = made(block, rough(beside_mm, start)).pattern
    short = holds(new, beside_mm)[0].dart("bust dart")
    before = front.dart("bust dart").angle_rad + front.dart("waist dart").angle_rad
    after = short.angle_rad + waist_dart_angle(new, beside_mm)
    assert short.angle_rad == pytest.approx(front.dart("bust dart").angle_rad, abs=1e-6)
    assert after == pytest.approx(before, abs=1e-6)
    assert abs(short.pivot - front.mark("bust point").point) < 1e-5


@pytest.mark.parametrize("name", BLOCKS)
def test_before_it_is_rounded_to_be_stored_the_report_has_the_angle_to_a_ten_millionth(
    name: str,
) -> None:
    from tracker.alterations.panel_beside import panel_front_beside
    from tracker.drafting.style_front import FrontLine

    block = BLOCKS[name]
    for beside in (20.0, -12.0):
        report = panel_front_beside(block, FrontLine(), beside, Leftover.DART).reports[0]
        assert report.gained_rad == pytest.approx(report.lost_rad, abs=1e-7)
        dart = block.piece("front").dart("bust dart")
        assert report.lost_rad == pytest.approx(dart.angle_rad, abs=1e-7)


@pytest.mark.parametrize("beside_mm", [20.0, -15.0])
def test_a_short_dart_reaches_from_the_line_to_the_bust_point(beside_mm: float) -> None:
    block = drafted(0)
    new = made(block, PanelFront(beside_mm=beside_mm, leftover=Leftover.DART)).pattern
    holding, plain = holds(new, beside_mm)
    assert not plain.darts
    short = holding.dart("bust dart")
    assert short.mouth == SEAM
    assert short.leg_lengths == pytest.approx((abs(beside_mm),) * 2, abs=1e-5)
    angle = block.piece("front").dart("bust dart").angle_rad
    # A chord of a circle: 2 r sin(a / 2).
    assert short.intake_mm == pytest.approx(2 * abs(beside_mm) * math.sin(angle / 2), abs=1e-4)
    first, second = side_lengths(new, new.seam(SEAM))
    assert first == pytest.approx(second, abs=0.02)


@pytest.mark.parametrize("beside_mm", [20.0, -20.0, 8.0])
def test_left_open_it_is_ease_planned_between_the_notches_above_and_below(
    beside_mm: float,
) -> None:
    block = drafted(0)
    done = made(block, PanelFront(beside_mm=beside_mm))
    seam = done.pattern.seam(SEAM)
    angle = block.piece("front").dart("bust dart").angle_rad
    wanted = 2 * abs(beside_mm) * math.sin(angle / 2)
    (ease,) = seam.ease
    assert ease.amount_mm == pytest.approx(wanted, abs=1e-4)
    assert {ease.start, ease.end} == {
        f"{SEAM} notch above the bust", f"{SEAM} notch below the bust",
    }  # fmt: skip
    # The panel that holds the bust point is the longer, and the second side.
    assert seam.second[0].piece == holds(done.pattern, beside_mm)[0].name
    first, second = side_lengths(done.pattern, seam)
    assert second - first == pytest.approx(wanted, abs=0.02)
    start, above, bust, below, end = stations(done.pattern, seam)
    assert above[0] - start[0] == pytest.approx(above[1] - start[1], abs=1e-6)
    assert end[0] - below[0] == pytest.approx(end[1] - below[1], abs=0.02)
    assert below[0] - bust[0] == pytest.approx(50.0, abs=0.02)
    assert not any(p.darts for p in holds(done.pattern, beside_mm))


@settings(max_examples=40)
@given(st.sampled_from(sorted(BLOCKS)), lines)
def test_wherever_it_runs_checks_are_clean_and_what_it_does_not_touch_is_as_long(
    name: str, step: PanelFront
) -> None:
    block = BLOCKS[name]
    angle = block.piece("front").dart("bust dart").angle_rad
    left = 2 * abs(step.beside_mm) * math.sin(angle / 2)
    if step.leftover is Leftover.EASE and left > MOST_EASE_MM:
        with pytest.raises(TrackerError, match="can be eased in"):
            made(block, step)
        return
    done = made(block, step)
    known = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(done.pattern).findings if f.place not in known] == []
    for edge in ("neckline", "armhole", "shoulder"):
        assert around(done.pattern, edge) == pytest.approx(around(block, edge), abs=1e-5), edge
    assert done.pattern.piece("back") == block.piece("back")
    for line in ("bust line", "waist line"):
        assert girth(done.pattern, line) == pytest.approx(girth(block, line), abs=0.05), line
    for piece in block.pieces:
        for edge in piece.edges:
            fates = done.trace.of(piece.name, edge.name, edge.side)
            told = sum(f.old.length_mm for f in fates if f.old)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3), edge.name
    again = PanelFront.from_parameters(step.parameters())
    assert pattern_digest(made(block, again).pattern) == pattern_digest(done.pattern)


def test_the_sentence_and_the_notes_say_what_is_left_and_where() -> None:
    step = PanelFront(beside_mm=20.0)
    assert step.sentence(drafted(0)).startswith(
        "Front panelled from the shoulder, half-way from the neck point, 20 mm beside the bust "
        "point towards the side, rounded 50 mm above and below it, and down the waist dart's legs, "
        "moved over to it"
    )
    told = "; ".join(made(drafted(0), step).effect.notes)
    assert "12.5° are left there on the centre front, 4.3 mm at the line, eased in" in told
    told = "; ".join(made(drafted(0), rough(-10.0)).effect.notes)
    assert "on the side front, 2.2 mm at the line, sewn as a dart 10 mm long" in told


@pytest.mark.parametrize("beside_mm", [38.0, 20.0, -38.0, -8.0])
@pytest.mark.parametrize("start", ["shoulder", "armhole"])
@pytest.mark.parametrize("sort", ["bodice", "torso"])
@pytest.mark.parametrize("number", range(4))
def test_the_girths_of_irregular_bodies_stay_and_what_the_edges_were_bowed_by_is_told(
    sort: str, number: int, start: str, beside_mm: float
) -> None:
    block = irregular.block(sort, number)
    step = PanelFront(start=start, beside_mm=beside_mm, leftover=Leftover.DART)
    done = made(block, step)
    lines = ("bust line", "waist line", "hip line")[: 3 if sort == "torso" else 2]
    for line in lines:
        assert girth(done.pattern, line) == pytest.approx(girth(block, line), abs=0.05), line
    if beside_mm == 38.0 and sort == "bodice":
        assert "which keeps the waist as it was" in "; ".join(done.effect.notes)


def test_more_than_6_mm_is_not_eased_and_the_refusal_says_what_would_do() -> None:
    block = drafted(0)
    with pytest.raises(TrackerError, match="sew a short dart there instead, or draw") as refusal:
        made(block, PanelFront(beside_mm=38.0))
    most = int(str(refusal.value).split("at most ")[1].split(" mm")[0])
    made(block, PanelFront(beside_mm=float(most)))
    angle = block.piece("front").dart("bust dart").angle_rad
    assert 2 * (most + 1) * math.sin(angle / 2) > MOST_EASE_MM


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        (PanelFront(beside_mm=39.0), "from 2 to 38 mm would do"),
        (PanelFront(beside_mm=1.0), "draw it through the bust point"),
        (PanelFront(beside_mm=20.0, start="armhole", share=0.95), "choose a place from"),
        (PanelFront(beside_mm=20.0, rounding_mm=200.0), "50 mm above and below is usual"),
    ],
)
def test_what_cannot_be_drawn_is_refused(step: PanelFront, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        made(BLOCKS["by hand"], step)


def test_a_line_through_the_bust_point_is_recorded_as_it_always_was() -> None:
    assert "beside_mm" not in PanelFront().parameters()
    assert PanelFront(beside_mm=5.0).parameters()["leftover"] == "ease"


def test_on_one_body_side_the_other_keeps_its_darts() -> None:
    done = made(drafted(0), PanelFront(beside_mm=15.0, side=BodySide.LEFT))
    assert check(done.pattern).clean
    darts: list[Dart] = [d for p in done.pattern.pieces for d in p.darts if d.name == "bust dart"]
    assert [d.side for d in darts] == [BodySide.RIGHT]
    assert done.pattern.seam(SEAM).side is BodySide.LEFT


def test_without_a_bust_dart_nothing_is_left_beside_the_line() -> None:
    from tracker.alterations.kinds.turn_a_dart import TurnDart

    turned = apply_step(
        TurnDart(piece="front", dart="bust dart", into="waist dart"), drafted(0), "one"
    ).pattern
    done = made(turned, PanelFront(beside_mm=20.0))
    assert not done.pattern.seam(SEAM).ease
    assert not any("are left" in note for note in done.effect.notes)
    first, second = side_lengths(done.pattern, done.pattern.seam(SEAM))
    assert first == pytest.approx(second, abs=0.02)
