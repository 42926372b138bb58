"""The vocabulary and the body value."""

import pytest

from tracker.body.body import Body, BodyRecordUnreadable, NotABodyValue, NotMeasured
from tracker.body.vocabulary import (
    VOCABULARY,
    UnknownMeasurement,
    WrongSide,
    for_purpose,
    measurement,
)

# What decides shoulder and bust, and the two waists.
NEEDED = [
    "shoulder-length",
    "shoulder-slope",
    "shoulder-point-to-centre-waist-front",
    "shoulder-point-to-centre-waist-back",
    "armhole-depth",
    "across-front",
    "across-back",
    "bust-girth",
    "waist-girth",
    "hip-girth",
    "bust-arc-front",
    "bust-arc-back",
    "waist-arc-front",
    "waist-arc-back",
    "hip-arc-front",
    "hip-arc-back",
    "high-bust-girth",
    "underbust-girth",
    "neck-base-girth",
    "neck-point-to-bust-point",
    "bust-point-to-bust-point",
    "neck-point-over-bust-to-waist",
    "back-neck-to-waist",
    "neck-point-to-waist-back",
    "centre-front-length",
    "side-length",
    "standard-waist-girth",
]

# Names that figure in lists of ISO 8559-1:2017 items.
ISO_NAMES = {
    "bust-girth": "bust girth",
    "underbust-girth": "under-bust girth",
    "hip-girth": "hip girth",
    "neck-girth": "neck girth",
    "upper-arm-girth": "upper arm girth",
    "across-front": "across front width",
    "back-neck-to-waist": "back neck point to waist",
    "shoulder-width": "shoulder width across back neck point",
    "standard-waist-girth": "waist girth",
    "crotch-length": "total crotch length",
    "inside-leg": "inside leg height",
    "height": "stature",
}


def test_the_vocabulary_holds_at_least_forty_five_measurements_each_once() -> None:
    assert len(VOCABULARY) >= 45
    assert len({entry.key for entry in VOCABULARY}) == len(VOCABULARY)
    assert len({entry.name for entry in VOCABULARY}) == len(VOCABULARY)
    assert [entry.order for entry in VOCABULARY] == list(range(1, len(VOCABULARY) + 1))


@pytest.mark.parametrize("key", NEEDED)
def test_what_decides_shoulder_and_bust_is_in_it(key: str) -> None:
    assert "bodice" in measurement(key).purposes or key == "standard-waist-girth"


@pytest.mark.parametrize(("key", "iso_name"), ISO_NAMES.items())
def test_entries_carry_their_iso_8559_1_2017_name(key: str, iso_name: str) -> None:
    assert measurement(key).iso_name == iso_name
    assert not measurement(key).iso_from_memory


def test_the_waist_where_a_tape_settles_is_not_the_standards_midway_waist() -> None:
    # ISO 8559-1:2017 puts the waist midway between lowest rib and hip bone.
    assert measurement("waist-girth").iso_name is None
    assert "settles" in measurement("waist-girth").path
    assert "half-way" in measurement("standard-waist-girth").path


@pytest.mark.parametrize("entry", VOCABULARY, ids=lambda entry: entry.key)
def test_every_entry_says_its_path_its_range_and_its_use(entry: object) -> None:
    found = measurement(entry.key)
    assert len(found.path.split()) >= 5
    assert 0 < found.low < found.high
    assert 0 < found.allowed < 0.12 * found.high
    assert found.purposes
    assert found.allowed_source


@pytest.mark.parametrize("purpose", ["bodice", "sleeve", "skirt", "trousers"])
def test_every_block_has_measurements(purpose: str) -> None:
    assert len(for_purpose(purpose)) >= 8


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("bust-girth", "bust-girth"),
        ("Bust", "bust-girth"),
        ("bust_girth", "bust-girth"),
        ("nape to waist", "back-neck-to-waist"),
        ("neck point to waist, back", "neck-point-to-waist-back"),
        ("biceps", "upper-arm-girth"),
        ("front waist length", "neck-point-over-bust-to-waist"),
        ("body rise", "crotch-depth"),
        ("wrist", "wrist-girth"),
    ],
)
def test_a_measurement_is_found_by_the_name_a_dressmaker_types(typed: str, key: str) -> None:
    assert measurement(typed).key == key


def test_an_unknown_name_is_answered_with_the_nearest() -> None:
    with pytest.raises(UnknownMeasurement, match=r"Did you mean shoulder length"):
        measurement("shoulder lenght")
    with pytest.raises(UnknownMeasurement, match="measuring sheet"):
        measurement("xyzzy")


def test_a_body_gives_each_side_what_was_measured_there() -> None:
    body = Body.of({("shoulder-length", "right"): 125, ("shoulder-length", "left"): 128})
    assert body.value("shoulder-length", "right") == 125
    assert body.value("shoulder-length", "left") == 128
    assert body.value("shoulder-length") == 126.5
    assert body.is_uneven("shoulder-length")


@pytest.mark.parametrize("given", ["both", "right", "left"])
def test_a_side_that_was_not_given_is_taken_from_what_was(given: str) -> None:
    body = Body.of({("shoulder-length", given): 125})
    for side in ("both", "right", "left"):
        assert body.value("shoulder-length", side) == 125
        assert body.has("shoulder-length", side)
        assert body.has_exactly("shoulder-length", side) == (side == given)
    assert not body.is_uneven("shoulder-length")


def test_one_side_may_differ_from_both() -> None:
    body = Body.of({"shoulder-slope": 22}).with_value("shoulder-slope", 26, "right")
    assert (body.value("shoulder-slope", "right"), body.value("shoulder-slope", "left")) == (26, 22)
    assert body.is_uneven("shoulder-slope")
    assert not body.with_value("shoulder-slope", 20).is_uneven("shoulder-slope")


def test_a_side_of_a_whole_measurement_reads_the_whole() -> None:
    assert Body.of({"bust-girth": 880}).value("bust-girth", "left") == 880


def test_asking_for_what_was_not_measured_says_how_to_measure_it() -> None:
    with pytest.raises(NotMeasured, match=r"right shoulder length was not measured.*neck point"):
        Body.of({"bust-girth": 880}).value("shoulder-length", "right")
    assert Body.of({"bust-girth": 880}).get("waist-girth") is None


@pytest.mark.parametrize("value", [0.0, -5.0, float("nan"), float("inf")])
def test_a_body_refuses_what_no_body_has(value: float) -> None:
    with pytest.raises(NotABodyValue, match="bust girth cannot be"):
        Body.of({"bust-girth": value})


def test_a_whole_measurement_has_no_left() -> None:
    with pytest.raises(WrongSide, match="one measurement of the whole body"):
        Body.of({("bust-girth", "left"): 880})


def test_an_estimate_stays_marked() -> None:
    body = Body.of({"bust-girth": 880, "across-back": 344}, estimated=["across-back"])
    assert body.is_estimated("across-back")
    assert not body.is_estimated("bust-girth")
    assert [one.name for one in body.estimates] == ["across back"]
    assert not body.with_value("across-back", 350).is_estimated("across-back")


def test_a_body_is_the_same_after_storing() -> None:
    body = Body.of({"bust-girth": 880, ("shoulder-slope", "left"): 22}, estimated=["bust-girth"])
    assert Body.from_record(body.to_record()) == body
    with pytest.raises(BodyRecordUnreadable, match="format 9"):
        Body.from_record({**body.to_record(), "format": 9})


def test_a_body_is_the_same_however_it_was_put_together() -> None:
    one = Body.of({"bust-girth": 880, "waist-girth": 680})
    other = Body.of({"waist-girth": 680}).with_value("bust-girth", 880)
    assert one == other
    assert hash(one) == hash(other)
    assert one.keys == ("bust-girth", "waist-girth")
    assert other.without("waist-girth").keys == ("bust-girth",)
