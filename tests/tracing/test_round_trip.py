"""What is written out reads back; what is read off a known pattern comes back as that pattern."""

import cmath
import math
import random

import pytest
import shapely
from altering import A_THIRD
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from irregular import block
from tracings import assert_alike, patterns, skirt

from tracker.geometry.area import polygon
from tracker.geometry.point import Point
from tracker.history.replay import furthest_apart
from tracker.pattern.pattern import Pattern
from tracker.tracing.making import Traced
from tracker.tracing.reading_in import traced_in
from tracker.tracing.svg_out import svg_of
from tracker.tracing.writing import csv_of, json_of, stops_of, tables_of

WRITTEN_MM = {"csv": 0.1, "json": 0.1, "svg": 0.001}


def written(pattern: Pattern, form: str) -> Traced:
    tables = tables_of(pattern)
    text = {"csv": csv_of, "json": json_of}[form](tables) if form != "svg" else svg_of(pattern, "x")
    return traced_in(text)


@pytest.mark.parametrize("form", WRITTEN_MM)
@pytest.mark.parametrize("name", patterns())
def test_a_pattern_written_out_reads_back_as_itself(name: str, form: str) -> None:
    pattern, within = patterns()[name], WRITTEN_MM[form]
    traced = written(pattern, form)
    again = traced.pattern
    assert [p.key for p in again.pieces] == [p.key for p in pattern.pieces]
    assert furthest_apart(pattern, again)[0] <= within
    assert again.seams == pattern.seams
    assert again.ease == pattern.ease
    for one, other in zip(pattern.pieces, again.pieces, strict=True):
        assert_alike(one, other, within)


# -- read off paper ------------------------------------------------------------------------


def off_paper(pattern: Pattern, dice: random.Random, noise_mm: float) -> str:
    """A CSV as someone reads it off the paper: each 20 to 30 mm, five steps at least a bend."""

    def read(point: Point) -> str:
        out = point + cmath.rect(noise_mm * math.sqrt(dice.random()), dice.uniform(0, 2 * math.pi))
        return f"{out.real / 10:.4f},{out.imag / 10:.4f}"

    rows = ["units,cm", "points", "piece,edge,x,y,kind,name"]
    darts = ["darts", "piece,dart,x,y"]
    for piece in pattern.pieces:
        for edge in piece.edges:
            for index, part in enumerate(edge.parts):
                straight = all(len(run) == 1 for run in part.runs)
                count = 1 if straight else max(5, round(part.length / dice.uniform(20, 30)))
                for k in range(count + 1):
                    kind, name = "curve", ""
                    if k == 0:
                        kind, name = ("mouth", edge.mouths[index - 1]) if index else ("corner", "")
                    elif k == count:
                        last = index == len(edge.parts) - 1
                        kind, name = ("corner", "") if last else ("mouth", edge.mouths[index])
                    if not (kind == "corner" and k == count):
                        spot = part.point_at(part.length * k / count)
                        rows.append(f"{piece.name},{edge.name},{read(spot)},{kind},{name}")
        darts += [f"{piece.name},{d.name},{read(d.pivot)}" for d in piece.darts]
    return "\n".join([*rows, *darts])


def test_a_line_of_many_pieces_is_written_in_few_points_and_drawn_again() -> None:
    # Found on joined panels run on to a dress: ten minutes, and 2,900 points for a seam.
    line = block("joined bodice", 2).piece("side panel").edge("armhole").parts[0]
    stops = stops_of(line)
    assert len(stops) < 60
    assert [p for p, _ in (stops[0], stops[-1])] == [line.start, line.end]
    assert all(line.nearest(p)[1] < 1e-6 for p, _ in stops)


@settings(max_examples=max(5, A_THIRD // 4))
@given(seed=st.integers(0, 10_000), which=st.sampled_from(["drafted", "posture", "skirt"]))
def test_a_block_read_off_paper_comes_back_to_three_tenths(seed: int, which: str) -> None:
    dice = random.Random(seed)
    block = {"drafted": drafted(0), "posture": drafted(5), "skirt": skirt()}[which]
    traced = traced_in(off_paper(block, dice, 0.1))
    assert traced.furthest_mm <= 0.3
    for piece in block.pieces:
        again = traced.pattern.piece(piece.name)
        # Shapely measures what we drew: areas, and what lies in one outline and not the other.
        was, now = polygon(piece.plain_ring, 0.02), polygon(again.plain_ring, 0.02)
        # (The outline stops 1 mm short of dart points there, so that darts may share one.)
        assert again.area_mm2 == pytest.approx(now.area, abs=0.02 * now.length)
        assert now.area == pytest.approx(was.area, abs=0.1 * was.length)
        assert shapely.symmetric_difference(was, now).area < 0.08 * was.length
        assert shapely.hausdorff_distance(was.exterior, now.exterior) < 0.8
        for edge in piece.edges:
            line = shapely.LineString([(p.real, p.imag) for p in edge.parts[0].flattened(0.02)])
            part = again.edge(edge.name).parts[0]
            assert part.length == pytest.approx(line.length, abs=0.45)
            assert max(part.nearest(complex(*xy))[1] for xy in line.coords) < 0.7
