"""A bodice block from a body: wanted figures met, checks clean, chosen figures within range."""

import os
from dataclasses import replace

import pytest
from published.bodies import NamedBody, bdims_bodies, chart_bodies, posture_bodies

from tracker.body.body import Body
from tracker.body.estimate import estimate
from tracker.drafting.bodice import BodyCannotBeMet, Draft, draft_bodice
from tracker.drafting.bodice_wants import BodiceChoices
from tracker.pattern.checks import check
from tracker.pattern.measure import around
from tracker.units import in_inches, write_inches

PUBLISHED = (*chart_bodies(), *posture_bodies())
DEEP = os.environ.get("TRACKER_TESTS") == "deep"
WOMEN = bdims_bodies() if DEEP else bdims_bodies()[::5]
MOST_REFUSED_IN_100 = 2


def as_measured(body: Body) -> Body:
    """The same body with every estimate taken for a measurement: nothing is left free."""
    return Body(tuple(replace(value, estimated=False) for value in body))


def assert_sound(draft: Draft) -> None:
    assert draft.worst_miss < 0.001, max(draft.wanted, key=lambda row: abs(row.miss))
    girths = {
        "bust line": draft.body.value("bust-girth"),
        "waist line": draft.body.value("waist-girth"),
    }
    found = check(draft.pattern, girths).findings
    assert not found, [finding.sentence for finding in found]
    for row in draft.chosen:
        assert row.low is not None
        assert row.high is not None
        assert row.got is not None
        assert row.low - 1e-3 <= row.got <= row.high + 1e-3, row


@pytest.mark.parametrize("one", PUBLISHED, ids=lambda one: one.name)
def test_a_published_body_is_met_with_all_checks_clean(one: NamedBody) -> None:
    assert_sound(draft_bodice(one.body))


@pytest.mark.parametrize("one", PUBLISHED[::4], ids=lambda one: one.name)
def test_a_published_body_is_met_when_the_back_shoulder_is_eased(one: NamedBody) -> None:
    draft = draft_bodice(one.body, choices=BodiceChoices(back_shoulder="ease"))
    assert_sound(draft)
    assert [dart.name for dart in draft.pattern.piece("back").darts] == ["waist dart"]
    assert draft.pattern.seam("shoulder").planned_ease_mm == 6.0


@pytest.mark.parametrize("one", PUBLISHED[::6], ids=lambda one: one.name)
def test_a_published_body_is_met_when_every_estimate_is_taken_for_measured(one: NamedBody) -> None:
    assert_sound(draft_bodice(as_measured(one.body)))


def test_irregular_women_are_met_or_at_most_2_in_100_of_them_refused() -> None:
    """bdims (Heinz, Peterson, Johnson and Kerk, 2003), lengths drawn with published spreads."""
    refused = []
    for one in WOMEN:
        try:
            assert_sound(draft_bodice(as_measured(one.body)))
        except BodyCannotBeMet as refusal:
            refused.append(f"{one.name}: {refusal.sentence}")
    assert len(refused) <= MOST_REFUSED_IN_100 * len(WOMEN) / 100, refused


def test_women_measured_only_round_the_body_are_all_met() -> None:
    """What was only estimated is left free where it can be, so that none is refused."""
    for one in WOMEN[::6]:
        assert_sound(draft_bodice(one.body))


def test_the_shoulders_follow_the_slants_where_they_were_measured() -> None:
    middle = as_measured(chart_bodies()[3].body)
    first = draft_bodice(middle).pattern
    slants = {
        "shoulder-point-to-centre-waist-back": abs(first.piece("back").corner("shoulder point")),
        "shoulder-point-to-centre-waist-front": abs(first.piece("front").corner("shoulder point")),
    }
    body = middle
    for key, finished in slants.items():
        body = body.with_value(key, finished - 7.0 + 4.0)  # 7 mm ease; 4 mm longer than it was
    draft = draft_bodice(body)
    assert_sound(draft)
    names = {row.name: row for row in draft.wanted}
    assert "shoulder slope" not in names
    for where in ("back", "front"):
        row = names[f"shoulder point to centre waist, {where}"]
        assert row.got == pytest.approx(
            slants[f"shoulder-point-to-centre-waist-{where}"] + 4.0, abs=1e-4
        )
    assert any("was not used" in note for note in draft.notes)


def test_what_was_only_estimated_is_chosen_not_wanted() -> None:
    body = chart_bodies()[3].body
    assert body.is_estimated("centre-front-length")
    estimated = draft_bodice(body)
    assert "centre front length" in {row.name for row in estimated.chosen}
    assert any("estimated, not measured" in note for note in estimated.notes)
    measured = draft_bodice(as_measured(body))
    assert "centre front length" in {row.name for row in measured.wanted}
    assert not any("estimated, not measured" in note for note in measured.notes)


@pytest.mark.parametrize("one", chart_bodies()[:6], ids=lambda b: b.name)
def test_what_the_sentence_tells_has_the_inches_the_tables_have(one: NamedBody) -> None:
    """A sentence is kept in millimetres; told whole, its inches were often a sixteenth off."""
    draft = draft_bodice(one.body)
    told = in_inches(draft.sentence())
    for piece in draft.pattern.pieces:
        for dart in piece.darts:
            assert f"{piece.name} {dart.name} {write_inches(dart.intake_mm)}" in told
    assert f"neckline {write_inches(around(draft.pattern, 'neckline'))}" in told


@pytest.mark.parametrize(
    "arcs",
    [
        {"bust-arc-front": 525.0, "waist-arc-front": 390.0},  # the girth tells the other
        {"bust-arc-back": 453.0, "waist-arc-back": 372.0},
        {"bust-arc-front": 525.0, "bust-arc-back": 453.0,
         "waist-arc-front": 390.0, "waist-arc-back": 372.0},
    ],
    ids=["front", "back", "both"],
)  # fmt: skip
def test_bust_and_waist_are_shared_as_the_measured_arcs_are(arcs: dict[str, float]) -> None:
    body = Body.of({"bust-girth": 978.0, "waist-girth": 762.0, "height": 1680.0, **arcs})
    rows = {row.name: row for row in draft_bodice(estimate(body)).chosen}
    for line, share in (("bust", 36.0), ("waist", 9.0)):
        row = rows[f"{line}, half front less half back"]
        assert row.wanted == pytest.approx(share)
        assert row.got == pytest.approx(share, abs=4.0 if len(arcs) == 4 else 6.0)
        assert row.note == "the body's own arcs"


def test_estimated_arcs_are_shared_by_common_practice() -> None:
    body = Body.of({"bust-girth": 978.0, "waist-girth": 762.0, "height": 1680.0})
    for row in draft_bodice(estimate(body)).chosen:
        if row.name.endswith("half front less half back"):
            assert row.note == "common practice, no source"
