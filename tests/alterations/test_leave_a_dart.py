"""Darts a line runs across that stay: shut on the part with the mouth, the rest a dart."""

import itertools
import math
from dataclasses import replace

import irregular
import pytest
from altering import made_or_told

from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.part_at_a_height import PartAtHeight
from tracker.alterations.kinds.part_on_a_line import LineEnd, NewPart, PartOnLine
from tracker.errors import TrackerError
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check, folded_kink_deg
from tracker.pattern.measure import around, girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.walk import side_lengths

HIP_YOKE = PartAtHeight(
    line="waist line", above_mm=-50.0, named="yoke", part=NewPart.UPPER,
    leave=("waist dart", "side waist dart"),
)  # fmt: skip
MIDRIFF = PartAtHeight(
    line="waist line", above_mm=60.0, named="band", part=NewPart.LOWER, leave=("waist dart",)
)


def shoulder_yoke(**more: object) -> PartOnLine:
    given: dict[str, object] = {
        "pieces": ("back",),
        "ends": (
            LineEnd(edge="armhole", corner="shoulder point", distance_mm=30.0),
            LineEnd(edge="centre back", corner="centre back neck", distance_mm=60.0),
        ),
        "leave": ("shoulder dart",),
    }
    return PartOnLine(**(given | more))


#: Sort of block, step, edge the darts open from, and the pieces that keep what is left of them.
CASES = {
    "a yoke all round a skirt": ("skirt", HIP_YOKE, "waist"),
    "a band above the waist": ("bodice", MIDRIFF, "waist"),
    "a back yoke above the shoulder dart's point": ("bodice", shoulder_yoke(), "shoulder"),
}


def fresh(before: Pattern, after: Pattern) -> list[str]:
    known = {f.place for f in check(before).findings}
    return [f.sentence for f in check(after).findings if f.place not in known]


@pytest.mark.parametrize("number", range(4))
@pytest.mark.parametrize("case", CASES)
def test_both_parts_fit_the_angle_stays_and_no_cloth_is_lost(case: str, number: int) -> None:
    sort, step, edge = CASES[case]
    block = irregular.block(sort, number)
    # Not every skirt needs a second dart.
    there = {d.name for p in block.pieces for d in p.darts}
    step = replace(step, leave=tuple(n for n in step.leave if n in there))
    old = {(p.name, d.name): d for p in block.pieces for d in p.darts}
    done = apply_step(step, block, "one")
    new = done.pattern
    assert fresh(block, new) == []
    left = [(p, d) for p in new.pieces for d in p.darts if d.name in step.leave]
    assert left
    for piece, dart in left:
        assert dart.mouth == f"{piece.name} {step.named}"
        assert dart.angle_rad == pytest.approx(old[piece.name, dart.name].angle_rad, abs=1e-6)
        assert dart.intake_mm < old[piece.name, dart.name].intake_mm - 1.0
        assert abs(folded_kink_deg(piece, dart.name)) < 1.0
        assert dart.stand_back_mm < min(dart.leg_lengths)
    for seam in new.seams:
        first, second = side_lengths(new, seam)
        assert second - first == pytest.approx(seam.planned_ease_mm, abs=0.05), seam.name
    # The closed mouth is trued over at most 30 mm on either side.
    assert around(new, edge) == pytest.approx(around(block, edge), abs=0.3)
    for line in ("bust line", "waist line", "hip line"):
        if any(v.name == line for p in block.pieces for v in p.levels):
            assert girth(new, line) == pytest.approx(girth(block, line), abs=0.3), line
    area = sum(p.area_mm2 for p in new.pieces)
    assert area == pytest.approx(sum(p.area_mm2 for p in block.pieces), rel=3e-4)


def test_the_sentences_say_where_it_goes_on_and_how_long() -> None:
    block = irregular.block("bodice")
    step = shoulder_yoke()
    assert "; the shoulder dart left across it; " in step.sentence(block)
    done = apply_step(step, block, "one")
    dart = done.pattern.piece("back").dart("shoulder dart")
    told = "; ".join(done.effect.notes)
    assert f"as a dart {dart.intake_mm:.1f} mm wide there and" in told
    yoke = done.pattern.piece("back yoke")
    assert not yoke.darts
    assert not [m for m in yoke.marks if abs(m.point - dart.pivot) < 0.01]


def test_carried_to_another_block_it_makes_what_it_makes_there() -> None:
    step = PartAtHeight.from_parameters(HIP_YOKE.parameters())
    assert step == HIP_YOKE
    for number in range(2):
        block = irregular.block("skirt", number)
        made = apply_step(HIP_YOKE, block, "one").pattern
        assert pattern_digest(apply_step(step, block, "one").pattern) == pattern_digest(made)


def test_with_nothing_to_leave_a_step_is_recorded_as_it_always_was() -> None:
    assert "leave" not in shoulder_yoke(leave=(), close=("shoulder dart",)).parameters()
    assert "leave" not in PartAtHeight(line="waist line").parameters()
    assert shoulder_yoke().parameters()["leave"] == ["shoulder dart"]


def test_a_slanted_line_leaves_the_dart_too_and_is_smooth_with_it_folded() -> None:
    block = irregular.block("bodice")
    ends = (
        LineEnd(edge="armhole", corner="shoulder point", distance_mm=20.0),
        LineEnd(edge="centre back", corner="centre back neck", distance_mm=80.0),
    )
    new = apply_step(shoulder_yoke(ends=ends), block, "one").pattern
    back = new.piece("back")
    assert abs(folded_kink_deg(back, "shoulder dart")) < 0.1
    (line,) = new.piece("back yoke").edge("back yoke").parts
    steps = [line.heading_at(k) for k in range(int(line.length))]
    turns = [abs(math.degrees(math.atan2((b / a).imag, (b / a).real)))
             for a, b in itertools.pairwise(steps)]  # fmt: skip
    assert max(turns) < 1.5


@pytest.mark.parametrize(
    ("step", "sentence"),
    [
        # Not told to: what would do is said.
        (shoulder_yoke(leave=()), "leave it .the rest opens from the new seam."),
        (shoulder_yoke(leave=("waist dart",)), "does not run across the waist dart"),
        # 100 mm down the line passes 3 mm above the blade point or below it.
        (
            shoulder_yoke(
                ends=(
                    LineEnd(edge="armhole", corner="shoulder point", distance_mm=62.0),
                    LineEnd(edge="centre back", corner="centre back neck", distance_mm=85.0),
                )
            ),
            "from its point; close it|does not run across",
        ),
    ],
)
def test_what_cannot_be_left_is_refused_with_what_would_do(step: PartOnLine, sentence: str) -> None:
    with pytest.raises(TrackerError, match=sentence):
        apply_step(step, irregular.block("bodice"), "one")


def test_a_dart_is_either_closed_or_left() -> None:
    with pytest.raises(TrackerError, match="either closed into the line or left"):
        shoulder_yoke(close=("shoulder dart",))


@pytest.mark.parametrize("down_mm", range(15, 140, 9))
@pytest.mark.parametrize("number", range(2))
def test_wherever_it_lies_it_is_made_cleanly_or_told(down_mm: float, number: int) -> None:
    block = irregular.block("skirt", number)
    step = PartAtHeight(
        line="waist line", above_mm=-float(down_mm), named="yoke", part=NewPart.UPPER,
        leave=("waist dart",), pieces=("back",),
    )  # fmt: skip
    done, told = made_or_told(lambda: apply_step(step, block, "one"))
    assert told or (done is not None and fresh(block, done.pattern) == [])
    assert not told or any(
        way in told
        for way in ("close it into the line", "nothing to leave", "lay it at least", "choose")
    ), told
