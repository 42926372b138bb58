"""The very opposite of an earlier step, with nothing it touched changed since: it is undone.

Some steps draw lines afresh where they were done, and drawn afresh once more those would only
come near. So a piece keeps how it was before such a step.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Applied, Kind
from tracker.alterations.told import applied
from tracker.pattern.canonical import changed_digest
from tracker.pattern.earlier import KEPT_EARLIER, Earlier
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.trace import Fate, Stretch, Trace


def given_back(kind: Kind, pattern: Pattern) -> Applied | None:
    """Take an earlier step back; nothing where this is not the very opposite of one.

    Args:
        kind: the step.
        pattern: the pattern.
    """
    opposite = kind.opposite(pattern)
    if opposite is None:
        return None
    found = {
        piece.key: (piece, earlier)
        for piece in pattern.pieces
        for earlier in piece.earlier
        if earlier.word == opposite.word and _said(opposite, earlier) == opposite
    }
    if not found or not all(_as_left(piece, earlier) for piece, earlier in found.values()):
        return None
    fates: list[Fate] = []
    after = pattern
    for old, earlier in found.values():
        new = _given_back(old, earlier)
        after = after.with_pieces(new)
        fates += [
            Fate(Stretch.whole(old, old.edge(*e.key)), Stretch.whole(new, e)) for e in earlier.edges
        ]
    return applied(pattern, after, Trace(tuple(fates)))


def remembering(kind: Kind, before: Pattern, after: Pattern) -> Pattern:
    """Return the pattern a step made, its pieces knowing how they were.

    Args:
        kind: the step.
        before: the pattern before it.
        after: the settled pattern it made.
    """
    if kind.opposite(before) is None:
        return after
    whole = {p.key for p in after.pieces}
    before = split_sides(before, [p.name for p in before.pieces if p.key not in whole]).pattern
    if before.seams != after.seams or [p.key for p in before.pieces] != [
        p.key for p in after.pieces
    ]:
        return after
    parameters = kind.parameters()
    fresh = [
        new if old is new else _knowing(old, new, kind.word, parameters)
        for old, new in zip(before.pieces, after.pieces, strict=True)
    ]
    return after if None in fresh else after.with_pieces(*(p for p in fresh if p is not None))


def _knowing(old: Piece, new: Piece, word: str, parameters: Mapping[str, Any]) -> Piece | None:
    """A piece that knows how it was; nothing where it has other edges or darts."""
    if [e.key for e in old.edges] != [e.key for e in new.edges] or old.fold != new.fold:
        return None
    if [d.key for d in old.darts] != [d.key for d in new.darts]:
        return None
    edges = tuple(e for e in old.edges if e != new.edge(*e.key))
    darts = tuple(d for d in old.darts if d != new.dart(*d.key))
    if (old.edges, old.darts, old.notches, old.levels, old.marks) == (
        new.edges, new.darts, new.notches, new.levels, new.marks
    ):  # fmt: skip
        return new
    left = changed_digest(new, [e.key for e in edges], [d.key for d in darts])
    earlier = Earlier(
        word, parameters, left, edges, darts, old.notches, old.levels, old.marks, old.grain
    )
    return replace(new, earlier=(*new.earlier, earlier)[-KEPT_EARLIER:])


def _said(kind: Kind, earlier: Earlier) -> Kind:
    return type(kind).from_parameters(earlier.parameters)


def _as_left(piece: Piece, earlier: Earlier) -> bool:
    known = {e.key for e in piece.edges}, {d.key for d in piece.darts}
    edges, darts = [e.key for e in earlier.edges], [d.key for d in earlier.darts]
    if not known[0].issuperset(edges) or not known[1].issuperset(darts):
        return False
    return changed_digest(piece, edges, darts) == earlier.left


def _given_back(piece: Piece, earlier: Earlier) -> Piece:
    edges, darts = {e.key: e for e in earlier.edges}, {d.key: d for d in earlier.darts}
    return replace(
        piece,
        edges=tuple(edges.get(e.key, e) for e in piece.edges),
        darts=tuple(darts.get(d.key, d) for d in piece.darts),
        notches=earlier.notches,
        levels=earlier.levels,
        marks=earlier.marks,
        grain=earlier.grain,
        earlier=tuple(e for e in piece.earlier if e is not earlier),
    )
