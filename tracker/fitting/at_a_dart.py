"""Amounts pinned, or let out, at a dart."""

from tracker.alterations.kind import Kind, kind_named
from tracker.alterations.shaping import spot
from tracker.fitting.counting import read_for
from tracker.fitting.observation import Observation
from tracker.fitting.scene import Scene
from tracker.fitting.suggest import spot_of
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece


def dart_changed(
    pattern: Pattern, note: Observation, piece: Piece, dart: str
) -> tuple[tuple[Kind, ...], str]:
    """Return a dart taken in, or let out, by what was read at it."""
    largest = max(note.readings, key=lambda r: abs(r.value_mm))
    spot_there = spot_of(pattern, note, largest)
    counted = read_for("change a dart", largest.kind, largest.value_mm, spot_there)
    given = {"piece": piece.name, "dart": dart, "deeper_mm": counted.amount_mm,
             "side": Scene(pattern, note).side}  # fmt: skip
    return (kind_named("change a dart").from_parameters(given),), counted.echo


def dart_at_the_waist(
    pattern: Pattern, note: Observation, piece: Piece, edge: Edge
) -> tuple[tuple[Kind, ...], str]:
    """A fold pinned in a waist: the waist dart takes it, or a new one does."""
    largest = max(note.readings, key=lambda r: abs(r.value_mm))
    darts = [d for d in piece.darts if d.mouth == edge.name]
    word = "change a dart" if darts else "add a dart"
    counted = read_for(word, largest.kind, largest.value_mm, spot_of(pattern, note, largest))
    side = Scene(pattern, note).side
    if darts:
        along = spot(piece, edge, largest.corner, largest.distance_mm)
        where = edge.point_at(along)
        dart = min(darts, key=lambda d: abs((d.mouth_start + d.mouth_end) / 2 - where))
        given = {"piece": piece.name, "dart": dart.name, "deeper_mm": counted.amount_mm,
                 "side": side}  # fmt: skip
    else:
        given = {"piece": piece.name, "name": f"{edge.name} dart", "edge": edge.name,
                 "corner": largest.corner, "distance_mm": largest.distance_mm,
                 "width_mm": counted.amount_mm, "length_mm": 90.0, "side": side}  # fmt: skip
    return (kind_named(word).from_parameters(given),), counted.echo
