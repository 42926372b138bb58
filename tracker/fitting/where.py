"""Where a note is, in the regions the table of signs speaks of."""

from tracker.errors import TrackerError
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.scene import part_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: Edges a piece's note may speak of without naming one.
_EDGES = ("armhole", "neckline", "waist", "crotch", "hem", "wrist", "cap")
#: So near the neck a centre seam is read as the neckline is.
_NEAR_THE_NECK_MM = 60.0
#: Seams that are themselves a region, by a word of their name.
_SEAMS = (
    ("front princess", "front panel seam"), ("back princess", "back panel seam"),
    ("shoulder", "shoulder"), ("armhole", "armhole"), ("inside leg", "inside leg"),
    ("centre back", "centre back"), ("centre front", "centre front"), ("neck", "neckline"),
    ("waist", "waist"), ("panel", "front panel seam"),
)  # fmt: skip


def regions(pattern: Pattern | None, note: Observation) -> frozenset[str]:
    """Return the regions a note is in, the pattern's own names understood."""
    if note.seam is not None:
        return frozenset(_of_seam(pattern, note))
    if note.piece is None:
        return frozenset(_of_edge("", note.edge or "") | {note.edge or ""})
    part = _part(pattern, note)
    if not note.edge:
        told = f"{note.direction} {note.fitter_words} {note.client_words}".lower()
        unsaid = note.sign in (Sign.OTHER, Sign.OFF_PLACE)
        said = {e for e in _EDGES if unsaid and e in told}
        return frozenset({part, note.piece}.union(*(_of_edge(part, e) for e in said)))
    return frozenset(_of_edge(part, note.edge))


def _part(pattern: Pattern | None, note: Observation) -> str:
    assert note.piece is not None
    piece: Piece | None = None
    if pattern is not None:
        try:
            piece = pattern.piece(note.piece, None)
        except TrackerError:
            piece = next((p for p in pattern.pieces if p.name == note.piece), None)
    if piece is not None:
        return part_of(piece)
    return next((w for w in ("sleeve", "back", "front") if w in note.piece.lower()), note.piece)


def _of_edge(part: str, edge: str) -> set[str]:
    if part == "sleeve":
        if edge == "cap":
            return {"sleeve cap"}
        return {"wrist"} if edge in ("hem", "wrist") else {"sleeve"}
    if edge in ("hem", "hip"):
        return {"hem", edge}
    if edge == "side":
        return {"side"}
    if edge in ("shoulder", "centre front", "centre back", "inside leg"):
        return {edge}
    if edge.endswith("princess"):
        return {edge.replace("princess", "panel seam")}
    if part == "side":  # a panel under the arm, without a side seam
        return {edge, f"front {edge}", f"back {edge}"}
    return {f"{part} {edge}".strip()}


def _of_seam(pattern: Pattern | None, note: Observation) -> set[str]:
    name = (note.seam or "").lower()
    if "sleeve" in name or (name == "underarm" and _only_on_sleeve(pattern, name)):
        return {"sleeve"}
    found = {region for word, region in _SEAMS if word in name}
    if name.startswith("centre") and _at_the_neck(note):
        return {f"{name.removeprefix('centre ')} neckline"}
    if name == "armhole":
        found.add("sleeve cap")
    if name.startswith("side"):
        found |= {"side", *_heights(note)}
    if "centre" in name and pattern is not None and _crotch(pattern):
        found.add(f"{name.removeprefix('centre ')} crotch")
    return found or {name}


def _at_the_neck(note: Observation) -> bool:
    """Tell whether a centre seam is read at its neck end, the largest amount of all."""
    largest = max(note.readings, key=lambda r: abs(r.value_mm), default=None)
    return (
        largest is not None and largest.value_mm != 0
        and largest.corner.endswith("neck") and largest.distance_mm < _NEAR_THE_NECK_MM
    )  # fmt: skip


def _only_on_sleeve(pattern: Pattern | None, name: str) -> bool:
    if pattern is None:
        return True
    seams = [s for s in pattern.seams if s.name == name]
    return all(
        part_of(pattern.piece(r.piece, r.side)) == "sleeve"
        for s in seams for r in (*s.first, *s.second)
    )  # fmt: skip


def _crotch(pattern: Pattern) -> bool:
    return any(e.name == "crotch" for p in pattern.pieces for e in p.edges)


def _heights(note: Observation) -> set[str]:
    """At which height of a side seam something is read, or is said to be."""
    corners = " ".join(r.corner for r in note.readings if r.value_mm)
    told = f"{corners} {note.direction} {note.fitter_words}".lower()
    return {f"side at the {word}" for word in ("underarm", "waist", "hip") if word in told}
