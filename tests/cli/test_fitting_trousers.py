"""Trousers fitted from the command line as a fitter would: seat, tummy, legs, then checked."""

import pytest
from cli.conftest import Tracker

MEASURED = ("height=168cm", "waist girth=74cm", "hip girth=100cm", "crotch depth=27.5cm",
            "knee girth=37cm", "thigh girth=58cm")  # fmt: skip
BLOCK = "una/trousers@1"


@pytest.fixture
def una(tracker: Tracker) -> Tracker:
    for words in (
        ("store", "new"),
        ("client", "new", "una", "Una", "--consent", "measurements"),
        ("measure", "new", "una", *MEASURED),
        ("block", "draft", "una", "--kind", "trousers", "--estimate"),
    ):
        done = tracker(*words)
        assert done.status == 0, done.err
    return tracker


FULL_SEAT = (
    "change the crotch length", "back=2.5cm", "at=centre",
    "+", "change the crotch length", "back=1cm",
)  # fmt: skip
FLAT_SEAT = (
    "change the crotch length", "back=-1.5cm", "at=centre",
    "+", "scoop or fill the crotch", "piece=back", "to=scoop", "by=4mm",
)  # fmt: skip
FULL_TUMMY = (
    "change the crotch length", "front=1.2cm", "at=centre",
    "+", "take in a seam", "seam=centre front", "amounts=-4mm at centre front waist",
    "amounts=nothing at 18cm from centre front waist",
    "+", "true a join", "seam=centre front", "corner=centre front waist",
)  # fmt: skip
KNOCK_KNEES = ("swing the leg", "to=outwards", "by=2cm")
LONG_RISE = ("change the crotch depth", "by=1.5cm")
#: Each with a figure that has to be among what it says.
FITTINGS = {
    "full seat": (FULL_SEAT, "back crotch", "+2.5 cm"),
    "flat seat": (FLAT_SEAT, "back crotch", "-1.5 cm"),
    "full tummy": (FULL_TUMMY, "front crotch", "+1.2 cm"),
    "knock knees": (KNOCK_KNEES, "back inside leg", "+0.5 cm"),  # the hem trued square again
    "long rise": (LONG_RISE, "back side", "+1.5 cm"),
}


@pytest.mark.parametrize("name", FITTINGS)
def test_a_fitter_alters_the_block_and_it_still_checks(una: Tracker, name: str) -> None:
    words, what, by = FITTINGS[name]
    done = una("alter", "make", *words, "--for", name)
    assert done.status == 0, done.err
    assert f"Stored as una/trousers@2, made from {BLOCK}." in done.out
    row = next(line for line in done.out.splitlines() if line.startswith(what))
    assert by in row
    # Whatever the hip or the waist was let out by: seams, corners and darts are right.
    findings = una("check", "una/trousers@2", "--json").json["findings"]
    assert not [f for f in findings if f["code"] != "ease"], findings


def test_what_is_only_tried_is_not_stored(una: Tracker) -> None:
    done = una("alter", "make", *KNOCK_KNEES, "--side", "right", "--try")
    assert done.status == 0, done.err
    assert f"Only shown: {BLOCK} is as it was" in done.out


def test_a_refusal_is_one_sentence_with_what_would_do(una: Tracker) -> None:
    done = una("alter", "make", "change the crotch length", "back=-30cm")
    assert done.status != 0
    assert "is the most that can be drawn here" in done.err
    done = una("alter", "make", "change the crotch length", "rise=1cm")
    assert "front, back, at" in done.err


def test_trousers_are_drafted_to_a_hem_of_her_choice(una: Tracker) -> None:
    words = ("block", "draft", "una", "--kind", "trousers", "--estimate", "--as", "slim")
    done = una(*words, "--hem", "36cm")
    assert done.status == 0, done.err
    assert "knee 470 mm and hem 360 mm" in " ".join(done.out.split())
    assert una("check", "una/slim@1").status == 0
    for length, told in (("9cm", "or leave it out"), ("0", "nothing")):
        refused = una(*words[:-1], "other", "--hem", length)
        assert refused.status == 2
        assert told in " ".join(refused.err.split())
    refused = una("block", "draft", "una", "--kind", "skirt", "--hem", "90cm")
    assert "asked for of trousers" in " ".join(refused.err.split())
