"""Letting the rest of a pattern follow a piece that was parted: seams, notches, the trace."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from tracker.drafting.style_section import Section
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam
from tracker.pattern.trace import Fate, Renamed, Stretch, Trace

#: A line that stands off its old place by less is where it was.
STILL_MM = 1e-4


@dataclass(frozen=True)
class Panel:
    """A finished panel and where its edges came from, in its own order."""

    piece: Piece
    sections: tuple[Section, ...]


def following(pattern: Pattern, old: Piece, panels: tuple[Panel, Panel], seam: Seam) -> Pattern:
    """Return the pattern with a piece replaced by its panels, their seam added.

    Args:
        pattern: the pattern.
        old: the piece that was parted.
        panels: the panels, the centre one first.
        seam: the seam between them.
    """
    homes = _homes(old, panels)
    notches = {(n.name, n.side): panel.piece.name for panel in panels for n in panel.piece.notches}
    # A match may name a corner too; the panel that has the corner has it.
    for panel in panels:
        for edge in panel.piece.edges:
            notches.setdefault((edge.start, edge.side), panel.piece.name)
            notches.setdefault((edge.end, edge.side), panel.piece.name)
    seams = tuple(_seam(s, old, homes, notches) for s in pattern.seams)
    pieces: list[Piece] = []
    for piece in pattern.pieces:
        if piece.key == old.key:
            pieces.extend(p.piece for p in panels)
        elif piece.taken_from == old.name:
            pieces.append(replace(piece, taken_from=panels[0].piece.name))
        else:
            pieces.append(piece)
    return replace(pattern, pieces=tuple(pieces), seams=(*seams, seam))


_Homes = dict[tuple[str, BodySide], list[str]]


def _homes(old: Piece, panels: tuple[Panel, Panel]) -> _Homes:
    """The panels that have a stretch of each old edge, in order along it."""
    out: _Homes = {}
    for edge in old.edges:
        found = sorted(
            (came.from_mm, panel.piece.name)
            for panel in panels
            for came in panel.sections
            if came.old is not None and came.old.key == edge.key
        )
        out[edge.key] = [name for _, name in found]
    return out


def _seam(seam: Seam, old: Piece, homes: _Homes, notches: dict[tuple[str, BodySide], str]) -> Seam:
    def runs(side: tuple[Run, ...]) -> tuple[Run, ...]:
        out: list[Run] = []
        for run in side:
            if run.piece != old.name or (run.edge, run.side) not in homes:
                out.append(run)
                continue
            names = homes[run.edge, run.side]
            out += [replace(run, piece=n) for n in (names[::-1] if run.backward else names)]
        return tuple(out)

    def home(piece: str, notch: str, side: tuple[Run, ...]) -> str:
        if piece == old.name:
            for run in side:
                if run.piece == piece and (notch, run.side) in notches:
                    return notches[notch, run.side]
        return piece

    return replace(
        seam,
        first=runs(seam.first),
        second=runs(seam.second),
        matches=tuple(
            Match(
                home(m.first_piece, m.first, seam.first), m.first,
                home(m.second_piece, m.second, seam.second), m.second,
            )
            for m in seam.matches
        ),
    )  # fmt: skip


def trace_of(old: Piece, panels: tuple[Panel, Panel], seam: Seam) -> Trace:
    """Return what became of every edge of a piece that was parted, and of what is on it."""
    fates: list[Fate] = []
    for panel in panels:
        for edge, came in zip(panel.piece.edges, panel.sections, strict=True):
            new = Stretch.whole(panel.piece, edge)
            if came.old is None:
                fates.append(Fate(None, new))
            else:
                was = Stretch(old.name, came.old.name, came.old.side, came.from_mm, came.to_mm)
                fates.append(Fate(was, new, still=_lies_on(came.old, edge)))
    renamed = [
        Renamed("piece", (old.name, str(old.side)), (p.piece.name, str(p.piece.side)))
        for p in panels
    ]
    for thing in ("notch", "mark", "dart", "level"):
        before = _names(old, thing)
        after = [(p.piece.name, name) for p in panels for name in _names(p.piece, thing)]
        renamed += _renamed(thing, old.name, before, after)
    renamed.append(Renamed("seam", ("", ""), ("", seam.name)))
    return Trace(tuple(fates), tuple(renamed))


def _names(piece: Piece, thing: str) -> list[str]:
    """The names of the notches, marks, darts or levels on a piece."""
    if thing == "notch":
        return [n.name for n in piece.notches]
    if thing == "mark":
        return [m.name for m in piece.marks]
    if thing == "dart":
        return [d.name for d in piece.darts]
    return [v.name for v in piece.levels]


def _lies_on(old: Edge, new: Edge) -> bool:
    """Tell whether a new edge is where the old one was, all along."""
    spots = (new.length * k / 8 for k in range(9))
    return all(old.nearest(new.point_at(at))[1] < STILL_MM for at in spots)


def _renamed(
    thing: str, piece: str, before: list[str], after: list[tuple[str, str]]
) -> Iterable[Renamed]:
    for name in dict.fromkeys(before):
        now = [a for a in after if a[1] == name]
        for home in dict.fromkeys(now):
            yield Renamed(thing, (piece, name), home)
        if not now:
            yield Renamed(thing, (piece, name), ("", ""))
    for home in dict.fromkeys(after):
        if home[1] not in before:
            yield Renamed(thing, ("", ""), home)
