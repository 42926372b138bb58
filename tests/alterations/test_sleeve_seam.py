"""A sleeve's own seam: brought back to the side seam after the sleeve was turned in its armhole."""

import re

import pytest
from altering import done

from tracker.alterations import examples
from tracker.alterations.cap_match import cap_off
from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.shift_a_seam import AmountAt, ShiftSeam
from tracker.alterations.kinds.turn_the_sleeve import Pitch, TurnSleeve
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import notch_on_edge

SLEEVED = examples.sleeved()


def offered(told: str) -> ShiftSeam:
    """The shift a turned sleeve's effect offers, with its amounts."""
    found = re.search(
        r"shift the (.+) seam ([\d.]+) mm towards the (.+) at the (.+), "
        r"to nothing ([\d.]+) mm below",
        told,
    )
    assert found, told
    seam, by, towards, corner, down = found.groups()
    amounts = ((0.0, float(by)), (float(down), 0.0))
    return ShiftSeam(
        seam=seam, towards=towards,
        amounts=tuple(AmountAt(corner=corner, distance_mm=d, amount_mm=a) for d, a in amounts),
    )  # fmt: skip


def turned(to: Pitch, by: float, side: BodySide = BodySide.BOTH) -> tuple[Pattern, str]:
    applied = apply_step(TurnSleeve(to=to, by_mm=by, side=side), SLEEVED, "one")
    return applied.pattern, applied.effect.leaves[0]


@pytest.mark.parametrize("to", list(Pitch))
@pytest.mark.parametrize("by", [5.0, 10.0, 13.0])
def test_what_a_turned_sleeve_offers_brings_its_seam_back_to_the_side_seam(
    to: Pitch, by: float
) -> None:
    before, told = turned(to, by)
    step = offered(told)
    applied = done(step, before)
    new, seam = applied.pattern, applied.pattern.seam("armhole")
    # Nothing is planned below the notches any more, and nothing is off.
    below = {"front underarm point", "back underarm point"}
    left = [e.amount_mm for e in seam.ease if {e.start, e.end} & below]
    assert max(map(abs, left), default=0.0) < 0.1
    assert cap_off(new, seam).worst_mm < 0.05
    old, piece = before.piece("sleeve"), new.piece("sleeve")
    assert piece.edge("cap").length == pytest.approx(old.edge("cap").length, abs=0.01)
    # The notches stay on their cloth.
    for notch in piece.notches:
        a = piece.edge("cap").point_at(notch_on_edge(piece.edge("cap"), notch))
        was = old.notch(notch.name)
        assert abs(a - old.edge("cap").point_at(notch_on_edge(old.edge("cap"), was))) < 1e-4
    # Below the elbow nothing has moved.
    for edge in ("front underarm", "back underarm", "wrist"):
        one, two = old.edge(edge), piece.edge(edge)
        end = one.length if edge == "back underarm" else 0.0
        there = two.length if edge == "back underarm" else 0.0
        assert abs(one.point_at(end) - two.point_at(there)) < 1e-6
    assert not [f for f in check(new).findings if f.code in ("seam sides", "notches")]


def test_towards_which_edge_is_said_and_what_else_is_refused() -> None:
    before, told = turned(Pitch.FORWARD, 10.0)
    step = offered(told)
    assert step.sentence(before).endswith("the front underarm loses what the back underarm gains")
    wrong = ShiftSeam(seam="underarm", towards="sleeve", amounts=step.amounts)
    with pytest.raises(TrackerError, match="the front underarm or the back underarm"):
        apply_step(wrong, before, "two")


def test_shifting_it_unturned_plans_what_lies_off_the_side_seam() -> None:
    _, told = turned(Pitch.FORWARD, 10.0)
    new = done(offered(told), SLEEVED).pattern
    planned = {(e.start, e.end): e.amount_mm for e in new.seam("armhole").ease}
    assert planned["front underarm point", "front cap notch"] == pytest.approx(-10.0, abs=0.1)
    assert planned["back underarm point", "back cap notch"] == pytest.approx(10.0, abs=0.1)
    assert cap_off(new, new.seam("armhole")).worst_mm < 0.1


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_sleeve_only(side: BodySide) -> None:
    before, told = turned(Pitch.FORWARD, 10.0, side)
    both = offered(told)
    step = ShiftSeam.from_parameters(both.parameters() | {"side": side})
    new = done(step, before).pattern
    assert new.piece("sleeve", side.opposite).edges == before.piece("sleeve", side.opposite).edges
    assert cap_off(new, new.seam("armhole", side)).worst_mm < 0.05
