"""From a solved sleeve to its piece, and the two seams that sew it up and set it in."""

from __future__ import annotations

from tracker.drafting.bodice_curves import Cubics, Points, Reals
from tracker.drafting.sleeve_armhole import SHOULDER, Armhole
from tracker.drafting.sleeve_shape import CapHalf, SleeveShapes
from tracker.drafting.sleeve_wants import SleeveWants
from tracker.geometry.bezier import Segment
from tracker.geometry.curve import Curve
from tracker.geometry.point import Point
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.marks import Level, Notch
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam

BOTH = BodySide.BOTH
NAME, CAP = "sleeve", "cap"
FRONT_UNDERARM, BACK_UNDERARM = "front underarm", "back underarm"
FRONT_POINT, BACK_POINT = "front underarm point", "back underarm point"
FRONT_WRIST, BACK_WRIST = "front wrist", "back wrist"
SHOULDER_NOTCH = "shoulder notch"
UPPER_ARM_LINE, ELBOW_LINE, WRIST_LINE = "upper arm line", "elbow line", "wrist line"


def sleeve_piece(shapes: SleeveShapes, wants: SleeveWants, armhole: Armhole) -> Piece:
    """Return the sleeve as the wearer's right one, its front to the right."""
    middle = _one(shapes.middle)
    cap = _cap(shapes)
    seam = _underarm(shapes, wants)
    front = Curve.of([_shifted(s, middle.real) for s in seam])
    back = Curve.of([_over(s, middle.real) for s in reversed(seam)])
    wrist = _wrist(shapes, middle.real)
    edges = (
        Edge("wrist", BOTH, BACK_WRIST, FRONT_WRIST, (wrist,)),
        Edge(FRONT_UNDERARM, BOTH, FRONT_WRIST, FRONT_POINT, (front,)),
        Edge(CAP, BOTH, FRONT_POINT, BACK_POINT, (cap,)),
        Edge(BACK_UNDERARM, BOTH, BACK_POINT, BACK_WRIST, (back,)),
    )
    elbow = float(shapes.below.elbow_y[0])
    half = wants.elbow_mm / 2.0
    height = float(shapes.cap_height[0])
    return Piece(
        name=NAME,
        side=BOTH,
        edges=edges,
        notches=cap_notches(armhole, wants, float(shapes.front_share[0]), cap.length),
        levels=(
            Level(UPPER_ARM_LINE, BOTH, ((cap.end, cap.start),)),
            Level(ELBOW_LINE, BOTH, ((middle - half + 1j * elbow, middle + half + 1j * elbow),)),
            Level(WRIST_LINE, BOTH, (), ("wrist",)),
        ),
        grain=(complex(0.0, height - wants.arm_length_mm + 60.0), complex(0.0, height - 40.0)),
        copies=2,
        cut="cut 2, a pair",
    )


def cap_notches(
    armhole: Armhole, wants: SleeveWants, front_share: float, cap_mm: float
) -> tuple[Notch, ...]:
    """Return the cap's notches: a partner for each of the armhole's, and the shoulder's own.

    The ease lies between the lowest notches: evenly behind, and evenly in front.
    """
    front_ease = wants.cap_ease_mm * front_share
    back_ease = wants.cap_ease_mm - front_ease
    low, high = armhole.back_notch.at_mm, armhole.front_notch.at_mm
    top = armhole.shoulder_mm

    def along(at_mm: float) -> float:
        """The distance along the cap, from the back, that meets one along the armhole."""
        behind = min(max((at_mm - low) / (top - low), 0.0), 1.0)
        before = min(max((at_mm - top) / (high - top), 0.0), 1.0)
        return at_mm + back_ease * behind + front_ease * before

    out = []
    for there in armhole.notches:
        at = along(there.at_mm)
        from_back = there.at_mm < top
        out.append(
            Notch(
                cap_notch_name(there.name), BOTH, CAP,
                BACK_POINT if from_back else FRONT_POINT,
                at if from_back else cap_mm - at,
                there.count,
            )
        )  # fmt: skip
    out.append(Notch(SHOULDER_NOTCH, BOTH, CAP, BACK_POINT, along(top)))
    return tuple(out)


def cap_notch_name(armhole_notch: str) -> str:
    """The name of an armhole notch's partner: "back armhole notch" → "back cap notch"."""
    if "armhole" in armhole_notch:
        return armhole_notch.replace("armhole", "cap")
    return f"{armhole_notch} on the cap"


def sleeve_seams(piece: Piece, armhole: Armhole, eases: tuple[float, float]) -> tuple[Seam, Seam]:
    """Return the armhole seam and the sleeve's own underarm seam.

    Args:
        piece: the sleeve, as it is in the pattern.
        armhole: what it is set into.
        eases: the cap ease behind and in front, mm.
    """
    side = armhole.side
    cap, front, back = (piece.edge(n) for n in (CAP, FRONT_UNDERARM, BACK_UNDERARM))
    matches = [Match(n.piece, n.name, piece.name, cap_notch_name(n.name)) for n in armhole.notches]
    top = sum(n.at_mm < armhole.shoulder_mm for n in armhole.notches)
    matches.insert(top, Match(armhole.shoulder_piece, SHOULDER, piece.name, SHOULDER_NOTCH))
    low, high = (cap_notch_name(n.name) for n in (armhole.back_notch, armhole.front_notch))
    planned = tuple(
        ease
        for ease in (
            PlannedEase(eases[0], low, SHOULDER_NOTCH), PlannedEase(eases[1], SHOULDER_NOTCH, high),
        )
        if ease.amount_mm
    )  # fmt: skip
    return (
        Seam(
            "armhole", side, armhole.runs,
            (Run(piece.name, CAP, side, backward=cap.start != BACK_POINT),),
            tuple(matches), planned,
        ),
        Seam(
            "underarm", side,
            (Run(piece.name, FRONT_UNDERARM, side, backward=front.start != FRONT_POINT),),
            (Run(piece.name, BACK_UNDERARM, side, backward=back.start != BACK_POINT),),
        ),
    )  # fmt: skip


def _cap(s: SleeveShapes) -> Curve:
    """From the front underarm point over the top to the back one."""
    back = [tuple(_mirror(p) for p in reversed(run)) for run in _half(s.back)]
    return Curve.of([*_half(s.front), *reversed(back)])


def _half(half: CapHalf) -> list[Segment]:
    return [_segment(half.lower), _segment(half.upper)]


def _underarm(s: SleeveShapes, w: SleeveWants) -> list[Segment]:
    """The front's, from the wrist up, about the sleeve's own middle."""
    b = s.below
    elbow = complex(w.elbow_mm / 2.0, float(b.elbow_y[0]))
    under, wrist = complex(w.upper_arm_mm / 2.0, 0.0), _one(b.wrist)
    top, mid, low = (float(v[0]) for v in (b.slant_top, b.slant_elbow, b.slant_wrist))

    def span(a: Point, slant_a: float, c: Point, slant_c: float) -> Segment:
        third = (c.imag - a.imag) / 3.0
        return a, a + complex(slant_a, 1.0) * third, c - complex(slant_c, 1.0) * third, c

    return [span(wrist, low, elbow, mid), span(elbow, mid, under, top)]


def _wrist(s: SleeveShapes, middle: float) -> Curve:
    corner, handle = _one(s.below.wrist), float(s.below.wrist_handle[0])
    slant = float(s.below.slant_wrist[0])
    across = complex(1.0, -slant) / abs(complex(1.0, slant))
    right = _shifted((corner - across * handle, corner), middle)
    left = _over((corner - across * handle, corner), middle)
    return Curve.of([(left[0], left[1], right[0], right[1])])


def _shifted(segment: tuple[Point, ...], by: float) -> Segment:
    return tuple(p + by for p in segment)


def _over(segment: tuple[Point, ...], middle: float) -> Segment:
    """Turn a segment of the front over to the back, run the other way."""
    return tuple(_mirror(p) + middle for p in reversed(segment))


def _mirror(p: Point) -> Point:
    return complex(-p.real, p.imag)


def _segment(c: Cubics) -> Segment:
    return _one(c.p0), _one(c.p1), _one(c.p2), _one(c.p3)


def _one(values: Points | Reals) -> Point:
    return complex(values[0])
