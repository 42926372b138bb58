"""Every kind on a pattern without outlines: words and amounts to mark on the paper."""

from dataclasses import replace

import pytest

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind, kinds
from tracker.errors import TrackerError
from tracker.pattern.canonical import settled
from tracker.pattern.pattern import Pattern

#: These do again, or leave alone, what a step traced; on paper nothing was traced.
TRACED = ("trace it again", "leave a traced piece as it is")
#: These change what is written of a piece or a pattern, not a line: nothing is left to mark.
WRITTEN = (
    "leave out a piece", "plan the ease", "put on the fold", "seam at the centre",
    "set the allowance", "set the cut instruction", "set the layer", "withdraw steps",
)  # fmt: skip
KINDS = [kind for word, kind in sorted(kinds().items()) if word not in TRACED]


def on_tissue(pattern: Pattern, lengths: bool) -> Pattern:
    """The same pieces, edges and seams as names only, with or without the tape's lengths."""
    pieces = []
    for piece in pattern.pieces:
        edges = tuple(
            replace(
                edge, parts=(), bases=(), displacements=(), mouths=(),
                declared_mm=round(edge.length, 1) if lengths else None,
            )
            for edge in piece.edges
        )  # fmt: skip
        pieces.append(
            replace(
                piece, edges=edges, darts=(), notches=(), levels=(), marks=(), grain=None,
                traced=None,
            )
        )  # fmt: skip
    return settled(replace(pattern, pieces=tuple(pieces)))


@pytest.mark.parametrize("lengths", [True, False], ids=["measured", "names only"])
@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.word)
def test_a_kind_becomes_words_and_amounts_on_a_pattern_without_outlines(
    kind: type[Kind], lengths: bool
) -> None:
    example = kind.example()
    tissue = on_tissue(example.pattern, lengths)
    applied = apply_step(example.kind, tissue, "one")
    told = example.kind.sentence(tissue)
    marked = f"mark it on the paper: {told}"
    if kind.word in WRITTEN:
        assert marked not in applied.effect.leaves
    else:
        assert marked in applied.effect.leaves
        assert applied.pattern == tissue
    if example.kind.amount_mm:
        assert any(c.isdigit() for c in told)


@pytest.mark.parametrize("word", TRACED)
def test_what_a_step_traced_cannot_be_done_again_on_paper(word: str) -> None:
    example = kinds()[word].example()
    with pytest.raises(TrackerError, match="was not traced"):
        apply_step(example.kind, on_tissue(example.pattern, True), "one")
