"""Places as a fitter says them: at the waist, at the bust line, 3 cm above the hip line.

A reading may be at a corner, at a material line, or at a dart; what is said is kept with the note
and found on the pattern here.
"""

from collections.abc import Iterable
from dataclasses import replace

from tracker.errors import TrackerError
from tracker.fitting.observation import Observation
from tracker.fitting.reading import Reading, ReadingKind
from tracker.fitting.scene import Scene
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: A line ends on an edge within this of it, mm.
_ON_MM = 1.0
#: What else lines are called; common practice, no source.
_LINES = {
    "bust": "bust line", "full bust": "bust line", "chest line": "bust line",
    "waist": "waist line", "hip": "hip line", "hips": "hip line", "full hip": "hip line",
    "biceps": "upper arm line", "upper arm": "upper arm line", "elbow": "elbow line",
    "wrist": "wrist line", "knee": "knee line", "crotch": "crotch line", "thigh": "crotch line",
    "blades": "across back", "blade line": "across back", "chest": "across front",
}  # fmt: skip


def placed_on(pattern: Pattern, note: Observation) -> Observation:
    """Return a note with its places as corners of the pattern, as far as they can be told.

    - A word of one corner alone is that corner: "waist" at a side seam is its side waist.
    - At a seam, or an edge that was named, a line is the place where it meets the edge.
    - A reading "all along" is at the first corner, and holds all along.

    What cannot be told stays as it was said.
    """
    if not note.readings:
        return note
    return replace(note, readings=tuple(_placed(pattern, note, r) for r in note.readings))


def spots_on(
    pattern: Pattern, note: Observation, spots: Iterable[tuple[str, float]]
) -> tuple[tuple[str, float], ...]:
    """Return where a change ends, (corner, distance in mm), by the pattern's own corners."""
    nothing = tuple(
        Reading(kind=ReadingKind.PINNED_FOLD, corner=corner, value_mm=0.0, distance_mm=distance)
        for corner, distance in spots
    )
    placed = placed_on(pattern, replace(note, readings=nothing)).readings
    return tuple((r.corner, r.distance_mm) for r in placed)


def named_corners(pattern: Pattern, note: Observation) -> Observation:
    """Return a note with the pattern's own names for the corners and lines that were said."""
    return replace(note, readings=tuple(_named(pattern, note, r) for r in note.readings))


def _named(pattern: Pattern, note: Observation, r: Reading) -> Reading:
    if not r.corner:
        return r
    corners = [c for _, e in _edges(pattern, note, r) for c in (e.start, e.end)]
    corner = _corner(r.corner, dict.fromkeys(corners))
    if corner is not None:
        return replace(r, corner=corner, distance_mm=abs(r.distance_mm))
    line = at_a_line(pattern, r)
    return r if line is None else replace(r, corner=line)


def at_a_line(pattern: Pattern, reading: Reading) -> str | None:
    """Return the material line a reading is at, by the pattern's own name."""
    known = {level.name for p in pattern.pieces for level in p.levels}
    word = _plain(reading.corner)
    for name in (word, f"{word} line", _LINES.get(word, "")):
        if name in known:
            return name
    return None


def at_a_dart(pattern: Pattern, note: Observation, reading: Reading) -> tuple[Piece, str] | None:
    """Return the piece and the dart a reading is at: "4 mm at the waist dart"."""
    word = _plain(reading.corner)
    for piece in pattern.pieces:
        if piece.name in (reading.piece, note.piece):
            for dart in piece.darts:
                if dart.name == word:
                    return piece, dart.name
    return None


def _placed(pattern: Pattern, note: Observation, r: Reading) -> Reading:
    if not r.corner and r.kind is ReadingKind.FROM_FLOOR:
        return r
    found = _edges(pattern, note, r)
    if not found:
        return r
    corners = list(dict.fromkeys(c for _, e in found for c in (e.start, e.end)))
    if not r.corner:
        return replace(r, corner=found[0][1].start)
    corner = _corner(r.corner, corners)
    if corner is not None:
        return replace(r, corner=corner, distance_mm=abs(r.distance_mm))
    line = at_a_line(pattern, r)
    for piece, edge in found if line is not None else ():
        along = _meets(pattern, note, piece, edge, line or "", r.distance_mm)
        if along is not None:
            return replace(r, corner=edge.start, distance_mm=round(along, 1))
    return r


def _edges(pattern: Pattern, note: Observation, r: Reading) -> list[tuple[Piece, Edge]]:
    """The edges a reading may lie on: of its seam's first side, or of the name that was said."""
    if note.seam is not None:
        try:
            seam = pattern.seam(note.seam, note.side)
        except TrackerError:
            return []
        sides = seam.first
        return [(pattern.piece(run.piece, run.side), pattern.edge_of(run)) for run in sides]
    name, piece = r.edge or note.edge, r.piece or note.piece
    return [
        (p, e) for p in pattern.pieces for e in p.edges
        if e.name == name and piece in (None, p.name) and p.layer == "shell"
    ]  # fmt: skip


def _corner(said: str, corners: Iterable[str]) -> str | None:
    """The corner that was said, or the only one with all its words."""
    known = list(corners)
    word = _plain(said)
    if word in known:
        return word
    meant = [c for c in known if set(word.split()) <= set(c.split())]
    return meant[0] if len(meant) == 1 else None


def _plain(said: str) -> str:
    return " ".join(said.lower().split()).removeprefix("the ")


def _meets(
    pattern: Pattern, note: Observation, piece: Piece, edge: Edge, line: str, up_mm: float
) -> float | None:
    """How far along an edge from its start a line, or so much above it, is."""
    if not piece.has_outline:
        return None
    scene = Scene(pattern, note)
    height = scene.height(piece, line=line)
    for level in piece.levels:
        if level.name == line:
            ends = [p for s in level.strokes for p in (s[0], s[-1])]
            near = [p for p in ends if abs(edge.point_at(edge.nearest(p)[0]) - p) < _ON_MM]
            if near:
                height = near[-1].imag
    if height is None:
        return None
    return scene.at_height(edge, height + up_mm)


__all__ = ["at_a_dart", "at_a_line", "named_corners", "placed_on", "spots_on"]
