"""Checks of names: every notch, dart, line and seam refers to something that is there."""

from collections.abc import Iterable
from dataclasses import replace

from tracker.pattern.bodyside import BodySide
from tracker.pattern.checked import Book
from tracker.pattern.errors import NoOutline, UnknownName
from tracker.pattern.finding import Finding
from tracker.pattern.marks import Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_side, walked

_Key = tuple[str, BodySide]
#: A notch lies this far past its edge's end before it is off it, millimetres.
_PAST_MM = 0.01
_REMEDY = {
    "notch": "remove the notch, and add one where it is wanted",
    "dart": "undo the step that took its edge away, or carry the pattern on from before it",
    "line": "undo the step that took its edge away, or carry the pattern on from before it",
    "seam": "undo the step that took its edge or notch away, or carry the pattern on from before",
}


def astray(pattern: Pattern) -> tuple[tuple[str, str, str], ...]:
    """Return what refers to something that is not there: what it is, where, and a sentence.

    What it is: "notch", "dart", "line" or "seam". Nothing of a piece without an outline.
    """
    out: list[tuple[str, str, str]] = []
    for piece in pattern.pieces:
        if piece.edges:
            out += _of_a_piece(piece)
    for seam in pattern.seams:
        fault = _of_a_seam(pattern, seam.key)
        if fault:
            out.append(("seam", f"{seam.name} seam", f"the {seam.name} seam: {fault}"))
    return tuple(out)


def look_names(pattern: Pattern, book: Book) -> Pattern | None:
    """Tell what is astray; return the pattern that can be looked at further, if any.

    A stray notch is left out of the rest. Without a stray dart, line or seam nothing more can be
    measured.
    """
    found = astray(pattern)
    for what, place, sentence in found:
        book.findings.append(Finding("names", place, sentence, 1, 0, "", _REMEDY[what]))
    if not found:
        return pattern
    left = _without_stray_notches(pattern)
    if not astray(left):
        return left
    book.not_checked.append("everything else: it cannot be measured until that is mended")
    return None


def _of_a_piece(piece: Piece) -> Iterable[tuple[str, str, str]]:
    edges: dict[_Key, tuple[str, ...]] = {e.key: e.mouths for e in piece.edges}
    for notch in piece.notches:
        fault = _notch_fault(piece, notch)
        if fault:
            yield "notch", f"the {notch.name} of the {piece.label}", fault
    for dart in piece.darts:
        where = f"the {dart.name} of the {piece.label}"
        if dart.mouth is not None and (dart.mouth, dart.side) not in edges:
            yield "dart", where, f"{where} opens from the {dart.mouth}, an edge that is not there"
        elif dart.mouth is not None and dart.name not in edges[dart.mouth, dart.side]:
            yield "dart", where, f"{where} opens from the {dart.mouth}, which has no mouth for it"
    known = {d.key for d in piece.darts if d.mouth is not None}
    for (name, side), mouths in edges.items():
        for mouth in mouths:
            if (mouth, side) not in known:
                where = f"the {name} of the {piece.label}"
                yield "dart", where, f"{where} has a mouth of the {mouth}, a dart that is not there"
    for level in piece.levels:
        for name in level.edges:
            if (name, level.side) not in edges:
                where = f"the {level.name} of the {piece.label}"
                yield "line", where, f"{where} is to be the {name}, an edge that is not there"
    if piece.fold is not None and not any(name == piece.fold for name, _ in edges):
        where = f"the {piece.label}"
        yield "line", where, f"{where} is on the fold at the {piece.fold}, an edge it does not have"


def _notch_fault(piece: Piece, notch: Notch) -> str:
    where = f"the {notch.name} of the {piece.label}"
    edge = next((e for e in piece.edges if e.key == (notch.edge, notch.side)), None)
    if edge is None:
        return f"{where} is on the {notch.edge}, an edge that is not there"
    if notch.corner not in (edge.start, edge.end):
        return f"{where} is measured from the {notch.corner}, where the {notch.edge} does not end"
    if not edge.parts or -_PAST_MM <= notch.distance_mm <= edge.length + _PAST_MM:
        return ""
    return (
        f"{where} is {notch.distance_mm:.1f} mm from the {notch.corner}, and the {notch.edge} is "
        f"{edge.length:.1f} mm long"
    )


def _of_a_seam(pattern: Pattern, key: _Key) -> str:
    seam = next(s for s in pattern.seams if s.key == key)
    try:
        first, second = walked(pattern, seam.first), walked(pattern, seam.second)
        for match in seam.matches:
            notch_on_side(pattern, first, match.first_piece, match.first)
            notch_on_side(pattern, second, match.second_piece, match.second)
    except NoOutline:
        return ""  # names and perhaps lengths are all it has
    except UnknownName as fault:
        return fault.sentence.rstrip(". ")
    return ""


def _without_stray_notches(pattern: Pattern) -> Pattern:
    gone: set[tuple[str, str]] = set()
    for piece in pattern.pieces:
        stray = [n for n in piece.notches if piece.edges and _notch_fault(piece, n)]
        if stray:
            gone |= {(piece.name, n.name) for n in stray}
            kept = tuple(n for n in piece.notches if n not in stray)
            pattern = pattern.with_pieces(replace(piece, notches=kept))
    for seam in pattern.seams:
        kept_pairs = tuple(
            m
            for m in seam.matches
            if (m.first_piece, m.first) not in gone and (m.second_piece, m.second) not in gone
        )
        if kept_pairs != seam.matches:
            pattern = pattern.with_seam(replace(seam, matches=kept_pairs))
    return pattern


__all__ = ["astray", "look_names"]
