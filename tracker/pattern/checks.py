"""Checks before cutting: findings with place, figure, tolerance and remedy."""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from tracker.geometry.area import fault_of
from tracker.geometry.point import SAME_MM, turn_between
from tracker.pattern.across_line import seams_across
from tracker.pattern.bodyside import BodySide
from tracker.pattern.checked import Book, Checked
from tracker.pattern.checks_marks import (
    POINT_DEG,
    look_centres,
    look_grain,
    look_stand_back,
    pointed,
)
from tracker.pattern.checks_names import look_names
from tracker.pattern.checks_taken import look_taken, taken_seams
from tracker.pattern.errors import PatternError
from tracker.pattern.finding import Finding
from tracker.pattern.measure import corner_angle, girth, lines_of, over_the_centre
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Run, Seam
from tracker.pattern.walk import eased_between, side_lengths, stations
from tracker.units import write_tenths

#: Seams sewn together differ by no more than this from their planned ease. Paper patterns:
#: 1/16 in (Threads, 10 patternwork skills, 2020).
SEAM_MM = 1.5
#: Corners joined add to 180° within this; common practice, no source.
JOIN_DEG = 2.0
#: The free inner edge of a facing lies inside and is not seen; common practice, no source.
HIDDEN_DEG = 10.0
#: A corner of more than 180° less this is none: the edge goes on.
_RUNS_ON_DEG = 20.0
#: The corner of trousers at which four edges meet.
_INSIDE_LEG_POINT = "inside-leg point"
_HALVES = (BodySide.RIGHT, BodySide.LEFT)
#: Dart legs are equal within this.
LEGS_MM = 0.01
#: Finished girth against the plan; common practice, no source.
EASE_MM = 3.0


def check(pattern: Pattern, body_girths: Mapping[str, float] | None = None) -> Checked:
    """Check a pattern as a maker would before cutting.

    Args:
        pattern: the pattern.
        body_girths: the body's girth in millimetres at material lines, for the ease check.
    """
    book = Book()
    named = look_names(pattern, book)
    if named is None:
        return book.closed
    pattern = named
    taken = taken_seams(pattern)
    walked = replace(pattern, seams=pattern.seams + taken) if taken else pattern
    for look in CHECKS:
        look(walked, book)
    if body_girths is None:
        book.not_checked.append("ease against the body: no body measurements were given")
    else:
        _ease(pattern, body_girths, book)
    return book.closed


def _rings(pattern: Pattern, book: Book) -> None:
    for piece in pattern.pieces:
        if not piece.has_outline:
            book.not_checked.append(f"the outline of the {piece.label}: it was never drawn")
            continue
        fault = ring_fault(piece)
        if fault:
            book.findings.append(
                Finding(
                    "outline", f"the {piece.label}", fault, 1, 0, "", "undo the last step there"
                )
            )
        else:
            book.figures.append((f"outline: the {piece.label}", f"{piece.area_mm2 / 100:.0f} cm²"))


def ring_fault(piece: Piece) -> str | None:
    """Return what keeps a piece's ring from being an outline, or nothing."""
    ring = piece.ring
    for index, curve in enumerate(ring):
        if abs(ring[index - 1].end - curve.start) > 2 * SAME_MM:
            return f"the outline of the {piece.label} is open near {_near(piece, index)}"
    if piece.area_mm2 <= 0:
        return f"the outline of the {piece.label} is turned inside out"
    fault = fault_of(piece.plain_ring)
    if fault:
        where, gap = "", math.inf
        for edge in piece.edges:
            off = edge.nearest(fault[1])[1]
            if off < gap:
                where, gap = edge.name, off
        return f"the outline of the {piece.label} crosses itself at the {where}"
    return None


def _near(piece: Piece, index: int) -> str:
    count = 0
    for edge in piece.edges:
        count += len(edge.parts) + 2 * len(edge.mouths)
        if index < count:
            return f"the {edge.name}"
    return "its last corner"


def _sides(pattern: Pattern, book: Book) -> None:
    for seam in pattern.seams:
        if seam.on_itself or not _drawn(pattern, seam):
            continue
        first, second = side_lengths(pattern, seam)
        off = second - first - seam.planned_ease_mm
        plan = f", planned ease {seam.planned_ease_mm:.1f} mm" if seam.ease else ""
        a, b = seam.first[0].piece, seam.second[0].piece
        book.tell(
            "seam sides", f"{seam.name} seam", off, SEAM_MM, "mm",
            f"{_said(seam)} seam: {a} {first:.1f} mm, {b} {second:.1f} mm{plan}: {abs(off):.1f} mm "
            f"too {'long' if off > 0 else 'short'} on the {b}",
            _walk_again(pattern, seam),
        )  # fmt: skip


def _said(seam: Seam) -> str:
    """A seam's name, with its body side where the other one has a seam of its own."""
    return f"{seam.side} {seam.name}" if seam.side in _HALVES else seam.name


def _walk_again(pattern: Pattern, seam: Seam) -> str:
    """What to do where a seam's sides differ."""
    ends = {_end_corner(pattern, seam.first, at_end)[1] for at_end in (False, True)}
    if _INSIDE_LEG_POINT in ends:
        return (
            "walk the seam from its knee notch and take the difference out at the hem, or lower or "
            f"raise the {_INSIDE_LEG_POINT} of the one piece"
        )
    return (
        "walk the seam and true the end that may move: the waist or hem before the shoulder or "
        "armhole"
    )


def _notches(pattern: Pattern, book: Book) -> None:
    for seam in pattern.seams:
        if seam.on_itself or not seam.matches or not _drawn(pattern, seam):
            continue
        pairs = stations(pattern, seam)
        first, second = side_lengths(pattern, seam)
        eased = eased_between(pattern, seam)
        ease = sum(amount for amount, _, _ in eased)
        for a, b in pairs[1:-1]:
            # Each ease lies between its own two places; notches outside them meet exactly.
            before = sum(
                amount * min(1.0, max(0.0, (b - start) / (end - start)))
                for amount, start, end in eased
            )
            from_start, from_end = b - a - before, (second - b) - (first - a) - (ease - before)
            off = min(from_start, from_end, key=abs)
            book.tell(
                "notches", f"{seam.name} seam, {a:.0f} mm along", off, SEAM_MM, "mm",
                f"the notches of the {_said(seam)} seam at {a:.1f} and {b:.1f} mm do not meet: "
                f"{abs(off):.1f} mm apart when it is walked",
                "move one notch to meet its partner",
            )  # fmt: skip


def _darts(pattern: Pattern, book: Book) -> None:
    for piece in pattern.pieces:
        for dart in piece.darts:
            one, two = dart.leg_lengths
            where = f"{dart.name} of the {piece.label}"
            book.tell(
                "dart legs", where, two - one, LEGS_MM, "mm",
                f"the legs of the {where} are {one:.2f} and {two:.2f} mm",
                "true the mouth with the dart folded",
            )  # fmt: skip
            # On the fold it is half of a dart across the centre, and the fold stays straight.
            on_fold = dart.mouth is not None and dart.mouth == piece.fold
            if dart.mouth and piece.has_outline and not dart.gathered and not on_fold:
                off = folded_kink_deg(piece, dart.name)
                book.tell(
                    "folded edge", where, off, JOIN_DEG, "°",
                    f"with the {where} folded the {dart.mouth} bends by {abs(off):.1f}°",
                    "fold the dart the way it is pressed and true the edge",
                )  # fmt: skip


def folded_kink_deg(piece: Piece, dart_name: str) -> float:
    """Return the bend of an edge at a folded dart's mouth, degrees; 0 is smooth."""
    dart = piece.dart(dart_name)
    assert dart.mouth is not None
    edge = piece.edge(dart.mouth, dart.side)
    index = edge.mouths.index(dart.name)
    before, after = edge.drawn[index].end_heading, edge.parts[index + 1].start_heading
    # Folding lays the second leg on the first; headings are compared against their own leg.
    one = turn_between(dart.legs[0].start_heading, before)
    two = turn_between(-dart.legs[1].end_heading, after)
    return math.degrees(math.remainder(two - one, 2 * math.pi))


def _hidden_at(pattern: Pattern, run: Run, edge_end: bool) -> bool:
    """Tell whether the edge across a seam's end is a facing's own, sewn to nothing."""
    piece = pattern.piece(run.piece, run.side)
    edge = piece.edge(run.edge, run.side)
    across = piece.after(edge) if edge_end else piece.before(edge)
    return piece.layer == "facing" and not pattern.seams_on(piece, across)


def _joins(pattern: Pattern, book: Book) -> None:
    for seam in pattern.seams:
        if not _drawn(pattern, seam):
            continue
        if closes(pattern, seam):
            continue
        for at_end in (False, True):
            here = _end_run(seam.first, at_end), _end_run(seam.second, at_end)
            angles = []
            for run, edge_end in here:
                piece = pattern.piece(run.piece, run.side)
                angles.append(corner_angle(piece, piece.edge(run.edge, run.side), edge_end))
            run, edge_end = here[0]
            edge = pattern.edge_of(run)
            corner = edge.end if edge_end else edge.start
            # Where both edges run on beyond the seam's end there is no edge across it.
            runs_on = min(angles) > 180.0 - _RUNS_ON_DEG
            halves = sum(_meets_its_other_half(pattern, one, at) for one, at in here)
            off = sum(angles) - (360.0 if runs_on else 180.0 + 90.0 * halves)
            if _in_a_point(here, angles) and corner != _INSIDE_LEG_POINT:
                piece = pattern.piece(run.piece, run.side)
                book.not_checked.append(pointed(piece, corner, angles[0] - 90.0))
                continue
            hidden = all(_hidden_at(pattern, run, edge_end) for run, edge_end in here)
            book.tell(
                "joins", f"{seam.name} seam at the {corner}", off,
                HIDDEN_DEG if hidden else JOIN_DEG, "°",
                f"at the {corner} the two sides of the {_said(seam)} seam add to "
                f"{sum(angles):.1f}°: the line across it has a {'peak' if off > 0 else 'dip'}",
                "draw the crotch in one sweep from front to back with the inside leg pinned"
                if corner == _INSIDE_LEG_POINT and not seam.on_itself
                else "true the crossing edge with the seam pinned",
            )  # fmt: skip
    for piece in pattern.pieces:
        if piece.fold and piece.has_outline:
            edge = piece.edge(piece.fold)
            for at_end in (False, True):
                off = corner_angle(piece, edge, at_end) - 90.0
                corner = edge.end if at_end else edge.start
                if abs(off) > POINT_DEG:
                    book.not_checked.append(pointed(piece, corner, off))
                    continue
                book.tell(
                    "fold", f"the {piece.label} at the {corner}", off, JOIN_DEG / 2, "°",
                    f"at the {corner} the {piece.label} meets its fold at {off + 90:.1f}°, not "
                    "square: it would open as a peak or a dip",
                    "square the edge to the fold over its last 10 mm",
                )  # fmt: skip


def _in_a_point(here: tuple[tuple[Run, bool], ...], angles: list[float]) -> bool:
    """Tell whether an edge comes to a centre seam in a point, from both its halves alike."""
    one, other = (run for run, _ in here)
    off = [angle - 90.0 for angle in angles]
    return (
        (one.piece, one.edge) == (other.piece, other.edge)
        and min(abs(x) for x in off) > POINT_DEG
        and abs(off[0] - off[1]) <= JOIN_DEG
    )


def _meets_its_other_half(pattern: Pattern, run: Run, edge_end: bool) -> bool:
    """Tell whether what goes on at a seam's end is its own edge on the other body side."""
    return over_the_centre(pattern.piece(run.piece, run.side), pattern.edge_of(run), edge_end)


def closes(pattern: Pattern, seam: Seam) -> bool:
    """Tell whether a seam goes all round and ends where it began, as an armhole does.

    No edge crosses it there: what meets is another seam on either side of it, and how those two
    run on is the style's.
    """
    return all(_meet(pattern, seam, runs) for runs in (seam.first, seam.second))


def _meet(pattern: Pattern, seam: Seam, runs: tuple[Run, ...]) -> bool:
    """Tell whether a side ends where it began, or another seam lays its two ends together."""
    ends = {_end_corner(pattern, runs, at_end) for at_end in (False, True)}
    if len(ends) == 1:
        return True
    return any(
        {_end_corner(pattern, side, at_end) for side in (other.first, other.second)} == ends
        for other in pattern.seams
        if other.key != seam.key and not other.on_itself
        for at_end in (False, True)
    )


def _end_corner(pattern: Pattern, runs: tuple[Run, ...], at_end: bool) -> tuple[str, str, str]:
    run, edge_end = _end_run(runs, at_end)
    edge = pattern.edge_of(run)
    return run.piece, edge.end if edge_end else edge.start, run.side


def _end_run(runs: tuple[Run, ...], at_end: bool) -> tuple[Run, bool]:
    run = runs[-1] if at_end else runs[0]
    return run, at_end != run.backward


def _drawn(pattern: Pattern, seam: Seam) -> bool:
    return all(pattern.edge_of(run).parts for run in (*seam.first, *seam.second))


def _undrawn(pattern: Pattern, book: Book) -> None:
    for seam in pattern.seams:
        if not _drawn(pattern, seam):
            book.not_checked.append(f"the {seam.name} seam: it has an edge without outline")


def _ease(pattern: Pattern, body: Mapping[str, float], book: Book) -> None:
    plan = dict(pattern.ease)
    for line in lines_of(pattern):
        if line not in body or line not in plan:
            book.not_checked.append(f"ease at the {line}: no body girth or no plan for it")
            continue
        try:
            finished = girth(pattern, line)
        except PatternError as fault:
            book.not_checked.append(f"ease at the {line}: {fault}")
            continue
        off = finished - body[line] - plan[line]
        book.tell(
            "ease", line, off, EASE_MM, "mm",
            f"{line}: finished {write_tenths(finished)} on a body of {write_tenths(body[line])} "
            f"leaves {write_tenths(finished - body[line])} of ease; {write_tenths(plan[line])} was "
            "planned",
            _ease_remedy(pattern, line),
        )  # fmt: skip


def _ease_remedy(pattern: Pattern, line: str) -> str:
    anew = "plan the ease anew if the fitting liked it so"
    seams = seams_across(pattern, line)
    if not seams:
        return anew
    names = " and ".join(filter(None, [", ".join(seams[:-1]), seams[-1]]))
    centre = all("centre" in name for name in seams)
    return f"take in or let out the {names} seam{'s' * (not centre)}, or {anew}"


CHECKS: tuple[Callable[[Pattern, Book], None], ...] = (
    _rings, _undrawn, _sides, _notches, _darts, look_stand_back, _joins, look_centres, look_taken,
    look_grain,
)  # fmt: skip


def findings_text(findings: Iterable[Finding]) -> str:
    """Return findings as lines for people."""
    return "\n".join(f"{f.sentence} (passes within {f.tolerance:g} {f.unit})" for f in findings)


__all__ = [
    "CHECKS", "EASE_MM", "JOIN_DEG", "LEGS_MM", "SEAM_MM", "Checked", "check", "closes",
    "findings_text", "folded_kink_deg", "ring_fault",
]  # fmt: skip
