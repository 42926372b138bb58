import datetime as dt
import json
from dataclasses import replace

import pytest
from wardrobe import bodice

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import TrackerError
from tracker.history.compare import compare
from tracker.history.replay import check_again
from tracker.history.step import Taken
from tracker.history.version import Address, Root, Version, first_version, next_version
from tracker.history.why import edges_named, edges_of_seam, why
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import canonical, pattern_from, pattern_record

DAY = dt.date(2026, 1, 5)


def address(number: int) -> Address:
    return Address("mara", "bodice", number)


def block() -> Version:
    return first_version(address(1), Root("drawn by hand", 1, {}), bodice(), "her block", DAY)


def side_in(amount: float, side: BodySide = BodySide.BOTH) -> TakeIn:
    return TakeIn(
        seam="side",
        side=side,
        amounts=(
            AmountAt(corner="underarm point", distance_mm=0, amount_mm=0),
            AmountAt(corner="side waist", distance_mm=0, amount_mm=amount),
        ),
    )


NECK_DART = AddDart(
    piece="back", name="neck dart", edge="neckline", corner="centre back neck",
    distance_mm=35, width_mm=8, length_mm=70,
)  # fmt: skip


def after(parent: Version, number: int, *kinds: Kind) -> Version:
    steps = tuple((kind, (f"note{i}",)) for i, kind in enumerate(kinds))
    return next_version(parent, address(number), steps, "", DAY + dt.timedelta(days=number))


def test_a_version_worked_out_again_is_the_same_to_the_digest() -> None:
    first = block()
    second = after(first, 2, side_in(10), NECK_DART)
    third = after(second, 3, side_in(-4, BodySide.RIGHT))
    assert check_again(first, None).sound
    for child, parent in ((second, first), (third, second)):
        told = check_again(child, parent)
        assert told.sound
        assert told.furthest_mm == 0.0


def test_a_version_read_back_from_json_is_worked_out_the_same() -> None:
    first = block()
    second = after(first, 2, side_in(10), NECK_DART)
    again = replace(
        second,
        pattern=pattern_from(json.loads(canonical(pattern_record(second.pattern)))),
        taken=tuple(Taken.from_record(json.loads(canonical(t.record()))) for t in second.taken),
    )
    assert check_again(again, first).sound


def test_one_flipped_digit_in_the_geometry_is_found() -> None:
    first = block()
    second = after(first, 2, side_in(10))
    text = canonical(pattern_record(second.pattern))
    where = text.index(".", text.index('"parts"')) + 1
    flipped = text[:where] + str((int(text[where]) + 1) % 10) + text[where + 1 :]
    damaged = replace(second, pattern=pattern_from(json.loads(flipped)))
    told = check_again(damaged, first)
    assert not told.sound
    assert "is not as it was written" in told.damage[0]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"sentence": "another sentence"}, "is not as it was written"),
        ({"made_on": dt.date(2020, 1, 1)}, "is not as it was written"),
        ({"parent_digest": "0" * 64}, "is not as it was written"),
        ({"taken": ()}, "is not as it was written"),
    ],
)
def test_any_later_edit_shows(change: dict[str, object], told: str) -> None:
    first = block()
    second = after(first, 2, side_in(10))
    found = check_again(replace(second, **change), first)
    assert told in " ".join(found.damage)


def test_another_parent_is_found() -> None:
    first = block()
    second = after(first, 2, side_in(10))
    stranger = after(first, 2, side_in(11))
    assert "was made from a parent whose digest" in " ".join(
        check_again(after(second, 3, side_in(1)), stranger).damage
    )
    assert "has lost its parent" in " ".join(check_again(second, None).damage)


def test_a_refused_step_makes_no_version() -> None:
    with pytest.raises(TrackerError):
        after(block(), 2, side_in(10), side_in(9999))


def test_why_tells_each_step_that_moved_the_seam_newest_first() -> None:
    first = block()
    second = after(first, 2, side_in(10), MoveNotch(piece="front", notch="side notch", by_mm=5))
    third = after(second, 3, side_in(-4, BodySide.RIGHT))
    right = why((first, second, third), edges_of_seam(third.pattern.seam("side", BodySide.RIGHT)))
    left = why((first, second, third), edges_of_seam(third.pattern.seam("side", BodySide.LEFT)))
    assert [r.version for r in right] == ["mara/bodice@3", "mara/bodice@2", "mara/bodice@1"]
    assert right[0].because == ("note0",)
    assert right[-1].kind == "drawn by hand"
    # The left was only renamed in version 3, not moved, but its line was split off there.
    assert left[-1].version == "mara/bodice@1"
    assert any("10 mm at the side waist" in r.sentence for r in left)


def test_why_of_an_edge_nobody_moved_is_its_draft() -> None:
    first = block()
    second = after(first, 2, side_in(10))
    told = why((first, second), edges_named(second.pattern, "front", "shoulder", BodySide.BOTH))
    assert [r.version for r in told] == ["mara/bodice@1"]


def test_comparing_tells_girths_seams_darts_and_the_furthest_distance() -> None:
    first = block()
    second = after(first, 2, side_in(10), NECK_DART)
    told = compare(first.pattern, second.pattern)
    by_name = {c.what: c for c in told.girths}
    assert by_name["waist line"].by == pytest.approx(-20.0, abs=0.05)
    assert {d.what for d in told.darts if d.before is None} == {"neck dart of the back"}
    # The corner goes 5 mm square to the seam, and the waist's own slope a hair more.
    assert told.furthest_mm == pytest.approx(5.0, abs=0.4)
    assert not told.same
    assert compare(first.pattern, first.pattern).same


def test_unequal_halves_are_compared_each_with_its_own() -> None:
    first = block()
    second = after(first, 2, side_in(10, BodySide.RIGHT))
    told = compare(first.pattern, second.pattern)
    sides = {(s.name, s.side): s for s in told.seams}
    right, left = sides["side", "right"], sides["side", "left"]
    assert left.before == left.after
    assert right.before != right.after
    assert {p.label for p in told.pieces} == {"front", "right back", "left back"}
    assert all(p.area_before is not None for p in told.pieces)


@pytest.mark.parametrize("text", ["mara", "mara/", "/bodice", "mara/bodice@x", "mara/bodice@"])
def test_what_is_no_address_is_told_how_to_write_one(text: str) -> None:
    with pytest.raises(TrackerError, match="write client/pattern"):
        Address.parse(text)


def test_addresses_are_read_as_people_say_them() -> None:
    assert Address.parse("mara/bodice@3") == ("mara", "bodice", 3)
    assert Address.parse("mara/bodice") == ("mara", "bodice", None)


def test_a_line_that_a_step_only_carried_does_not_owe_its_place_to_it() -> None:
    first = block()
    second = after(first, 2, PanelFront(), PanelBack())
    told = why((first, second), edges_named(second.pattern, "side back", "side", BodySide.BOTH))
    assert [r.kind for r in told] == ["drawn by hand"]
    turned = why((first, second), edges_named(second.pattern, "side front", "side", BodySide.BOTH))
    assert [r.kind for r in turned] == ["panel the front", "drawn by hand"]
