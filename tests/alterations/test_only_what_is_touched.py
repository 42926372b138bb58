"""A step costs what it touches: no other piece is checked, settled, measured or hashed again."""

from dataclasses import replace

import pytest
import wardrobe

from tracker.alterations import engine
from tracker.alterations.engine import apply_step
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.pattern import canonical
from tracker.pattern.canonical import pattern_digest, settled
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

WAIST_IN = TakeIn(
    seam="side", amounts=(AmountAt(corner="side waist", distance_mm=0.0, amount_mm=6.0),)
)
TOUCHED = {"front", "back"}


def ten_pieces() -> Pattern:
    """The hand-drawn bodice and four copies of it under other names, its digest taken once."""
    first = wardrobe.bodice()
    more = (replace(p, name=f"{p.name} {k}") for k in range(2, 6) for p in first.pieces)
    pattern = settled(Pattern((*first.pieces, *more), first.seams, first.ease))
    pattern_digest(pattern)
    return pattern


@pytest.mark.parametrize(
    ("module", "work"),
    [(engine, "ring_fault"), (canonical, "piece_record")],
    ids=["checked", "settled and hashed"],
)
def test_only_a_touched_piece_is_worked_on(
    monkeypatch: pytest.MonkeyPatch, module: object, work: str
) -> None:
    pattern, seen = ten_pieces(), []
    real = getattr(module, work)

    def counted(piece: Piece) -> object:
        seen.append(piece.name)
        return real(piece)

    monkeypatch.setattr(module, work, counted)
    pattern_digest(apply_step(WAIST_IN, pattern, "one").pattern)
    assert set(seen) == TOUCHED
    # Once to settle it and once to hash it, or once to check it.
    assert len(seen) <= 2 * len(TOUCHED)


def test_an_untouched_piece_is_the_very_same_one() -> None:
    pattern = ten_pieces()
    new = apply_step(WAIST_IN, pattern, "one").pattern
    assert {p.name for p in new.pieces if all(p is not q for q in pattern.pieces)} == TOUCHED


def test_an_untouched_edge_is_not_measured_again(monkeypatch: pytest.MonkeyPatch) -> None:
    pattern, measured = ten_pieces(), []
    length = Edge.__dict__["length"]
    real = length.func

    def counted(one: Edge) -> float:
        measured.append(one)
        return real(one)

    for piece in pattern.pieces:
        for one in piece.edges:
            assert one.length > 0
    monkeypatch.setattr(length, "func", counted)
    apply_step(WAIST_IN, pattern, "one")
    assert measured
    assert not [e for e in measured if any(e is o for p in pattern.pieces for o in p.edges)]
