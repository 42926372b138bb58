"""Alteration procedures as published: what changes, by how much, and what keeps its length.

Each row names its source. ``drawn`` gives the blocks they are done on: one drawn by hand, and
irregular women and postures.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache

from irregular import block
from wardrobe import bodice

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.bust_volume import BustVolume
from tracker.alterations.kinds.change_the_crotch_length import CrotchAt, CrotchLength
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.change_the_upper_arm import Room, UpperArm
from tracker.alterations.kinds.close_a_gap_into_a_dart import CloseGap
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.move_a_dart import MoveDart
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.turn_the_sleeve import Pitch, TurnSleeve
from tracker.geometry.crossing import with_line
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

IN = 25.4

# -- sources, by title ------------------------------------------------------------------------

CWU = "Central Washington University costume text, ch. 17"
LINING_7 = "The Dressmaker (1910s), part 7"
LINING_8 = "The Dressmaker (1910s), part 8"
LENGTHS = "The Dressmaker (1910s), part 4"
SKIRT_14 = "The Dressmaker (1910s), part 14"
NEW_4 = "The New Dressmaker, 1921, chapter 4"
NEW_5 = "The New Dressmaker, 1921, chapter 5"
NEW_22 = "The New Dressmaker, 1921, p. 22"
USDA_9 = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 9"
USDA_10 = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 10"
WSU = "Garment Fitting, E.M. 2246, Washington State University, 1962"
THREADS = "Set-in sleeve solutions, Threads, 2021"
SLACKS = "TM 10-227, slacks"
PRACTICE = "common practice, no source"
MEMORY = "from memory"


@dataclass(frozen=True)
class Row:
    """A published procedure.

    Attributes:
        step: the alteration by an amount.
        amounts: the amounts it is done by, millimetres: the published ones.
        keeps: (piece, edge) whose length stays to 0.05 mm.
        grows: (piece, edge) and how many millimetres each grows for each of the amount.
        girths: line and how much its girth grows for each millimetre.
        untouched: pieces that are the very same.
        about: how near ``grows`` and ``girths`` are met, millimetres for each of the amount:
            where an amount square to a seam or a cut meets an edge aslant.
    """

    source: str
    step: Callable[[Pattern, float], Kind]
    amounts: tuple[float, ...]
    keeps: tuple[tuple[str, str], ...] = ()
    grows: Mapping[tuple[str, str], float] = field(default_factory=dict)
    girths: Mapping[str, float] = field(default_factory=dict)
    untouched: tuple[str, ...] = ()
    about: float = 0.005


def at(corner: str, mm: float, distance: float = 0.0) -> AmountAt:
    return AmountAt(corner=corner, distance_mm=distance, amount_mm=mm)


def along(piece: Piece, edge: str, corner: str, share: float) -> float:
    """A share of an edge's length, from one of its corners."""
    assert corner in (piece.edge(edge).start, piece.edge(edge).end)
    return share * piece.edge(edge).length


def level_on(piece: Piece, edge: str, corner: str, y: float) -> float:
    """How far along an edge from a corner it comes to a height."""
    line = piece.edge(edge)
    found = with_line(line.drawn[0], complex(0, y), 1 + 0j)[0].first_mm
    return found if line.start == corner else line.length - found


def own_share(pattern: Pattern, seam: str, piece: str) -> float:
    """The share of the first side that puts all of an amount on one piece."""
    return 1.0 if pattern.seam(seam).first[0].piece == piece else 0.0


def blade_slash(pattern: Pattern, mm: float) -> Kind:
    back = pattern.piece("back")
    mouth = level_on(back, "centre back", "centre back neck", back.mark("blade point").point.imag)
    return SlashAndSpread(
        piece="back", by_mm=mm, mouth_edge="centre back", mouth_corner="centre back neck",
        mouth_mm=mouth, hinge_edge="armhole", hinge_corner="shoulder point",
        hinge_mm=along(back, "armhole", "shoulder point", 0.45),
    )  # fmt: skip


def sway_fold(pattern: Pattern, mm: float) -> Kind:
    return FoldOut(
        piece="back", by_mm=mm, mouth_edge="centre back", mouth_corner="centre back waist",
        mouth_mm=45.0, hinge_edge="side", hinge_corner="side waist", hinge_mm=30.0,
    )  # fmt: skip


def to_the_notch(pattern: Pattern, mm: float) -> Kind:
    """Cut up to within 3/4 in of the front armhole notch: above it."""
    notch = pattern.piece("front").notch("front armhole notch")
    assert notch.corner == "shoulder point"
    return BustVolume(by_mm=mm, hinge_mm=notch.distance_mm - 0.75 * IN)


def hip_fold(pattern: Pattern, mm: float) -> Kind:
    """A dart-shaped fold at the back edge, to nothing at the side, hip line 7 3/8 in down."""
    return FoldOut(
        piece="back", by_mm=mm, mouth_edge="centre back", mouth_corner="centre back waist",
        mouth_mm=7.375 * IN, hinge_edge="side", hinge_corner="side waist", hinge_mm=7.375 * IN,
    )  # fmt: skip


BODICE_ROWS = {
    "square shoulders": Row(
        f"{NEW_4}; {WSU}",
        lambda p, mm: ShoulderSlope(to=Slope.SQUARE, by_mm=mm), (6.0, 10.0),
        keeps=tuple((p, e) for p in ("front", "back") for e in ("shoulder", "armhole")),
        grows={("front", "side"): 1.0, ("back", "side"): 1.0},
    ),
    "sloping shoulders": Row(
        f"{NEW_4}; {WSU}",
        lambda p, mm: ShoulderSlope(to=Slope.SLOPING, by_mm=mm), (6.0, 10.0),
        keeps=tuple((p, e) for p in ("front", "back") for e in ("shoulder", "armhole")),
        grows={("front", "side"): -1.0, ("back", "side"): -1.0},
    ),
    "a shoulder too long": Row(
        WSU,
        lambda p, mm: ShoulderLength(to=Length.SHORTER, by_mm=mm), (8.0,),
        keeps=tuple((p, e) for p in ("front", "back") for e in ("neckline", "side", "waist")),
        grows={("front", "shoulder"): -1.0, ("back", "shoulder"): -1.0},
    ),
    "a round back": Row(
        LINING_8, blade_slash, (3.175, 12.7, 19.05),
        keeps=tuple(("back", e) for e in ("armhole", "shoulder", "neckline", "side", "waist")),
        grows={("back", "centre back"): 1.0}, untouched=("front",), about=0.05,
    ),
    "a sway back": Row(
        PRACTICE, sway_fold, (6.35, 12.7, 25.4),
        keeps=tuple(("back", e) for e in ("side", "shoulder", "neckline", "armhole")),
        grows={("back", "centre back"): -1.0}, untouched=("front",), about=0.05,
    ),
    "a front that sags below the bust": Row(
        USDA_9,
        lambda p, mm: TakeIn(
            seam="shoulder", share=own_share(p, "shoulder", "front"),
            amounts=(at("neck point", mm), at("shoulder point", 0.0)),
        ),
        (6.0, 12.0),
        keeps=(("front", "armhole"), ("front", "side"), ("front", "centre front"),
               ("front", "waist")),
        untouched=("back",),
    ),
    "a full bust": Row(
        f"{LINING_7}; darted form {MEMORY}", to_the_notch, (20.0, 50.8),
        keeps=tuple(("front", e) for e in ("neckline", "shoulder", "armhole", "side")),
        girths={"bust line": 1.0}, untouched=("back",),
    ),
    "a small bust": Row(
        f"{LINING_7}; darted form {MEMORY}", to_the_notch, (-8.0, -16.0),
        keeps=tuple(("front", e) for e in ("neckline", "shoulder", "armhole", "side")),
        girths={"bust line": 1.0}, untouched=("back",),
    ),
    "a low bust": Row(
        PRACTICE,
        lambda p, mm: MoveDart(piece="front", dart="bust dart", by_mm=mm, toward="side waist"),
        (12.7, 20.0),
        keeps=tuple(("front", e) for e in ("neckline", "shoulder", "armhole", "centre front")),
        untouched=("back",),
    ),
    "a gaping neckline": Row(
        MEMORY,
        lambda p, mm: CloseGap(
            piece="front", edge="neckline", corner="neck point", dart="bust dart", by_mm=mm,
            distance_mm=along(p.piece("front"), "neckline", "neck point", 0.4),
        ),
        (6.35, 12.7),
        keeps=tuple(("front", e) for e in ("shoulder", "armhole", "side", "waist", "centre front")),
        untouched=("back",),
    ),
    "a waist too short": Row(
        LENGTHS, lambda p, mm: Lengthen(line="waist line", above_mm=2.5 * IN, by_mm=mm),
        (12.7, 25.4),
        keeps=tuple((p, e) for p in ("front", "back") for e in ("neckline", "shoulder", "armhole")),
        grows={("front", "centre front"): 1.0, ("back", "centre back"): 1.0},
    ),
    "a waist too long": Row(
        f"{LENGTHS}; {CWU}",
        lambda p, mm: Lengthen(line="waist line", above_mm=2.5 * IN, by_mm=-mm), (12.7, 25.4),
        keeps=tuple((p, e) for p in ("front", "back") for e in ("neckline", "shoulder", "armhole")),
        grows={("front", "centre front"): -1.0, ("back", "centre back"): -1.0},
    ),
    "a forward shoulder": Row(
        MEMORY,
        lambda p, mm: ShiftSeam(
            seam="shoulder", towards="front",
            amounts=(at("neck point", 0.0), at("shoulder point", mm)),
        ),
        (6.35, 12.7, 19.05),
        keeps=tuple((p, e) for p in ("front", "back") for e in ("neckline", "side", "waist")),
        grows={("front", "armhole"): -1.0, ("back", "armhole"): 1.0},
    ),
}  # fmt: skip

SLEEVE_ROWS = {
    "a large upper arm": Row(
        THREADS, lambda p, mm: UpperArm(to=Room.FULLER, by_mm=mm), (12.7, 25.4),
        keeps=(("sleeve", "cap"), ("sleeve", "wrist")),
        girths={"upper arm line": 2.0}, untouched=("front", "back"),
    ),
    "the pitch of a sleeve": Row(
        USDA_10, lambda p, mm: TurnSleeve(to=Pitch.FORWARD, by_mm=mm), (10.0,),
        keeps=tuple(("sleeve", e) for e in ("cap", "wrist", "front underarm", "back underarm")),
        untouched=("front", "back"),
    ),
}  # fmt: skip

SKIRT_ROWS = {
    "a skirt lengthened below the hip": Row(
        NEW_22, lambda p, mm: Lengthen(line="hip line", above_mm=-6 * IN, by_mm=mm),
        (25.4, -25.4),
        keeps=tuple((p, e) for p in ("front", "back") for e in ("waist", "hem")),
        grows={("front", "centre front"): 1.0, ("back", "centre back"): 1.0,
               ("front", "side"): 1.0, ("back", "side"): 1.0},
    ),
    "prominent hips": Row(
        SKIRT_14, hip_fold, (12.7,),
        keeps=(("back", "side"), ("back", "waist"), ("back", "hem")),
        grows={("back", "centre back"): -1.0}, untouched=("front",), about=0.05,
    ),
    "a prominent abdomen": Row(
        NEW_5,
        lambda p, mm: ReshapeEdge(
            piece="front", edge="waist",
            amounts=(at("centre front waist", -mm), at("side waist", 0.0)),
        ),
        (12.7, 25.4),
        keeps=(("front", "side"), ("front", "hem")),
        grows={("front", "centre front"): 1.0}, girths={"hip line": 0.0}, untouched=("back",),
    ),
}  # fmt: skip

TROUSER_ROWS = {
    "a seat let out at the back centre": Row(
        SLACKS,
        lambda p, mm: TakeIn(
            seam="centre back",
            amounts=(at("centre back waist", -mm), at("inside-leg point", 0.0)),
        ),
        (10.0,), untouched=("front",), girths={"waist line": 1.0}, about=0.05,
        keeps=(("back", "side"), ("back", "inside leg"), ("back", "hem")),
    ),
    "a full seat": Row(
        SLACKS, lambda p, mm: CrotchLength(back_mm=mm, at=CrotchAt.CENTRE), (12.7, 20.0),
        keeps=(("back", "side"), ("back", "inside leg"), ("back", "hem"), ("back", "waist")),
        grows={("back", "crotch"): 1.0}, untouched=("front",), about=0.02,
    ),
    "a crotch too short": Row(
        SLACKS, lambda p, mm: CrotchLength(back_mm=mm, front_mm=mm / 2), (12.7,),
        keeps=(("back", "side"), ("front", "side"), ("back", "waist"), ("front", "waist")),
        grows={("back", "crotch"): 1.0, ("front", "crotch"): 0.5},
    ),
}  # fmt: skip


SORTS = {
    "bodice": BODICE_ROWS, "sleeved bodice": SLEEVE_ROWS, "skirt": SKIRT_ROWS,
    "trousers": TROUSER_ROWS,
}  # fmt: skip
#: A posture among them (2), and women irregular in every way.
BODIES = range(4)


@cache
def drawn(sort: str, number: int) -> Pattern:
    """A block of a sort; below 0 the bodice drawn by hand."""
    return bodice() if number < 0 else block(sort, number)
