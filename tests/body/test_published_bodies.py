"""The bodies blocks are tried on are possible, irregular, and as published."""

from statistics import correlation, mean, stdev

import pytest
from published.bodies import (
    DRAWN,
    bdims_bodies,
    bdims_women,
    chart_bodies,
    contradictory_bodies,
    posture_bodies,
)

from tracker.body.estimate import BODICE_NEEDS, estimate, spread
from tracker.body.plausible import contradictions, questions
from tracker.body.vocabulary import measurement

ORDINARY = (*chart_bodies(), *posture_bodies(), *bdims_bodies(1))


@pytest.mark.parametrize("named", ORDINARY, ids=lambda named: named.name)
def test_an_ordinary_body_has_all_a_bodice_needs_and_contradicts_nothing(named: object) -> None:
    body = named.body
    assert set(BODICE_NEEDS) <= set(body.keys)
    assert [finding.sentence for finding in contradictions(body)] == []
    assert [finding.sentence for finding in questions(body)] == []


@pytest.mark.parametrize("case", contradictory_bodies(), ids=lambda case: case.name)
def test_a_contradictory_body_has_the_right_pair_named(case: object) -> None:
    wanted = {measurement(key).name for key in case.keys}
    found = contradictions(case.body)
    assert any(wanted <= set(finding.place.split("; ")) for finding in found), [
        finding.sentence for finding in found
    ]
    for finding in found:
        assert finding.remedy
        assert finding.sentence.count("mm (") >= 2


def test_bdims_is_carried_over_whole() -> None:
    # bdims (Heinz, Peterson, Johnson and Kerk, 2003): 260 women; means and deviations of the
    # published data, cm.
    women = bdims_women()
    assert len(women) == 260
    for key, mean_cm, deviation_cm in (
        ("height", 164.872308, 6.544602),
        ("high-bust-girth", 86.06, 6.170406),
        ("waist-girth", 69.803462, 7.587748),
        ("hip-girth", 95.652692, 6.940728),
        ("shoulder-girth", 100.303846, 6.470598),
        ("upper-arm-girth", 28.097308, 2.709477),
        ("wrist-girth", 15.059231, 0.849410),
        ("thigh-girth", 57.195769, 4.636004),
    ):
        values = [woman.value(key) / 10 for woman in women]
        assert mean(values) == pytest.approx(mean_cm, abs=1e-5)
        assert stdev(values) == pytest.approx(deviation_cm, abs=1e-5)


def test_the_same_seed_gives_the_same_women_and_another_seed_others() -> None:
    assert bdims_bodies(1) == bdims_bodies(1)
    assert bdims_bodies(1) != bdims_bodies(2)


@pytest.mark.parametrize("key", [key for key in DRAWN if spread(key) > 0 and key != "bust-girth"])
def test_the_women_are_as_irregular_as_published(key: str) -> None:
    # Each drawn figure scatters about its own estimate by its published spread (a normal spread
    # cut at two deviations keeps 0.88 of it); contradictory bodies drawn again take some off.
    off = []
    for named in bdims_bodies(1):
        before = DRAWN[: DRAWN.index(key)]
        kept = {*bdims_women()[0].keys, *before}
        known = named.body.without(*(k for k in named.body.keys if k not in kept))
        off.append(named.body.value(key) - estimate(known, [key]).value(key))
    assert 0.7 * spread(key) < stdev(off) < 1.1 * spread(key)
    assert abs(mean(off)) < 0.3 * spread(key)


def test_left_and_right_shoulders_differ_as_published() -> None:
    # Japanese women students (1970): 72.9 in 100 have both shoulder lengths within 5 mm and
    # 88.1 in 100 both slopes within 5 degrees.
    for key, within, share in (("shoulder-length", 5.0, 0.729), ("shoulder-slope", 5.0, 0.881)):
        near = [
            abs(named.body.value(key, "right") - named.body.value(key, "left")) <= within
            for named in bdims_bodies(1)
        ]
        assert sum(near) / len(near) == pytest.approx(share, abs=0.12)
    assert not any(b.body.is_uneven("shoulder-slope") for b in bdims_bodies(1, uneven=False))


def test_the_bust_follows_the_chest_above_it() -> None:
    women = [named.body for named in bdims_bodies(1)]
    chest = [woman.value("high-bust-girth") for woman in women]
    bust = [woman.value("bust-girth") for woman in women]
    assert correlation(chest, bust) > 0.95
    # ANSUR II women: hip less chest 74 mm on average, deviation 57 mm.
    assert abs(mean(w.value("hip-girth") - w.value("bust-girth") for w in women) - 74) < 57
