"""A bodice block from a body: wanted figures met, checks clean, chosen figures within range."""

from dataclasses import replace

import pytest
from published.bodies import NamedBody, chart_bodies, posture_bodies

from tracker.body.body import Body
from tracker.drafting.bodice import Draft, draft_bodice
from tracker.drafting.bodice_wants import BodiceChoices
from tracker.pattern.checks import check

PUBLISHED = (*chart_bodies(), *posture_bodies())


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
