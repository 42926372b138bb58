"""Causes at the waist, the hips and the hem, and in how the garment hangs."""

from functools import partial
from typing import Any

from tracker.fitting.causes.legs import crotch
from tracker.fitting.counting import Sort
from tracker.fitting.looking import Stage
from tracker.fitting.remedy import PRACTICE, Cause, Remedy, Step, at, one
from tracker.fitting.scene import NotHere, Scene

USDA_WAIST = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 13"
USDA_HIPS = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 14"
USDA_HEM = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 15"
LENGTHS = "The Dressmaker, 1910s, part 4"
SWAY = "Fitting and Pattern Alteration, 1992 (title from memory), as summarised elsewhere"
ABDOMEN = "The New Dressmaker, 1921, chapter 5"
SLACKS = "TM 10-227, Fitting of uniforms, slacks"


def _ends(scene: Scene, seam_name: str) -> tuple[str, list[str]]:
    seam = scene.seam(seam_name)
    run = seam.first[0]
    edge = scene.pattern.piece(run.piece, run.side).edge(run.edge, run.side)
    return seam.name, [edge.start, edge.end]


def side_at(scene: Scene, by_mm: float, line: str) -> dict[str, Any]:
    """The side seams in (or out, when negative) at a line, shared by how many there are."""
    name, ends = _ends(scene, "side")
    run = scene.seam("side").first[0]
    piece = scene.pattern.piece(run.piece, run.side)
    each = by_mm / 2 if scene.side == "both" else by_mm
    waist = next((c for c in ends if c.endswith("waist")), None)
    under = next((c for c in ends if "underarm" in c), None)
    hem = next((c for c in ends if c.endswith(("hem", "hip")) and c != waist), None)
    if line == "waist line":
        if waist and under:
            amounts = [at(waist, each), at(under, 0.0)]
        elif waist:
            hip = scene.at_line(piece, run.edge, waist, otherwise=190, line="hip line")
            amounts = [at(waist, each), at(waist, 0.0, hip)]
        else:
            assert under is not None
            down = scene.at_line(piece, run.edge, under, otherwise=200, line="waist line")
            amounts = [at(under, 0.0), at(under, each, down), at(hem or ends[0], 0.0)]
    elif waist and hem:
        hip = scene.at_line(piece, run.edge, waist, otherwise=190, line="hip line")
        amounts = [at(waist, 0.0), at(waist, each, hip), at(hem, each)]
    elif hem:
        down = scene.at_line(piece, run.edge, under or ends[0], otherwise=200, line="waist line")
        amounts = [at(hem, each), at(under or ends[0], 0.0, down)]
    else:
        raise NotHere("this pattern does not reach the hips")
    return {"seam": name, "side": scene.side, "amounts": amounts}


def panels_at_waist(scene: Scene, by_mm: float, seam_name: str) -> dict[str, Any]:
    """A panel seam in at the waist, to nothing at the bust line; four of them share the whole."""
    seam = scene.seam(seam_name)
    run = seam.first[0]
    piece = scene.pattern.piece(run.piece, run.side)
    edge = piece.edge(run.edge)
    top, foot = (edge.end, edge.start) if run.backward else (edge.start, edge.end)
    each = by_mm / 4 if scene.side == "both" else by_mm / 2
    down = scene.at_line(piece, edge.name, top, otherwise=150, line="bust line")
    return {"seam": seam.name, "side": scene.side,
            "amounts": [at(foot, each), at(top, 0.0, down)]}  # fmt: skip


def _at_waist(scene: Scene, mm: float, *, seam: str, way: int) -> dict[str, Any]:
    return panels_at_waist(scene, way * mm, seam)


def _panels(tight: bool, asks: str) -> Remedy:
    way = -1 if tight else 1
    return Remedy(
        f"panel seams {'out' if tight else 'in'} at the waist, a quarter of it at each", asks,
        tight, tuple(
            Step("take in a seam", partial(_at_waist, seam=name, way=way))
            for name in ("front princess", "back princess")
        ), Sort.WHOLE,
    )  # fmt: skip


def waist_length(scene: Scene, by_mm: float) -> dict[str, Any]:
    """Every piece longer or shorter above the waist."""
    scene.seam("shoulder")
    return {"line": scene.has_line("waist line"), "above_mm": 63.5, "by_mm": by_mm,
            "side": scene.side}  # fmt: skip


def sway(scene: Scene, by_mm: float) -> dict[str, Any]:
    """A wedge folded out above the waist, from the centre back to the side or the panel seam."""
    piece = scene.on("back", "centre back")
    if not any(e.name == "neckline" for e in piece.edges):
        raise NotHere("the back ends at the waist")
    hinge = next((n for n in ("side", "back princess") if any(e.name == n for e in piece.edges)),
                 None)  # fmt: skip
    if hinge is None or (hinge == "back princess"
                         and any(p.name == "side back" for p in scene.pattern.pieces)):  # fmt: skip
        raise NotHere("the fold would cross a panel seam")
    edge = piece.edge(hinge)
    up = 40.0
    if "centre back waist" in (piece.edge("centre back").start, piece.edge("centre back").end):
        foot = next(c for c in (edge.start, edge.end) if c.endswith("waist"))
        return {"piece": piece.name, "mouth_edge": "centre back",
                "mouth_corner": "centre back waist", "mouth_mm": up, "hinge_edge": hinge,
                "hinge_corner": foot, "hinge_mm": up, "by_mm": by_mm,
                "centre": scene.fold_at(piece, "centre back"), "side": scene.side}  # fmt: skip
    top = edge.end if "underarm" in edge.end else edge.start
    return {"piece": piece.name, "mouth_edge": "centre back", "mouth_corner": "centre back neck",
            "mouth_mm": scene.at_line(piece, "centre back", "centre back neck", otherwise=380,
                                      line="waist line", up_mm=up),
            "hinge_edge": hinge, "hinge_corner": top,
            "hinge_mm": scene.at_line(piece, hinge, top, otherwise=190, line="waist line",
                                      up_mm=up),
            "by_mm": by_mm, "centre": scene.fold_at(piece, "centre back"),
            "side": scene.side}  # fmt: skip


def centre_waist(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The centre back seam in at the waist, to nothing at the blades and at the hip."""
    seam = scene.seam("centre back")
    piece = scene.on("back", "centre back")
    edge = piece.edge("centre back")
    ends = (edge.start, edge.end)
    top = next((c for c in ends if c.endswith("neck")), None)
    waist = next((c for c in ends if c.endswith("waist")), None)
    if top is None:
        raise NotHere("the back begins at the waist")
    blades = scene.at_line(piece, "centre back", top, otherwise=110, line="across back",
                           mark="blade point")  # fmt: skip
    if waist is not None:
        amounts = [at(top, 0.0, blades), at(waist, by_mm)]
    else:
        down = scene.at_line(piece, "centre back", top, otherwise=410, line="waist line")
        amounts = [at(top, 0.0, blades), at(top, by_mm, down),
                   at(next(c for c in ends if c != top), 0.0)]  # fmt: skip
    return {"seam": seam.name, "side": "both", "amounts": amounts}


def sway_panels(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The same over back panels."""
    piece = scene.on("back", "centre back")
    beside = next((p.name for p in scene.pattern.pieces if p.name == "side back"), None)
    if beside is None:
        raise NotHere("the back is not panelled")
    return {"pieces": [piece.name, beside], "line": scene.has_line("waist line"), "above_mm": 40.0,
            "first_mm": -by_mm, "last_mm": 0.0, "side": scene.side}  # fmt: skip


def waist_edge(scene: Scene, by_mm: float, part: str, lower: bool) -> dict[str, Any]:
    """A waist lowered or raised at the centre of one part, to nothing at the side."""
    piece = scene.on(part, "waist")
    edge = piece.edge("waist")
    if scene.garment == "bodice":
        raise NotHere("this waist is a bodice's lower edge")
    return {"piece": piece.name, "edge": "waist", "side": scene.side,
            "amounts": [at(f"centre {part} waist", by_mm if lower else -by_mm),
                        at(next(c for c in (edge.start, edge.end)
                                if not c.startswith("centre")), 0.0)]}  # fmt: skip


def high_hip(scene: Scene, by_mm: float, part: str) -> dict[str, Any]:
    """The waist raised at the side of the high hip, on one piece."""
    piece = scene.on(part, "waist")
    if scene.garment == "bodice":
        raise NotHere("this waist is a bodice's lower edge")
    return {"piece": piece.name, "corner": "side waist", "edge": "side", "along_mm": by_mm,
            "blend_mm": 100.0, "side": scene.side}  # fmt: skip


def swing(scene: Scene, by_mm: float, part: str) -> dict[str, Any]:
    """The side seam shifted at its lower end."""
    name, ends = _ends(scene, "side")
    lower = next((c for c in ends if c.endswith(("hem", "hip"))), None) or next(
        c for c in ends if c.endswith("waist")
    )
    other = next(c for c in ends if c != lower)
    towards = next(
        r.piece for r in (*scene.seam("side").first, *scene.seam("side").second)
        if part in r.piece.split()
    )  # fmt: skip
    run = scene.seam("side").first[0]
    piece = scene.pattern.piece(run.piece, run.side)
    still = 0.0
    if lower.endswith("hip") and piece.has_outline:  # above the waist nothing swings
        still = scene.at_line(piece, run.edge, other, otherwise=0, line="waist line")
    return {"seam": name, "towards": towards, "side": scene.side,
            "amounts": [at(lower, by_mm), at(other, 0.0, still)]}  # fmt: skip


def edge_height(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """A hem or lower edge raised or lowered all round."""
    wanted = (scene.note.edge, "hem", "waist", "hip")
    found = {e.name for p in scene.pattern.pieces for e in p.edges if p.layer == "shell"}
    edge = next((n for n in wanted if n in found), None)
    if edge is None:
        raise NotHere("this pattern has no hem")
    return {"to": to, "by_mm": by_mm, "edge": edge, "side": scene.side}


def _hip_raised() -> Remedy:
    return Remedy(
        "waist raised at the side on the high hip, front and back (note the side)",
        "how much higher the waist is to be at that side", True,
        tuple(Step("move a corner", partial(high_hip, part=p)) for p in ("front", "back")),
    )  # fmt: skip


def _girth(name: str, line: str, tight: bool, stage: Stage, tell: str, source: str) -> Cause:
    word = "out" if tight else "in"
    asks = (
        f"how much {'more' if tight else 'less'} the {line.removesuffix(' line')} is to have, the "
        "whole garment round (on one body side only, of that side)"
    )
    return Cause(
        name=name, stage=stage, tell=tell, source=source, usual_mm=(10, 40), usual_from=PRACTICE,
        remedies=(
            one(f"side seams {word} at the {line}, half of it at each", asks, tight,
                "take in a seam", lambda s, mm: side_at(s, -mm if tight else mm, line), Sort.WHOLE),
            *((_panels(tight, asks),) if line == "waist line" else ()),
        ),
    )  # fmt: skip


CAUSES = (
    Cause(
        name="cloth off its grain", stage=Stage.HANG,
        tell="draw a thread, or look at the weave: lengthways plumb at the centres, crossways "
        "level "
        "at bust, waist and hip; if not, it was cut or joined off grain, and the pattern is not "
        "what is wrong",
        source="Fitting Dresses, U.S. Department of Agriculture, 1946, part 1",
        by_hand="re-pin the seams with the grain matched, or cut again on the grain; leave the "
        "pattern",
    ),
    Cause(
        name="side seam swinging forward", stage=Stage.HANG,
        tell="look first for what pulls it: a full bust or a stomach wants room in front. If "
        "nothing does, chalk a plumb line from the top of the seam and measure at its lower end",
        remedies=(one("side seam towards the back at its lower end; no girth changes", "how far "
        "the "
                      "seam is forward of the plumb line at its lower end", None, "shift a seam",
                      lambda s, mm: swing(s, mm, "back")),),
        usual_mm=(6, 20), usual_from=PRACTICE, source=USDA_HIPS,
    ),
    Cause(
        name="side seam swinging back", stage=Stage.HANG,
        tell="look first for what pulls it: a full seat or a round back wants room behind. If "
        "nothing does, chalk a plumb line from the top of the seam and measure at its lower end",
        remedies=(one("side seam towards the front at its lower end; no girth changes", "how far "
                      "the seam is behind the plumb line at its lower end", None, "shift a seam",
                      lambda s, mm: swing(s, mm, "front")),),
        usual_mm=(6, 20), usual_from=PRACTICE, source=USDA_HIPS,
    ),
    Cause(
        name="long waist", stage=Stage.WAIST, length=True,
        tell="the waist line sits above her waist all round: tie a tape round it and measure down",
        remedies=(one("every piece longer above the waist", "how far her waist is below the waist "
                      "line", True, "lengthen or shorten", waist_length),),
        usual_mm=(10, 30), usual_from=PRACTICE, source=LENGTHS,
    ),
    Cause(
        name="short waist", stage=Stage.WAIST, length=True,
        tell="folds lie across above the waist all round, front and sides too: pin the fold right "
        "round",
        remedies=(one("every piece shorter above the waist", "how much shorter: twice the depth of "
                      "the fold", False, "lengthen or shorten", lambda s, mm: waist_length(s,
                      -mm)),),
        usual_mm=(10, 30), usual_from=PRACTICE, source=LENGTHS,
    ),
    Cause(
        name="hollow back", stage=Stage.WAIST, length=True,
        tell="folds lie across at the small of the back, strongest at the centre, and die out "
        "before the side seam (look first whether the hips are tight and push them up): pin the "
        "fold at the centre back",
        remedies=(
            one("wedge folded out above the waist, to nothing at the side seam", "how much is too "
                "long at the centre back: twice the depth of the fold", False, "fold out", sway),
            one("back panels folded out above the waist, to nothing at the side seam", "how much "
                "is too long at the centre back: twice the depth of the fold", False,
                "slash across the pieces", sway_panels),
            one("waist lowered at the centre back, to nothing at the side", "how much is too long "
                "at the centre back: twice the depth of the fold", False, "reshape an edge",
                lambda s, mm: waist_edge(s, mm, "back", lower=True)),
        ),
        usual_mm=(6, 25), usual_from=PRACTICE, source=SWAY,
    ),
    Cause(
        name="waist hollow behind", stage=Stage.WAIST, of=("bodice",),
        tell="the centre back stands away from the small of the back and no fold lies across: pin "
        "the surplus along the centre back",
        remedies=(one("centre back seam in at the waist, to nothing at the blades", "how much is "
                      "too wide at the centre back: twice the depth of the fold", False,
                      "take in a seam", centre_waist, Sort.WHOLE),),
        usual_mm=(6, 20), usual_from=PRACTICE, source=PRACTICE,
    ),
    _girth("waist too tight", "waist line", True, Stage.WAIST,
           "it strains, or the opening will not close: measure how far it stands open", USDA_WAIST),
    _girth("waist too loose", "waist line", False, Stage.WAIST,
           "pin the surplus at the side seams, alike on both sides, and add it up", USDA_WAIST),
    _girth("hips too tight", "hip line", True, Stage.HIPS,
           "it draws across and rides up: rip the side seams and let them open, keeping them plumb",
           USDA_HIPS),
    _girth("hips too loose", "hip line", False, Stage.HIPS,
           "pin the surplus at the side seams, keeping them plumb, and add it up", USDA_HIPS),
    Cause(
        name="stomach", stage=Stage.HIPS, length=True,
        tell="the hem or waist is drawn up in front and the side seams swing forward: open the "
        "waist in front and let it drop until the hem is level; measure the gap at the centre",
        remedies=(
            one("crotch longer at the centre front, to nothing at the side", "how far the front "
                "drops at its centre", True, "change the crotch length",
                lambda s, mm: crotch(s, mm, "front", at_point=False)),
            one("waist raised at the centre front, to nothing at the side", "how far the front "
                "drops at its centre", True, "reshape an edge",
                lambda s, mm: waist_edge(s, mm, "front", lower=False)),
        ),
        usual_mm=(10, 25), usual_from=ABDOMEN, source=ABDOMEN,
    ),
    Cause(
        name="flat seat", stage=Stage.HIPS, length=True,
        tell="the back hangs in folds under the seat and drops at the hem: pin the surplus up at "
        "the "
        "centre back waist until the hem is level",
        remedies=(
            one("crotch shorter at the centre back, to nothing at the side", "how much is pinned "
            "up "
                "at the centre back: twice the depth of the fold", False,
                "change the crotch length", lambda s, mm: crotch(s, -mm, "back", at_point=False)),
            one("waist lowered at the centre back, to nothing at the side", "how much is pinned up "
                "at the centre back: twice the depth of the fold", False, "reshape an edge",
                lambda s, mm: waist_edge(s, mm, "back", lower=True)),
        ),
        usual_mm=(6, 20), usual_from=PRACTICE, source=f"{SLACKS}; skirts {PRACTICE}",
    ),
    Cause(
        name="full seat", stage=Stage.HIPS, length=True,
        tell="it draws across the seat, the hem or waist is pulled down behind: slash across "
        "below the waist, or open the waist, and let it drop",
        remedies=(
            one("crotch longer at the centre back, to nothing at the side", "how far a slash "
            "across "
                "the seat opens at the centre back", True, "change the crotch length",
                lambda s, mm: crotch(s, mm, "back", at_point=False)),
            one("waist raised at the centre back, to nothing at the side", "how far the back drops "
                "at its centre when the waist is opened", True, "reshape an edge",
                lambda s, mm: waist_edge(s, mm, "back", lower=False)),
        ),
        usual_mm=(6, 20), usual_from=PRACTICE, source=f"{SLACKS}; skirts {PRACTICE}",
    ),
    Cause(
        name="one hip higher", stage=Stage.HIPS, length=True,
        tell="the hem rises and folds point at one hip only: open the waist there and let it drop "
        "until the hem is level; measure the gap",
        remedies=(_hip_raised(),), usual_mm=(5, 20), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="hem off level", stage=Stage.HEM, length=True,
        tell="let it hang a day; measure its height from the floor at centre front, sides and "
        "centre back, she standing still: write them with --floor",
        source=USDA_HEM,
        by_hand="read the heights from the floor: tracker note new … --edge hem --floor \"60cm all "
        "round\" --floor \"61cm at side hem on front\"",
    ),
    Cause(
        name="too long all round", stage=Stage.HEM, length=True,
        tell="turn it up where she wants it and measure what is turned up",
        remedies=(one("lower edge raised all round", "how much shorter it is to be", False,
                      "raise or lower an edge", lambda s, mm: edge_height(s, mm, "raise")),),
        source=PRACTICE,
    ),
    Cause(
        name="too short all round", stage=Stage.HEM, length=True,
        tell="measure from the edge down to where she wants it",
        remedies=(one("lower edge lowered all round", "how much longer it is to be", True,
                      "raise or lower an edge", lambda s, mm: edge_height(s, mm, "lower")),),
        source=PRACTICE,
    ),
)  # fmt: skip
