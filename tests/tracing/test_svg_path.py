"""Path data of the SVG standard, against two libraries that read it too."""

import math

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path as fonttools_path
from svgpathtools import parse_path

from tracker.tracing.svg_path import NotAPath, strokes_of

DATA = [
    "M 10 20 L 30 40 50 20",
    "m10-20.5l3,4 5e1 .5z",
    "M0 0H50v30h-10V0Z",
    "M0 0C10 20 30 20 40 0S80-20 90 0",
    "M0 0c10 20 30 20 40 0s40-20 50 0 20 5 30 5",
    "M10 80 Q 52.5 10, 95 80 T 180 80 t 40 10",
    "M0 0 S 30 40 60 0 T 90 20",
    "M300 200 h-150 a150 150 0 1 0 150-150 z",
    "M600 350 l 50-25 a25 25 -30 0 1 50-25 l 50-25 a25 50 -30 0150-25",
    "M0 0A5 3 20 0 0 100 10",  # radii too small are made larger
    "M0 0 L10 10 M20 0 L30 10 z l5 5",  # two strokes, and on from where the second began
]


@pytest.mark.parametrize("data", DATA)
def test_path_data_reads_as_svgpathtools_reads_it(data: str) -> None:
    theirs = parse_path(data)
    strokes = strokes_of(data)
    assert sum(s.line.length for s in strokes) == pytest.approx(theirs.length(), rel=1e-6)
    for segment in theirs:
        for k in range(9):
            point = complex(segment.point(k / 8))
            assert min(s.line.nearest(point)[1] for s in strokes) < 1e-3
    assert strokes[0].line.start == pytest.approx(theirs[0].start)
    assert strokes[-1].line.end == pytest.approx(theirs[-1].end)


@pytest.mark.parametrize("data", [d for d in DATA if "a" not in d.lower()])
def test_path_data_reads_as_fonttools_reads_it(data: str) -> None:
    pen = RecordingPen()
    fonttools_path(data, pen)
    spots = [complex(*points[-1]) for name, points in pen.value if points]
    ours = [s.line.start for s in strokes_of(data)]
    ours += [run[-1] for s in strokes_of(data) for run in s.line.runs]
    for spot in spots:
        assert min(abs(spot - p) for p in ours) < 1e-9


def test_a_full_turn_of_arcs_is_a_circle() -> None:
    (stroke,) = strokes_of("M100 0A100 100 0 0 1-100 0A100 100 0 0 1 100 0Z")
    assert stroke.closed
    assert stroke.line.length == pytest.approx(2 * math.pi * 100, abs=1e-3)
    for k in range(50):
        assert abs(stroke.line.point_at(k * 12.5)) == pytest.approx(100, abs=2e-4)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ("L 10 10", "begins with M"),
        ("M 10", "M lacks a number"),
        ("M 0 0 L 10 x", "L lacks a number at “x”"),
        ("M 0 0 C 1 2 3 4 5", "C lacks a number"),
        ("M 0 0 K 5 5", "“K” is no command"),
        ("M 0 0 Z 5", "a number without a command"),
        ("M 0 0 A 5 5 0 2 1 10 10", "A lacks a number at “2 1 10 10”"),
        ("12", "a number without a command"),
        ("M 0 0 L 10 10 ?", "breaks off at “?”"),
        ("M 0 0 L 1e999 0", "L lacks a number"),
    ],
)
def test_what_is_no_path_data_is_told(data: str, says: str) -> None:
    with pytest.raises(NotAPath) as fault:
        strokes_of(data)
    assert says in fault.value.sentence
