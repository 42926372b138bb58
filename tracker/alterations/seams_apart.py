"""Seams whose two sides a step left unequal: by how much, and what would make them meet again."""

import itertools
from collections.abc import Iterable

from tracker.alterations.effect import Effect, SeamChanged
from tracker.alterations.set_in import sews_in_a_cap
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Run, Seam
from tracker.units import write_tenths

#: A seam's sides that differ by less, or by as little more than before, are not worth a word.
WORTH_MM = 0.5
#: Which end of a seam is moved to make its sides equal, first to last: what hangs free before what
#: is fitted (common practice: the waist or hem before the shoulder or armhole).
_FREE_ENDS = ("hem", "wrist", "hip", "waist", "shoulder point", "underarm point")
#: A seam taken in to make another meet runs out over at most this far, or this share of it.
_RUN_OUT_MM, _RUN_OUT_SHARE = 200.0, 0.4


def seams_apart(after: Pattern, effect: Effect) -> Iterable[str]:
    """Say which seams a step left unequal, and offer what would mend them, with the amounts."""
    for s in effect.seams:
        off = s.after[1] - s.after[0] - s.planned_ease_mm
        if abs(s.ease_by) < WORTH_MM or abs(off) < WORTH_MM:
            continue  # as it was, or as it is planned to be
        seam = after.seam(s.name, BodySide(s.side))
        if sews_in_a_cap(after, seam):
            continue  # told by the engine, for every kind alike
        if any(after.piece(r.piece, r.side).traced for r in (*seam.first, *seam.second)):
            continue  # told as out of date, for every kind alike
        yield _told(after, seam, s, off, set(effect.pieces))


def _told(after: Pattern, seam: Seam, s: SeamChanged, off: float, touched: set[str]) -> str:
    one, two = _names(after, seam.first), _names(after, seam.second)
    if one == two:
        one, two = seam.first[-1].edge, seam.second[-1].edge
    who = f"{s.side} " if s.side in ("right", "left") else ""
    longer, shorter = (two, one) if s.ease_by > 0 else (one, two)
    are = "are" if " and " in longer else "is"
    offer = _through_a_seam(after, seam, off, touched) or _at_an_end(after, seam, off, touched)
    return (
        f"{who}{s.name} seam: {one} {s.after[0]:.1f} mm, {two} {s.after[1]:.1f} mm, with "
        f"{s.planned_ease_mm:.1f} mm ease planned: the {longer} {are} {abs(s.ease_by):.1f} mm "
        f"longer against the {shorter} than before; {offer}, or ease it in"
    )


def _names(pattern: Pattern, runs: tuple[Run, ...]) -> str:
    pieces = [pattern.piece(r.piece, r.side) for r in runs]
    whole = [p.label if p.side in (BodySide.RIGHT, BodySide.LEFT) else p.name for p in pieces]
    return " and ".join(dict.fromkeys(whole))


def _side_to_change(
    pattern: Pattern, seam: Seam, off: float, touched: set[str], *, other: bool
) -> tuple[tuple[Run, ...], float]:
    """The side that is made longer, or shorter when negative, and by how much.

    The one the step touched; with ``other`` the one it did not. Where that says nothing the
    longer one is made shorter.
    """
    mine = [
        any(pattern.piece(r.piece, r.side).label in touched for r in runs)
        for runs in (seam.first, seam.second)
    ]
    first = (mine[0] != other) if mine[0] != mine[1] else off < 0
    return (seam.first, off) if first else (seam.second, -off)


def _at_an_end(pattern: Pattern, seam: Seam, off: float, touched: set[str]) -> str:
    """The free end of the seam on the piece that was altered, moved along it."""
    runs, by = _side_to_change(pattern, seam, off, touched, other=False)

    def rank(corner: str) -> int:
        return next((k for k, end in enumerate(_FREE_ENDS) if corner.endswith(end)), 9)

    ends = []
    for run, last in ((runs[0], False), (runs[-1], True)):
        edge = pattern.edge_of(run)
        ends.append((run, edge.end if last != run.backward else edge.start))
    run, corner = min(ends, key=lambda end: rank(end[1]))
    piece = pattern.piece(run.piece, run.side)
    way = "longer" if by > 0 else "shorter"
    return (
        f"make the {run.edge} of the {piece.label} {_mm(by)} {way}: move its {corner} as much "
        f"{'out' if by > 0 else 'in'} along it"
    )


def _through_a_seam(pattern: Pattern, seam: Seam, off: float, touched: set[str]) -> str:
    """Of a side of several pieces, the seam between two of them taken in, or let out."""
    runs, by = _side_to_change(pattern, seam, off, touched, other=True)
    for one, two in itertools.pairwise(runs):
        a, b = pattern.edge_of(one), pattern.edge_of(two)
        corners = {a.start if one.backward else a.end, b.end if two.backward else b.start}
        for across in pattern.seams:
            if across.key == seam.key or across.side is BodySide.CENTRE:
                continue
            pieces = {r.piece for r in across.first}, {r.piece for r in across.second}
            if not (one.piece in pieces[0] and two.piece in pieces[1]) and not (
                two.piece in pieces[0] and one.piece in pieces[1]
            ):
                continue
            run = across.first[0]
            edge = pattern.edge_of(run)
            corner = next((c for c in (edge.start, edge.end) if c in corners), None)
            if corner is not None:
                out = min(_RUN_OUT_MM, edge.length * _RUN_OUT_SHARE)
                whose = _shared(pattern, seam, runs, (one, two), by)
                return (
                    f"{'let out' if by > 0 else 'take in'} the {across.name} seam {_mm(by)} at the "
                    f"{corner}{whose}, to nothing {out:.0f} mm from there"
                )
    return ""


def _shared(
    pattern: Pattern, seam: Seam, runs: tuple[Run, ...], two: tuple[Run, Run], by: float
) -> str:
    """Which of two pieces gives how much, where it is not half each: as each piece is off."""
    others = seam.second if runs is seam.first else seam.first
    if len(others) != len(runs) or seam.ease:
        return ""
    off = {
        r: pattern.edge_of(other).length - pattern.edge_of(r).length
        for r, other in zip(runs, others, strict=True)
    }
    first = min(max(off[two[0]] / by, 0.0), 1.0)
    if abs(first - 0.5) * abs(by) < WORTH_MM:
        return ""
    way = "to" if by > 0 else "from"
    names = [pattern.piece(r.piece, r.side).label for r in two]
    shares = [(name, share) for name, share in zip(names, (first, 1 - first), strict=True)]
    for name, share in shares:
        if share * abs(by) > abs(by) - WORTH_MM:
            return f", all of it {way} the {name}"
    return ", " + " and ".join(f"{_mm(share * by)} {way} the {name}" for name, share in shares)


def _mm(value: float) -> str:
    return write_tenths(abs(value))


__all__ = ["WORTH_MM", "seams_apart"]
