"""A stretch of an edge as an edge of its own, and the notches that go with it."""

from dataclasses import dataclass, replace

from tracker.geometry.curve import Curve
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Notch
from tracker.pattern.trace import SHORTEST_MM
from tracker.pattern.walk import notch_on_edge


@dataclass(frozen=True, slots=True)
class Section:
    """Where an edge of a new piece came from.

    Attributes:
        old: the edge of the old piece; none where the edge is new.
        from_mm: where on it this one begins, as sewn.
        to_mm: where on it this one ends.
    """

    old: Edge | None
    from_mm: float = 0.0
    to_mm: float = 0.0

    @property
    def whole(self) -> bool:
        """Tell whether it is the whole of the old edge."""
        return self.old is not None and self.to_mm - self.from_mm > self.old.length - SHORTEST_MM


def section(edge: Edge, from_mm: float, to_mm: float, start: str, end: str) -> Edge:
    """Return the stretch of an edge between two distances as sewn.

    What was drawn becomes its base line: the edge was cut through. A dart mouth at either end
    of the stretch is left out.
    """
    parts: list[Curve] = []
    mouths: list[str] = []
    offset = 0.0
    for index, part in enumerate(edge.drawn):
        low, high = max(from_mm - offset, 0.0), min(to_mm - offset, part.length)
        offset += part.length
        if high - low <= SHORTEST_MM:
            continue
        if parts:
            mouths.append(edge.mouths[index - 1])
        whole = low <= SHORTEST_MM and high >= part.length - SHORTEST_MM
        parts.append(part if whole else part.part(low, high))
    return Edge(edge.name, edge.side, start, end, tuple(parts), tuple(mouths))


def notches_on(notches: tuple[Notch, ...], old: Edge, part: Section, new: Edge) -> list[Notch]:
    """Return the notches of an old edge that lie on one stretch of it.

    Each keeps the corner it is measured from where the stretch still has it; otherwise it is
    measured from the nearer end.
    """
    out = []
    for notch in notches:
        if (notch.edge, notch.side) != (old.name, old.side):
            continue
        at = notch_on_edge(old, notch)
        last = part.to_mm >= old.length - SHORTEST_MM
        if not (part.from_mm <= at and (at < part.to_mm or last)):
            continue
        along = at - part.from_mm
        if notch.corner in (new.start, new.end):
            pass  # the corner it is kept from came along, and so did the distance
        elif along <= new.length / 2:
            notch = replace(notch, corner=new.start, distance_mm=along)
        else:
            notch = replace(notch, corner=new.end, distance_mm=new.length - along)
        out.append(notch)
    return out
