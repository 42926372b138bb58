"""Checks before cutting: each passes a sound pattern and each can fail, saying where and what."""

import cmath
import math
from collections.abc import Callable
from dataclasses import replace

import pytest
import wardrobe

from tracker.geometry.curve import Curve
from tracker.geometry.transform import Motion
from tracker.pattern import checks
from tracker.pattern.checks import (
    CHECKS,
    Checked,
    check,
    findings_text,
    folded_kink_deg,
    ring_fault,
)
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

Spoil = Callable[[Pattern], Pattern]


def body_that_fits(pattern: Pattern) -> dict[str, float]:
    return {line: girth(pattern, line) - planned for line, planned in pattern.ease}


def test_a_sound_pattern_is_clean_and_every_tick_has_its_figure(bodice: Pattern) -> None:
    told = check(bodice, body_that_fits(bodice))
    assert told.clean
    assert told.not_checked == ()
    assert {label.split(":")[0] for label, _ in told.figures} == {
        "outline", "seam sides", "notches", "dart legs", "folded edge", "stand-back", "joins",
        "fold", "grain", "ease",
    }  # fmt: skip
    assert all(any(c.isdigit() for c in figure) for _, figure in told.figures)


def _longer_shoulder(pattern: Pattern) -> Pattern:
    back = pattern.piece("back")
    seam = pattern.seam("shoulder")
    plan = replace(seam.ease[0], amount_mm=seam.ease[0].amount_mm - 3.0)
    return pattern.with_pieces(back).with_seam(replace(seam, ease=(plan,)))


def _notch_off(pattern: Pattern) -> Pattern:
    back = pattern.piece("back")
    notch = back.notch("side notch")
    moved = replace(notch, distance_mm=notch.distance_mm + 4.0)
    return pattern.with_pieces(back.with_notch(moved))


def _unequal_leg(pattern: Pattern) -> Pattern:
    front = pattern.piece("front")
    dart = front.dart("bust dart")
    one, two = dart.legs
    heading = two.end_heading
    return pattern.with_pieces(
        front.with_dart(replace(dart, legs=(one, two.ended_at(two.end + 0.2 * heading))))
    )


def _bent_mouth(pattern: Pattern) -> Pattern:
    front = pattern.piece("front")
    side = front.edge("side")
    first, second = side.parts
    bent = Curve.cubic(
        first.start, first.start + 20 * first.start_heading,
        first.end - 20 * first.end_heading * cmath.exp(1j * math.radians(5)), first.end,
    )  # fmt: skip
    return pattern.with_pieces(front.with_edge(replace(side, parts=(bent, second))))


def _turned_end(pattern: Pattern, piece_name: str, edge_name: str, degrees: float) -> Pattern:
    """Bend an edge's last few millimetres so that it meets its corner at another angle."""
    piece = pattern.piece(piece_name)
    edge = piece.edge(edge_name)
    last = edge.parts[-1]
    *head, segment = last.segments
    a, b, d = segment[0], segment[1 if len(segment) == 4 else 0], segment[-1]
    handle = -last.end_heading * cmath.exp(1j * math.radians(degrees)) * 20
    bent = Curve.of([*head, (a, b if b != a else a + 20 * last.start_heading, d + handle, d)])
    return pattern.with_pieces(piece.with_edge(replace(edge, parts=(*edge.parts[:-1], bent))))


def _open(pattern: Pattern) -> Pattern:
    front = pattern.piece("front")
    edge = front.edge("shoulder")
    away = tuple(p.moved(Motion.move(2j)) for p in edge.parts)
    return pattern.with_pieces(front.with_edge(replace(edge, parts=away)))


def _inside_out(pattern: Pattern) -> Pattern:
    front = pattern.piece("front")
    mirror = Motion.mirror(0j, 1j)
    edges = tuple(replace(e, parts=tuple(p.moved(mirror) for p in e.parts)) for e in front.edges)
    darts = tuple(
        replace(d, legs=(d.legs[0].moved(mirror), d.legs[1].moved(mirror))) for d in front.darts
    )
    return pattern.with_pieces(replace(front, edges=edges, darts=darts))


def _crossed(pattern: Pattern) -> Pattern:
    front = pattern.piece("front")
    edge = front.edge("neckline")
    line = edge.parts[0]
    loop = Curve.cubic(line.start, line.start - 300 + 0j, line.end - 300j, line.end)
    return pattern.with_pieces(front.with_edge(replace(edge, parts=(loop,))))


@pytest.mark.parametrize(
    ("spoil", "code", "place", "figure", "tolerance", "unit", "remedy"),
    [
        pytest.param(_longer_shoulder, "seam sides", "shoulder seam", 3.0, 1.5, "mm", "true",
                     id="a seam side too long"),
        pytest.param(_notch_off, "notches", "side seam, 120 mm along", 4.0, 1.5, "mm", "notch",
                     id="notches that do not meet"),
        pytest.param(_unequal_leg, "dart legs", "bust dart of the front", 0.2, 0.01, "mm", "folded",
                     id="unequal dart legs"),
        pytest.param(_bent_mouth, "folded edge", "bust dart of the front", 5.0, 2.0, "°", "fold",
                     id="an edge bent at a folded dart"),
        pytest.param(lambda p: _turned_end(p, "back", "shoulder", 6.0), "joins",
                     "shoulder seam at the neck point", 6.0, 2.0, "°", "seam pinned",
                     id="a neckline with a peak at the shoulder"),
        pytest.param(lambda p: _turned_end(p, "front", "waist", 4.0), "fold",
                     "the front at the centre front waist", 4.0, 1.0, "°", "square",
                     id="a waist not square to the fold"),
        pytest.param(_open, "outline", "the front", None, 0, "", "undo", id="an open outline"),
        pytest.param(_inside_out, "outline", "the front", None, 0, "", "undo",
                     id="an outline inside out"),
        pytest.param(_crossed, "outline", "the front", None, 0, "", "undo",
                     id="an outline that crosses itself"),
    ],
)  # fmt: skip
def test_each_check_can_fail_and_names_place_figure_tolerance_and_remedy(
    bodice: Pattern, spoil: Spoil, code: str, place: str, figure: float | None, tolerance: float,
    unit: str, remedy: str,
) -> None:  # fmt: skip
    told = check(spoil(bodice))
    found = [f for f in told.findings if f.code == code]
    assert [f.place for f in found] == [place]
    (finding,) = found
    if figure is not None:
        assert abs(finding.figure) == pytest.approx(figure, abs=0.06)
    assert finding.tolerance == tolerance
    assert finding.unit == unit
    assert remedy in finding.remedy
    assert f"(passes within {tolerance:g} {unit})" in findings_text([finding])
    assert not any(label == f"{code}: {place}" for label, _ in told.figures)


@pytest.mark.parametrize(
    ("spoil", "words"),
    [
        pytest.param(_open, "open near the", id="open"),
        pytest.param(_inside_out, "inside out", id="inside out"),
        pytest.param(_crossed, "crosses itself at the neckline", id="crossed"),
    ],
)
def test_a_ring_that_is_no_outline_says_what_is_wrong_and_where(
    bodice: Pattern, spoil: Spoil, words: str
) -> None:
    fault = ring_fault(spoil(bodice).piece("front"))
    assert fault is not None
    assert words in fault


@pytest.mark.parametrize(("line", "off_mm"), [("bust line", 12.0), ("waist line", -7.0)])
def test_ease_that_is_not_the_planned_is_found_with_both_figures(
    bodice: Pattern, line: str, off_mm: float
) -> None:
    body = body_that_fits(bodice)
    body[line] -= off_mm
    (finding,) = check(bodice, body).findings
    assert (finding.code, finding.place) == ("ease", line)
    assert finding.figure == pytest.approx(off_mm)
    assert f"{dict(bodice.ease)[line]:.0f} mm was planned" in finding.sentence


def test_what_could_not_be_checked_is_said() -> None:
    told: Checked = check(wardrobe.paper())
    assert told.clean
    assert told.figures == ()
    assert any("outline of the front" in why for why in told.not_checked)
    assert any("side seam" in why for why in told.not_checked)
    assert any("no body measurements" in why for why in told.not_checked)


def test_a_line_without_a_plan_is_not_ticked(bodice: Pattern) -> None:
    told = check(replace(bodice, ease=()), {"bust line": 900.0, "waist line": 700.0})
    assert [w for w in told.not_checked if w.startswith("ease at")] == [
        "ease at the bust line: no body girth or no plan for it",
        "ease at the waist line: no body girth or no plan for it",
    ]


def test_no_finding_is_made_of_a_difference_within_its_tolerance(bodice: Pattern) -> None:
    back = bodice.piece("back")
    notch = back.notch("side notch")
    near = back.with_notch(replace(notch, distance_mm=notch.distance_mm + 1.4))
    assert check(bodice.with_pieces(near)).clean
    assert not check(bodice.with_pieces(back.with_notch(
        replace(notch, distance_mm=notch.distance_mm + 1.6)))).clean  # fmt: skip


def test_darts_that_share_a_pivot_are_no_fault(bodice: Pattern) -> None:
    front = bodice.piece("front")
    assert front.dart("bust dart").pivot == front.dart("waist dart").pivot
    assert ring_fault(front) is None


def test_seam_sides_match_within_the_sixteenth_of_an_inch_that_paper_patterns_ask() -> None:
    # Threads, "10 patternwork skills", 2020: sewn lines match within 1/16 in.
    assert 1.0 <= checks.SEAM_MM <= 25.4 / 16


def test_corners_joined_add_to_a_straight_line_within_two_degrees() -> None:
    # Two angles adding to 180° make the run smooth: geometry. Two degrees: common practice, no
    # source.
    assert checks.JOIN_DEG == 2.0


def test_a_folded_dart_is_smooth_where_its_leg_angles_add_to_180(bodice: Pattern) -> None:
    # For a dart the two leg-end angles add to 180° when folded: geometry.
    front: Piece = bodice.piece("front")
    for name in ("bust dart", "waist dart"):
        assert abs(folded_kink_deg(front, name)) < 1e-3


def test_every_check_is_one_of_those_shown_to_fail() -> None:
    assert {look.__name__ for look in CHECKS} == {
        "_rings", "_undrawn", "_sides", "_notches", "_darts", "_joins",
        # shown to fail in test_checks_marks and, of pieces taken from others, in test_walk_of_taken
        "look_stand_back", "look_centres", "look_grain", "look_taken",
    }  # fmt: skip
