"""Work a version out again and compare with what is stored."""

from dataclasses import dataclass

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import kind_named
from tracker.errors import TrackerError
from tracker.history.step import Step
from tracker.history.version import Version, version_digest
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: A replayed line may differ from the stored one by this much.
SAME_MM = 0.001


@dataclass(frozen=True, slots=True)
class Replayed:
    """What working a version out again showed.

    Attributes:
        address: which version.
        damage: what is not as it was written; empty when all is well.
        notes: differences that are not damage: a rule of the arithmetic has changed since.
        furthest_mm: the furthest a replayed line lies from the stored one.
    """

    address: str
    damage: tuple[str, ...]
    notes: tuple[str, ...]
    furthest_mm: float

    @property
    def sound(self) -> bool:
        """Tell whether nothing is damaged."""
        return not self.damage


def replayed(pattern: Pattern, steps: tuple[Step, ...]) -> Pattern:
    """Apply recorded steps to a pattern."""
    for step in steps:
        pattern = apply_step(step.as_kind(), pattern, step.step_id).pattern
    return pattern


def check_again(version: Version, parent: Version | None) -> Replayed:
    """Work a version out again from its parent and compare it with the store."""
    damage: list[str] = []
    notes: list[str] = []
    furthest = 0.0
    name = str(version.address)
    worked_out = version_digest(version)
    if worked_out != version.digest:
        damage.append(
            f"{name} is not as it was written: its digest should begin {version.digest[:8]} and "
            f"comes to {worked_out[:8]}; take it from a backup"
        )
    if version.root is None:
        if parent is None:
            damage.append(f"{name} has lost its parent {version.parent}; take it from a backup")
        elif parent.digest != version.parent_digest:
            damage.append(
                f"{name} was made from a parent whose digest began {version.parent_digest[:8]}; "
                f"{parent.address} is now {parent.digest[:8]}"
            )
        else:
            furthest = _again(version, parent, damage, notes)
    return Replayed(name, tuple(damage), tuple(notes), furthest)


def _again(version: Version, parent: Version, damage: list[str], notes: list[str]) -> float:
    name = str(version.address)
    steps = tuple(t.step for t in version.taken)
    try:
        newer = [s for s in steps if s.rule != kind_named(s.kind).rule]
        fresh = replayed(parent.pattern, steps)
    except TrackerError as fault:
        damage.append(f"{name} cannot be worked out again: {fault}")
        return 0.0
    if pattern_digest(fresh) == pattern_digest(version.pattern):
        return 0.0
    off, where = furthest_apart(version.pattern, fresh)
    if newer and off > SAME_MM:
        kind = newer[0]
        notes.append(
            f"{name}: {kind.kind} was made by rule {kind.rule}; rule "
            f"{kind_named(kind.kind).rule} differs by {off:.1f} mm at {where}"
        )
    elif off > SAME_MM:
        damage.append(f"{name} worked out again lies {off:.3f} mm from the stored line at {where}")
    return off


def furthest_apart(one: Pattern, other: Pattern) -> tuple[float, str]:
    """Return the furthest distance between two patterns' outlines, and the edge it is at."""
    worst, where = 0.0, "nowhere"
    others = {p.key: p for p in other.pieces}
    for piece in one.pieces:
        twin = others.get(piece.key)
        if twin is None:
            return float("inf"), f"the {piece.label}, which only one of them has"
        if twin is piece or not piece.has_outline:
            continue
        off, edge = outlines_apart(piece, twin)
        if off > worst:
            worst, where = off, f"the {edge} of the {piece.label}"
    return worst, where


def outlines_apart(piece: Piece, twin: Piece) -> tuple[float, str]:
    """Return the furthest an edge of one piece strays from the same edge of its twin."""
    worst, where = 0.0, ""
    known = {e.key: e for e in twin.edges}
    for edge in piece.edges:
        partner = known.get(edge.key)
        if partner is None or partner.parts == edge.parts:
            continue
        for a, b in ((edge, partner), (partner, edge)):
            for k in range(41):
                off = b.nearest(a.point_at(a.length * k / 40))[1]
                if off > worst:
                    worst, where = off, edge.name
    return worst, where
