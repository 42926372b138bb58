from dataclasses import replace

import pytest
from altering import NO_OUTLINE, assert_same, done
from drafted import drafted
from hypothesis import given
from hypothesis import strategies as st
from wardrobe import bodice, paper

from tracker.alterations.engine import apply_step, most_that_fits
from tracker.alterations.kinds.change_the_width_across import Width, WidthAcross
from tracker.errors import TrackerError
from tracker.geometry.crossing import with_line
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.marks import Level
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern


def lined() -> Pattern:
    """The bodice drawn by hand with its across back and across front lines."""
    block = bodice()
    pieces = []
    for name, way in (("front", -1.0), ("back", 1.0)):
        piece = block.piece(name)
        start = complex(0, 300)
        end = with_line(piece.edge("armhole").parts[0], start, complex(way, 0))[0].point
        line = Level(f"across {name}", BodySide.BOTH, ((start, end),))
        pieces.append(replace(piece, levels=(*piece.levels, line)))
    return settled(block.with_pieces(*pieces))


BLOCK = lined()
WIDER = WidthAcross(line="across back", to=Width.WIDER, by_mm=12.0)


def test_the_amount_is_had_at_that_line_and_the_ends_of_the_armhole_stay() -> None:
    """Amount at that line for the whole width, the shoulder point fixed (common practice, no
    source)."""
    new = done(WIDER, BLOCK).pattern
    assert girth(new, "across back") == pytest.approx(girth(BLOCK, "across back") + 12, abs=0.05)
    old, now = BLOCK.piece("back"), new.piece("back")
    for corner in ("shoulder point", "underarm point", "neck point"):
        assert now.corner(corner) == old.corner(corner)
    assert now.edge("shoulder") == old.edge("shoulder")
    assert new.piece("front") == BLOCK.piece("front")


def test_the_armhole_is_reported() -> None:
    applied = done(WIDER, BLOCK)
    assert around(applied.pattern, "armhole") < around(BLOCK, "armhole") - 1
    assert [c.what for c in applied.effect.rounds] == ["armhole"]
    assert any("a sleeve for it needs the same taken out" in t for t in applied.effect.leaves)


def test_the_shoulder_point_goes_as_far_when_told() -> None:
    step = WidthAcross(line="across back", to=Width.WIDER, by_mm=12.0, shoulder=True)
    now = done(step, BLOCK).pattern.piece("back")
    assert now.edge("shoulder").length > BLOCK.piece("back").edge("shoulder").length + 5


def test_the_sentence() -> None:
    assert WIDER.sentence(BLOCK) == (
        "Across back 12 mm wider, measured at that line: 6 mm on each half; the shoulder point "
        "stays, the underarm stays"
    )


@pytest.mark.parametrize("line", ["across back", "across front"])
@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_body_side_only(line: str, side: BodySide) -> None:
    step = WidthAcross(line=line, to=Width.NARROWER, by_mm=5.0, side=side)
    new = done(step, BLOCK).pattern
    assert girth(new, line, side) == pytest.approx(girth(BLOCK, line, side) - 5, abs=0.05)
    assert girth(new, line, side.opposite) == pytest.approx(
        girth(BLOCK, line, side.opposite), abs=1e-4
    )


@pytest.mark.parametrize(
    ("step", "told"),
    [
        (WidthAcross(line="across chest", to=Width.WIDER, by_mm=5.0), "no line called"),
        (WidthAcross(line="bust line", to=Width.WIDER, by_mm=5.0), "does not end on an armhole"),
        (WidthAcross(line="across back", to=Width.NARROWER, by_mm=900.0), "the most that can be"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(step: WidthAcross, told: str) -> None:
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_the_limit_told_fits() -> None:
    step = WidthAcross(line="across back", to=Width.NARROWER, by_mm=300.0)
    most = most_that_fits(step, BLOCK)
    assert most is not None
    assert most > 20
    apply_step(step.scaled(most / 300.0), BLOCK, "one")


def test_an_amount_of_nothing_is_refused() -> None:
    with pytest.raises(TrackerError, match="by how much"):
        WidthAcross(line="across back", to=Width.WIDER, by_mm=0.0)


def test_a_pattern_without_outlines_gets_its_words() -> None:
    applied = apply_step(WIDER, paper(), "one")
    assert applied.effect.leaves == (NO_OUTLINE + WIDER.sentence(paper()),)


@given(
    by=st.floats(-24, 24).filter(lambda a: abs(a) > 0.5),
    number=st.sampled_from([0, 1, 2, 3]),
    line=st.sampled_from(["across back", "across front"]),
    shoulder=st.booleans(),
)
def test_any_amount_is_met_and_the_way_back_leads_back(
    by: float, number: int, line: str, shoulder: bool
) -> None:
    block = BLOCK if number == 0 else drafted(number - 1)
    step = WidthAcross(line=line, to=Width.WIDER, by_mm=by, shoulder=shoulder)
    new = done(step, block).pattern
    assert girth(new, line) == pytest.approx(girth(block, line) + by, abs=0.05)
    assert girth(new, "bust line") == pytest.approx(girth(block, "bust line"), abs=1e-4)
    assert_same(apply_step(step.scaled(-1.0), new, "two").pattern, block, 0.0031)
