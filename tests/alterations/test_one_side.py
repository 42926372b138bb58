"""Every kind that can be for one body side: the other stays, and right then left is both."""

from dataclasses import fields, replace

import pytest

from tracker.alterations.bodyside import split_sides
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind, kinds
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern

SIDES = (BodySide.RIGHT, BodySide.LEFT)
#: What crosses a fold and cannot differ there, with what the refusal says would work.
REFUSED = {
    "change the neckline": "say how much a way off it",
    "add a button stand": "put a seam at the centre first",
    "level an edge": "or alter both sides",
    "more or less bust volume": "shape a seam",
    "set the grain": "one grain for both sides",
}
SIDED = [k for _, k in sorted(kinds().items()) if "side" in {f.name for f in fields(k)}]
DONE = [k for k in SIDED if k.word not in REFUSED]
#: For one side these run out to nothing at the centre, so two of them are not the same as one.
RUN_OUT = (
    "change the crotch depth", "lengthen or shorten", "raise or lower an edge",
    "slash across the pieces",
)  # fmt: skip
#: The whole amount is stated, and one side only takes all of it.
WHOLE = ("change the width across", "taper or widen")
#: The second one meets a piece of another name.
RENAMED = ("panel the front", "trace a facing")
#: A line trued over the centre is drawn again by a hair there, millimetres.
HAIR_MM = 0.02


def on(kind: Kind, side: BodySide) -> Kind:
    return replace(kind, side=side)


def opened(pattern: Pattern, like: Pattern) -> Pattern:
    """The pattern with those pieces split that the other one has split."""
    sides = {p.name: p.side for p in pattern.pieces}
    differing = {p.name for p in like.pieces if sides.get(p.name, p.side) is not p.side}
    return split_sides(pattern, differing).pattern


@pytest.mark.parametrize("kind", DONE, ids=lambda k: k.word)
@pytest.mark.parametrize("side", SIDES)
def test_a_kind_for_one_side_leaves_the_other_as_it_was(kind: type[Kind], side: BodySide) -> None:
    example = kind.example()
    new = apply_step(on(example.kind, side), example.pattern, "one").pattern
    was = opened(example.pattern, new)
    kept = [e for p in new.pieces for e in p.edges if BodySide.BOTH in (p.side, e.side)]
    for piece in new.pieces:
        for edge in piece.edges:
            if side.opposite in (piece.side, edge.side) and piece.name != "centre front":
                old = was.piece(piece.name, piece.side).edge(*edge.key)
                assert edge.length == pytest.approx(old.length, abs=HAIR_MM)
                kept.append(edge)
    assert kept


@pytest.mark.parametrize(
    "kind", [k for k in DONE if k.word not in (*RUN_OUT, *RENAMED)], ids=lambda k: k.word
)
def test_the_right_then_the_left_is_the_same_as_both(kind: type[Kind]) -> None:
    example = kind.example()
    both = apply_step(example.kind, example.pattern, "one").pattern
    each = example.kind.scaled(0.5) if kind.word in WHOLE else example.kind
    assert each is not None
    halfway = apply_step(on(each, BodySide.RIGHT), example.pattern, "one").pattern
    turn_about = apply_step(on(each, BodySide.LEFT), halfway, "two").pattern
    whole = opened(both, turn_about)
    assert {p.key for p in whole.pieces} == {p.key for p in turn_about.pieces}
    for piece in turn_about.pieces:
        for edge in piece.edges:
            old = whole.piece(*piece.key).edge(*edge.key)
            assert edge.length == pytest.approx(old.length, abs=1e-5), (piece.label, edge.key)


@pytest.mark.parametrize("word", REFUSED)
def test_what_cannot_differ_at_a_fold_is_refused_with_what_would_work(word: str) -> None:
    example = kinds()[word].example()
    with pytest.raises(TrackerError, match=REFUSED[word]):
        apply_step(on(example.kind, BodySide.RIGHT), example.pattern, "one")
