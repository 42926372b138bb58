"""Pieces parted on a line: yokes, bands, seams through a dart's point; darts closed into them."""

import itertools
from functools import cache

import pytest
import wardrobe
from altering import made_or_told
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import bdims_bodies, chart_bodies

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, kind_named
from tracker.alterations.kinds.part_on_a_line import LineEnd, LineShape, NewPart, PartOnLine
from tracker.body.estimate import estimate
from tracker.drafting.skirt import TO_ESTIMATE as SKIRT_TO_ESTIMATE
from tracker.drafting.skirt import draft_skirt
from tracker.drafting.torso import TO_ESTIMATE, draft_torso
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check, folded_kink_deg
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths, stations


@cache
def skirt(number: int = 3) -> Pattern:
    return draft_skirt(estimate(chart_bodies()[number].body, SKIRT_TO_ESTIMATE)).pattern


@cache
def torso(number: int = 50) -> Pattern:
    return draft_torso(estimate(bdims_bodies()[number].body, TO_ESTIMATE)).pattern


def end(edge: str, mm: float, corner: str) -> LineEnd:
    return LineEnd(edge=edge, corner=corner, distance_mm=mm)


def back_yoke(down_mm: float = 90.0, **more: object) -> PartOnLine:
    given_: dict[str, object] = {
        "pieces": ("back",),
        "ends": (
            end("armhole", down_mm, "shoulder point"),
            end("centre back", down_mm + 15.0, "centre back neck"),
        ),
        "close": ("shoulder dart",),
    }
    return PartOnLine(**(given_ | more))


HIP_YOKE = PartOnLine(
    pieces=("back", "front"),
    ends=(
        end("centre back", 120.0, "centre back waist"),
        end("side", 100.0, "side waist"),
        end("centre front", 90.0, "centre front waist"),
    ),
    shape=LineShape.CURVED,
    close=("waist dart", "side waist dart"),
)
AT_THE_WAIST = PartOnLine(
    pieces=("back", "front"),
    ends=(
        end("centre back", 190.0, "centre back hip"),
        end("side", 195.0, "side hip"),
        end("centre front", 190.0, "centre front hip"),
    ),
    shape=LineShape.CURVED,
    named="peplum",
    part=NewPart.LOWER,
)
THROUGH_THE_BUST = PartOnLine(
    pieces=("front",),
    ends=(
        end("armhole", 90.0, "shoulder point"),
        end("centre front", 120.0, "centre front waist"),
    ),
    through="bust dart",
    named="midriff",
    part=NewPart.LOWER,
)
DOWN_THE_BUST_DART = PartOnLine(
    pieces=("front",),
    ends=(end("armhole", 90.0, "shoulder point"),),
    down="bust dart",
    named="upper side",
)


def made(pattern: Pattern, step: PartOnLine) -> Applied:
    return apply_step(step, pattern, "one")


def fresh_findings(before: Pattern, after: Pattern) -> list[str]:
    known = {f.place for f in check(before).findings}
    return [f.sentence for f in check(after).findings if f.place not in known]


def assert_accounted_for(before: Pattern, done: Applied) -> None:
    for piece in before.pieces:
        for edge in piece.edges:
            fates = done.trace.of(piece.name, edge.name, edge.side)
            told = sum(f.old.length_mm for f in fates if f.old)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3), edge.name
    for piece in done.pattern.pieces:
        for edge in piece.edges:
            fates = done.trace.into(piece.name, edge.name, edge.side)
            told = sum(f.new.length_mm for f in fates if f.new)
            assert not fates or told == pytest.approx(edge.length, abs=1e-3), edge.name


def test_it_is_found_among_the_kinds_as_a_style() -> None:
    assert kind_named("part on a line") is PartOnLine
    assert PartOnLine.family == "style"


@pytest.mark.parametrize(
    ("block", "step"),
    [
        ("bodice", back_yoke()),
        ("bodice", back_yoke(shape=LineShape.CURVED)),
        ("bodice", back_yoke(bow_mm=8.0)),
        ("skirt", HIP_YOKE),
        ("torso", AT_THE_WAIST),
        ("bodice", DOWN_THE_BUST_DART),
    ],
    ids=["straight", "curved", "bowed", "hip yoke", "waist of a torso", "down a dart"],
)
def test_every_check_is_clean_and_every_millimetre_told(block: str, step: PartOnLine) -> None:
    pattern = {"bodice": drafted(0), "skirt": skirt(), "torso": torso()}[block]
    done = made(pattern, step)
    assert fresh_findings(pattern, done.pattern) == []
    assert_accounted_for(pattern, done)
    for name in step.pieces:
        new = done.pattern.piece(step.new_name(name))
        assert new.grain is not None
        seam = done.pattern.seam(step.new_name(name))
        first, second = side_lengths(done.pattern, seam)
        assert first == pytest.approx(second, abs=1.0)
        assert seam.matches
    again = PartOnLine.from_parameters(step.parameters())
    assert again == step
    assert pattern_digest(made(pattern, again).pattern) == pattern_digest(done.pattern)


def test_a_shoulder_dart_is_closed_into_a_yoke_its_point_moved_onto_the_line() -> None:
    block = drafted(0)
    done = made(block, back_yoke())
    yoke, back = done.pattern.piece("back yoke"), done.pattern.piece("back")
    assert not yoke.darts
    assert "shoulder dart" not in {d.name for d in back.darts}
    assert "shoulder dart" in {d.name for d in block.piece("back").darts}
    assert yoke.edge("shoulder").length == pytest.approx(
        block.piece("back").edge("shoulder").length, abs=0.1
    )
    told = next(n for n in done.effect.notes if "closed into" in n)
    assert "mm longer to end on the line" in told
    lost, gained = (float(w.split("°")[0]) for w in told.split(": ")[1].split(", "))
    assert lost == gained > 5.0


def test_the_centre_back_stays_and_keeps_its_grain() -> None:
    block = drafted(0)
    new = made(block, back_yoke()).pattern
    centre = block.piece("back").edge("centre back")
    for name in ("back yoke", "back"):
        line = new.piece(name).edge("centre back").parts[0]
        assert abs(turn_between(line.start_heading, centre.parts[0].start_heading)) < 1e-9
        low, high = new.piece(name).grain or (0j, 1j)
        assert abs(turn_between(high - low, 1j)) < 1e-9


def test_waist_darts_close_into_a_hip_yoke_that_matches_at_the_side() -> None:
    block = skirt()
    done = made(block, HIP_YOKE)
    new = done.pattern
    assert not [d for p in new.pieces for d in p.darts]
    assert girth(new, "waist line") == pytest.approx(girth(block, "waist line"), abs=0.1)
    assert girth(new, "hip line") == pytest.approx(girth(block, "hip line"), abs=1e-4)
    side = new.seam("side")
    first, second = side_lengths(new, side)
    assert first == pytest.approx(second, abs=0.05)
    upper = [new.piece(f"{n} yoke").edge("side").length for n in ("front", "back")]
    assert upper[0] == pytest.approx(upper[1], abs=0.05)
    assert upper[1] == pytest.approx(100.0, abs=0.05)


def test_the_edge_a_dart_was_closed_into_is_smooth() -> None:
    new = made(skirt(), HIP_YOKE).pattern
    for name in ("back yoke", "front yoke"):
        for edge in ("waist", name):
            (line,) = new.piece(name).edge(edge).parts
            headings = [line.heading_at(k) for k in range(int(line.length))]
            bends = [abs(turn_between(a, b)) for a, b in itertools.pairwise(headings)]
            assert max(bends) < 0.035, (name, edge)  # 2° in a millimetre would be a corner


def test_a_dart_with_two_points_becomes_two_that_open_from_the_new_edges() -> None:
    block = torso()
    new = made(block, AT_THE_WAIST).pattern
    for name in ("front", "back"):
        old = block.piece(name).dart("waist dart")
        upper, lower = (
            new.piece(name).dart("waist dart"), new.piece(f"{name} peplum").dart("waist dart")
        )  # fmt: skip
        assert upper.mouth == lower.mouth == f"{name} peplum"
        assert upper.intake_mm == pytest.approx(lower.intake_mm, abs=0.05)
        assert upper.pivot == pytest.approx(old.pivot, abs=1e-5)
        assert lower.pivot == pytest.approx(old.legs[0].end, abs=1e-5)
        for piece, dart in ((name, upper), (f"{name} peplum", lower)):
            assert dart.leg_lengths[0] == pytest.approx(dart.leg_lengths[1], abs=0.01)
            assert abs(folded_kink_deg(new.piece(piece), "waist dart")) < 0.5
    for line in ("bust line", "waist line", "hip line"):
        assert girth(new, line) == pytest.approx(girth(block, line), abs=0.1), line


@pytest.mark.parametrize("number", range(3))
def test_a_seam_through_the_bust_point_gains_in_angle_what_the_dart_lost(number: int) -> None:
    """The cone's angle deficit (Gauss and Bonnet), taken at the pivot before it is rounded."""
    block = drafted(number)
    done = made(block, THROUGH_THE_BUST)
    told = next(n for n in done.effect.notes if "closed into" in n)
    assert "lost there" in told
    assert "longer" not in told
    front = block.piece("front")
    lower = done.pattern.piece("front midriff")
    assert "bust dart" not in {d.name for d in lower.darts}
    for edge in ("neckline", "shoulder", "armhole", "waist"):
        assert around(done.pattern, edge) == pytest.approx(around(block, edge), abs=1e-5), edge
    assert lower.dart("waist dart").angle_rad == pytest.approx(front.dart("waist dart").angle_rad)


def test_the_angle_is_kept_to_a_ten_millionth() -> None:
    from tracker.alterations.parting import part_piece

    for number in range(3):
        block = drafted(number)
        step = THROUGH_THE_BUST
        ((key, plan),) = step._plans(block, BodySide.BOTH)
        (shut,) = part_piece(block, block.piece(*key), plan).report.shut
        dart = block.piece("front").dart("bust dart")
        assert shut.lost_rad == pytest.approx(dart.angle_rad, abs=1e-7)
        assert shut.gained_rad == pytest.approx(dart.angle_rad, abs=1e-7)
        assert shut.moved_mm == pytest.approx(0.0, abs=1e-6)


def test_down_a_dart_each_part_has_one_leg() -> None:
    block = drafted(0)
    new = made(block, DOWN_THE_BUST_DART).pattern
    assert not [d for p in new.pieces for d in p.darts if d.name == "bust dart"]
    leg = block.piece("front").dart("bust dart").leg_lengths[0]
    assert new.piece("front upper side").edge("front upper side").length > leg
    assert girth(new, "bust line") == pytest.approx(girth(block, "bust line"), abs=0.7)
    side = new.seam("side")
    assert [r.piece for r in side.first] == ["front upper side", "front"]


def test_the_notches_of_the_new_seam_meet() -> None:
    new = made(drafted(0), back_yoke()).pattern
    seam = new.seam("back yoke")
    pairs = stations(new, seam)
    assert len(pairs) == 4
    for a, b in pairs:
        assert a == pytest.approx(b, abs=0.05)


def test_the_other_pieces_are_the_very_same_and_the_sentence_says_where() -> None:
    block = drafted(0)
    done = made(block, back_yoke())
    assert done.pattern.piece("front") == block.piece("front")
    assert back_yoke().sentence(block) == (
        "Back parted on a straight line from the armhole, 90 mm from the shoulder point to the "
        "centre back, 105 mm from the centre back neck; the shoulder dart closed into it; the "
        "upper part is the back yoke"
    )


def test_on_one_body_side_only_that_back_is_parted() -> None:
    done = made(drafted(0), back_yoke(side=BodySide.RIGHT))
    names = {p.label for p in done.pattern.pieces}
    assert {"right back yoke", "right back", "left back"} <= names
    assert "left back yoke" not in names
    assert fresh_findings(drafted(0), done.pattern) == []


def test_a_note_on_the_back_is_found_on_its_part() -> None:
    trace = made(drafted(0), back_yoke()).trace
    here = trace.forward("back", "centre back", BodySide.BOTH, 30.0)
    there = trace.forward("back", "centre back", BodySide.BOTH, 300.0)
    assert here is not None
    assert there is not None
    assert {here.piece, there.piece} == {"back", "back yoke"}


def test_without_an_outline_it_is_marked_on_the_paper() -> None:
    step = back_yoke(close=())
    (told,) = made(wardrobe.paper(), step).effect.leaves
    assert told.startswith("mark it on the paper: Back parted on a straight line")


@settings(max_examples=30)
@given(
    st.integers(0, 2), st.floats(50, 130), st.floats(-10, 30), st.sampled_from(LineShape),
    st.booleans(),
)  # fmt: skip
def test_any_yoke_is_sound_or_refused_in_a_sentence(
    number: int, down: float, more: float, shape: LineShape, close: bool
) -> None:
    block = drafted(number)
    has = any(d.name == "shoulder dart" for d in block.piece("back").darts)
    step = back_yoke(
        down, shape=shape, close=("shoulder dart",) if close and has else (),
        ends=(
            end("armhole", down, "shoulder point"),
            end("centre back", down + more, "centre back neck"),
        ),
    )  # fmt: skip
    done, told = made_or_told(lambda: made(block, step))
    if done is None:
        wanted = ("close that dart into it", "within 60 mm", "choose")
        assert any(word in told for word in wanted)
        return
    found = [
        f.sentence for f in check(done.pattern).findings
        if "square" not in f.sentence and f.code != "corners"
    ]  # fmt: skip
    assert found == []
    assert_accounted_for(block, done)
    for edge in ("armhole", "neckline", "waist", "centre back"):
        assert around(done.pattern, edge) == pytest.approx(around(block, edge), abs=1e-4), edge


REFUSED: list[tuple[PartOnLine | dict[str, object], str]] = [
    ({"close": ("shoulder drt",)}, "Did you mean shoulder dart"),
    (
        {"ends": (end("armhole", 90, "shoulder point"), end("armhole", 150, "shoulder point"))},
        "from one edge to another",
    ),
    (
        {"ends": (end("armhole", 5, "shoulder point"), end("centre back", 90, "centre back neck"))},
        "choose a place from 12",
    ),
    ({"close": (), "ends": back_yoke(60.0).ends}, "close that dart into it"),
    ({"close": ("waist dart",)}, "within 60 mm of its point"),
    ({"ends": (end("armhole", 90, "shoulder point"),)}, "at 2 places, and 1 is named"),
    ({"pieces": ("back", "front"), "ends": (*back_yoke().ends, end("side", 90, "side waist"))},
     "is not sewn to the front"),
    ({"named": " "}, "needs a name"),
    ({"through": "shoulder dart", "down": "shoulder dart"}, "at 1 place"),
]  # fmt: skip


@pytest.mark.parametrize(("more", "sentence"), REFUSED)
def test_what_cannot_be_is_refused_in_a_sentence(more: dict[str, object], sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        made(drafted(0), back_yoke(**more))
