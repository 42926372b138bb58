"""One of each: small patterns drawn by hand, for tests that need a pattern and no body."""

import cmath
import math

from tracker.geometry.crossing import with_line
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point, turned
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.dart import Dart
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Mark, Notch
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam

BOTH = BodySide.BOTH


def _arc(a: Point, heading_a: Point, b: Point, heading_b: Point, pull: float = 0.4) -> Curve:
    reach = abs(b - a) * pull
    return Curve.cubic(a, a + heading_a * reach, b - heading_b * reach, b)


def _dir(degrees: float) -> Point:
    return cmath.rect(1.0, math.radians(degrees))


def front() -> Piece:
    """A front on the fold: bust dart in the side, waist dart, both to the bust point."""
    neck, throat = complex(-68, 420), complex(0, 345)
    tip = neck + 122.5 * _dir(180 + 20)
    underarm, bust = complex(-245, 205), complex(-95, 180)
    down = _dir(-90 + 4)
    a = underarm + 60 * down
    theta = math.radians(9.5)
    b, low = turned(a, bust, theta), turned(down, 0j, theta)
    waist = b + 145 * low
    reach = 182.0
    u2, u1 = _dir(-90 + 5), _dir(-90 - 5)
    m2, m1 = bust + reach * u2, bust + reach * u1
    edges = (
        Edge("centre front", BOTH, "centre front waist", "centre front neck",
             (Curve.line(0j, throat),)),
        Edge("neckline", BOTH, "centre front neck", "neck point",
             (_arc(throat, -1 + 0j, neck, _dir(110), 0.55),)),
        Edge("shoulder", BOTH, "neck point", "shoulder point", (Curve.line(neck, tip),)),
        Edge("armhole", BOTH, "shoulder point", "underarm point",
             (_arc(tip, _dir(290), underarm, _dir(184), 0.5),)),
        Edge("side", BOTH, "underarm point", "side waist",
             (Curve.line(underarm, a), Curve.line(b, waist)), ("bust dart",)),
        Edge("waist", BOTH, "side waist", "centre front waist",
             (_arc(waist, low * 1j, m1, u1 * 1j, 0.3), _arc(m2, u2 * 1j, 0j, 1 + 0j, 0.3)),
             ("waist dart",)),
    )  # fmt: skip
    darts = (
        Dart("bust dart", BOTH, (Curve.line(a, bust), Curve.line(bust, b)), 25.0, "down", "side"),
        Dart("waist dart", BOTH, (Curve.line(m1, bust), Curve.line(bust, m2)), 25.0,
             "to the centre", "waist"),
    )  # fmt: skip
    side_at_bust = with_line(Curve.line(underarm, a), bust, -1 + 0j)[0].point
    return Piece(
        name="front",
        side=BOTH,
        edges=edges,
        darts=darts,
        notches=(
            Notch("front armhole notch", BOTH, "armhole", "shoulder point", 95.0),
            Notch("side notch", BOTH, "side", "underarm point", 120.0),
        ),
        levels=(
            Level("bust line", BOTH, ((complex(0, 180), bust, side_at_bust),)),
            Level("waist line", BOTH, (), ("waist",)),
        ),
        marks=(Mark("bust point", BOTH, bust),),
        grain=(complex(-40, 60), complex(-40, 260)),
        fold="centre front",
        copies=2,
        cut="cut 1 on the fold",
    )


def back() -> Piece:
    """A back with a centre seam and a waist dart; its shoulder is eased to the front's."""
    neck, nape = complex(70, 430), complex(0, 410)
    tip = neck + 127.5 * _dir(-20)
    underarm = complex(245, 205)
    down = _dir(-90 - 6)
    waist = underarm + 205 * down
    pivot = complex(100, 170)
    u1, u2 = _dir(-90 - 5), _dir(-90 + 5)
    n1, n2 = pivot + 170 * u1, pivot + 170 * u2
    square = down * 1j
    edges = (
        Edge("centre back", BOTH, "centre back neck", "centre back waist",
             (Curve.line(nape, 0j),)),
        Edge("waist", BOTH, "centre back waist", "side waist",
             (_arc(0j, 1 + 0j, n1, u1 * 1j, 0.3), _arc(n2, u2 * 1j, waist, square, 0.3)),
             ("waist dart",)),
        Edge("side", BOTH, "side waist", "underarm point", (Curve.line(waist, underarm),)),
        Edge("armhole", BOTH, "underarm point", "shoulder point",
             (_arc(underarm, -square, tip, _dir(70), 0.5),)),
        Edge("shoulder", BOTH, "shoulder point", "neck point", (Curve.line(tip, neck),)),
        Edge("neckline", BOTH, "neck point", "centre back neck",
             (_arc(neck, _dir(250), nape, -1 + 0j, 0.45),)),
    )  # fmt: skip
    return Piece(
        name="back",
        side=BOTH,
        edges=edges,
        darts=(
            Dart("waist dart", BOTH, (Curve.line(n1, pivot), Curve.line(pivot, n2)), 10.0,
                 "to the centre", "waist"),
        ),
        notches=(
            Notch("back armhole notch", BOTH, "armhole", "shoulder point", 105.0, 2),
            Notch("side notch", BOTH, "side", "underarm point", 120.0),
        ),
        levels=(
            Level("bust line", BOTH, ((complex(0, 180), with_line(
                Curve.line(underarm, waist), complex(0, 180), 1 + 0j)[0].point),)),
            Level("waist line", BOTH, (), ("waist",)),
        ),
        marks=(Mark("blade point", BOTH, complex(95, 300)),),
        grain=(complex(40, 60), complex(40, 260)),
        copies=2,
        cut="cut 2, a pair",
    )  # fmt: skip


def bodice() -> Pattern:
    """A front and a back with side, shoulder and centre back seams."""
    run = Run
    return settled(
        Pattern(
            pieces=(front(), back()),
            seams=(
                Seam("side", BOTH, (run("front", "side", BOTH),),
                     (run("back", "side", BOTH, backward=True),),
                     (Match("front", "side notch", "back", "side notch"),)),
                Seam("shoulder", BOTH, (run("front", "shoulder", BOTH),),
                     (run("back", "shoulder", BOTH, backward=True),), (),
                     (PlannedEase(5.0, "neck point", "shoulder point"),)),
                Seam("centre back", BodySide.CENTRE, (run("back", "centre back", BOTH),),
                     (run("back", "centre back", BOTH),)),
            ),
            ease=(("bust line", 50.0), ("waist line", 30.0)),
        )
    )  # fmt: skip


def paper() -> Pattern:
    """The same bodice bought as a garment: names and some lengths, no outlines."""
    drawn = bodice()
    pieces = tuple(
        Piece(
            name=p.name, side=p.side, copies=p.copies, cut=p.cut, fold=p.fold,
            edges=tuple(
                Edge(e.name, e.side, e.start, e.end,
                     declared_mm=round(e.length) if e.name != "armhole" else None)
                for e in p.edges
            ),
        )
        for p in drawn.pieces
    )  # fmt: skip
    seams = tuple(Seam(s.name, s.side, s.first, s.second) for s in drawn.seams)
    return Pattern(pieces, seams, drawn.ease)
