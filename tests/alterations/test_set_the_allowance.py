"""An edge's own seam allowance, kept with the pattern and added on prints for cloth."""

import pytest
from altering import done
from drafted import drafted

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.set_the_allowance import SetAllowance
from tracker.errors import TrackerError
from tracker.output.allowance import Allowances
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import piece_digest, piece_record

BLOCK = drafted(0)
OUTLET = SetAllowance(piece="back", edge="centre back", width_mm=25.0)


def test_the_edge_keeps_it_and_nothing_drawn_moves() -> None:
    back = done(OUTLET, BLOCK).pattern.piece("back")
    assert back.allowances == (("centre back", 25.0),)
    assert back.edges == BLOCK.piece("back").edges
    # Said again it takes the place of what was said before.
    wider = SetAllowance(piece="back", edge="centre back", width_mm=40.0)
    again = done(wider, done(OUTLET, BLOCK).pattern).pattern.piece("back")
    assert again.allowances == (("centre back", 40.0),)


def test_a_piece_without_one_is_written_as_it_always_was() -> None:
    assert "allowances" not in piece_record(BLOCK.piece("back"))
    assert piece_digest(done(OUTLET, BLOCK).pattern.piece("back")) != piece_digest(
        BLOCK.piece("back")
    )


def test_a_print_adds_it_there_and_what_is_asked_for_goes_before_it() -> None:
    pattern = done(OUTLET, BLOCK).pattern
    back, front = pattern.piece("back"), pattern.piece("front")
    usual = Allowances().as_kept(pattern)
    assert usual.of(back, back.edge("centre back")) == 25.0
    assert usual.of(back, back.edge("side")) == 15.0
    assert usual.of(front, front.edge("side")) == 15.0
    asked = Allowances().with_own("centre back", 10.0).as_kept(pattern)
    assert asked.of(back, back.edge("centre back")) == 10.0


def test_one_body_side_only() -> None:
    one = SetAllowance(piece="back", edge="side", width_mm=20.0, side=BodySide.LEFT)
    new = done(one, BLOCK).pattern
    assert new.piece("back", BodySide.LEFT).allowances == (("side", 20.0),)
    assert new.piece("back", BodySide.RIGHT).allowances == ()
    assert one.sentence(BLOCK) == "Left side only: allowance of the back at the side: 20 mm"


@pytest.mark.parametrize(
    ("piece", "edge", "side", "told"),
    [
        ("front", "centre front", BodySide.BOTH, "lies on the fold and has no allowance"),
        ("front", "side", BodySide.RIGHT, "has one allowance, right and left"),
        ("back", "hem", BodySide.BOTH, "no edge called 'hem'"),
    ],
)
def test_what_has_none_is_refused(piece: str, edge: str, side: BodySide, told: str) -> None:
    step = SetAllowance(piece=piece, edge=edge, width_mm=20.0, side=side)
    with pytest.raises(TrackerError, match=told):
        apply_step(step, BLOCK, "one")


def test_an_allowance_nobody_cuts_is_refused() -> None:
    with pytest.raises(TrackerError, match="from nothing to 150 mm"):
        SetAllowance(piece="back", edge="side", width_mm=151.0)
