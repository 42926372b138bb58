"""A sleeve's own seam against the side seam: how far off it is meant to lie, and what moves it."""

from dataclasses import replace

from tracker.alterations.set_in import SetIn, armhole_seams, sleeve_in
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import PlannedEase, Seam
from tracker.pattern.walk import notch_on_edge

#: Nearer than this the sleeve's seam meets the side seam.
MEETS_MM = 0.05
#: A notch's cloth is still there where the new line passes it this near.
_ON_IT_MM = 0.05


def turned(
    seam: Seam, sleeve: SetIn, names: list[str], at_start_mm: float, at_end_mm: float
) -> Seam:
    """Return an armhole seam that plans more of the cap below its first notch, or its last.

    Args:
        seam: the seam.
        sleeve: the sleeve it sews in.
        names: the cap's matched notches, from the cap's start.
        at_start_mm: how much more between the cap's start and its first notch.
        at_end_mm: how much more between its last notch and its end.
    """
    cap, ease = sleeve.cap, seam.ease
    for amount, corner, notch in (
        (at_start_mm, cap.start, names[0]), (at_end_mm, cap.end, names[-1]),
    ):  # fmt: skip
        old = next((e for e in ease if {e.start, e.end} == {corner, notch}), None)
        total = round(amount + (old.amount_mm if old else 0.0), 9)
        ease = tuple(e for e in ease if e is not old)
        if abs(total) >= MEETS_MM:
            ease = (*ease, PlannedEase(total, corner, notch))
    return replace(seam, ease=ease)


def behind_mm(seam: Seam, sleeve: SetIn) -> float:
    """Return how far behind the side seam the sleeve's own seam is meant to lie."""
    names = {sleeve.cap.start, sleeve.cap.end}
    on = sum(
        e.amount_mm for e in seam.ease
        if sleeve.cap.start in (e.start, e.end) and not {e.start, e.end} <= names
    )  # fmt: skip
    return on if sleeve.start_is_front else -on


def cap_kept(old: Pattern, new: Pattern, under: Seam) -> tuple[Pattern, list[str]]:
    """Keep a cap's notches on their cloth where the sleeve's own seam was shifted.

    Where the cap begins and ends has moved; what lies below its notches is planned so.

    Args:
        old: the pattern before.
        new: the pattern after the seam was shifted.
        under: the seam.
    """
    told: list[str] = []
    for seam in tuple(armhole_seams(old)):
        was = sleeve_in(old, seam)
        if was is None or was.under.key != under.key:
            continue
        new, kept = notches_kept(old, new, seam)
        told += kept
        now = sleeve_in(new, next(s for s in new.seams if s.key == seam.key))
        assert now is not None
        before, after = was.notches(old), now.notches(new)
        if before and after:
            at_start = after[0][1] - before[0][1]
            at_end = (now.cap.length - after[-1][1]) - (was.cap.length - before[-1][1])
            fresh = turned(now.seam, now, [name for name, _ in before], at_start, at_end)
            new = replace(new, seams=tuple(fresh if s.key == seam.key else s for s in new.seams))
    return new, list(dict.fromkeys(told))


def notches_kept(old: Pattern, new: Pattern, seam: Seam) -> tuple[Pattern, list[str]]:
    """Keep a cap's notches on their cloth, though the corner they are measured from has moved.

    Args:
        old: the pattern before.
        new: the pattern after.
        seam: the armhole seam that sews the cap in, as it was before.
    """
    told: list[str] = []
    for run in seam.second:
        was, piece = old.piece(run.piece, run.side), new.piece(run.piece, run.side)
        line, cap = was.edge(run.edge, run.side), piece.edge(run.edge, run.side)
        if not line.parts or cap.parts == line.parts:
            continue
        for notch in was.notches:
            if (notch.edge, notch.side) != line.key:
                continue
            there, off = cap.nearest(line.point_at(notch_on_edge(line, notch)))
            distance = there if notch.corner == cap.start else cap.length - there
            by = distance - notch.distance_mm
            if off < _ON_IT_MM and abs(by) >= MEETS_MM and 0 < there < cap.length:
                piece = piece.with_notch(replace(notch, distance_mm=distance))
                told.append(
                    f"{notch.name} of the {piece.label} stays on its cloth, now {distance:.1f} mm "
                    f"from the {notch.corner}"
                )
        new = new.with_pieces(piece)
    return new, told


__all__ = ["MEETS_MM", "behind_mm", "cap_kept", "notches_kept", "turned"]
