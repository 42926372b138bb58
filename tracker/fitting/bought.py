"""A garment without a pattern: its pieces and seams by their usual names, to say amounts by."""

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING

from tracker.fitting.observation import Observation
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam

if TYPE_CHECKING:
    from collections.abc import Iterable

BOTH, CENTRE = BodySide.BOTH, BodySide.CENTRE
#: Corners going round each piece, each with the edge that follows it.
_TOP = {
    "front": ("centre front neck", "neckline", "neck point", "shoulder", "shoulder point",
              "armhole", "underarm point", "side", "side hem", "hem", "centre front hem",
              "centre front"),
    "back": ("centre back neck", "centre back", "centre back hem", "hem", "side hem", "side",
             "underarm point", "armhole", "shoulder point", "shoulder", "neck point", "neckline"),
    "sleeve": ("back wrist", "wrist", "front wrist", "front underarm", "front underarm point",
               "cap", "back underarm point", "back underarm"),
}  # fmt: skip
_LEGS = {
    "front": ("centre front waist", "crotch", "inside-leg point", "inside leg", "inside hem",
              "hem", "side hem", "side", "side waist", "waist"),
    "back": ("centre back waist", "crotch", "inside-leg point", "inside leg", "inside hem", "hem",
             "side hem", "side", "side waist", "waist"),
}  # fmt: skip
_SKIRT = {
    "front": ("centre front waist", "waist", "side waist", "side", "side hem", "hem",
              "centre front hem", "centre front"),
    "back": ("centre back waist", "centre back", "centre back hem", "hem", "side hem", "side",
             "side waist", "waist"),
}  # fmt: skip


def usual_pattern(notes: "Iterable[Observation]") -> Pattern:
    """Return a pattern without outlines of what notes speak of: a top or dress, trousers, a skirt.

    Which it is is told from the words of their places. A seam that none of these has (a panel
    seam, say) is added as it is named.
    """
    some = tuple(notes)
    told = " ".join(
        f"{n.seam or ''} {n.piece or ''} {n.edge or ''} " + " ".join(r.corner for r in n.readings)
        for n in some
    ).lower()
    if "crotch" in told or "inside" in told:
        pattern = _drawn_up(_LEGS)
    elif "waist" in told and not any(
        word in told for word in ("neck", "shoulder", "armhole", "underarm", "sleeve", "bust")
    ):
        pattern = _drawn_up(_SKIRT)
    else:
        pattern = _drawn_up(_TOP)
    for note in some:
        pattern = _with_seam(pattern, note)
    return pattern


def _drawn_up(rings: Mapping[str, tuple[str, ...]]) -> Pattern:
    pieces = tuple(
        Piece(name, BOTH, tuple(
            Edge(ring[k + 1], BOTH, ring[k], ring[(k + 2) % len(ring)])
            for k in range(0, len(ring), 2)
        ))
        for name, ring in rings.items()
    )  # fmt: skip
    names = {p.name: {e.name for e in p.edges} for p in pieces}
    front, back = names["front"], names["back"]
    seams = [
        Seam(name, BOTH, (Run("front", name, BOTH),), (Run("back", name, BOTH),))
        for name in ("side", "shoulder", "inside leg") if name in front and name in back
    ]  # fmt: skip
    for part, edges in (("front", front), ("back", back)):
        edge = "crotch" if "crotch" in edges else f"centre {part}"
        run = (Run(part, edge, BOTH),)
        seams.append(Seam(f"centre {part}", CENTRE, run, run))
    if "sleeve" in names:
        armholes = (Run("front", "armhole", BOTH), Run("back", "armhole", BOTH))
        seams.append(Seam("armhole", BOTH, armholes, (Run("sleeve", "cap", BOTH),)))
        under = (Run("sleeve", "front underarm", BOTH),)
        seams.append(Seam("underarm", BOTH, under, (Run("sleeve", "back underarm", BOTH),)))
    return Pattern(pieces, tuple(seams))


def _with_seam(pattern: Pattern, note: Observation) -> Pattern:
    """Add the seam a note is at where it is none of the usual ones, between its two pieces."""
    if note.seam is None or any(s.name == note.seam for s in pattern.seams):
        return pattern
    named = list(dict.fromkeys(r.piece for r in note.readings if r.piece))
    part = "back" if "back" in note.seam else "front"
    one, two = (*named, f"centre {part}", f"side {part}")[:2]
    ends = list(dict.fromkeys(r.corner for r in note.readings if r.corner)) or ["upper end"]
    start, end = ends[0], ends[-1] if len(ends) > 1 else "lower end"
    pieces = list(pattern.pieces)
    for name in (one, two):
        edge = Edge(note.seam, BOTH, start, end)
        known = next((p for p in pieces if p.name == name), None)
        if known is None:
            pieces.append(Piece(name, BOTH, (edge,)))
        else:
            pieces[pieces.index(known)] = replace(known, edges=(*known.edges, edge))
    run, other = (Run(one, note.seam, BOTH),), (Run(two, note.seam, BOTH),)
    return Pattern(tuple(pieces), (*pattern.seams, Seam(note.seam, BOTH, run, other)))


__all__ = ["usual_pattern"]
