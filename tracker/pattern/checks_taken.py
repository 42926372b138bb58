"""Checks of pieces taken from others: their edges against what they are sewn to."""

from collections.abc import Iterable
from dataclasses import replace

from tracker.pattern.bodyside import BodySide
from tracker.pattern.checked import Book
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam
from tracker.pattern.traced import Sewn

#: A facing, lining, band or collar matches its edge within this; as for a seam.
EDGE_MM = 1.5


def heirs(pattern: Pattern, run: Run) -> list[tuple[Piece, Edge]]:
    """Return the edges a run means now: the edge it names, or its panels' shares of it."""
    named = [p for p in pattern.pieces if p.name == run.piece]
    if not named:
        named = [
            p for p in pattern.pieces if p.layer == "shell" and p.name.endswith(f" {run.piece}")
        ]
    found = [(p, e) for p in named for e in p.edges if e.name == run.edge]
    mine = [(p, e) for p, e in found if e.side is run.side]
    return mine or found


def length_of(pattern: Pattern, run: Run) -> float | None:
    """Return the sewn length of what a run means, or nothing where it is gone.

    Of an edge that differs right and left since, the mean: whoever counts both counts it twice.
    """
    found = heirs(pattern, run)
    if not found or any(not e.parts for _, e in found):
        return None
    whole = sum(e.length for _, e in found)
    differs = run.side is BodySide.BOTH and found[0][1].side is not BodySide.BOTH
    return whole / 2 if differs else whole


def look_taken(pattern: Pattern, book: Book) -> None:
    """Walk each taken piece's edges against what they are sewn to."""
    for piece in pattern.pieces:
        if piece.traced is None or not piece.has_outline:
            continue
        for sewn in piece.traced.sewn:
            _walk(pattern, piece, sewn, book)


def _walk(pattern: Pattern, piece: Piece, sewn: Sewn, book: Book) -> None:
    what = f"{sewn.edge} of the {piece.label}"
    try:
        mine = piece.edge(sewn.edge, sewn.side).length
    except PatternError:
        book.not_checked.append(f"the {what}: the edge is gone")
        return
    others = [length_of(pattern, run) for run in sewn.to]
    names = dict.fromkeys(f"the {run.edge} of the {run.piece}" for run in sewn.to)
    against = " and ".join(names)
    known = [mm for mm in others if mm is not None]
    if len(known) < len(others):
        book.not_checked.append(f"the {what}: {against} is gone or was never drawn")
        return
    theirs = sum(known) * sewn.times
    off = mine - theirs - sewn.longer_mm
    meant = f", meant to be {abs(sewn.longer_mm):.1f} mm {_way(sewn.longer_mm)}"
    book.tell(
        "taken pieces", what, off, EDGE_MM, "mm",
        f"the {what} is {mine:.1f} mm and {against} {theirs:.1f} mm"
        f"{meant if sewn.longer_mm else ''}: it is {abs(off):.1f} mm too "
        f"{'long' if off > 0 else 'short'}",
        f"trace the {piece.label} again, or ease the difference in if that is meant",
    )  # fmt: skip


def _way(by: float) -> str:
    return "longer" if by > 0 else "shorter"


def taken_seams(pattern: Pattern) -> tuple[Seam, ...]:
    """Return the seams in which linings, and facings, are sewn among themselves.

    They are those of the shell they were taken from; no step alters them by name.
    """
    if all(p.traced is None for p in pattern.pieces):
        return ()
    out: list[Seam] = []
    for seam in pattern.seams:
        out += _of_linings(pattern, seam)
        out += _of_facings(pattern, seam)
    return tuple(out)


def _of_linings(pattern: Pattern, seam: Seam) -> Iterable[Seam]:
    linings = {
        (p.taken_from, p.side): p
        for p in pattern.pieces
        if p.layer == "lining" and p.traced is not None and p.has_outline
    }

    def lining(run: Run) -> Run | None:
        parent = pattern.piece(run.piece, run.side)
        found = linings.get((run.piece, parent.side))
        if found is None or not any(e.key == (run.edge, run.side) for e in found.edges):
            return None
        return replace(run, piece=found.name)

    first, second = [[lining(r) for r in side] for side in (seam.first, seam.second)]
    one, two = [r for r in first if r], [r for r in second if r]
    if len(one) < len(first) or len(two) < len(second):
        return
    names = {r.piece: n.piece for r, n in zip((*seam.first, *seam.second), (*one, *two),
                                              strict=True)}  # fmt: skip
    yield replace(
        seam,
        name=f"lining {seam.name}",
        first=tuple(one),
        second=tuple(two),
        matches=tuple(
            Match(names[m.first_piece], m.first, names[m.second_piece], m.second)
            for m in seam.matches
            if _has(pattern, names[m.first_piece], m.first)
            and _has(pattern, names[m.second_piece], m.second)
        ),
        ease=seam.ease,
    )


def _has(pattern: Pattern, piece: str, notch: str) -> bool:
    return any(n.name == notch for n in pattern.piece(piece).notches)


def _of_facings(pattern: Pattern, seam: Seam) -> Iterable[Seam]:
    if len(seam.first) != 1 or len(seam.second) != 1:
        return
    sides = [_beside(pattern, runs[0]) for runs in (seam.first, seam.second)]
    for one, corner in sides[0]:
        for two, other in sides[1]:
            if corner == other and (seam.on_itself or one.piece != two.piece):
                yield Seam(f"facing {seam.name}", seam.side, (one,), (two,))


def _beside(pattern: Pattern, run: Run) -> list[tuple[Run, str]]:
    """The facings' edges that lie on a shell's edge, with the corner they share with it."""
    out = []
    for piece in pattern.pieces:
        if piece.layer != "facing" or piece.traced is None or not piece.has_outline:
            continue
        for name, theirs in piece.traced.beside:
            if (theirs.piece, theirs.edge, theirs.side) != (run.piece, run.edge, run.side):
                continue
            edge = next((e for e in piece.edges if e.name == name), None)
            if edge is None:
                continue
            corners = {edge.start, edge.end}
            shell = pattern.edge_of(run)
            shared = [c for c in (shell.start, shell.end) if c in corners]
            if len(shared) == 1:
                out.append((Run(piece.name, name, edge.side, run.backward), shared[0]))
    return out


__all__ = ["EDGE_MM", "heirs", "length_of", "look_taken", "taken_seams"]
