"""A draft is the same every time, is kept as it was rounded, and can be drafted again."""

import json

import pytest
from published.bodies import chart_bodies, posture_bodies

from tracker.body.body import BodyRecordUnreadable
from tracker.body.ease import DEFAULT_BODICE_EASE
from tracker.drafting.bodice import BodiceChoices, draft_bodice, draft_from_record
from tracker.pattern.canonical import pattern_digest, pattern_from, pattern_record

SIZE_12 = next(one.body for one in chart_bodies() if one.name == "textbook size 12")
UNEVEN = next(one.body for one in posture_bodies() if one.name == "low right shoulder")


def test_the_same_body_gives_the_same_block() -> None:
    one, two = draft_bodice(SIZE_12), draft_bodice(SIZE_12)
    assert pattern_digest(one.pattern) == pattern_digest(two.pattern)
    assert one.table == two.table


def test_a_block_is_what_reading_it_back_gives() -> None:
    pattern = draft_bodice(SIZE_12).pattern
    again = pattern_from(json.loads(json.dumps(pattern_record(pattern))))
    assert again == pattern
    assert pattern_digest(again) == pattern_digest(pattern)


@pytest.mark.parametrize("choices", [BodiceChoices(), BodiceChoices(back_shoulder="ease")])
def test_a_recipe_drafts_the_same_block_again(choices: BodiceChoices) -> None:
    ease = DEFAULT_BODICE_EASE.with_line("bust", 62.0)
    draft = draft_bodice(SIZE_12, ease, choices)
    again = draft_from_record(json.loads(json.dumps(draft.to_record())))
    assert pattern_digest(again.pattern) == pattern_digest(draft.pattern)
    assert again.ease.mm("bust") == 62.0
    assert again.choices == choices


#: The block of the textbook's size 12 as rule 1 drafted it, its necklines square to the shoulder.
RULE_1 = "7eaaa49faef070ea2d432b9c3c5e738c2e66cfd44fac1a0da5f4251048dcbb9d"


def test_a_recipe_of_rule_1_drafts_the_same_block_as_it_did() -> None:
    record = json.loads(json.dumps(draft_bodice(SIZE_12).to_record()))
    assert record["rule"] == 3
    old = draft_from_record({**record, "rule": 1})
    assert pattern_digest(old.pattern) == RULE_1
    assert old.to_record()["rule"] == 1
    assert pattern_digest(draft_from_record(record).pattern) != RULE_1


@pytest.mark.parametrize(
    "damage",
    [
        lambda record: record.pop("body"),
        lambda record: record.update(kind="draft skirt"),
        lambda record: record.update(format=7),
        lambda record: record["choices"].update(pockets=2),
    ],
    ids=["no body", "another block", "a later format", "a choice not known"],
)
def test_a_damaged_recipe_gets_a_sentence(damage) -> None:
    record = json.loads(json.dumps(draft_bodice(SIZE_12).to_record()))
    damage(record)
    with pytest.raises(BodyRecordUnreadable):
        draft_from_record(record)


def test_a_sentence_says_what_was_drafted() -> None:
    sentence = draft_bodice(SIZE_12).sentence()
    assert "bust 880 mm and waist 680 mm, partly estimated" in sentence
    assert "50 mm ease at the bust and 25 mm at the waist" in sentence
    assert "bust dart" in sentence


def test_uneven_shoulders_are_drafted_from_their_mean_unless_a_side_is_named() -> None:
    slopes = {}
    for side in ("both", "right", "left"):
        draft = draft_bodice(UNEVEN, choices=BodiceChoices(body_side=side))
        slopes[side] = next(row.got for row in draft.wanted if row.name == "shoulder slope")
        assert any("right and" in note and "left" in note for note in draft.notes), side
    assert slopes["right"] == pytest.approx(UNEVEN.value("shoulder-slope", "right"), abs=1e-5)
    assert slopes["left"] == pytest.approx(UNEVEN.value("shoulder-slope", "left"), abs=1e-5)
    assert slopes["both"] == pytest.approx((slopes["right"] + slopes["left"]) / 2, abs=1e-5)
    assert slopes["right"] > slopes["left"] + 2


@pytest.mark.parametrize(
    ("line", "row"),
    [
        ("bust", "bust"),
        ("waist", "waist"),
        ("neck-base", "neckline"),
        ("armhole-depth", "armhole depth"),
        ("across-back", "across back"),
        ("across-front", "across front"),
        ("back-length", "back neck point to waist"),
        ("front-length", "neck point over bust to waist"),
    ],
)
def test_every_line_of_the_ease_plan_is_in_the_finished_block(line: str, row: str) -> None:
    more = DEFAULT_BODICE_EASE.mm(line) + 3.0
    plain = draft_bodice(SIZE_12)
    eased = draft_bodice(SIZE_12, DEFAULT_BODICE_EASE.with_line(line, more))

    def got(draft) -> float:
        return next(one.got for one in draft.wanted if one.name == row)

    assert got(eased) - got(plain) == pytest.approx(3.0, abs=1e-4)
