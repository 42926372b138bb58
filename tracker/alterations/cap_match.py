"""A cap against its armhole: how far off it is where, and what would make it match again."""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass, replace

from tracker.alterations.cap import Cap, CapMove, NoSuchCap
from tracker.alterations.set_in import SetIn, armhole_seams, sleeve_in
from tracker.alterations.told import ONE_SIDE, mm
from tracker.pattern.errors import PatternError, UnknownName
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Seam
from tracker.pattern.walk import eased_between, notch_on_side, side_lengths, stations, walked

#: What a cap and its armhole may be off before a word is said.
WORTH_MM = 0.5


@dataclass(frozen=True, slots=True)
class CapOff:
    """A cap measured against its armhole and the ease planned, millimetres.

    Attributes:
        armhole_mm: the armhole.
        cap_mm: the cap.
        planned_mm: how much longer the cap is meant to be.
        begins_mm: how much too long it is below the first notch, in sewing order.
        between_mm: between the lowest notches; all of it where there are none.
        ends_mm: below the last notch.
    """

    armhole_mm: float
    cap_mm: float
    planned_mm: float
    begins_mm: float
    between_mm: float
    ends_mm: float

    @property
    def off_mm(self) -> float:
        """How much more ease the cap has than planned; negative is less."""
        return self.cap_mm - self.armhole_mm - self.planned_mm

    @property
    def below_mm(self) -> float:
        """How much of it lies below the notches."""
        return self.begins_mm + self.ends_mm

    @property
    def worst_mm(self) -> float:
        """The most it is off anywhere."""
        return max(map(abs, (self.off_mm, self.begins_mm, self.between_mm, self.ends_mm)))


def cap_off(pattern: Pattern, seam: Seam) -> CapOff:
    """Measure a cap against the armhole it is sewn to."""
    armhole, cap = side_lengths(pattern, seam)
    pairs, eased = stations(pattern, seam), eased_between(pattern, seam)

    def planned(b: float) -> float:
        return sum(
            amount * min(1.0, max(0.0, (b - start) / (end - start))) for amount, start, end in eased
        )

    offs = [
        (b1 - b0) - (a1 - a0) - (planned(b1) - planned(b0))
        for (a0, b0), (a1, b1) in itertools.pairwise(pairs)
    ]
    begins, ends = (offs[0], offs[-1]) if len(offs) > 2 else (0.0, 0.0)
    between = sum(offs) - begins - ends
    return CapOff(armhole, cap, seam.planned_ease_mm, begins, between, ends)


def fitting_move(sleeve: SetIn, off: CapOff, share_of_width: float | None = None) -> CapMove:
    """Return how a cap changes to be as long as its armhole and the planned ease ask.

    Args:
        sleeve: the sleeve.
        off: how far off it is.
        share_of_width: how much of the difference the width takes, 0 to 1, the height the rest;
            none for the width what lies below the notches, and the height what lies above.

    Raises:
        NoSuchCap: none can be drawn.
    """
    cap = Cap(sleeve.cap.drawn[0])
    below = off.below_mm if share_of_width is None else off.off_mm * share_of_width
    wider = higher = 0.0
    if abs(below) > 1e-6:
        wider = _or_refused(cap.changing_length(-below, wider=True), sleeve, off)
    rest = off.off_mm - below
    if abs(rest) > 1e-6:
        widened = cap.moved(CapMove(wider)) if wider else cap
        higher = _or_refused(widened.changing_length(-rest), sleeve, off)
    return CapMove(wider, higher)


def _or_refused(amount: float | None, sleeve: SetIn, off: CapOff) -> float:
    if amount is None:
        raise NoSuchCap(
            f"no cap {off.armhole_mm + off.planned_mm:.0f} mm long can be drawn to the "
            f"{sleeve.piece.label} as it is; change the upper arm first, or draft the sleeve again"
        )
    return amount


def caps_left_to_do(old: Pattern, new: Pattern) -> tuple[str, ...]:
    """Say which caps no longer match their armholes after a step, and offer what would do.

    Args:
        old: the pattern before the step.
        new: the pattern after it.
    """
    return tuple(told for _, told in _unmatched(old, new))


def _unmatched(old: Pattern, new: Pattern) -> Iterable[tuple[Seam, str]]:
    was = {s.key: s for s in old.seams}
    same = {id(p) for p in old.pieces}
    said: set[str] = set()
    for seam in armhole_seams(new):
        runs = (*seam.first, *seam.second)
        if any(not new.edge_of(r).parts for r in runs):
            continue
        origin = was.get(seam.key) or next((s for s in old.seams if s.name == seam.name), None)
        if origin == seam and all(id(new.piece(r.piece, r.side)) in same for r in runs):
            continue
        try:
            off = cap_off(new, seam)
            before = cap_off(old, origin) if origin else None
        except (UnknownName, PatternError):
            continue
        if off.worst_mm < WORTH_MM:
            continue
        if before is not None and _same(before, off):
            continue
        still = before is not None and before.worst_mm >= WORTH_MM
        told = _told(new, seam, off, still)
        if told not in said:
            said.add(told)
            yield seam, told


def _same(before: CapOff, after: CapOff) -> bool:
    return all(
        abs(a - b) < 0.05
        for a, b in (
            (before.begins_mm, after.begins_mm), (before.between_mm, after.between_mm),
            (before.ends_mm, after.ends_mm),
        )
    )  # fmt: skip


def _told(pattern: Pattern, seam: Seam, off: CapOff, still: bool) -> str:
    side = f"{seam.side} " if seam.side in ONE_SIDE else ""
    by = off.off_mm
    much = (
        "as much ease as planned, but not between the same notches"
        if abs(by) < WORTH_MM
        else f"{abs(by):.1f} mm {'more' if by > 0 else 'less'} ease than planned"
    )
    names = [m.second for m in seam.matches] or [""]
    where = [
        f"{v:+.1f} mm {place}"
        for v, place in (
            (off.begins_mm, f"below the {names[0]}"), (off.between_mm, "between the notches"),
            (off.ends_mm, f"below the {names[-1]}"),
        )
        if abs(v) >= 0.1
    ]  # fmt: skip
    return (
        f"{side}armhole: the cap {'still does not match' if still else 'no longer matches'}: "
        f"armhole {off.armhole_mm:.1f} mm, cap {off.cap_mm:.1f} mm with {off.planned_mm:.1f} mm "
        f"ease planned: {much} ({', '.join(where)}); {_offer(pattern, seam, off)}"
    )


def _offer(pattern: Pattern, seam: Seam, off: CapOff) -> str:
    sleeve = sleeve_in(pattern, seam)
    label = pattern.piece(seam.second[0].piece, seam.second[0].side).label
    if sleeve is None:
        return _through_its_seams(pattern, seam, off) or (
            f"as much goes {'out of' if off.off_mm > 0 else 'into'} the seams that end on the cap "
            f"of the {label}"
        )
    if abs(off.off_mm) < WORTH_MM:
        by = _notches_off(pattern, sleeve)
        return (
            "fit the cap to the armhole by the height of the cap, which moves its notches only, by "
            f"up to {mm(by)}"
        )
    moves = []
    for share in (None, 0.0, 1.0):
        try:
            move = fitting_move(sleeve, off, share)
        except NoSuchCap:
            continue
        told = _move_told(move)
        if told and told not in moves:
            moves.append(told)
    if not moves:
        return (
            f"no cap of the {label} does it as it is: change the armhole back, or draft the "
            "sleeve again"
        )
    offer = f"fit the cap to the armhole, which makes it {moves[0]}"
    return f"{offer}; or {', or '.join(moves[1:])}" if moves[1:] else offer


def _through_its_seams(pattern: Pattern, seam: Seam, off: CapOff) -> str:
    """What a cap on several pieces asks of the seams that end on it; nothing without them."""
    steps = walked(pattern, seam.second)
    outer = {steps[0].first_corner, steps[-1].last_corner}
    caps = {c for step in steps for c in (step.edge.start, step.edge.end)}
    pieces = {r.piece for r in seam.second}
    wanted = {True: off.below_mm, False: off.between_mm}
    told = []
    for one in pattern.seams:
        run = one.first[0], one.first[-1]
        if one.key == seam.key or not {r.piece for r in (*one.first, *one.second)} <= pieces:
            continue
        edges = [pattern.edge_of(r) for r in run]
        corner = next((c for e in edges for c in (e.start, e.end) if c in caps), None)
        if corner is None or one.side is not seam.side:
            continue
        by = wanted.pop(corner in outer, 0.0)
        if abs(by) >= WORTH_MM:
            told.append(
                f"{'take in' if by > 0 else 'let out'} the {one.name} seam {abs(by):.1f} mm at the "
                f"{corner}"
            )
    return " and ".join(told)


def _notches_off(pattern: Pattern, sleeve: SetIn) -> float:
    """How far the cap's notches are, at most, from where they would meet their partners."""
    try:
        new = met(pattern, sleeve).piece(*sleeve.piece.key)
    except PatternError:
        return 0.0
    return max(
        (abs(a.distance_mm - b.distance_mm)
         for a, b in zip(sleeve.piece.notches, new.notches, strict=True)), default=0.0,
    )  # fmt: skip


def _move_told(move: CapMove) -> str:
    told = []
    if abs(move.wider_mm) >= 0.05:
        told.append(
            f"{mm(abs(move.wider_mm))} {'wider' if move.wider_mm > 0 else 'narrower'} at the upper "
            "arm"
        )
    if abs(move.higher_mm) >= 0.05:
        told.append(
            f"{mm(abs(move.higher_mm))} {'higher' if move.higher_mm > 0 else 'lower'} at the cap"
        )
    return " and ".join(told)


def met(pattern: Pattern, sleeve: SetIn) -> Pattern:
    """Put every cap notch where the ease planned puts it against its partner."""
    seam = next(s for s in pattern.seams if s.key == sleeve.seam.key)
    run = seam.second[0]
    piece = pattern.piece(run.piece, run.side)
    cap = piece.edge(run.edge, run.side)
    names = {m.second for m in seam.matches}
    eases = {(e.start, e.end): e.amount_mm for e in seam.ease}
    order = _in_order(pattern, seam, cap.end if run.backward else cap.start,
                      cap.start if run.backward else cap.end)  # fmt: skip
    for notch in piece.notches:
        if (notch.edge, notch.side) != cap.key or notch.name not in names:
            continue
        at = order[notch.name] + sum(
            amount * _passed(notch.name, start, end, order)
            for (start, end), amount in eases.items()
        )
        there = cap.length - at if run.backward else at
        if not 1.0 < there < cap.length - 1.0:
            raise PatternError(
                f"the {notch.name} of the {piece.label} would stand off the end of the cap"
            )
        distance = there if notch.corner == cap.start else cap.length - there
        piece = piece.with_notch(replace(notch, distance_mm=distance))
    return pattern.with_pieces(piece)


def _in_order(pattern: Pattern, seam: Seam, first: str, last: str) -> dict[str, float]:
    """How far along the armhole each place of the cap, by name, is met."""
    side = walked(pattern, seam.first)
    found = {m.second: notch_on_side(pattern, side, m.first_piece, m.first) for m in seam.matches}
    return {first: 0.0, last: side[-1].to_mm, **found}


def _passed(name: str, start: str, end: str, order: dict[str, float]) -> float:
    """The share of an ease that lies before a notch."""
    if start not in order or end not in order:
        a, b = 0.0, max(order.values())
    else:
        a, b = sorted((order[start], order[end]))
    return min(1.0, max(0.0, (order[name] - a) / (b - a))) if b > a else 0.0


__all__ = ["CapOff", "cap_off", "caps_left_to_do", "fitting_move", "met"]
