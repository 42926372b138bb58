"""Every kind with an amount, asked for far too much of it: both limits named, and both true."""

import re
from collections.abc import Iterator

import pytest

from tracker.alterations.engine import LIMIT_MM, apply_step
from tracker.alterations.kind import DoesNotFit, Kind, NoExample, kinds
from tracker.alterations.tracing import Tracing
from tracker.errors import TrackerError
from tracker.pattern.measure import girth, lines_of
from tracker.pattern.pattern import Pattern

#: So many times the amount of a kind's example is asked for, there and the other way.
HUGE = (50.0, -50.0)
#: What no amount of ours is too much for: made longer, wider or deeper without an end.
ENDLESS = {
    ("change the crotch depth", 50.0),
    ("change the neckline", 50.0),
    ("cut a band", 50.0),
    ("cut a flat collar", 50.0),
    ("cut a stand collar", 50.0),
    ("lengthen or shorten", 50.0),
    ("run on below", 50.0),
    ("take in a seam", -50.0),
}


def asked() -> Iterator[tuple[str, float]]:
    """Every kind with an amount, and which way it is asked for too much."""
    for word, kind in kinds().items():
        try:
            step = kind.example().kind
        except NoExample:
            continue
        if not step.amount_mm:
            continue
        for factor in HUGE:
            try:
                scaled = step.scaled(factor)
            except TrackerError:
                continue
            if scaled is not None:
                yield word, factor


def body_of(pattern: Pattern) -> dict[str, float]:
    """The girths of a body the pattern was drafted to: nothing over the planned ease."""
    drawn = lines_of(pattern)
    return {v: girth(pattern, v) - ease for v, ease in pattern.ease if v in drawn}


def by(step: Kind, mm: float) -> Kind:
    """The same step with another amount, of the same sign."""
    assert step.amount_mm
    other = step.scaled(mm / abs(step.amount_mm))
    assert other is not None
    return other


def drawn(step: Kind, pattern: Pattern) -> Pattern | None:
    try:
        return apply_step(step, pattern, "two").pattern
    except TrackerError:
        return None


def leaves_the_ease(step: Kind, pattern: Pattern) -> bool:
    new, body = drawn(step, pattern), body_of(pattern)
    return new is not None and all(
        girth(new, v) >= body[v] + ease - LIMIT_MM for v, ease in pattern.ease if v in body
    )


def named(sentence: str) -> tuple[float, float]:
    """The two limits a refusal names: what can be drawn, and what leaves the planned ease."""
    found = re.search(
        r"; ([\d.]+) mm is the most that can be drawn here, and "
        r"(?:(it)|([\d.]+) mm is the most that) leaves her the planned ease$",
        sentence,
    )
    assert found, sentence
    most = float(found[1])
    return most, most if found[2] else float(found[3])


@pytest.mark.parametrize(("word", "factor"), sorted(asked()))
def test_both_limits_are_named_and_neither_is_too_large_or_too_small(
    word: str, factor: float
) -> None:
    example = kinds()[word].example()
    step, pattern = example.kind.scaled(factor), example.pattern
    assert step is not None
    if (word, factor) in ENDLESS:
        assert drawn(step, pattern) is not None
        return
    with pytest.raises(DoesNotFit) as told:
        apply_step(step, pattern, "one", body_of(pattern))
    if isinstance(step, Tracing):
        assert "ease" not in told.value.sentence.split("; ")[-1]
        most = eased = float(told.value.sentence.split("; ")[-1].split(" mm")[0])
    else:
        most, eased = named(told.value.sentence)
    assert drawn(by(step, most), pattern) is not None
    # Of all that is up to 0.6 mm more, something cannot be drawn.
    assert not all(drawn(by(step, most + k / 10), pattern) for k in range(1, 7))
    if eased > 0:
        assert leaves_the_ease(by(step, eased), pattern)
    if eased < most:
        assert not leaves_the_ease(by(step, eased + 0.6), pattern)
    for share in (0.25, 0.5, 0.75):
        assert drawn(by(step, most * share), pattern) is not None


def test_every_way_without_an_end_is_still_asked() -> None:
    assert set(asked()) >= ENDLESS
