"""Each reading counted for each kind of alteration, by hand arithmetic.

A fold takes up twice its depth (Central Washington University costume text, chapter 17); the
rest is the arithmetic of how often a place exists in a garment: common practice, no source.
"""

import itertools

import pytest
from altering import made_or_told
from fitted import fitted

from tracker.alterations.kind import kinds
from tracker.errors import TrackerError
from tracker.fitting.counting import AMOUNTS, Sort, Spot, read_for
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.propose import Answer, answers
from tracker.fitting.reading import Reading, ReadingKind
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import around, girth

R = ReadingKind
FIVE = (R.PINNED_FOLD, R.GAP, R.CHALK_LINE, R.TAPE_DIFFERENCE, R.ON_PAPER)

#: 10 mm read in each of the five ways, what it comes to; + is out of the garment. None: makes no
#: sense. In the order of FIVE.
TEN_MM: dict[tuple[Sort, Spot], tuple[float | None, ...]] = {
    # a side, shoulder or panel seam: at each of the two; the tape is of the whole line
    (Sort.SEAM, Spot.PAIR): (20, -10, 10, 5, 10),
    (Sort.SEAM, Spot.ONE_SIDE): (20, -10, 10, 10, 10),
    # a centre seam exists once: the whole of it there; a line on one layer is on both halves
    (Sort.SEAM, Spot.CENTRE_SEAM): (20, -10, 20, 10, 20),
    # a wedge pinned on each half; chalk beside both edges of the fold; half of the tape each
    (Sort.MOUTH, Spot.PAIR): (20, -10, 20, 5, 10),
    (Sort.MOUTH, Spot.ONE_SIDE): (20, -10, 20, 10, 10),
    # pinned once at the centre: half of it on each half
    (Sort.MOUTH, Spot.CENTRE_SEAM): (10, -5, 20, 5, 10),
    (Sort.MOUTH, Spot.FOLD): (10, -5, 20, 5, 10),
    # across the centre it is a length, and alike on both halves
    (Sort.MOUTH, Spot.ACROSS): (20, -10, 20, 10, 10),
    # a width: both sides together; of one side only, that side
    (Sort.WHOLE, Spot.PAIR): (40, -20, 20, 10, 20),
    (Sort.WHOLE, Spot.ONE_SIDE): (20, -10, 10, 10, 10),
    (Sort.WHOLE, Spot.CENTRE_SEAM): (20, -10, 20, 10, 20),
    (Sort.WHOLE, Spot.FOLD): (20, -10, 20, 10, 20),
    # round each sleeve or leg
    (Sort.ROUND, Spot.PAIR): (20, -10, 10, 10, 10),
    (Sort.LENGTH, Spot.PAIR): (20, -10, 10, 10, 10),
    # off each of the two pieces of a shoulder
    (Sort.EACH, Spot.PAIR): (10, -5, 10, 10, 10),
    (Sort.EACH, Spot.ONE_SIDE): (10, -5, 10, 10, 10),
    # one line moved: a gap is no line
    (Sort.LINE, Spot.PAIR): (20, None, 10, 10, 10),
}


@pytest.mark.parametrize(
    ("word", "spot", "reading", "amount"),
    [
        (word, spot, reading, amount)
        for word, known in AMOUNTS.items()
        for (sort, spot), row in TEN_MM.items()
        if sort is known.sort
        for reading, amount in zip(FIVE, row, strict=True)
    ],
)
def test_ten_millimetres_read_in_each_way_for_each_kind(
    word: str, spot: Spot, reading: R, amount: float | None
) -> None:
    if amount is None:
        with pytest.raises(TrackerError, match=f"says nothing for “{word}”; read it as pinned"):
            read_for(word, reading, 10.0, spot)
        return
    counted = read_for(word, reading, 10.0, spot)
    assert counted.amount_mm == amount
    assert counted.echo.startswith(f"{reading} 10 mm")
    assert f"{abs(amount):g} mm" in counted.echo


def test_every_kind_takes_readings_or_says_that_it_does_not() -> None:
    assert set(AMOUNTS) <= set(kinds())
    for word in set(kinds()) - set(AMOUNTS):
        with pytest.raises(TrackerError, match="not altered by an amount read on the body"):
            read_for(word, R.GAP, 5.0, Spot.PAIR)


def test_a_kind_has_the_parameter_its_amount_is_given_in() -> None:
    for word, known in AMOUNTS.items():
        assert known.parameter in kinds()[word].__dataclass_fields__


def test_every_combination_is_counted_or_refused_in_a_sentence() -> None:
    for word, reading, spot in itertools.product(AMOUNTS, FIVE, Spot):
        counted, told = made_or_told(lambda w=word, r=reading, s=spot: read_for(w, r, 4.0, s))
        assert counted.echo if counted else "read it as" in told


def read(kind: R, value: float, corner: str, distance: float = 0.0, **more: str) -> Reading:
    return Reading(kind=kind, value_mm=value, corner=corner, distance_mm=distance, **more)


def note(reading: Reading, **more: object) -> Observation:
    values: dict[str, object] = {
        "observation_id": "n1", "fitting_id": "f1", "number": 1, "sign": Sign.OTHER,
        "readings": (reading,),
    }  # fmt: skip
    return Observation(**(values | more))


@pytest.mark.parametrize(
    ("reading", "more", "cause", "line", "smaller"),
    [
        # two folds of 4 mm, one at each back armhole: 2 x 4 x 2 = 16 off the width across
        (read(R.PINNED_FOLD, 4, "shoulder point", 120), {"piece": "back", "edge": "armhole"},
         "narrow back", "across back", 16),
        # one fold of 4 mm down the right side only: 8
        (read(R.PINNED_FOLD, 4, "shoulder point", 120),
         {"piece": "back", "edge": "armhole", "side": BodySide.RIGHT}, "narrow back",
         "across back", 8),
        # a slash stands 6 mm open on each side: 12 more
        (read(R.GAP, 6, "shoulder point", 120), {"piece": "back", "edge": "armhole"}, "broad back",
         "across back", -12),
        # the tape says the back is 10 mm too narrow: 10 more
        (read(R.TAPE_DIFFERENCE, -10, "shoulder point", 120), {"piece": "back", "edge": "armhole"},
         "broad back", "across back", -10),
        # 5 mm marked on the paper's armhole: the back is cut twice, 10 more
        (read(R.ON_PAPER, -5, "shoulder point", 120), {"piece": "back", "edge": "armhole"},
         "broad back", "across back", -10),
        # a fold of 5 mm at each side seam: 20 off the waist; a gap of 8: 16 more
        (read(R.PINNED_FOLD, 5, "side waist"), {"seam": "side"}, "waist too loose", "waist line",
         20),
        (read(R.GAP, 8, "side waist"), {"seam": "side"}, "waist too tight", "waist line", -16),
        (read(R.TAPE_DIFFERENCE, 24, "side waist"), {"seam": "side"}, "waist too loose",
         "waist line", 24),
    ],
)  # fmt: skip
def test_a_width_read_changes_by_what_it_means(
    reading: Reading, more: dict[str, object], cause: str, line: str, smaller: float
) -> None:
    block = fitted("bodice")
    told = answers(block, note(reading, **more), None, (), Answer(cause))
    was, now = girth(block, line), girth(told[-1].pattern, line)
    assert was - now == pytest.approx(smaller, abs=0.6)


@pytest.mark.parametrize(
    ("reading", "longer"),
    [
        (read(R.TAPE_DIFFERENCE, -12, "neck point", 30), 12),  # 12 mm too small round the neck
        (read(R.GAP, 3, "neck point", 30), 6),  # snipped open 3 mm on each half
        (read(R.GAP, 6, "centre front neck"), 6),  # snipped open once, at the centre
    ],
)
def test_a_neck_read_is_longer_all_round_by_what_it_means(reading: Reading, longer: float) -> None:
    block = fitted("bodice")
    tight = note(reading, piece="front", edge="neckline")
    told = answers(block, tight, None, (), Answer("neck too tight"))
    now = around(told[-1].pattern, "neckline")
    assert now - around(block, "neckline") == pytest.approx(longer, abs=0.05)


def test_a_shoulder_pinned_takes_the_folds_depth_off_each_piece() -> None:
    # A fold 6 mm deep in the seam: 6 mm off the front and 6 mm off the back.
    block = fitted("bodice")
    low = note(read(R.PINNED_FOLD, 6, "shoulder point"), seam="shoulder")
    (one,) = answers(block, low, None, (), Answer("sloping shoulders"))
    assert one.kind.parameters()["by_mm"] == 6
    open_ = note(read(R.GAP, 12, "shoulder point"), seam="shoulder")
    (one,) = answers(block, open_, None, (), Answer("square shoulders"))
    assert one.kind.parameters()["by_mm"] == 6


def test_a_reading_that_goes_the_other_way_is_asked_about() -> None:
    back = note(read(R.PINNED_FOLD, 5, "centre back neck", 110), piece="back",
                edge="centre back")  # fmt: skip
    with pytest.raises(TrackerError, match="takes cloth out, and round back asks for the opposite"):
        answers(fitted("bodice"), back, None, (), Answer("round back"))
