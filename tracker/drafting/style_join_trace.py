"""Letting a pattern follow its joined side panels: seams, what is taken from them, the trace."""

from collections.abc import Iterable
from dataclasses import replace

from tracker.drafting.style_join_choice import JoinPlan
from tracker.drafting.style_join_edges import Drawn
from tracker.drafting.style_join_marks import UNDERARM_NOTCH
from tracker.drafting.style_join_turn import Laid
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, Run, Seam
from tracker.pattern.trace import SHORTEST_MM, Fate, Renamed, Stretch, Trace

#: Old panel and notch name → the joined panel's notch name.
NotchNames = dict[tuple[str, str], str]


def seams_after(
    pattern: Pattern,
    plan: JoinPlan,
    old: tuple[Piece, Piece],
    new: Piece,
    notches: NotchNames,
) -> Pattern:
    """Return the pattern with the joined panel for the two, their side seam gone."""
    names = {p.name for p in old}

    def runs(side: tuple[Run, ...]) -> tuple[Run, ...]:
        return tuple(
            replace(r, piece=new.name) if r.piece in names and _of(r.side, new.side) else r
            for r in side
        )

    def ours(seam: Seam) -> bool:
        return any(r.piece in names and _of(r.side, new.side) for r in (*seam.first, *seam.second))

    def match(m: Match) -> Match:
        first, second = (m.first_piece, m.first), (m.second_piece, m.second)
        a = (new.name, notches.get(first, m.first)) if m.first_piece in names else first
        b = (new.name, notches.get(second, m.second)) if m.second_piece in names else second
        return Match(*a, *b)

    seams = []
    for seam in pattern.seams:
        if seam.name == plan.seam and ours(seam):
            continue
        if not ours(seam):
            seams.append(seam)
            continue
        seams.append(
            replace(
                seam,
                first=runs(seam.first),
                second=runs(seam.second),
                matches=tuple(match(m) for m in seam.matches),
            )
        )
    pieces: list[Piece] = []
    for piece in pattern.pieces:
        if piece.key == old[0].key:
            pieces.append(new)
        elif piece.key != old[1].key:
            followed = piece.taken_from in names
            pieces.append(replace(piece, taken_from=new.name) if followed else piece)
    return replace(pattern, pieces=tuple(pieces), seams=tuple(seams))


def _of(side: BodySide, wanted: BodySide) -> bool:
    return side is wanted or BodySide.BOTH in (side, wanted)


def trace_after(
    panels: tuple[Laid, Laid],
    old: tuple[Piece, Piece],
    new: Piece,
    arm: Drawn,
    bottom: Drawn,
    dart: Dart | None,
    plan: JoinPlan,
) -> tuple[Trace, NotchNames]:
    """Return what became of every edge of two panels, and their notches' new names.

    Args:
        panels: the panels as laid, the one whose armhole leads to the join first.
        old: the panels as they were.
        new: the joined panel.
        arm: its armhole.
        bottom: its lower edge.
        dart: the dart on the join.
        plan: what she chose.
    """
    one, other = panels
    fates: list[Fate] = []
    for here in panels:
        for edge in here.piece.edges:
            was = Stretch.whole(here.piece, edge)
            if edge.key == here.side.key:
                fates.append(Fate(was, None))
            elif edge.key not in (here.armhole.key, here.bottom.key):
                fates.append(Fate(was, Stretch.whole(new, edge), still=True))
    fates += _ends(one, one.armhole, new, arm, arm.kept_mm[0], first=True)
    fates += _ends(other, other.armhole, new, arm, arm.kept_mm[1], first=False)
    fates += _ends(other, other.bottom, new, bottom, bottom.kept_mm[0], first=True)
    fates += _ends(one, one.bottom, new, bottom, bottom.kept_mm[1], first=False)
    renamed = [Renamed("piece", (p.name, str(p.side)), (new.name, str(new.side))) for p in old]
    names = _notch_names(panels, new)
    for here in panels:
        for notch in here.piece.notches:
            now = names.get((here.piece.name, notch.name))
            renamed.append(
                Renamed(
                    "notch", (here.piece.name, notch.name), (new.name, now) if now else ("", "")
                )
            )
        for thing, things in (
            ("mark", here.piece.marks), ("dart", here.piece.darts), ("level", here.piece.levels),
        ):  # fmt: skip
            renamed += [
                Renamed(thing, (here.piece.name, t.name), (new.name, t.name)) for t in things
            ]
    renamed.append(Renamed("notch", ("", ""), (new.name, UNDERARM_NOTCH)))
    renamed.append(Renamed("mark", ("", ""), (new.name, "underarm point")))
    if dart:
        renamed.append(Renamed("dart", ("", ""), (new.name, dart.name)))
    renamed.append(Renamed("seam", ("", plan.seam), ("", "")))
    return Trace(tuple(fates), tuple(renamed)), names


def _ends(
    here: Laid, old: Edge, new: Piece, drawn: Drawn, kept_mm: float, *, first: bool
) -> Iterable[Fate]:
    """The fates of an old edge that is now one end of a longer one.

    What was not drawn again is still; of the rest, as much as both have was redrawn, and what
    one of them has more is new or was cut away.
    """
    whole = drawn.edge.length
    room = drawn.split_mm if first else whole - drawn.split_mm
    kept = max(0.0, min(kept_mm, room, old.length))
    both = min(room, old.length)

    def was(a: float, b: float) -> Stretch:
        if not first:
            a, b = old.length - b, old.length - a
        return Stretch(here.piece.name, old.name, old.side, a, b)

    def now(a: float, b: float) -> Stretch:
        if not first:
            a, b = whole - b, whole - a
        return Stretch(new.name, drawn.edge.name, drawn.edge.side, a, b)

    if kept > SHORTEST_MM:
        yield Fate(was(0.0, kept), now(0.0, kept), still=True)
    end_old = old.length if abs(old.length - room) < SHORTEST_MM else both
    end_new = room if abs(old.length - room) < SHORTEST_MM else both
    if end_old - kept > SHORTEST_MM:
        yield Fate(was(kept, end_old), now(kept, end_new))
    if old.length - end_old > SHORTEST_MM:
        yield Fate(was(end_old, old.length), None)
    if room - end_new > SHORTEST_MM:
        yield Fate(None, now(end_new, room))


def _notch_names(panels: tuple[Laid, Laid], new: Piece) -> NotchNames:
    """The new name of each old notch that was kept."""
    out: NotchNames = {}
    left = [n.name for n in new.notches]
    at = 0
    for here in panels:
        for notch in here.piece.notches:
            if notch.edge != here.side.name:
                out[here.piece.name, notch.name] = left[at]
                at += 1
    return out
