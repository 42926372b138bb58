import datetime as dt

import pytest
from wardrobe import bodice

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import TrackerError
from tracker.history.onward import Outcome, bring_across, withdraw
from tracker.history.replay import check_again
from tracker.history.version import Address, Root, Version, first_version, next_version
from tracker.history.why import edges_of_seam, why
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.measure import girth

DAY = dt.date(2026, 1, 5)


def side_in(amount: float) -> TakeIn:
    return TakeIn(
        seam="side",
        amounts=(
            AmountAt(corner="underarm point", distance_mm=0, amount_mm=0),
            AmountAt(corner="side waist", distance_mm=0, amount_mm=amount),
        ),
    )


NECK_DART = AddDart(
    piece="back", name="neck dart", edge="neckline", corner="centre back neck",
    distance_mm=35, width_mm=8, length_mm=70,
)  # fmt: skip
NOTCH = MoveNotch(piece="front", notch="side notch", by_mm=5)


def line(*rounds: tuple[Kind, ...]) -> list[Version]:
    versions = [
        first_version(Address("mara", "bodice", 1), Root("by hand", 1, {}), bodice(), "block", DAY)
    ]
    for number, kinds in enumerate(rounds, 2):
        steps = tuple((k, (f"note{number}",)) for k in kinds)
        versions.append(
            next_version(versions[-1], Address("mara", "bodice", number), steps, "", DAY)
        )
    return versions


def test_withdrawing_a_step_works_out_the_rest_again_from_before_it() -> None:
    versions = line((side_in(10), NECK_DART), (NOTCH,))
    gone = versions[1].taken[0]
    told = withdraw(versions, [gone.step.step_id[:6]])
    assert told.parent is versions[0]
    new = next_version(told.parent, Address("mara", "bodice", 4), told.steps, "", DAY)
    assert girth(new.pattern, "waist line") == girth(versions[0].pattern, "waist line")
    assert new.pattern.piece("back").dart("neck dart")
    assert new.pattern.piece("front").notch("side notch").distance_mm == 125.0
    assert check_again(new, versions[0]).sound
    assert "Withdrawn from mara/bodice@3" in new.sentence
    reasons = why((versions[0], new), edges_of_seam(new.pattern.seam("side")))
    assert [r.version for r in reasons] == ["mara/bodice@1"]


def test_withdrawing_every_step_gives_the_block_back() -> None:
    versions = line((side_in(10), NECK_DART), (NOTCH, side_in(-3)))
    every = [t.step.step_id for v in versions for t in v.taken]
    told = withdraw(versions, every)
    new = next_version(told.parent, Address("mara", "bodice", 4), told.steps, "", DAY)
    assert pattern_digest(new.pattern) == pattern_digest(versions[0].pattern)


def test_a_step_that_no_longer_makes_sense_says_why() -> None:
    second = AddDart(
        piece="back", name="neck dart", edge="neckline", corner="centre back neck",
        distance_mm=60, width_mm=6, length_mm=50,
    )  # fmt: skip
    rename = AddDart(
        piece="back", name="other dart", edge="neckline", corner="centre back neck",
        distance_mm=400, width_mm=6, length_mm=50,
    )  # fmt: skip
    with pytest.raises(TrackerError):
        line((NECK_DART,), (rename,))
    told = bring_across([t for v in line((NECK_DART,)) for t in v.taken], bodice())
    assert told.steps[0].outcome is Outcome.APPLIES
    twice = bring_across([t for v in line((NECK_DART,)) for t in v.taken], told.pattern)
    assert twice.steps[0].outcome is Outcome.CANNOT
    assert "has a neck dart already" in twice.steps[0].told
    assert twice.done == ()
    assert second.name == NECK_DART.name


def test_a_step_brought_onto_the_same_base_applies_without_change() -> None:
    taken = [t for v in line((side_in(10),)) for t in v.taken]
    told = bring_across(taken, bodice())
    assert [b.outcome for b in told.steps] == [Outcome.APPLIES]
    assert told.left_out == ()


@pytest.mark.parametrize("wanted", ["zzz", ""])
def test_a_step_that_is_not_there_or_not_told_apart_is_refused(wanted: str) -> None:
    with pytest.raises(TrackerError, match="list its steps"):
        withdraw(line((side_in(10), NECK_DART)), [wanted])
