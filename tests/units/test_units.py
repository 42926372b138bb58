"""Lengths in and out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.units import (
    NotALength,
    Unit,
    in_both,
    in_inches,
    read_angle,
    read_length,
    write_angle,
    write_both,
    write_change,
    write_inches,
    write_length,
    write_mm,
    write_tenths,
)

# 1 in = 25.4 mm exactly, 1 ft = 304.8 mm: international yard and pound agreement, 1959.
READABLE = [
    ("12.5cm", 125.0),
    ("125 mm", 125.0),
    ("125", 1250.0),  # a bare number is in the preferred unit, cm here
    ("5/8in", 15.875),
    ('1 1/4"', 31.75),
    ("1 1/4”", 31.75),  # typographer's quote
    ("1-1/4 in", 31.75),
    ("4'", 1219.2),
    ("4 ft", 1219.2),
    ("4' 2 1/2\"", 1282.7),
    ("4′2½″", 1282.7),
    ("4 ft 2 1/2", 1282.7),
    ("2½", 25.0),
    ("½ in", 12.7),
    ("2 1⁄2in", 63.5),  # fraction slash
    ("1 / 2 in", 12.7),
    ("12,5", 125.0),
    ("12,50 cm", 125.0),
    (",5in", 12.7),
    ("3.", 30.0),
    ("1.5 m", 1500.0),
    ("0", 0.0),
    ("0,125 cm", 1.25),
    ("  7   inches ", 177.8),
    ("1 in.", 25.4),
    ("2''", 50.8),
    ("+3 mm", 3.0),
    ("12.5\u00a0cm", 125.0),
]


@pytest.mark.parametrize(("text", "mm"), READABLE)
def test_what_a_dressmaker_types_is_read_as_millimetres(text: str, mm: float) -> None:
    assert read_length(text) == pytest.approx(mm, abs=1e-9)


def test_an_inch_is_exactly_25_4_mm() -> None:
    # International yard and pound agreement, 1959: one yard is 0.9144 m exactly.
    assert read_length("36 in") == 914.4
    assert read_length("1", Unit.INCH) == 25.4


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("", "no length was given"),
        ("   ", "no length was given"),
        ("twelve", "is not a length"),
        ("12 parsecs", "“parsecs”"),
        ("12..5", "is not a length"),
        ("1/0 in", "divides by nothing"),
        ("-5 mm", "less than nothing"),
        ("−5 mm", "less than nothing"),
        ("1,250 mm", "1.250 or 1250"),
        ("nan", "is not a length"),
        ("inf cm", "is not a length"),
        ("1e5 cm", "is not a length"),
        ("9" * 400, "longer than anything"),
        ("4' 14\"", "another foot"),
        ("5 cm 3 mm", "is not a length"),
        ("12 cm; drop", "is not a length"),
        ("٣٤ cm" + "x" * 100, "…"),
    ],
)
def test_nonsense_gets_one_sentence(text: str, part: str) -> None:
    with pytest.raises(NotALength) as refused:
        read_length(text)
    assert part in refused.value.sentence
    assert "\n" not in refused.value.sentence


def test_a_negative_length_is_read_only_where_it_makes_sense() -> None:
    assert read_length("-1/2 in", allow_negative=True) == -12.7
    assert read_length("− 5 mm", allow_negative=True) == -5.0
    assert str(read_length("-0")) == "0.0"


@pytest.mark.parametrize(
    ("mm", "cm", "inches"),
    [
        (125.0, "12.5 cm", "4 15/16 in"),  # 4.921 in: nearest sixteenth is 15/16
        (0.0, "0.0 cm", "0 in"),
        (25.4, "2.5 cm", "1 in"),
        (12.7, "1.3 cm", "1/2 in"),
        (122.5, "12.3 cm", "4 13/16 in"),  # half is rounded up, as by hand
        (-15.875, "-1.6 cm", "-5/8 in"),
        (-0.2, "0.0 cm", "0 in"),
        (25.3, "2.5 cm", "1 in"),  # 15.94 sixteenths carry over into the inch
    ],
)
def test_lengths_are_written_in_the_makers_unit(mm: float, cm: str, inches: str) -> None:
    assert write_length(mm, Unit.CM) == cm
    assert write_length(mm, Unit.INCH) == inches


@pytest.mark.parametrize("text", ["5/8", "1 3/4", "3/16", "2¼"])
def test_a_bare_fraction_is_no_length_for_someone_who_counts_in_centimetres(text: str) -> None:
    """“5/8” typed without its unit would be 6 mm and was meant as 16."""
    with pytest.raises(NotALength, match="usually of an inch"):
        read_length(text, Unit.CM)
    assert read_length(text, Unit.INCH) == read_length(f"{text}in", Unit.CM)


def test_a_sentence_may_give_both_units() -> None:
    assert write_both(10.0) == "10 mm (3/8 in)"
    assert write_both(9.525) == "10 mm (3/8 in)"
    assert write_both(7.5) == "7.5 mm (5/16 in)"  # a fold this deep takes 15 mm, not 16
    assert write_mm(-0.4) == "0 mm"


lengths_mm = st.floats(-3000, 3000, allow_nan=False)


@given(lengths_mm)
def test_a_written_centimetre_reads_back_to_half_a_millimetre(mm: float) -> None:
    back = read_length(write_length(mm, Unit.CM), allow_negative=True)
    assert abs(back - mm) <= 0.5 + 1e-6


@given(lengths_mm)
def test_a_written_inch_reads_back_to_a_thirty_second(mm: float) -> None:
    back = read_length(write_length(mm, Unit.INCH), Unit.CM, allow_negative=True)
    assert abs(back - mm) <= 25.4 / 32 + 1e-6
    assert write_inches(back) == write_inches(mm)


@given(st.integers(0, 60), st.integers(0, 15), st.sampled_from(["in", '"', " inches", "”"]))
def test_every_sixteenth_reads_exactly(whole: int, part: int, unit: str) -> None:
    assert read_length(f"{whole} {part}/16{unit}") == pytest.approx((whole + part / 16) * 25.4)


@given(st.text(max_size=30))
def test_whatever_is_typed_gives_a_length_or_a_sentence(text: str) -> None:
    try:
        mm = read_length(text)
    except NotALength as refused:
        mm = 0.0 if refused.sentence else -1.0
    assert 0 <= mm <= 100_000


@pytest.mark.parametrize(
    ("text", "angle_deg"), [("22", 22.0), ("22.5°", 22.5), ("22 deg", 22.0), ("22½°", 22.5)]
)
def test_a_slope_is_read_in_degrees(text: str, angle_deg: float) -> None:
    assert read_angle(text) == angle_deg
    assert read_angle(write_angle(angle_deg)) == angle_deg


@pytest.mark.parametrize("text", ["-3", "200", "steep", ""])
def test_a_slope_that_is_none_gets_a_sentence(text: str) -> None:
    with pytest.raises(NotALength):
        read_angle(text)


@given(st.floats(0.1, 60.0))
def test_inches_added_to_a_kept_sentence_are_those_of_the_true_length(mm: float) -> None:
    sixteenths = mm * 16 / 25.4
    if abs(sixteenths % 1 - 0.5) < 0.05:  # nearer to the middle than a tenth of a millimetre tells
        return
    inches = "under 1/16 in" if mm * 32 < 25.4 else write_inches(mm)
    told = in_both(f"in {write_tenths(mm)} at the waist")
    assert told == f"in {write_tenths(mm)} ({inches}) at the waist"
    assert in_inches(f"in {write_tenths(mm)} at the waist") == f"in {inches} at the waist"


def test_nothing_is_told_once_and_a_little_is_not_told_as_nothing() -> None:
    assert write_both(0.0) == "0 mm"
    assert write_both(0.6) == "1 mm (under 1/16 in)"
    assert in_both("ease 0 mm, 0.5 mm off") == "ease 0 mm, 0.5 mm (under 1/16 in) off"
    assert in_inches("ease 0 mm") == "ease 0 in"


@given(st.floats(100.0, 1500.0), st.floats(-20.0, 20.0), st.sampled_from(list(Unit)))
def test_a_change_never_belies_what_it_is_the_change_of(
    mm: float, by_mm: float, unit: Unit
) -> None:
    told = write_change(mm, mm + by_mm, unit)
    alike = write_length(mm, unit) == write_length(mm + by_mm, unit)
    if told.startswith("under"):
        assert abs(by_mm) < (1.0 if unit is Unit.CM else 25.4 / 16)
    else:
        assert alike == (read_length(told, unit, allow_negative=True) == 0.0)


@pytest.mark.parametrize(
    ("told", "inches"),
    [
        ("darts 20 to 30 mm, 12 to 14 cm long", "darts 13/16 to 1 3/16 in, 4 3/4 to 5 1/2 in long"),
        ("between 10 and 25 mm of ease", "between 3/8 and 1 in of ease"),
        # Not a range: two figures of which the first counts something else.
        ("seam 2 and 20 mm", "seam 2 and 13/16 in"),
        ("10 mm (3/8 in) in", "10 mm (3/8 in) in"),
        ("2540 mm² or 25 cm²", "2540 mm² or 3.9 sq in"),
        ("front 1745 cm²", "front 270 sq in"),
    ],
)
def test_a_range_and_centimetres_are_told_in_inches_too(told: str, inches: str) -> None:
    assert in_inches(told) == inches


@pytest.mark.parametrize(
    ("mm", "written"), [(5.0, "5 mm"), (2.5, "2.5 mm"), (9.525, "9.5 mm"), (-0.02, "0 mm"),
                        (120.0, "120 mm"), (0.96, "1 mm")],
)  # fmt: skip
def test_a_length_is_written_to_a_tenth_where_it_is_not_whole(mm: float, written: str) -> None:
    assert write_tenths(mm) == written
