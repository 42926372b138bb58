"""Lines are drawn as asked: bow, meeting angle, no hook; corners rounded through themselves."""

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.drafting.style_line import bow_of, bowed_line, even_line, meeting_angle_deg
from tracker.drafting.style_round import bulge, rounded_corner
from tracker.drafting.style_section import section
from tracker.geometry.curve import Curve
from tracker.geometry.point import turn_between, turned, unit
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge

DOWN = -1j


@given(st.floats(-25, 25), st.floats(120, 260))
def test_an_even_line_bends_one_way_only(lean_deg: float, size: float) -> None:
    start = complex(-100, 400)
    chord = turned(DOWN, 0j, math.radians(lean_deg)) * size
    line = even_line(start, start + chord, DOWN)
    headings = [line.heading_at(line.length * k / 20) for k in range(21)]
    turns = [turn_between(a, b) for a, b in itertools.pairwise(headings)]
    assert all(t >= -1e-9 for t in turns) or all(t <= 1e-9 for t in turns)
    assert (
        abs(turn_between(line.end_heading, DOWN))
        <= max(0.0, math.radians(abs(lean_deg) - 18)) + 1e-9
    )


@given(
    st.floats(200, 260), st.floats(70, 110), st.floats(100, 300), st.floats(0, 20)
)  # fmt: skip
def test_a_bowed_line_meets_the_armhole_at_60_degrees_or_more(
    chord_deg: float, armhole_deg: float, size: float, bow_mm: float
) -> None:
    def way(degrees: float) -> complex:
        return turned(1 + 0j, 0j, math.radians(degrees))

    armhole = way(armhole_deg)
    line = bowed_line(0j, way(chord_deg) * size, armhole, DOWN, bow_mm)
    assert meeting_angle_deg(line, armhole) >= 60.0 - 1e-6
    # It leaves into the piece, which lies to the left of the armhole's run.
    assert turn_between(armhole, line.start_heading) > 0


@pytest.mark.parametrize("off_deg", [-29.0, -30.0, 0.0, 29.0, 30.0])
def test_a_chord_at_the_very_limit_of_60_degrees_is_not_bowed_beyond_it(off_deg: float) -> None:
    armhole = turned(1 + 0j, 0j, math.radians(100))
    chord = turned(1j * armhole, 0j, math.radians(off_deg)) * 150
    for end_heading in (DOWN, -1 + 0j):
        line = bowed_line(0j, chord, armhole, end_heading, 10.0)
        assert meeting_angle_deg(line, armhole) >= 60.0 - 1e-6


def test_a_bow_asked_for_is_about_what_is_drawn() -> None:
    armhole = turned(1 + 0j, 0j, math.radians(95))
    line = bowed_line(0j, complex(-95, -130), armhole, DOWN, 10.0)
    assert bow_of(line) == pytest.approx(10.0, abs=1.5)


@given(st.floats(-40, 40), st.floats(20, 50))
def test_a_rounded_corner_goes_through_the_corner_smoothly_and_changes_nothing_beyond(
    bend_deg: float, reach: float
) -> None:
    ahead = turned(1j, 0j, math.radians(bend_deg))
    line = Curve.line(-150j, 0j, ahead * 180)
    new = rounded_corner(line, 150.0, reach)
    at, gap = new.nearest(0j)
    assert gap < 1e-9
    assert abs(turn_between(new.heading_at(at - 1e-4), new.heading_at(at + 1e-4))) < 1e-3
    assert new.point_at(150.0 - reach) == pytest.approx(complex(0, -reach), abs=1e-6)
    assert new.end == line.end
    assert turn_between(1j, new.heading_at(at)) == pytest.approx(
        math.radians(bend_deg) / 2, abs=1e-6
    )
    # The published check of a rounded corner by hand: a cubic that is flat at one end and has
    # slope m at the other stands off 4/27 of m times its length at most.
    m = math.tan(math.radians(abs(bend_deg) / 2))
    most = bulge(line, new, 0j, towards_start=True)
    assert abs(most.mm) == pytest.approx(4 / 27 * m * reach, rel=0.12, abs=0.01)
    assert most.mm == 0 or (most.mm > 0) == (bend_deg > 0)


def test_a_stretch_of_an_edge_leaves_out_the_mouth_at_its_end() -> None:
    edge = Edge(
        "waist", BodySide.BOTH, "a", "b",
        (Curve.line(0j, 50 + 0j), Curve.line(80 + 0j, 120 + 0j)), ("waist dart",),
    )  # fmt: skip
    one = section(edge, 0.0, 50.0, "a", "c")
    other = section(edge, 50.0, 90.0, "c", "b")
    across = section(edge, 20.0, 70.0, "d", "e")
    assert (one.length, one.mouths) == (50.0, ())
    assert (other.length, other.mouths) == (40.0, ())
    assert (across.length, across.mouths) == (50.0, ("waist dart",))
    assert unit(across.parts[0].end - across.parts[0].start) == 1
