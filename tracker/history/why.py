"""Why is this line here? Each step that moved any of an edge, newest first."""

import datetime as dt
import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from tracker.errors import TrackerError
from tracker.history.version import Version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Seam
from tracker.pattern.trace import SHORTEST_MM, Trace

EdgeKey = tuple[str, str, BodySide]


@dataclass(frozen=True, slots=True)
class Reason:
    """One step that moved some of an edge.

    Attributes:
        version: the version's address in words.
        made_on: its date.
        step_id: the step's opaque id.
        kind: the step's kind.
        sentence: what was done.
        moved: the edges, as they were called then, in words.
        because: ids of the observations behind it.
    """

    version: str
    made_on: dt.date
    step_id: str
    kind: str
    sentence: str
    moved: tuple[str, ...]
    because: tuple[str, ...]


def edges_of_seam(seam: Seam) -> tuple[EdgeKey, ...]:
    """Return the edges of a seam's two sides."""
    return tuple(dict.fromkeys((r.piece, r.edge, r.side) for r in (*seam.first, *seam.second)))


def edges_named(pattern: Pattern, piece: str, edge: str, side: BodySide) -> tuple[EdgeKey, ...]:
    """Return the edges of a name on a piece and body side."""
    pattern.piece(piece, side).edge(edge)
    return tuple(
        (p.name, e.name, e.side)
        for p in pattern.pieces
        if p.name == piece
        for e in p.edges
        if e.name == edge and side.covers(e.side)
    )


def _moved(trace: Trace, wanted: set[EdgeKey]) -> set[EdgeKey]:
    """The edges of those wanted that a step moved, trimmed or lengthened any part of."""
    moved: set[EdgeKey] = set()
    for key in wanted:
        came = trace.into(*key)
        if any(not f.still for f in came):
            moved.add(key)
            continue
        for old in {f.old.key for f in came if f.old}:
            carried = sum(f.old.length_mm for f in came if f.old and f.old.key == old)
            whole = max(f.old.end_mm for f in trace.of(*old) if f.old)
            if carried < whole - SHORTEST_MM:
                moved.add(key)
    return moved


def why(lineage: Sequence[Version], edges: Sequence[EdgeKey]) -> tuple[Reason, ...]:
    """Tell each step that moved any of some edges of the newest version, newest first.

    Args:
        lineage: the versions from the root to the one asked about, oldest first.
        edges: the edges as they are in the last of them.

    Raises:
        TrackerError: the versions are not parent and child.
    """
    for parent, child in itertools.pairwise(lineage):
        if child.parent_digest != parent.digest:
            raise TrackerError(f"{child.address} was not made from {parent.address}")
    wanted = set(edges)
    reasons: list[Reason] = []
    for version in reversed(lineage):
        for taken in reversed(version.taken):
            moved = sorted(
                {f"{edge} of the {piece}" for piece, edge, _ in _moved(taken.trace, wanted)}
            )
            came = [f for f in taken.trace.fates if f.new is not None and f.new.key in wanted]
            wanted -= {f.new.key for f in came if f.new}
            wanted |= {f.old.key for f in came if f.old}
            if not moved:
                continue
            reasons.append(
                Reason(
                    str(version.address), version.made_on, taken.step.step_id, taken.step.kind,
                    taken.sentence, tuple(moved), taken.step.because,
                )
            )  # fmt: skip
    if lineage and lineage[0].root:
        root = lineage[0]
        assert root.root is not None
        reasons.append(
            Reason(
                str(root.address), root.made_on, "", root.root.kind, root.sentence,
                tuple(sorted({f"{e} of the {p}" for p, e, _ in wanted})), (),
            )
        )  # fmt: skip
    return tuple(reasons)
