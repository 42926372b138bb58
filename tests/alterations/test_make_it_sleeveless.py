"""A sleeved bodice made sleeveless: sleeves off, armhole closer, all of it accounted for."""

import datetime as dt
from functools import cache

import pytest
from altering import A_THIRD, NO_OUTLINE, done
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from sleeved import sleeved
from wardrobe import paper

from tracker.alterations import examples
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.make_it_sleeveless import (
    RAISED_MM,
    SHOULDER_MM,
    SIDE_IN_MM,
    MakeSleeveless,
)
from tracker.errors import TrackerError
from tracker.history.replay import check_again
from tracker.history.version import Address, Root, first_version, next_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.measure import around, corner_angle, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

SLEEVED = examples.sleeved()
STEP = MakeSleeveless()


@cache
def joined() -> Pattern:
    """Panels joined without a side seam."""
    return apply_step(JoinSidePanels(opening_in="centre back"), examples.panelled(), "join").pattern


def test_the_sleeves_are_gone_with_their_seams_and_their_lines() -> None:
    new = done(STEP, SLEEVED).pattern
    assert {p.name for p in new.pieces} == {"front", "back"}
    assert {s.name for s in new.seams} == {"side", "shoulder", "centre back"}
    assert not set(lines_of(new)) & {"upper arm line", "elbow line", "wrist line"}
    assert check(new).clean, [f.sentence for f in check(new).findings]


def test_the_trace_accounts_for_the_pieces_that_are_gone() -> None:
    applied = done(STEP, SLEEVED)
    piece = SLEEVED.piece("sleeve")
    for edge in piece.edges:
        (fate,) = applied.trace.of("sleeve", edge.name, edge.side)
        assert fate.word == "cut away"
        assert fate.old is not None
        assert fate.old.length_mm == pytest.approx(edge.length, abs=1e-5)
    gone = {(r.thing, r.old[1]) for r in applied.trace.renamed if r.new == ("", "")}
    assert {("seam", "armhole"), ("seam", "underarm"), ("notch", "shoulder notch")} <= gone
    assert ("piece", "both") in gone
    assert applied.effect.notes[0] == "taken off: the sleeve"


def test_the_armhole_is_closer_by_the_amounts_stated() -> None:
    # Common practice, no source: underarm up, side in and shoulder shorter, about 1 to 2 cm each.
    assert 10 <= RAISED_MM <= 20
    assert 10 <= SIDE_IN_MM <= 25
    assert 10 <= SHOULDER_MM <= 20
    new = done(STEP, SLEEVED).pattern
    for name in ("front", "back"):
        old, now = SLEEVED.piece(name), new.piece(name)
        assert now.edge("shoulder").length == pytest.approx(
            old.edge("shoulder").length - SHOULDER_MM, abs=0.05
        )
        assert now.edge("side").length == pytest.approx(
            old.edge("side").length + RAISED_MM, abs=0.5
        )
        assert abs(now.corner("side waist") - old.corner("side waist")) < 1e-5
    taken = girth(SLEEVED, "bust line") - girth(new, "bust line")
    # Below the underarm somewhat less than there: all round four times half the amount.
    assert 0.6 * 2 * SIDE_IN_MM < taken < 2 * SIDE_IN_MM
    assert girth(new, "waist line") == pytest.approx(girth(SLEEVED, "waist line"), abs=0.01)
    assert around(new, "armhole") < around(SLEEVED, "armhole") - 10
    front, back = side_lengths(new, new.seam("side"))
    assert front == pytest.approx(back, abs=0.3)


def test_the_ease_planned_goes_with_what_was_taken_on_purpose() -> None:
    applied = done(STEP, SLEEVED)
    new, plan, old = applied.pattern, dict(applied.pattern.ease), dict(SLEEVED.ease)
    taken = girth(SLEEVED, "bust line") - girth(new, "bust line")
    assert plan["bust line"] == pytest.approx(old["bust line"] - taken, abs=0.06)
    assert plan["waist line"] == old["waist line"]
    body = {"bust line": girth(SLEEVED, "bust line") - old["bust line"]}
    assert check(new, body).clean
    assert any("ease planned at the bust line is" in note for note in applied.effect.notes)


def test_the_armhole_is_smooth_through_the_side_and_the_shoulder_seam() -> None:
    new = done(STEP, SLEEVED).pattern
    front, back = new.piece("front"), new.piece("back")
    for corner in ("underarm point", "shoulder point"):
        total = sum(
            corner_angle(p, p.edge("armhole"), p.edge("armhole").end == corner)
            for p in (front, back)
        )
        assert total == pytest.approx(180.0, abs=2.0)


@pytest.mark.parametrize(
    ("amounts", "told"),
    [
        ({"raised_mm": 0.0}, "side seam in 12 mm"),
        ({"side_in_mm": 0.0}, "underarm raised 12 mm, shoulder 15 mm shorter"),
        ({"shoulder_mm": 0.0}, "underarm raised 12 mm, side seam in"),
        (
            {"raised_mm": 0.0, "side_in_mm": 0.0, "shoulder_mm": 0.0},
            "the sleeve taken off; the armhole left as it is",
        ),
    ],
)
def test_any_of_the_amounts_may_be_left_out(amounts: dict[str, float], told: str) -> None:
    step = MakeSleeveless(**amounts)
    assert told in step.sentence(SLEEVED)
    new = done(step, SLEEVED).pattern
    if not any(amounts.get(k, 1.0) for k in ("raised_mm", "side_in_mm", "shoulder_mm")):
        assert new.piece("front") == SLEEVED.piece("front")


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_sleeve_only_may_come_off(side: BodySide) -> None:
    applied = done(MakeSleeveless(side=side), SLEEVED)
    new = applied.pattern
    assert [(p.name, p.side) for p in new.pieces if p.name == "sleeve"] == [
        ("sleeve", side.opposite)
    ]
    assert around(new, "armhole", side.opposite) == pytest.approx(
        around(SLEEVED, "armhole", side.opposite), abs=1e-4
    )
    assert around(new, "armhole", side) < around(SLEEVED, "armhole", side) - 10
    assert check(new).clean, [f.sentence for f in check(new).findings]


def test_panels_keep_their_seams_and_an_armhole_without_a_side_seam_is_raised_at_its_notch() -> (
    None
):
    panelled = done(STEP, examples.panelled()).pattern
    assert check(panelled).clean
    applied = done(STEP, joined())
    assert check(applied.pattern).clean
    side = applied.pattern.piece("side panel")
    old = joined().piece("side panel")
    at = old.edge("armhole").point_at(old.notch("underarm notch").distance_mm)
    assert side.edge("armhole").nearest(at)[1] == pytest.approx(RAISED_MM, abs=0.3)
    assert any("no side seam to take in: take 6 mm in" in t for t in applied.effect.leaves)


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_of_two_sleeves_without_a_side_seam_may_come_off(side: BodySide) -> None:
    sewn = apply_step(AddSleeve.to_fit(examples.arm()), joined(), "arm").pattern
    new = done(MakeSleeveless(side=side), sewn).pattern
    assert [p.side for p in new.pieces if p.name == "sleeve"] == [side.opposite]
    panel = new.piece("side panel", side)
    assert "back armhole" not in {e.name for e in panel.edges}
    assert "back armhole" in {e.name for e in new.piece("side panel", side.opposite).edges}
    assert check(new).clean, [f.sentence for f in check(new).findings]


def test_where_one_side_only_has_no_side_seam_each_is_raised_in_its_own_way() -> None:
    half = apply_step(
        JoinSidePanels(opening_in="centre back", side=BodySide.LEFT), examples.panelled(), "join"
    ).pattern
    arm = AddSleeve.to_fit(examples.arm())
    for block in (half, apply_step(arm, half, "arm").pattern):
        new = done(STEP, block).pattern
        assert check(new).clean, [f.sentence for f in check(new).findings]
        for side in (BodySide.RIGHT, BodySide.LEFT):
            assert around(new, "armhole", side) < around(block, "armhole", side) - 1


def test_it_replays_and_the_sleeve_can_be_sewn_in_again() -> None:
    root = first_version(
        Address("c1", "bodice", 1), Root("drawn by hand", 1, {}), SLEEVED, "block",
        dt.date(2026, 3, 1),
    )  # fmt: skip
    steps: tuple[tuple[Kind, tuple[str, ...]], ...] = ((STEP, ()),)
    version = next_version(root, Address("c1", "bodice", 2), steps, "shell", dt.date(2026, 3, 2))
    assert check_again(version, root).damage == ()
    again = apply_step(AddSleeve.to_fit(examples.arm()), version.pattern, "again").pattern
    assert again.piece("sleeve").has_outline


@pytest.mark.parametrize("bad", ["raised_mm", "side_in_mm", "shoulder_mm"])
def test_amounts_less_than_nothing_are_refused(bad: str) -> None:
    with pytest.raises(TrackerError, match="cut closer"):
        MakeSleeveless(**{bad: -3.0})


def test_too_much_is_refused_with_the_most_that_can_be_drawn() -> None:
    with pytest.raises(TrackerError, match="is the most that can be drawn here"):
        apply_step(MakeSleeveless(shoulder_mm=140.0), SLEEVED, "one")


def test_a_bodice_without_outlines_gets_its_words() -> None:
    applied = apply_step(STEP, paper(), "one")
    assert applied.effect.leaves == (NO_OUTLINE + STEP.sentence(paper()),)
    assert "it has no sleeve" in STEP.sentence(paper())


def test_the_sentence() -> None:
    assert STEP.sentence(SLEEVED) == (
        "Made sleeveless: the sleeve taken off; underarm raised 12 mm, side seam in 12 mm at the "
        "underarm, half from each piece, to nothing at its other end, shoulder 15 mm shorter at "
        "the shoulder point"
    )


@settings(max_examples=A_THIRD // 4, deadline=None)
@given(
    raised=st.floats(0, 20),
    side_in=st.floats(0, 24),
    shoulder=st.floats(0, 25),
    side=st.sampled_from([BodySide.BOTH, BodySide.RIGHT, BodySide.LEFT]),
    number=st.integers(0, 3),
)
def test_any_amounts_leave_a_sound_bodice(
    raised: float, side_in: float, shoulder: float, side: BodySide, number: int
) -> None:
    block = (SLEEVED, sleeved(), drafted(1), joined())[number]
    step = MakeSleeveless(raised_mm=raised, side_in_mm=side_in, shoulder_mm=shoulder, side=side)
    new = done(step, block).pattern
    before = {f.place for f in check(block).findings}
    assert [f.sentence for f in check(new).findings if f.place not in before] == []
