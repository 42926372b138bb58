"""Every kind of step shows itself on a pattern, and what it shows can be done."""

import inspect
import json

import pytest
from altering import done

from tracker.alterations.kind import Kind, kinds
from tracker.pattern.canonical import canonical, pattern_digest, pattern_from, pattern_record
from tracker.pattern.checks import check

ALL = tuple(kinds().values())
#: What an example may leave to look at: what is sewn to the altered edge follows by the next step.
FOLLOWS = ("seam sides", "notches")


@pytest.mark.parametrize("kind", ALL, ids=lambda k: k.word)
def test_its_example_can_be_done_and_leaves_a_pattern_fit_to_be_looked_at(kind: type[Kind]) -> None:
    example = kind.example()
    assert type(example.kind) is kind
    before = check(example.pattern)
    applied = done(example.kind, example.pattern)
    after = check(applied.pattern)
    known = {(f.code, f.place) for f in before.findings}
    fresh = [f for f in after.findings if (f.code, f.place) not in known]
    assert {f.code for f in fresh} <= set(FOLLOWS)
    assert len({f.place for f in fresh if f.code == "seam sides"}) <= 1
    assert example.kind.sentence(example.pattern)


@pytest.mark.parametrize("kind", ALL, ids=lambda k: k.word)
def test_what_its_example_makes_reads_back_as_it_is_in_memory(kind: type[Kind]) -> None:
    example = kind.example()
    made = done(example.kind, example.pattern).pattern
    assert pattern_from(json.loads(canonical(pattern_record(made)))) == made


@pytest.mark.parametrize("kind", ALL, ids=lambda k: k.word)
def test_its_example_is_told_in_one_line_and_is_the_same_each_time(kind: type[Kind]) -> None:
    caption = inspect.getdoc(kind.example) or ""
    assert caption.endswith(".")
    assert "\n" not in caption
    assert kind.example().kind == kind.example().kind
    assert pattern_digest(kind.example().pattern) == pattern_digest(kind.example().pattern)
