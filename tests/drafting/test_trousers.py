"""Trousers from a body: figures met, checks clean, seams lie flat at the inside-leg point."""

import itertools
import json
import math
import os
from dataclasses import replace

import pytest
from published.bodies import NamedBody, bdims_bodies, chart_bodies, posture_bodies

from tracker.body.body import Body, BodyRecordUnreadable
from tracker.body.ease_tables import TROUSER_EASE
from tracker.body.estimate import estimate
from tracker.drafting.trousers import (
    TO_ESTIMATE,
    BodyCannotBeMet,
    MeasurementsMissing,
    NotTrousers,
    TrouserChoices,
    TrouserDraft,
    draft_trousers,
    missing_from,
    trousers_from_record,
)
from tracker.geometry.point import turn_between
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.checks import check
from tracker.pattern.measure import girth

DEEP = os.environ.get("TRACKER_TESTS") == "deep"
PUBLISHED = (*chart_bodies()[::5], *(b for b in posture_bodies() if "waist" in b.name))
WOMEN = bdims_bodies() if DEEP else bdims_bodies()[::8]
MOST_REFUSED_IN_100 = 2


def whole(body: Body) -> Body:
    return estimate(body, TO_ESTIMATE)


def as_measured(body: Body) -> Body:
    return Body(tuple(replace(value, estimated=False) for value in whole(body)))


TEXTBOOK = next(whole(one.body) for one in chart_bodies() if one.name == "textbook size 12")


def assert_sound(draft: TrouserDraft) -> None:
    assert draft.worst_miss < 0.001, max(draft.wanted, key=lambda row: abs(row.miss))
    girths = {f"{line} line": draft.body.value(f"{line}-girth") for line in ("waist", "hip")}
    found = check(draft.pattern, girths).findings
    assert not found, [finding.sentence for finding in found]
    for row in draft.chosen:
        assert row.low is not None
        assert row.high is not None
        assert row.got is not None
        assert row.low - 1e-3 <= row.got <= row.high + 1e-3, row
    thigh, got = draft.body.value("thigh-girth"), girth(draft.pattern, "crotch line") / 2
    if draft.body.is_estimated("thigh-girth"):
        assert got >= thigh + draft.ease.mm("thigh") - 40.0 - 1e-3
    else:
        assert got == pytest.approx(thigh + draft.ease.mm("thigh"), abs=0.01)


@pytest.mark.parametrize("one", PUBLISHED, ids=lambda one: one.name)
def test_a_published_body_is_met_with_all_checks_clean(one: NamedBody) -> None:
    assert_sound(draft_trousers(whole(one.body)))


def test_irregular_women_are_met_or_at_most_2_in_100_of_them_refused() -> None:
    """bdims (Heinz, Peterson, Johnson and Kerk, 2003): waist, hip, thigh and knee of real women."""
    refused = []
    for one in WOMEN:
        try:
            assert_sound(draft_trousers(as_measured(one.body)))
        except BodyCannotBeMet as refusal:
            refused.append(f"{one.name}: {refusal.sentence}")
    assert len(refused) <= MOST_REFUSED_IN_100 * len(WOMEN) / 100, refused


@pytest.fixture(scope="module")
def draft() -> TrouserDraft:
    return draft_trousers(TEXTBOOK)


def test_measured_crotch_lengths_are_met_and_estimated_ones_aimed_at(draft: TrouserDraft) -> None:
    assert "crotch length, back" in {row.name for row in draft.chosen}
    measured = as_measured(TEXTBOOK)
    for key, more in (("crotch-length-front", 12.0), ("crotch-length-back", 20.0)):
        measured = measured.with_value(key, measured.value(key) + more)
    assert_sound(draft_trousers(measured))
    pattern = draft_trousers(measured).pattern
    for piece in pattern.pieces:
        key = f"crotch-length-{piece.name}"
        # 20 mm of ease in the whole crotch length, half in front and half behind.
        assert piece.edge("crotch").length == pytest.approx(measured.value(key) + 10.0, abs=1e-4)


@pytest.mark.parametrize(
    ("height", "bust", "waist", "hip"),
    [(1635, 975, 810, 1060), (1580, 900, 700, 960), (1740, 1040, 860, 1100), (1700, 880, 680, 940)],
)
def test_estimated_crotch_lengths_are_come_near(
    height: float, bust: float, waist: float, hip: float
) -> None:
    """A miss of 31 mm behind gained nothing: entered as measured, the same are met."""
    girths = {"height": height, "bust-girth": bust, "waist-girth": waist, "hip-girth": hip}
    draft = draft_trousers(whole(Body.of({key: float(value) for key, value in girths.items()})))
    rows = [row for row in draft.chosen if row.name.startswith("crotch length")]
    assert len(rows) == 2
    for row in rows:
        assert row.got == pytest.approx(row.wanted, abs=8.5), row


def test_a_crotch_length_measured_only_whole_is_met() -> None:
    measured = Body.of({"waist-girth": 762.0, "hip-girth": 1060.0, "height": 1680.0,
                        "crotch-length": 700.0})  # fmt: skip
    draft = draft_trousers(whole(measured))
    assert draft.worst_miss < 0.001
    row = next(row for row in draft.wanted if row.name == "crotch length, front and back")
    assert row.got == pytest.approx(720.0, abs=1e-3)  # 20 mm of ease
    front, back = (piece.edge("crotch").length for piece in draft.pattern.pieces)
    assert front + back == pytest.approx(720.0, abs=1e-3)
    assert front / back == pytest.approx(325.0 / 395.0, abs=0.03)


def test_a_part_of_the_crotch_length_follows_from_the_whole_and_the_other() -> None:
    measured = Body.of({"waist-girth": 762.0, "hip-girth": 1060.0, "height": 1680.0,
                        "crotch-length": 710.0, "crotch-length-back": 405.0})  # fmt: skip
    front, back = (p.edge("crotch").length for p in draft_trousers(whole(measured)).pattern.pieces)
    assert (front, back) == (pytest.approx(315.0, abs=1e-3), pytest.approx(415.0, abs=1e-3))


def test_a_whole_crotch_length_no_trousers_have_is_refused_by_name() -> None:
    measured = Body.of({"waist-girth": 762.0, "hip-girth": 1060.0, "height": 1680.0,
                        "crotch-length": 990.0})  # fmt: skip
    with pytest.raises(BodyCannotBeMet, match="crotch length 990 mm") as refused:
        draft_trousers(whole(measured))
    assert "crotch-length" in refused.value.keys


def test_a_measured_thigh_is_met_with_its_ease_or_refused_by_name(draft: TrouserDraft) -> None:
    assert "thigh" in {row.name for row in draft.chosen}  # it was estimated
    body = TEXTBOOK.with_value("thigh-girth", 560.0)
    measured = Body(
        tuple(replace(v, estimated=False) if v.key == "thigh-girth" else v for v in body)
    )
    met = draft_trousers(measured)
    row = next(row for row in met.wanted if row.name == "thigh")
    assert (row.wanted, row.got) == (650.0, pytest.approx(650.0, abs=0.01))
    assert girth(met.pattern, "crotch line") / 2 == pytest.approx(650.0, abs=0.01)
    thin = measured.with_value("thigh-girth", 400.0)
    with pytest.raises(BodyCannotBeMet, match="thigh girth 400 mm"):
        draft_trousers(thin)


def test_a_draft_of_rule_3_is_drafted_again_as_it_was() -> None:
    old = draft_trousers(as_measured(TEXTBOOK), rule=3)
    again = trousers_from_record(json.loads(json.dumps(old.to_record())))
    assert pattern_digest(again.pattern) == pattern_digest(old.pattern)
    assert "thigh" in {row.name for row in old.chosen}


def test_ease_is_planned_at_thigh_and_knee_too(draft: TrouserDraft) -> None:
    plan = dict(draft.pattern.ease)
    assert plan["knee line"] == 2 * draft.ease.mm("knee")  # round both legs
    assert plan["crotch line"] >= 2 * draft.ease.mm("thigh")
    girths = {"crotch line": 2 * draft.body.value("thigh-girth"),
              "knee line": 2 * draft.body.value("knee-girth")}  # fmt: skip
    assert not check(draft.pattern, girths).findings
    # On a thigh of 2 cm more, the ease is no longer the planned one.
    more = {**girths, "crotch line": girths["crotch line"] + 40.0}
    assert [f.code for f in check(draft.pattern, more).findings] == ["ease"]


def test_crotch_and_inside_leg_are_one_hollow_sweep(draft: TrouserDraft) -> None:
    for piece in draft.pattern.pieces:
        # Along a hollow edge with the cloth on the left the line turns right.
        for name in ("crotch", "inside leg"):
            line = piece.edge(name).drawn[0]
            ways = [line.heading_at(line.length * k / 80) for k in range(81)]
            turns = [math.degrees(turn_between(a, b)) for a, b in itertools.pairwise(ways)]
            assert max(turns) < 0.02, (piece.name, name)


def test_the_crease_hangs_plumb_through_the_middle_of_the_leg(draft: TrouserDraft) -> None:
    for piece in draft.pattern.pieces:
        assert piece.grain is not None
        low, high = piece.grain
        assert low.real == high.real
        inside, side = piece.corner("inside hem"), piece.corner("side hem")
        assert low.real == pytest.approx((inside.real + side.real) / 2, abs=1e-5)


def test_hem_and_ease_asked_for_are_had() -> None:
    short = draft_trousers(TEXTBOOK, choices=TrouserChoices(above_floor_mm=120.0))
    assert_sound(short)
    ease = TROUSER_EASE.with_line("knee", 60.0).with_line("crotch-depth", 25.0)
    assert_sound(draft_trousers(TEXTBOOK, ease))
    with pytest.raises(NotTrousers, match="below the knee"):
        draft_trousers(TEXTBOOK, choices=TrouserChoices(above_floor_mm=500.0))


@pytest.mark.parametrize(
    "amounts",
    [
        {"hip-girth": 760.0, "waist-girth": 900.0},
        {"crotch-length-back": 560.0},
    ],
    ids=["a waist wider than the hip", "a crotch length round the knee"],
)
def test_a_body_without_trousers_is_refused_truly(amounts: dict[str, float]) -> None:
    body = as_measured(TEXTBOOK).without(
        "waist-arc-front", "waist-arc-back", "hip-arc-front", "hip-arc-back"
    )
    for key, value in amounts.items():
        body = body.with_value(key, value)
    with pytest.raises(BodyCannotBeMet) as refused:
        draft_trousers(body)
    assert set(amounts) & set(refused.value.keys), refused.value.sentence
    for key, value in refused.value.would_do:
        draft_trousers(body.with_value(key, value))


def test_missing_measurements_are_named() -> None:
    body = TEXTBOOK.without("crotch-depth", "knee-girth")
    assert set(missing_from(body)) == {"crotch-depth", "knee-girth"}
    with pytest.raises(MeasurementsMissing, match="pair of trousers"):
        draft_trousers(body)


def test_the_same_recipe_drafts_the_same_block(draft: TrouserDraft) -> None:
    record = json.loads(json.dumps(draft.to_record()))
    assert pattern_digest(trousers_from_record(record).pattern) == pattern_digest(draft.pattern)
    with pytest.raises(BodyRecordUnreadable):
        trousers_from_record({**record, "kind": "draft skirt"})


# ------------------------------------------------- published drafts, size 12


def test_widths_are_those_of_a_classic_block(draft: TrouserDraft) -> None:
    # Classic tailored block, waist 68, hip 94 (from memory): front hip 24.0, back 25.0 cm.
    for piece, hip in zip(draft.pattern.pieces, (240.0, 250.0), strict=True):
        stroke = piece.level("hip line").strokes[0]
        assert abs(stroke[1] - stroke[0]) == pytest.approx(hip, abs=8.0)


def test_crotch_extensions_are_those_of_a_classic_block(draft: TrouserDraft) -> None:
    # H/16 + 0.5 = 6.375 cm in front; half of it again and 0.5 cm more behind.
    for piece, reach in zip(draft.pattern.pieces, (63.75, 100.6), strict=True):
        fork = abs(piece.corner("inside-leg point").real)
        assert fork == pytest.approx(reach, abs=18.0)


def test_the_seat_slopes_as_on_published_drafts(draft: TrouserDraft) -> None:
    # Tailor's angles of 1900: 15 degrees, a width of a quarter of the length (14 degrees).
    back = draft.pattern.piece("back").edge("crotch").drawn[0]
    assert 8.0 <= math.degrees(abs(turn_between(back.start_heading, -1j))) <= 15.5


def test_the_back_leg_is_1_to_2_cm_wider_at_knee_and_hem(draft: TrouserDraft) -> None:
    widths = [piece.edge("hem").length for piece in draft.pattern.pieces]
    assert 10.0 - 1e-4 <= widths[1] - widths[0] <= 20.0 + 1e-4
