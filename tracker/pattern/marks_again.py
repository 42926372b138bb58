"""Marks that stand on the outline and follow it."""

import math
from collections.abc import Collection
from dataclasses import replace

from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.levels import ON_EDGE_MM
from tracker.pattern.marks import Mark
from tracker.pattern.piece import Piece


def mark_again(mark: Mark, old: Piece, new: Piece, fresh: Collection[tuple[str, BodySide]]) -> Mark:
    """Return a mark where its corner, or its place of an edge, is after some edges changed.

    A mark inside the piece stays where it is on the cloth.
    """
    for edge in old.edges:
        if edge.key not in fresh or not edge.parts or new.edge(*edge.key).parts == edge.parts:
            continue
        now = new.edge(*edge.key)
        if abs(edge.parts[0].start - mark.point) < ON_EDGE_MM:
            return replace(mark, point=now.parts[0].start)
        if abs(edge.parts[-1].end - mark.point) < ON_EDGE_MM:
            return replace(mark, point=now.parts[-1].end)
        if edge.nearest(mark.point)[1] < ON_EDGE_MM:
            return replace(mark, point=_moved(mark.point, now))
    return mark


def _moved(point: Point, new: Edge) -> Point:
    """Where a place of an edge went: as far from its foot on the base line as the edge is now."""
    before, nearest, there = 0.0, math.inf, point
    for base in new.base_lines:
        along, off = base.nearest(point)
        if off < nearest:
            by = new.total.at(before + along)[0]
            nearest, there = off, base.point_at(along) + base.heading_at(along) * 1j * by
        before += base.length
    return new.point_at(new.nearest(there)[0])


__all__ = ["mark_again"]
