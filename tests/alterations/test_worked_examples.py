"""Worked examples of the handbooks and of plain geometry, done on drafted blocks."""

import math

import pytest
from altering import done
from irregular import block
from published.procedures import BODIES, at

from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.change_the_width_across import Width, WidthAcross
from tracker.alterations.kinds.fit_the_cap import FitCap
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.geometry.curve import Curve
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths

each_body = pytest.mark.parametrize("number", BODIES)


# -- darts ------------------------------------------------------------------------------------


def darted(width_mm: float, long_mm: float) -> Piece:
    """A plain piece with a dart of a width, its legs as long as told."""
    corners = (0j, 400 + 0j, 400 + 500j, 500j)
    names = ("bottom", "right", "top", "left")
    edges = tuple(
        Edge(n, BodySide.BOTH, f"{n} start", f"{n} end", (Curve.line(a, b),))
        for n, a, b in zip(names, corners, (*corners[1:], corners[0]), strict=True)
    )
    deep = math.sqrt(long_mm**2 - (width_mm / 2) ** 2)
    step = AddDart(
        piece="plain", name="dart", edge="bottom", corner="bottom start", distance_mm=200.0,
        width_mm=width_mm, length_mm=deep,
    )  # fmt: skip
    return done(step, Pattern((Piece("plain", BodySide.BOTH, edges),))).pattern.piece("plain")


@pytest.mark.parametrize(
    ("width_mm", "long_mm", "degrees"),
    [
        # Textbook increments of the bust dart, 5.8 to 8.2 cm for busts from 80 to 96 cm (common
        # practice), on a leg of 24 cm; the angles are computed: w = 2 r sin(angle / 2).
        (58.0, 240.0, 13.88), (64.0, 240.0, 15.32), (70.0, 240.0, 16.77), (76.0, 240.0, 18.22),
        (82.0, 240.0, 19.67),
        # 2 cm on a side dart of 13 cm (common practice).
        (20.0, 130.0, 8.82),
        # Dart value from girths, (84 - 65) x 22.8 / (4 x 15.7) = 6.9 cm (common practice).
        ((840 - 650) * 228 / (4 * 157), 228.0, 17.40),
    ],
)  # fmt: skip
def test_a_dart_of_a_published_width_has_its_angle(
    width_mm: float, long_mm: float, degrees: float
) -> None:
    dart = darted(width_mm, long_mm).dart("dart")
    assert math.degrees(dart.angle_rad) == pytest.approx(degrees, abs=0.006)


@each_body
def test_halves_by_angle_are_the_whole_and_halves_by_width_are_less(number: int) -> None:
    # Computed: 70 mm at 240 mm is 16.771 degrees; two halves of the angle are 35.094 mm wide each,
    # two of 35 mm only 16.726 degrees. A share is a share of the angle.
    before = block("bodice", number)
    old = before.piece("front").dart("bust dart")
    half = TurnDart(
        piece="front", dart="bust dart", edge="armhole", corner="shoulder point",
        distance_mm=90.0, share=0.5,
    )  # fmt: skip
    new = done(half, before).pattern.piece("front")
    kept, moved = new.dart("bust dart"), new.dart("armhole dart")
    assert kept.angle_rad + moved.angle_rad == pytest.approx(old.angle_rad, abs=1e-7)
    assert 2 * kept.intake_mm > old.intake_mm
    chord = 2 * old.leg_lengths[0] * math.sin(old.angle_rad / 4)
    assert kept.intake_mm == pytest.approx(chord, abs=1e-4)
    assert moved.intake_mm == pytest.approx(chord * moved.leg_lengths[0] / old.leg_lengths[0])


@each_body
@pytest.mark.parametrize("start", ["shoulder", "armhole"])
def test_panels_laid_at_the_bust_stand_apart_by_the_darts_they_took(
    start: str, number: int
) -> None:
    # Plain geometry: below the bust by the waist dart's width, above it by the bust dart's angle
    # at the length of the seam; over the bust both edges are as long.
    before = block("bodice", number)
    front = before.piece("front")
    after = done(PanelFront(start=start, rounding_mm=0.0), before).pattern
    bust = front.mark("bust point").point
    panels = [after.piece(n) for n in ("centre front", "side front")]
    feet = [p.corner("front princess waist") for p in panels]
    assert abs(feet[0] - feet[1]) == pytest.approx(front.dart("waist dart").intake_mm, abs=1e-3)
    tops = [p.corner(f"front princess {start}") for p in panels]
    reach = [abs(top - bust) for top in tops]
    assert reach[0] == pytest.approx(reach[1], abs=1e-4)
    opened = 2 * reach[0] * math.sin(front.dart("bust dart").angle_rad / 2)
    assert abs(tops[0] - tops[1]) == pytest.approx(opened, abs=1e-3)
    one, other = side_lengths(after, after.seam("front princess"))
    assert one == pytest.approx(other, abs=1e-3)


# -- what is sewn to it follows ---------------------------------------------------------------


@each_body
@pytest.mark.parametrize("spread", [6.35, 12.7])
def test_a_broad_back_splits_what_its_shoulder_is_longer_between_both_armholes(
    spread: float, number: int
) -> None:
    # The New Dressmaker, 1921, chapter 4: the back is spread from shoulder to hem; half of what
    # its shoulder is longer comes off the back's armhole edge, half is put on to the front's, to
    # nothing at the notches.
    before = block("bodice", number)
    wider = WidthAcross(line="across back", to=Width.WIDER, by_mm=2 * spread, shoulder=True)
    applied = done(wider, before)
    after = applied.pattern
    assert girth(after, "across back") - girth(before, "across back") == pytest.approx(
        2 * spread, abs=0.05
    )
    assert any(told.startswith("shoulder seam:") for told in applied.effect.leaves)
    was, wide = (side_lengths(p, p.seam("shoulder")) for p in (before, after))
    over = (wide[1] - wide[0]) - (was[1] - was[0])
    assert over == pytest.approx(spread, abs=0.05 * spread)
    for piece, way in (("back", 1.0), ("front", -1.0)):
        notch = next(n for n in after.piece(piece).notches if n.edge == "armhole")
        assert notch.corner == "shoulder point"
        step = ReshapeEdge(
            piece=piece, edge="armhole",
            amounts=(at("shoulder point", way * over / 2),
                     at("shoulder point", 0.0, notch.distance_mm), at("underarm point", 0.0)),
        )  # fmt: skip
        after = done(step, after).pattern
    now = side_lengths(after, after.seam("shoulder"))
    assert now[1] - now[0] == pytest.approx(was[1] - was[0], abs=0.03 * spread)
    for piece in ("front", "back"):
        for edge in ("neckline", "side", "waist"):
            lengths = [p.piece(piece).edge(edge).length for p in (before, after)]
            assert lengths[0] == pytest.approx(lengths[1], abs=1e-4)


@each_body
@pytest.mark.parametrize("mm", [12.7, -12.7])
def test_upper_length_is_had_half_way_between_underarm_and_neck_and_the_cap_follows(
    mm: float, number: int
) -> None:
    # The Dressmaker (1910s), part 4: cut half way between the underarm and the neck, alike in
    # front and behind. That the cap follows is common practice, no source.
    before = block("sleeved bodice", number)
    front = before.piece("front")
    ends = [front.corner(c).imag for c in ("underarm point", "neck point")]
    line = front.level("bust line").strokes[0][0].imag
    step = Lengthen(line="bust line", above_mm=sum(ends) / 2 - line, by_mm=mm)
    applied = done(step, before)
    after = applied.pattern
    for piece in ("front", "back"):
        centre, armhole = f"centre {piece}", "armhole"
        for edge, least in ((centre, 0.999), (armhole, 0.85)):
            was, now = (p.piece(piece).edge(edge).length for p in (before, after))
            assert least <= (now - was) / mm <= 1.001, (piece, edge)
        for edge in ("neckline", "shoulder", "side", "waist"):
            was, now = (p.piece(piece).edge(edge).length for p in (before, after))
            assert now == pytest.approx(was, abs=1e-4), (piece, edge)
    assert any("cap no longer matches" in told for told in applied.effect.leaves)
    fitted = done(FitCap(), after).pattern
    was, now = (side_lengths(p, p.seam("armhole")) for p in (before, fitted))
    assert now[1] - now[0] == pytest.approx(was[1] - was[0], abs=0.1)
