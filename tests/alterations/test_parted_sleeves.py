"""Sleeves parted across, at the elbow, and along, into an upper and an under sleeve."""

import re

import pytest
from altering import done

from tracker.alterations import examples
from tracker.alterations.cap import Cap
from tracker.alterations.cap_match import cap_off
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.change_the_upper_arm import Room, UpperArm
from tracker.alterations.kinds.fit_the_cap import FitCap
from tracker.alterations.kinds.part_at_a_height import PartAtHeight
from tracker.alterations.kinds.part_on_a_line import PartOnLine
from tracker.alterations.kinds.raise_the_armhole import Height, RaiseArmhole
from tracker.alterations.kinds.raise_the_cap import Height as CapHeight
from tracker.alterations.kinds.raise_the_cap import RaiseCap
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.alterations.kinds.turn_the_sleeve import Pitch, TurnSleeve
from tracker.alterations.set_in import NoSleeve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checks import check
from tracker.pattern.pattern import Pattern

SLEEVED = examples.sleeved()


def parted_at_the_elbow() -> Pattern:
    step = PartAtHeight(
        line="elbow line", above_mm=0.0, named="lower", part="lower", pieces=("sleeve",)
    )
    return apply_step(step, SLEEVED, "parted").pattern


def in_two() -> Pattern:
    step = PartOnLine.from_parameters(
        {"pieces": ["sleeve"], "named": "under",
         "ends": [{"edge": "cap", "corner": "back underarm point", "distance_mm": 90.0},
                  {"edge": "wrist", "corner": "back wrist", "distance_mm": 55.0}]}
    )  # fmt: skip
    return apply_step(step, SLEEVED, "parted").pattern


ELBOW, TWO = parted_at_the_elbow(), in_two()
CAP_KINDS: tuple[Kind, ...] = (
    UpperArm(to=Room.FULLER, by_mm=16.0),
    RaiseCap(to=CapHeight.RAISE, by_mm=8.0),
    TurnSleeve(to=Pitch.FORWARD, by_mm=6.0),
)


@pytest.mark.parametrize("kind", CAP_KINDS, ids=lambda k: k.word)
def test_a_sleeve_parted_at_the_elbow_is_altered_as_a_whole_one(kind: Kind) -> None:
    new, whole = done(kind, ELBOW).pattern, apply_step(kind, SLEEVED, "one").pattern
    one, two = (p.piece("sleeve").edge("cap") for p in (new, whole))
    assert Cap(one.drawn[0]).height_mm == pytest.approx(Cap(two.drawn[0]).height_mm, abs=0.5)
    assert Cap(one.drawn[0]).width_mm == pytest.approx(Cap(two.drawn[0]).width_mm, abs=1e-4)
    # What hangs below the elbow is not touched.
    assert new.piece("sleeve lower") == ELBOW.piece("sleeve lower")
    assert not [f for f in check(new).findings if f.place == "sleeve lower seam"]


@pytest.mark.parametrize("side", [BodySide.RIGHT, BodySide.LEFT])
def test_one_parted_sleeve_only(side: BodySide) -> None:
    new = done(UpperArm(to=Room.FULLER, by_mm=12.0, side=side), ELBOW).pattern
    other, mine = (new.piece("sleeve", s) for s in (side.opposite, side))
    old = ELBOW.piece("sleeve")
    assert other.edge("cap").length == pytest.approx(old.edge("cap").length, abs=1e-5)
    assert Cap(mine.edge("cap").drawn[0]).width_mm == pytest.approx(
        Cap(old.edge("cap").drawn[0]).width_mm + 12.0, abs=1e-4
    )


def test_an_armhole_lowered_is_answered_at_the_cap_of_a_sleeve_parted_at_the_elbow() -> None:
    low = apply_step(RaiseArmhole(to=Height.LOWER, by_mm=8.0), ELBOW, "low").pattern
    new = done(FitCap(), low).pattern
    assert cap_off(new, new.seam("armhole")).worst_mm < 0.1


@pytest.mark.parametrize("kind", [*CAP_KINDS, FitCap()], ids=lambda k: k.word)
def test_a_cap_on_two_pieces_is_not_altered_whole_and_what_does_it_is_named(kind: Kind) -> None:
    with pytest.raises(NoSleeve) as told:
        apply_step(kind, TWO, "one")
    assert told.value.sentence == (
        "the cap is on several pieces, the sleeve and the sleeve under, and is altered only where "
        "it is on one: withdraw the parting, alter the sleeve whole and part it again; or take in "
        "or let out the seams that end on the cap, “underarm” and “sleeve under”, and move its "
        "notches"
    )


@pytest.mark.parametrize(("to", "by"), [(Height.LOWER, 8.0), (Height.RAISE, 6.0)])
def test_what_is_offered_for_a_cap_on_two_pieces_mends_it(to: Height, by: float) -> None:
    low = apply_step(RaiseArmhole(to=to, by_mm=by), TWO, "low")
    (told,) = (t for t in low.effect.leaves if "the cap no longer matches" in t)
    found = re.search(r"(take in|let out) the (.+) seam ([\d.]+) mm at the (.+)$", told)
    assert found, told
    way = 1.0 if found[1] == "take in" else -1.0
    assert found[2] == "underarm"
    under = low.pattern.seam("underarm").first[0]
    wrist = low.pattern.edge_of(under)
    far = wrist.start if wrist.end == found[4] else wrist.end
    amounts = (
        AmountAt(corner=found[4], distance_mm=0.0, amount_mm=way * float(found[3])),
        AmountAt(corner=far, distance_mm=0.0, amount_mm=0.0),
    )
    new = done(TakeIn(seam="underarm", amounts=amounts), low.pattern).pattern
    assert cap_off(new, new.seam("armhole")).worst_mm < 0.5
    assert not [f for f in check(new).findings if f.code in ("seam sides", "notches")]
