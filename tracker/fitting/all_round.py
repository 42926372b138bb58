"""Readings along a hem, a waist or another free edge, turned into alterations of that edge."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from tracker.alterations.kind import Kind, kind_named
from tracker.alterations.lower_edges import edges_called, into_the_piece
from tracker.fitting.counting import Spot, read_for
from tracker.fitting.from_piece import places_of
from tracker.fitting.garment import FittingError
from tracker.fitting.observation import Observation
from tracker.fitting.reading import Reading, ReadingKind
from tracker.fitting.scene import Scene, part_of
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.units import write_both

#: Edges that end at seams: read at one end, they run out to nothing at the other.
_RUNS_OUT = ("neckline", "armhole")
_NEAR_AN_END = 0.2
#: A reading with the piece and the edge it lies on.
Placed = tuple[Piece, Edge, Reading]


def levelled(pattern: Pattern, note: Observation) -> tuple[Kind, str]:
    """Return the levelling of an edge from heights above the floor.

    On one body side the centre, where no height was read, stays.

    Raises:
        FittingError: no height that is wanted was given.
    """
    wanted = [r.value_mm for r in note.readings if not r.corner]
    if not wanted:
        raise FittingError(
            "how high above the floor is it to hang? Give the height wanted too, as in --floor "
            "“60cm all round”"
        )
    edge = note.edge or next(
        (n for n in ("hem", "hip", "waist") for p in pattern.pieces for e in p.edges
         if e.name == n), "hem",
    )  # fmt: skip
    heights = [
        _height(piece, r.corner, r.distance_mm, r.value_mm)
        for piece, _, r in places_of(pattern, note)
    ]
    read = {h["corner"] for h in heights if not h["distance_mm"]}
    heights += [
        _height(piece, corner, 0.0, wanted[-1])
        for piece, corner in _centres(pattern, note, edge) if corner not in read
    ]  # fmt: skip
    kind = kind_named("level an edge").from_parameters(
        {"wanted_mm": wanted[-1], "readings": heights, "edge": edge, "side": _side(note)}
    )
    return kind, f"from the floor: to {write_both(wanted[-1])} all round, raised or lowered at " \
        "each place by the difference"  # fmt: skip


def _height(piece: Piece, corner: str, distance_mm: float, height_mm: float) -> dict[str, Any]:
    return {
        "piece": piece.name, "corner": corner, "distance_mm": distance_mm, "height_mm": height_mm,
    }  # fmt: skip


def _centres(pattern: Pattern, note: Observation, name: str) -> list[tuple[Piece, str]]:
    """The corners at which one half's edge meets the half that stays."""
    if note.side not in (BodySide.RIGHT, BodySide.LEFT):
        return []
    return [
        (piece, corner)
        for piece, edge in edges_called(pattern, name, note.side)
        for corner in (edge.start, edge.end)
        if corner.startswith("centre")
    ]


def reshaped(
    pattern: Pattern, placed: Sequence[Placed], note: Observation
) -> tuple[tuple[Kind, ...], str]:
    """Return free edges drawn on a chalk line or a mark, each piece by its own readings.

    An edge that is read all round goes by one amount on every piece that has it; where amounts
    differ, a corner of two pieces is read for both.
    """
    kind = placed[0][2].kind
    largest = max((r.value_mm for _, _, r in placed), key=abs)
    echo = read_for("reshape an edge", kind, largest, Spot.PAIR).echo
    if note.piece is None and all(r.piece is None for _, _, r in placed):
        piece, edge, _ = placed[0]
        if len({r.value_mm for _, _, r in placed}) == 1 and edge.name not in _RUNS_OUT:
            return (_moved(note, piece, edge, largest),), echo
        placed = _on_every_piece(pattern, placed, note)
    by_edge: dict[tuple[str, str], list[Reading]] = {}
    for piece, edge, reading in placed:
        by_edge.setdefault((piece.name, edge.name), []).append(reading)
    for piece, edge, _ in placed:
        lone = by_edge[piece.name, edge.name]
        far = _other_end(edge, lone[0], note) if len(lone) == 1 else None
        if far is not None:
            lone.append(Reading(kind=kind, corner=far, value_mm=0.0))
            echo += f"; to nothing at the {far}, where nothing was read"
    for piece, corner in _centres(pattern, note, placed[0][1].name):
        here = by_edge.get((piece.name, placed[0][1].name))
        if here is not None and corner not in {r.corner for r in here if not r.distance_mm}:
            here.append(Reading(kind=kind, corner=corner, value_mm=0.0))
    made = tuple(
        kind_named("reshape an edge").from_parameters(
            {"piece": piece, "edge": edge, "side": _side(note),
             "amounts": [_amount(kind, r) for r in some]}
        )
        for (piece, edge), some in by_edge.items() if any(r.value_mm for r in some)
    )  # fmt: skip
    return made, echo


def _other_end(edge: Edge, reading: Reading, note: Observation) -> str | None:
    """The end of an edge that stays when only its other end was read.

    Of a neckline or armhole always; of a waist or hem read at the centre of one piece alone,
    since the side of the other piece stays as it is.
    """
    at_the_centre = note.piece is not None and reading.corner.startswith("centre")
    if not edge.parts or not (edge.name in _RUNS_OUT or at_the_centre):
        return None
    if reading.distance_mm > edge.length * _NEAR_AN_END:
        return None
    return edge.end if reading.corner == edge.start else edge.start


def _amount(kind: ReadingKind, r: Reading) -> Mapping[str, Any]:
    counted = read_for("reshape an edge", kind, r.value_mm, Spot.PAIR)
    return {
        "corner": r.corner, "distance_mm": r.distance_mm, "amount_mm": counted.amount_mm,
    }  # fmt: skip


def _on_every_piece(pattern: Pattern, placed: Sequence[Placed], note: Observation) -> list[Placed]:
    """Read each place on every piece whose edge has its corner: a side hem is front and back."""
    found: list[Placed] = []
    for _, named, reading in placed:
        found += [
            (piece, edge, reading)
            for piece, edge in edges_called(pattern, named.name, note.side)
            if reading.corner in (edge.start, edge.end)
        ]
    return found


def turned_up(
    pattern: Pattern, placed: Sequence[Placed], note: Observation
) -> tuple[tuple[Kind, ...], str]:
    """Return an edge drawn where it was pinned up (or down); what is turned is counted once."""
    chalked = [(p, e, replace(r, kind=ReadingKind.CHALK_LINE)) for p, e, r in placed]
    largest = max((r.value_mm for _, _, r in placed), key=abs)
    piece, edge, _ = placed[0]
    lower = into_the_piece(piece, edge) > 0 if edge.parts else edge.name != "waist"
    echo = f"pinned {'up' if lower else 'down'} {write_both(largest)}: the {edge.name} moves by " \
        "it, counted once"  # fmt: skip
    alike = {r.value_mm for _, _, r in placed}
    if len(alike) == 1 and (note.piece is None or part_of(piece) == "sleeve"):
        return (_moved(note, piece, edge, alike.pop()),), echo
    return reshaped(pattern, chalked, note)[0], echo


def _moved(note: Observation, piece: Piece, edge: Edge, into_mm: float) -> Kind:
    """One edge by the same on every piece that has it; positive makes the pieces smaller."""
    if edge.parts:
        up = into_mm * into_the_piece(piece, edge)
    else:  # without an outline: a bodice ends at its waist, a skirt begins there
        topmost = edge.name == "waist" and any(e.name in ("hem", "hip") for e in piece.edges)
        up = -into_mm if topmost else into_mm
    return kind_named("raise or lower an edge").from_parameters(
        {"to": "raise" if up > 0 else "lower", "by_mm": abs(up), "edge": edge.name,
         "side": _side(note)}
    )  # fmt: skip


def _side(note: Observation) -> str:
    return Scene(Pattern((), ()), note).side


__all__ = ["levelled", "reshaped", "turned_up"]
