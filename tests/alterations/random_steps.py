"""Steps made up at random for a pattern as it stands: sensible, bold and impossible ones."""

import random
from collections.abc import Callable
from dataclasses import replace

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kind import Kind, kinds
from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.add_a_notch import AddNotch
from tracker.alterations.kinds.add_a_sleeve import AddSleeve
from tracker.alterations.kinds.bust_volume import BustVolume
from tracker.alterations.kinds.change_a_dart import ChangeDart
from tracker.alterations.kinds.change_the_neckline import ChangeNeckline, Neck
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.change_the_upper_arm import CapKept, Room, UpperArm
from tracker.alterations.kinds.change_the_width_across import Width, WidthAcross
from tracker.alterations.kinds.close_a_gap_into_a_dart import CloseGap
from tracker.alterations.kinds.fit_the_cap import Answer, FitCap
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.join_the_side_panels import JoinSidePanels
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.level_an_edge import HeightAt, LevelEdge
from tracker.alterations.kinds.make_it_sleeveless import MakeSleeveless
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.move_a_dart import MoveDart
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.panel_the_back import PanelBack
from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.alterations.kinds.plan_the_ease import PlanEase
from tracker.alterations.kinds.raise_an_edge import Height, RaiseEdge
from tracker.alterations.kinds.raise_the_armhole import Height as Depth
from tracker.alterations.kinds.raise_the_armhole import RaiseArmhole
from tracker.alterations.kinds.raise_the_cap import Height as CapHeight
from tracker.alterations.kinds.raise_the_cap import Kept, RaiseCap
from tracker.alterations.kinds.remove_a_dart import RemoveDart
from tracker.alterations.kinds.remove_a_notch import RemoveNotch
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.set_the_cut import SetCut
from tracker.alterations.kinds.set_the_grain import Lies, SetGrain
from tracker.alterations.kinds.set_the_layer import Layer, SetLayer
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.slash_across import SlashAcross
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.taper_or_widen import Round, SeamFrom, Taper, TaperOrWiden
from tracker.alterations.kinds.true_a_join import TrueJoin
from tracker.alterations.kinds.turn_a_dart import TurnDart
from tracker.alterations.kinds.turn_the_sleeve import Pitch, TurnSleeve
from tracker.alterations.slashing import Centre
from tracker.drafting.style_join_choice import AtLine
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

Maker = Callable[[random.Random, Pattern], Kind]


def _side(rng: random.Random) -> BodySide:
    return rng.choice([BodySide.BOTH] * 3 + [BodySide.RIGHT, BodySide.LEFT])


def _amounts(rng: random.Random, start: str, end: str, most: float) -> tuple[AmountAt, ...]:
    def at(corner: str, amount: float, distance: float = 0.0) -> AmountAt:
        return AmountAt(corner=corner, distance_mm=distance, amount_mm=amount)

    amount = rng.uniform(-most, most)
    shape = rng.randrange(3)
    if shape == 0:
        return (at(start, amount),)
    if shape == 1:
        return (at(start, 0.0), at(end, amount))
    return (at(start, 0.0), at(start, amount, rng.uniform(20, 140)), at(end, 0.0))


def _seam_ends(pattern: Pattern, rng: random.Random) -> tuple[str, str, str]:
    seam = rng.choice(pattern.seams)
    one, last = seam.first[0], seam.first[-1]
    a, b = pattern.edge_of(one), pattern.edge_of(last)
    return (
        seam.name,
        a.end if one.backward else a.start,
        b.start if last.backward else b.end,
    )


def _take_in(rng: random.Random, pattern: Pattern) -> Kind:
    seam, start, end = _seam_ends(pattern, rng)
    return TakeIn(seam=seam, side=_side(rng), amounts=_amounts(rng, start, end, 14))


def _shift(rng: random.Random, pattern: Pattern) -> Kind:
    seam, start, end = _seam_ends(pattern, rng)
    run = rng.choice(pattern.seam(seam).first + pattern.seam(seam).second)
    return ShiftSeam(
        seam=seam, towards=run.piece, side=_side(rng), amounts=_amounts(rng, start, end, 8)
    )


def _edge(rng: random.Random, pattern: Pattern) -> tuple[str, str, str, str, float]:
    piece = rng.choice(pattern.pieces)
    edge = rng.choice(piece.edges)
    return piece.name, edge.name, edge.start, edge.end, edge.length


def _reshape(rng: random.Random, pattern: Pattern) -> Kind:
    piece, edge, start, end, _ = _edge(rng, pattern)
    return ReshapeEdge(
        piece=piece, edge=edge, side=_side(rng), amounts=_amounts(rng, start, end, 8)
    )


def _corner(rng: random.Random, pattern: Pattern) -> Kind:
    piece, edge, start, _, _ = _edge(rng, pattern)
    return MoveCorner(
        piece=piece, corner=start, edge=edge, along_mm=rng.uniform(-8, 8),
        across_mm=rng.uniform(-8, 8), side=_side(rng),
    )  # fmt: skip


def _dart(rng: random.Random, pattern: Pattern) -> Kind:
    piece, edge, start, _, length = _edge(rng, pattern)
    inside = rng.random() < 0.4
    return AddDart(
        piece=piece, edge=edge, corner=start, distance_mm=rng.uniform(0, length),
        name=f"dart {rng.randrange(10**6)}", width_mm=rng.uniform(3, 16),
        length_mm=rng.uniform(30, 110), inward_mm=rng.uniform(40, 90) if inside else 0.0,
        toward_edge_mm=rng.uniform(15, 38) if inside else 0.0, side=_side(rng),
    )  # fmt: skip


def _a_dart(rng: random.Random, pattern: Pattern) -> tuple[Piece, str]:
    """A dart of the pattern; sometimes one it does not have."""
    darted = [p for p in pattern.pieces if p.darts]
    if not darted or rng.random() < 0.02:
        return rng.choice(pattern.pieces), "bust dart"
    piece = rng.choice(darted)
    return piece, rng.choice(piece.darts).name


def _change_dart(rng: random.Random, pattern: Pattern) -> Kind:
    piece, dart = _a_dart(rng, pattern)
    edge = rng.choice(piece.edges)
    toward = rng.random() < 0.4
    return ChangeDart(
        piece=piece.name, dart=dart, deeper_mm=rng.uniform(-8, 8), longer_mm=rng.uniform(-20, 20),
        across_mm=rng.uniform(1, 8) if toward else 0.0, toward=edge.start if toward else "",
        side=_side(rng),
    )  # fmt: skip


def _move_dart(rng: random.Random, pattern: Pattern) -> Kind:
    piece, dart = _a_dart(rng, pattern)
    mouth = next((d.mouth for d in piece.darts if d.name == dart), None)
    edge = next((e for e in piece.edges if e.name == mouth), rng.choice(piece.edges))
    return MoveDart(
        piece=piece.name, dart=dart, by_mm=rng.uniform(2, 20),
        toward=rng.choice([edge.start, edge.end]), side=_side(rng),
    )  # fmt: skip


def _remove_dart(rng: random.Random, pattern: Pattern) -> Kind:
    piece, dart = _a_dart(rng, pattern)
    seam = rng.choice(["", "", *(s.name for s in pattern.seams)])
    return RemoveDart(piece=piece.name, dart=dart, seam=seam, side=_side(rng))


def _turn_dart(rng: random.Random, pattern: Pattern) -> Kind:
    piece, dart = _a_dart(rng, pattern)
    share, side = rng.choice([1.0, 0.5, rng.uniform(0.1, 1.0)]), _side(rng)
    others = [d.name for d in piece.darts if d.name != dart]
    if others and rng.random() < 0.4:
        return TurnDart(
            piece=piece.name, dart=dart, into=rng.choice(others), share=share, side=side
        )
    edge = rng.choice(piece.edges)
    return TurnDart(
        piece=piece.name, dart=dart, edge=edge.name, corner=edge.start, side=side,
        distance_mm=rng.uniform(0.1, 0.9) * edge.length, share=share,
        name=f"dart {rng.randrange(10**6)}",
    )  # fmt: skip


def _gap(rng: random.Random, pattern: Pattern) -> Kind:
    piece, dart = _a_dart(rng, pattern)
    edge = rng.choice(piece.edges)
    return CloseGap(
        piece=piece.name, edge=edge.name, corner=edge.start,
        distance_mm=rng.uniform(0.1, 0.9) * edge.length, by_mm=rng.uniform(2, 10), dart=dart,
        side=_side(rng),
    )  # fmt: skip


def _bust(rng: random.Random, pattern: Pattern) -> Kind:
    fronts = [p.name for p in pattern.pieces if "front" in p.name] or ["front"]
    return BustVolume(
        by_mm=rng.choice([-1, 1]) * rng.uniform(4, 40), piece=rng.choice(fronts),
        centre=rng.choice([Centre.REFUSE, Centre.SEAM]), side=_side(rng),
    )  # fmt: skip


def _notch(rng: random.Random, pattern: Pattern) -> Kind:
    piece = rng.choice(pattern.pieces)
    if piece.notches and rng.random() < 0.7:
        notch = rng.choice(piece.notches)
        return MoveNotch(
            piece=piece.name, notch=notch.name, by_mm=rng.uniform(-30, 30), side=_side(rng)
        )
    edge = rng.choice(piece.edges)
    return AddNotch(
        piece=piece.name, edge=edge.name, corner=edge.start,
        distance_mm=rng.uniform(0, edge.length), name=f"notch {rng.randrange(10**6)}",
        side=_side(rng),
    )  # fmt: skip


def _remove_notch(rng: random.Random, pattern: Pattern) -> Kind:
    piece = rng.choice(pattern.pieces)
    names = [n.name for n in piece.notches] or ["side notch"]
    return RemoveNotch(piece=piece.name, notch=rng.choice(names), side=_side(rng))


def _line(rng: random.Random, pattern: Pattern, *wanted: str) -> str:
    known = dict.fromkeys(v.name for p in pattern.pieces for v in p.levels)
    return rng.choice([n for n in known if n in wanted] or list(known) or ["bust line"])


def _length(rng: random.Random, pattern: Pattern) -> Kind:
    return Lengthen(
        line=_line(rng, pattern), above_mm=rng.uniform(-60, 150),
        by_mm=rng.choice([-1, 1]) * rng.uniform(3, 20), side=_side(rng),
    )  # fmt: skip


def _slash(rng: random.Random, pattern: Pattern) -> Kind:
    piece = rng.choice(pattern.pieces)
    mouth, hinge = rng.sample(piece.edges, 2)
    kind = rng.choice([SlashAndSpread, FoldOut])
    return kind(
        piece=piece.name, mouth_edge=mouth.name, mouth_corner=mouth.start,
        mouth_mm=rng.uniform(0.1, 0.9) * mouth.length, hinge_edge=hinge.name,
        hinge_corner=hinge.start, hinge_mm=rng.uniform(0.1, 0.9) * hinge.length,
        by_mm=rng.uniform(2, 12), centre=rng.choice(list(Centre)), side=_side(rng),
    )  # fmt: skip


def _across(rng: random.Random, pattern: Pattern) -> Kind:
    joined = [
        (s.first[0].piece, s.second[0].piece)
        for s in pattern.seams
        if s.first[0].piece != s.second[0].piece
    ]
    pieces = rng.choice(joined or [tuple(p.name for p in pattern.pieces[:2])])
    way = rng.choice([-1, 1])
    return SlashAcross(
        pieces=pieces, line=_line(rng, pattern), above_mm=rng.uniform(-60, 150),
        first_mm=way * rng.uniform(2, 10), last_mm=rng.choice([0.0, way * rng.uniform(2, 10)]),
        centre=rng.choice(list(Centre)), side=_side(rng),
    )  # fmt: skip


def _slope(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    return ShoulderSlope(
        to=rng.choice(list(Slope)), by_mm=rng.uniform(2, 12), side=_side(rng),
        underarm=rng.random() < 0.7,
    )  # fmt: skip


def _shoulder(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    return ShoulderLength(to=rng.choice(list(Length)), by_mm=rng.uniform(2, 12), side=_side(rng))


def _width(rng: random.Random, pattern: Pattern) -> Kind:
    return WidthAcross(
        line=_line(rng, pattern, "across back", "across front"), to=rng.choice(list(Width)),
        by_mm=rng.uniform(2, 16), side=_side(rng), shoulder=rng.random() < 0.3,
    )  # fmt: skip


def _neck(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    return ChangeNeckline(to=rng.choice(list(Neck)), by_mm=rng.uniform(2, 16), side=_side(rng))


def _low(rng: random.Random, pattern: Pattern) -> str:
    names = {e.name for p in pattern.pieces for e in p.edges}
    return rng.choice(sorted(names & {"hem", "waist"}) or ["hem"])


def _taper(rng: random.Random, pattern: Pattern) -> Kind:
    low = _low(rng, pattern)
    to_it = [
        s
        for s in pattern.seams
        if {low} & {e.name for p in pattern.pieces for e in _beside(p, s.first[0], s.first[-1])}
    ]
    seam = rng.choice(to_it or pattern.seams)
    edge = pattern.edge_of(seam.first[0])
    start = edge.end if seam.first[0].backward else edge.start
    return TaperOrWiden(
        to=rng.choice(list(Taper)), by_mm=rng.uniform(4, 30), edge=low,
        round=rng.choice(list(Round)), side=_side(rng),
        seams=(SeamFrom(seam=seam.name, corner=start, distance_mm=rng.uniform(5, 150)),),
    )  # fmt: skip


def _beside(piece: Piece, *runs: object) -> list[object]:
    found = []
    for run in runs:
        for edge in piece.edges:
            if (piece.name, edge.name) == (run.piece, run.edge):
                found += [piece.before(edge), piece.after(edge)]
    return found


def _raise(rng: random.Random, pattern: Pattern) -> Kind:
    return RaiseEdge(
        to=rng.choice(list(Height)), by_mm=rng.uniform(2, 15), edge=_low(rng, pattern),
        side=_side(rng),
    )  # fmt: skip


def _level(rng: random.Random, pattern: Pattern) -> Kind:
    low = _low(rng, pattern)
    with_it = [(p, e) for p in pattern.pieces for e in p.edges if e.name == low]
    if not with_it:
        return LevelEdge(wanted_mm=400.0, edge=low, readings=())
    readings = {
        (p.name, corner): HeightAt(
            piece=p.name, corner=corner, distance_mm=0.0, height_mm=400 + rng.uniform(-10, 10)
        )
        for p, e in rng.sample(with_it, rng.randint(1, len(with_it)))
        for corner in (e.start, e.end)[: rng.randint(1, 2)]
    }
    return LevelEdge(wanted_mm=400.0, edge=low, readings=tuple(readings.values()), side=_side(rng))


def _join(rng: random.Random, pattern: Pattern) -> Kind:
    seam, start, end = _seam_ends(pattern, rng)
    return TrueJoin(seam=seam, corner=rng.choice([start, end]), side=_side(rng))


def _sleeve(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    arm = AddSleeve.to_fit(examples.arm(), side=_side(rng))
    return replace(arm, upper_arm_mm=arm.upper_arm_mm + rng.uniform(-30, 30))


def _sleeve_altered(rng: random.Random, pattern: Pattern) -> Kind:
    """What is done to a sleeve; to a bodice without one, what makes a place for it."""
    side, sleeved = _side(rng), any(p.name == "sleeve" for p in pattern.pieces)
    choice = rng.randrange(6) if sleeved or rng.random() < 0.4 else rng.choice([4, 4, 5])
    if choice == 0:
        return UpperArm(
            to=rng.choice(list(Room)), by_mm=rng.uniform(2, 40), keep=rng.choice(list(CapKept)),
            nothing_mm=rng.choice([None, None, rng.uniform(40, 180)]), side=side,
        )  # fmt: skip
    if choice == 1:
        return RaiseCap(
            to=rng.choice(list(CapHeight)), by_mm=rng.uniform(2, 25), keep=rng.choice(list(Kept)),
            side=side,
        )  # fmt: skip
    if choice == 2:
        return TurnSleeve(to=rng.choice(list(Pitch)), by_mm=rng.uniform(2, 25), side=side)
    if choice == 3:
        return FitCap(by=rng.choice(list(Answer)), side=side)
    if choice == 4:
        return RaiseArmhole(to=rng.choice(list(Depth)), by_mm=rng.uniform(2, 20), side=side)
    return MakeSleeveless(
        raised_mm=rng.uniform(0, 20), side_in_mm=rng.uniform(0, 24),
        shoulder_mm=rng.uniform(0, 25), side=side,
    )  # fmt: skip


def _panel(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    return rng.choice([PanelFront, PanelBack])(side=_side(rng))


def _side_panel(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    at = (
        (AtLine(line="waist line", dart=rng.choice([0.0, 0.5, 1.0])),) if rng.random() < 0.5 else ()
    )
    return JoinSidePanels(at=at, side=_side(rng))


def _words(rng: random.Random, pattern: Pattern) -> Kind:
    """What changes no line: ease, grain, layer, cut instruction."""
    piece, edge, *_ = _edge(rng, pattern)
    return rng.choice(
        [
            PlanEase(line=_line(rng, pattern), ease_mm=round(rng.uniform(0, 90), 1)),
            SetGrain(
                piece=piece, lies=rng.choice(list(Lies)), to=edge,
                turned_deg=rng.choice([0.0, 45.0]), side=_side(rng),
            ),
            SetLayer(piece=piece, layer=rng.choice(list(Layer))),
            SetCut(piece=piece, cut=rng.choice(["cut 2", "cut 1 on the fold"]), side=_side(rng)),
        ]
    )  # fmt: skip


MAKERS: tuple[Maker, ...] = (
    _take_in, _take_in, _take_in, _shift, _shift, _reshape, _reshape, _corner, _dart, _change_dart,
    _change_dart, _move_dart, _remove_dart, _turn_dart, _gap, _bust, _notch, _remove_notch, _length,
    _slash, _slash, _across, _slope, _shoulder, _width, _neck, _taper, _raise, _level, _join,
    _sleeve, _sleeve_altered, _panel, _side_panel, _words,
)  # fmt: skip


#: What the makers above make; every other kind is met by its own example, another amount of it.
MADE = {
    "take in a seam", "shift a seam", "reshape an edge", "move a corner", "add a dart",
    "change a dart", "move a dart", "remove a dart", "turn a dart", "close a gap into a dart",
    "more or less bust volume", "add a notch", "move a notch", "remove a notch",
    "lengthen or shorten", "slash and spread", "fold out", "slash across the pieces",
    "change the shoulder slope", "change the shoulder length", "change the width across",
    "change the neckline", "taper or widen", "raise or lower an edge", "level an edge",
    "true a join", "add a sleeve", "panel the front", "panel the back", "join the side panels",
    "change the upper arm", "raise or lower the cap", "turn the sleeve",
    "fit the cap to the armhole", "raise or lower the armhole", "make it sleeveless",
    "plan the ease", "set the grain", "set the layer", "set the cut instruction",
}  # fmt: skip
#: Says what a version left out, and is no step of a pattern's.
NO_STEP = "withdraw steps"


def _by_its_example(rng: random.Random, pattern: Pattern) -> Kind:
    del pattern
    others = [kind for word, kind in kinds().items() if word not in MADE | {NO_STEP}]
    step = rng.choice(others or [PanelFront]).example().kind
    factor = rng.choice([-1, 1, 1]) * rng.uniform(0.2, 1.6)
    step = step.scaled(factor) or step
    return replace(step, side=_side(rng)) if hasattr(step, "side") else step


def a_step(rng: random.Random, pattern: Pattern) -> Kind:
    """Make up a step for a pattern.

    Raises:
        TrackerError: it refused its own parameters, as a kind may.
    """
    others = (_by_its_example,) * (1 + max(0, len(kinds()) - len(MADE)) // 2)
    return rng.choice((*MAKERS, *others))(rng, pattern)
