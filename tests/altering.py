"""What every alteration must hold, asked of one application of it."""

from collections.abc import Callable
from typing import TypeVar

import pytest
from hypothesis import settings

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Applied, Kind
from tracker.errors import TrackerError
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern

T = TypeVar("T")

#: Slow alterations are tried on a third of the examples.
A_THIRD = max(1, settings.default.max_examples // 3)
NO_OUTLINE = "mark it on the paper: "


def done(kind: Kind, pattern: Pattern, step_id: str = "one") -> Applied:
    """Apply a step, and hold it to what holds for every step."""
    applied = apply_step(kind, pattern, step_id)
    assert_accounted(pattern, applied)
    again = apply_step(type(kind).from_parameters(kind.parameters()), pattern, step_id)
    assert pattern_digest(again.pattern) == pattern_digest(applied.pattern)
    untouched = {p.label for p in pattern.pieces} - set(applied.effect.pieces)
    for piece in pattern.pieces:
        if piece.label in untouched and any(p.key == piece.key for p in applied.pattern.pieces):
            assert applied.pattern.piece(*piece.key) == piece
    return applied


def assert_accounted(before: Pattern, applied: Applied) -> None:
    """The trace tells of every millimetre of every old edge it names, and names all that moved."""
    now = {p.key: p for p in applied.pattern.pieces}
    for piece in before.pieces:
        for edge in piece.edges:
            fates = applied.trace.of(piece.name, edge.name, edge.side)
            if not fates:
                if piece.key in now and edge.parts:
                    assert now[piece.key].edge(*edge.key).parts == edge.parts
                continue
            reached = 0.0
            for old in sorted((f.old for f in fates if f.old), key=lambda o: o.start_mm):
                assert old.start_mm <= reached + 1e-3
                reached = max(reached, old.end_mm)
            assert reached == pytest.approx(edge.length, abs=1e-3)


def assert_same(one: Pattern, other: Pattern, within_mm: float = 1e-5) -> None:
    """Two patterns are drawn alike."""
    for a, b in zip(one.pieces, other.pieces, strict=True):
        for first, second in zip(a.edges, b.edges, strict=True):
            assert first.key == second.key
            for k in range(9):
                p, q = first.point_at(first.length * k / 8), second.point_at(second.length * k / 8)
                assert abs(p - q) <= within_mm, (a.label, first.name, k)
        for m, n in zip(a.notches, b.notches, strict=True):
            assert m.key == n.key
            assert m.distance_mm == pytest.approx(n.distance_mm, abs=within_mm)


def measures(pattern: Pattern) -> dict[str, float]:
    """Every girth, the neckline and the armholes."""
    found = {line: girth(pattern, line) for line in lines_of(pattern)}
    return found | {name: around(pattern, name) for name in ("neckline", "armhole")}


def made_or_told(make: Callable[[], T]) -> tuple[T | None, str]:
    """Return what was made, or nothing and the sentence it was refused with."""
    try:
        return make(), ""
    except TrackerError as refusal:
        return None, refusal.sentence
