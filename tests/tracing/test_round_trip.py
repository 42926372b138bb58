"""What is written out reads back; what is read off a known pattern comes back as that pattern."""

import cmath
import math
import random
from dataclasses import replace
from functools import cache

import pytest
import shapely
from altering import A_THIRD
from drafted import drafted
from hypothesis import given, settings
from hypothesis import strategies as st
from published.bodies import chart_bodies
from sleeved import sleeved
from wardrobe import bodice, paper

from tracker.alterations.bodyside import split_sides
from tracker.body.estimate import estimate
from tracker.drafting.skirt import TO_ESTIMATE, draft_skirt
from tracker.geometry.area import polygon
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.history.replay import furthest_apart
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.marks import Level
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.tracing.making import Traced
from tracker.tracing.reading_in import traced_in
from tracker.tracing.svg_out import svg_of
from tracker.tracing.writing import csv_of, json_of, tables_of

WRITTEN_MM = {"csv": 0.1, "json": 0.1, "svg": 0.001}


@cache
def skirt() -> Pattern:
    return draft_skirt(estimate(chart_bodies()[2].body, TO_ESTIMATE)).pattern


def fish() -> Pattern:
    """The bodice with a double-pointed dart in its back, in two bent lines."""
    drawn = bodice()
    up, low = complex(120, 300), complex(120, 60)
    legs = (
        Curve(up, ((complex(108, 180),), (low,))),
        Curve.cubic(up, complex(133, 240), complex(134, 150), low),
    )
    dart = Dart("fish dart", BodySide.BOTH, legs, 12.0, "to the centre")
    back = drawn.piece("back")
    return settled(drawn.with_pieces(replace(back, darts=(*back.darts, dart))))


@cache
def patterns() -> dict[str, Pattern]:
    return {
        "drawn by hand": bodice(),
        "with a sleeve": sleeved(),
        "a posture, drafted": drafted(5),
        "a skirt": skirt(),
        "with a fish dart": fish(),
        "right and left apart": settled(split_sides(bodice(), ("front", "back")).pattern),
        "on paper": paper(),
    }


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


def assert_alike(one: Piece, other: Piece, within: float) -> None:
    for word in ("name", "side", "layer", "copies", "cut", "fold", "taken_from", "corners"):
        assert getattr(one, word) == getattr(other, word)
    for a, b in zip(one.edges, other.edges, strict=True):
        assert (a.key, a.start, a.end, a.mouths) == (b.key, b.start, b.end, b.mouths)
        if a.parts:
            assert a.length == pytest.approx(b.length, abs=2 * within)
        else:
            assert a.declared_mm == b.declared_mm
    for d, e in zip(one.darts, other.darts, strict=True):
        assert (d.key, d.pressed, d.mouth) == (e.key, e.pressed, e.mouth)
        assert d.stand_back_mm == e.stand_back_mm
        assert abs(d.pivot - e.pivot) < 0.002
        assert d.intake_mm == pytest.approx(e.intake_mm, abs=2 * within)
        for leg, same in zip(d.legs, e.legs, strict=True):
            assert max(leg.nearest(p)[1] for p in same.flattened(0.5)) <= 2 * within
    for n, m in zip(one.notches, other.notches, strict=True):
        assert (n.key, n.edge, n.corner, n.count) == (m.key, m.edge, m.corner, m.count)
        assert n.distance_mm == pytest.approx(m.distance_mm, abs=0.01)
    for v, w in zip(sorted(one.levels, key=named), sorted(other.levels, key=named), strict=True):
        assert (v.key, v.edges, len(v.strokes)) == (w.key, w.edges, len(w.strokes))
        for s, t in zip(v.strokes, w.strokes, strict=True):
            assert [abs(p - q) < 0.2 for p, q in zip(s, t, strict=True)] == [True] * len(s)
    for a, b in zip(one.marks, other.marks, strict=True):
        assert a.key == b.key
        assert abs(a.point - b.point) < 0.002
    for p, q in zip(one.grain or (), other.grain or (), strict=True):
        assert abs(p - q) < 0.002


def named(level: Level) -> tuple[str, BodySide]:
    return level.key


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
