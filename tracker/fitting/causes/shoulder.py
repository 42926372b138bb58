"""Causes at the shoulder and the neck."""

from dataclasses import replace
from typing import Any

from tracker.fitting.causes.blades import across_blades, folded_panels, one_blade, one_blade_closed
from tracker.fitting.counting import Sort
from tracker.fitting.looking import Stage
from tracker.fitting.reading import Reading
from tracker.fitting.remedy import MEMORY, PRACTICE, Cause, Remedy, Step, at, one
from tracker.fitting.scene import NotHere, Scene, length_of, part_of
from tracker.pattern.bodyside import BodySide
from tracker.pattern.walk import side_lengths

USDA_NECK = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 5"
WSU = "Garment Fitting, E.M. 2246, Washington State University, 1962"
NEW_DRESSMAKER = "The New Dressmaker, 1921, chapter 4"
TWO_PARTS = "The Dressmaker, 1910s, part 8"


def slope(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """Squarer or more sloping shoulders."""
    return {"to": to, "by_mm": by_mm, "side": scene.side, "seam": scene.seam("shoulder").name}


def panel_underarm(scene: Scene, by_mm: float, lower: bool) -> dict[str, Any] | None:
    """The underarm of a back panel that the shoulder is not on, where the shoulder left it."""
    name = scene.seam("shoulder").name
    tip = {r.piece for s in scene.pattern.seams if s.name == name for r in (*s.first, *s.second)}
    beside = next(
        (p for p in scene.pattern.pieces if part_of(p) == "back" and p.name not in tip
         and {"side", "armhole"} <= {e.name for e in p.edges}), None,
    )  # fmt: skip
    if beside is None or not beside.has_outline:
        return None
    side = scene.seam("side")
    one, two = side_lengths(scene.pattern, side)
    if abs(two - one - side.planned_ease_mm) < 1.0:
        return None  # the shoulder took it along, or has not been altered yet
    return {"piece": beside.name, "corner": "underarm point", "edge": "side",
            "along_mm": -by_mm if lower else by_mm, "blend_mm": 60.0,
            "side": scene.side}  # fmt: skip


def sloped(words: str, asks: str, to: str) -> Remedy:
    """Shoulders squarer or more sloping, with the underarm of a back panel where there is one."""
    larger = to == "square"
    return Remedy(words, asks, larger, (
        Step("change the shoulder slope", lambda s, mm: slope(s, mm, to)),
        Step("move a corner", lambda s, mm: panel_underarm(s, mm, lower=not larger)),
    ))  # fmt: skip


def forward(scene: Scene, by_mm: float, part: str) -> dict[str, Any]:
    """The shoulder seam shifted at the shoulder point."""
    seam = scene.seam("shoulder")
    piece = scene.on(part, "shoulder").name
    return {
        "seam": seam.name, "towards": piece, "side": scene.side,
        "amounts": [at("shoulder point", by_mm), at("neck point", 0.0)],
    }  # fmt: skip


def length(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """A longer or shorter shoulder."""
    return {"to": to, "by_mm": by_mm, "side": scene.side, "seam": scene.seam("shoulder").name}


def neckline(scene: Scene, by_mm: float, to: str, part: str = "") -> dict[str, Any]:
    """The neckline looser or tighter, all round or on one part only."""
    given: dict[str, Any] = {"to": to, "by_mm": by_mm, "side": scene.side}
    if part:
        piece = scene.on(part, "neckline")
        centre = f"centre {part} neck"
        ends = {piece.edge("neckline").start, piece.edge("neckline").end}
        corner = centre if centre in ends else "neck point"
        given["places"] = [
            {"piece": piece.name, "corner": corner, "distance_mm": 0.0, "share": 1.0},
            *(
                [{"piece": piece.name, "corner": "neck point", "distance_mm": 0.0, "share": 0.0}]
                if corner == centre and "neck point" in ends
                else []
            ),
        ]
    return given


def noted_part(scene: Scene) -> str:
    """Return the part whose neckline a note is at: front, back, or "" for all round."""
    words = (scene.note.piece or "").split()
    return next((part for part in ("front", "back") if part in words), "")


def neck_gap_mm(scene: Scene) -> tuple[str, float]:
    """Where on the front neckline the gap was read; two fifths up from the centre without."""
    piece = scene.on("front", "neckline")
    for reading in scene.note.readings:
        if reading.value_mm and reading.corner in (
            piece.edge("neckline").start, piece.edge("neckline").end,
        ):  # fmt: skip
            return reading.corner, reading.distance_mm
    edge = piece.edge("neckline")
    return "neck point", round(length_of(edge, 200.0) * 0.45, 1)


def gap_into_dart(scene: Scene, by_mm: float) -> dict[str, Any]:
    """A gap of the front neckline closed into a dart to the bust point."""
    piece = scene.on("front", "neckline")
    corner, distance = neck_gap_mm(scene)
    distance = max(distance, by_mm + 5.0)  # not nearer to the corner than the gap is wide
    name = next((d.name for n in ("bust dart", "waist dart", "shoulder dart")
                 for d in piece.darts if d.name == n and not d.double_pointed), None)  # fmt: skip
    if name is None and not piece.has_outline:
        name = "bust dart"
    if name is None:
        scene.dart("front", "bust dart", "waist dart")
        raise AssertionError("the front with the neckline has another piece's dart")
    return {"piece": piece.name, "edge": "neckline", "corner": corner, "distance_mm": distance,
            "by_mm": by_mm, "dart": name, "side": scene.side}  # fmt: skip


def neck_to_armhole(scene: Scene, by_mm: float) -> dict[str, Any]:
    """A wedge folded out from the front neckline to the armhole."""
    piece = scene.on("front", "neckline")
    corner, distance = neck_gap_mm(scene)
    distance = max(distance, by_mm + 5.0)
    hinge, edge = next(
        ((c, e) for e, c in (("armhole", "shoulder point"), ("front princess", ""))
         if any(x.name == e for x in piece.edges)),
        ("shoulder point", "armhole"),
    )  # fmt: skip
    hinge = hinge or piece.edge(edge).start
    return {"piece": piece.name, "mouth_edge": "neckline", "mouth_corner": corner,
            "mouth_mm": distance, "hinge_edge": edge, "hinge_corner": hinge,
            "hinge_mm": scene.at_line(piece, edge, hinge, otherwise=100, line="across front",
                                      share=0.5),
            "by_mm": by_mm, "side": scene.side}  # fmt: skip


def hollow_chest(scene: Scene, by_mm: float) -> dict[str, Any]:
    """A wedge folded out from the centre front above the bust to the armhole."""
    piece = scene.on("front", "centre front")
    if scene.side != "both" and piece.fold == "centre front":
        raise NotHere("a cut from the fold is on both body sides")
    edge = "armhole" if any(e.name == "armhole" for e in piece.edges) else "front princess"
    corner = "shoulder point" if edge == "armhole" else piece.edge(edge).start
    return {"piece": piece.name, "mouth_edge": "centre front", "mouth_corner": "centre front neck",
            "mouth_mm": scene.at_line(piece, "centre front", "centre front neck", otherwise=60,
                                      line="across front", share=0.2),
            "hinge_edge": edge, "hinge_corner": corner,
            "hinge_mm": scene.at_line(piece, edge, corner, otherwise=100, line="across front",
                                      share=0.5),
            "by_mm": by_mm, "centre": scene.fold_at(piece, "centre front"),
            "side": scene.side}  # fmt: skip


def one_chest(scene: Scene, by_mm: float) -> dict[str, Any]:
    """For one side, seen at the armhole: a wedge to nothing at the centre front, made a seam."""
    piece = scene.on("front", "armhole")
    if scene.side == "both" or piece.fold != "centre front":
        raise NotHere("both halves are folded out from the centre front")
    if "armhole" not in {scene.note.edge, *(r.edge for r in scene.note.readings)}:
        raise NotHere("nothing was seen at the armhole, so the centre stays on the fold")
    whole = hollow_chest(Scene(scene.pattern, replace(scene.note, side=BodySide.BOTH)), by_mm)
    return whole | {
        "mouth_edge": whole["hinge_edge"], "mouth_corner": whole["hinge_corner"],
        "mouth_mm": whole["hinge_mm"], "hinge_edge": whole["mouth_edge"],
        "hinge_corner": whole["mouth_corner"], "hinge_mm": whole["mouth_mm"],
        "centre": "shape a seam", "side": scene.side,
    }  # fmt: skip


def back_neck_dart(scene: Scene, by_mm: float) -> dict[str, Any]:
    """A small dart from the back neckline."""
    piece = scene.on("back", "neckline")
    edge = piece.edge("neckline")
    pinned = _pinned_beside(scene)
    corner = pinned.corner if pinned else "centre back neck"
    return {"piece": piece.name, "name": "neck dart", "edge": "neckline", "corner": corner,
            "distance_mm": pinned.distance_mm if pinned else round(length_of(edge, 75.0) / 2, 1),
            "width_mm": by_mm, "length_mm": 75.0, "side": scene.side}  # fmt: skip


def _pinned_beside(scene: Scene) -> Reading | None:
    """A reading on the back neckline away from its centre."""
    for reading in scene.note.readings:
        off_centre = reading.distance_mm > 15 or not reading.corner.startswith("centre")
        if scene.note.edge == "neckline" and reading.value_mm and off_centre:
            return reading
    return None


def centre_back_neck(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The centre back seam taken in at the neck, to nothing at the blades."""
    if _pinned_beside(scene):
        raise NotHere("it was pinned beside the centre, where a dart takes it")
    seam = scene.seam("centre back")
    piece = scene.on("back", "centre back")
    down = scene.at_line(piece, "centre back", "centre back neck", otherwise=110,
                         line="across back", mark="blade point")  # fmt: skip
    return {"seam": seam.name, "side": "both",
            "amounts": [at("centre back neck", by_mm), at("centre back neck", 0.0,
            down)]}  # fmt: skip


def neck_end(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The front lifted at the shoulder's neck end."""
    seam = scene.seam("shoulder")
    piece = scene.on("front", "shoulder").name
    return {"seam": seam.name, "side": scene.side, "share": scene.share_of(seam, piece),
            "amounts": [at("neck point", by_mm), at("shoulder point", 0.0)]}  # fmt: skip


CAUSES = (
    Cause(
        name="sloping shoulders", stage=Stage.SHOULDER, length=True,
        tell="lift the seam at the armhole end with two fingers: the lines go; pin it there, to "
        "nothing at the neck (a shoulder pad may answer it instead)",
        remedies=(sloped("shoulders more sloping, the underarm dropped as much",
                         "how deep the fold pinned at the shoulder point is: that comes off each "
                         "piece", "sloping"),),
        usual_mm=(4, 12), usual_from=PRACTICE, source=WSU,
    ),
    Cause(
        name="square shoulders", stage=Stage.SHOULDER, length=True,
        tell="open the seam at the armhole end: it stands open and the lines go; measure half of "
        "the opening, to nothing at the neck",
        remedies=(sloped("shoulders squarer, the underarm raised as much",
                         "half of what the ripped seam opens at the shoulder point", "square"),),
        usual_mm=(4, 12), usual_from=PRACTICE, source=f"{NEW_DRESSMAKER}; {WSU}",
    ),
    Cause(
        name="one shoulder lower", stage=Stage.SHOULDER, length=True,
        tell="look at both sides from behind, a level held across: pin the low one only",
        remedies=(sloped("that shoulder more sloping, the other left (note the side)",
                         "how deep the fold pinned at the low shoulder point is", "sloping"),),
        usual_mm=(4, 12), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="forward shoulder", stage=Stage.SHOULDER, length=True,
        tell="the seam runs behind the top of the shoulder at its end and is right at the neck: "
        "chalk where it should run",
        remedies=(one("shoulder seam towards the front at the shoulder point, to nothing at the "
                      "neck; the cap notch as much", "how far forward the chalk is at the shoulder "
                      "point", None, "shift a seam", lambda s, mm: forward(s, mm, "front")),),
        usual_mm=(6, 19), usual_from=MEMORY, source=PRACTICE,
    ),
    Cause(
        name="shoulder seam too far forward", stage=Stage.SHOULDER, length=True,
        tell="the seam runs in front of the top of the shoulder: chalk where it should run",
        remedies=(one("shoulder seam towards the back at the shoulder point, to nothing at the "
                      "neck", "how far back the chalk is at the shoulder point", None,
                      "shift a seam", lambda s, mm: forward(s, mm, "back")),),
        usual_mm=(6, 19), usual_from=MEMORY, source=PRACTICE,
    ),
    Cause(
        name="shoulder too long", stage=Stage.SHOULDER,
        tell="the armhole seam falls off the shoulder and drags the neck: measure from it to the "
        "shoulder point",
        remedies=(one("shoulders shorter at the shoulder point", "how far the seam lies past the "
                      "shoulder point", False, "change the shoulder length",
                      lambda s, mm: length(s, mm, "shorter")),),
        source=f"{WSU}; {USDA_NECK}",
    ),
    Cause(
        name="shoulder too short", stage=Stage.SHOULDER,
        tell="the armhole seam sits on the shoulder and binds: measure from it to the shoulder "
        "point",
        remedies=(one("shoulders longer at the shoulder point", "how far the seam lies short of "
                      "the shoulder point", True, "change the shoulder length",
                      lambda s, mm: length(s, mm, "longer")),),
        source=WSU,
    ),
    Cause(
        name="neck too tight", stage=Stage.SHOULDER,
        tell="it binds all round and folds lie under it: snip the allowance until it lies, and "
        "measure round the neck on the new line",
        remedies=(one("neckline looser, all round or where it was seen", "how much longer the "
        "neckline is to be, round "
                      "the whole neck", True, "change the neckline",
                      lambda s, mm: neckline(s, mm, "looser", noted_part(s))),),
        source=USDA_NECK,
    ),
    Cause(
        name="neck too wide", stage=Stage.SHOULDER,
        tell="it stands off all round, and the shoulders are right: pin the surplus out all round "
        "and add it up",
        remedies=(one("neckline tighter, all round or where it was seen", "how much shorter the "
        "neckline is to be, round "
                      "the whole neck", False, "change the neckline",
                      lambda s, mm: neckline(s, mm, "tighter", noted_part(s))),),
        source=USDA_NECK,
    ),
    Cause(
        name="front neckline too long", stage=Stage.SHOULDER,
        tell="the edge gapes between collar bone and centre, the chest below it lies flat: pin a "
        "fold at the edge, running out towards the bust point",
        remedies=(
            one("gap closed into the dart that points at the bust", "how much the edge is too long "
                "on each half: twice the depth of the fold", False, "close a gap into a dart",
                gap_into_dart),
            one("wedge folded out from the neckline", "how much the edge is too long on each half: "
                "twice the depth of the fold", False, "fold out", neck_to_armhole),
        ),
        usual_mm=(6, 19), usual_from=MEMORY, source=MEMORY,
    ),
    Cause(
        name="hollow chest", stage=Stage.BUST, length=True,
        tell="the cloth folds across above the bust and the neckline sinks: pin the fold across at "
        "the centre front, to nothing at the armhole",
        remedies=(
            one("wedge folded out above the bust, from the centre front to the armhole",
                "how much is too long at the centre front: twice the depth of the fold", False,
                "fold out", hollow_chest),
            one("wedge folded out from the armhole to nothing at the centre front, which becomes a "
                "seam", "how much is too long at the armhole: twice the depth of the fold", False,
                "fold out", one_chest),
            one("wedge folded out from the neckline to the armhole", "how much is too long at the "
                "neckline: twice the depth of the fold", False, "fold out", neck_to_armhole),
        ),
        usual_mm=(6, 15), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="back neck standing away", stage=Stage.SHOULDER,
        tell="the nape is free of the cloth though the shoulders lie: pin at the centre back or "
        "half-way to the shoulder (look first whether the back is round)",
        remedies=(
            one("centre back seam in at the neck, to nothing at the blades", "how much is too wide "
                "at the nape: twice the depth of the fold", False, "take in a seam",
                centre_back_neck, Sort.WHOLE),
            one("dart in the back neckline", "how much each half is too wide: twice the depth of "
                "the fold", False, "add a dart", back_neck_dart),
        ),
        usual_mm=(5, 13), usual_from=PRACTICE, source=USDA_NECK,
    ),
    Cause(
        name="round back", stage=Stage.BUST, length=True,
        tell="the back rides up or stands off below the blades and the collar is pulled down: "
        "slash "
        "from the centre back over the blades towards the armhole and let it open",
        remedies=(
            Remedy("back slashed from the armhole to nothing at the centre back and spread, and "
                   "what that opens closed into the shoulder dart", "how far the slash opens over "
                   "the blade", True, (Step("slash and spread", one_blade),
                                       Step("close a gap into a dart", one_blade_closed))),
            one("back slashed over the blades to the armhole and spread", "how far the slash opens "
                "at the centre back", True, "slash and spread", across_blades),
            one("back panels slashed across the blades", "how far the slash opens at the centre "
                "back", True, "slash across the pieces",
                lambda s, mm: across_blades(s, mm, panels=True)),
        ),
        usual_mm=(6, 20), usual_from=PRACTICE, source=TWO_PARTS,
    ),
    Cause(
        name="flat upper back", stage=Stage.BUST, length=True,
        tell="a fold lies across between the blades and the nape: pin it at the centre back, to "
        "nothing at the armhole",
        remedies=(
            one("wedge folded out over the blades, to nothing at the armhole", "how much is too "
                "long at the centre back: twice the depth of the fold", False, "fold out",
                across_blades),
            one("back panels folded out across the blades", "how much is too long at the centre "
                "back: twice the depth of the fold", False, "slash across the pieces",
                folded_panels),
        ),
        usual_mm=(6, 15), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="front too long above the bust", stage=Stage.BUST, length=True,
        tell="the front sags below the bust: lift it at the neck end of the shoulder until the "
        "grain lies level over the bust, and pin",
        remedies=(one("front lifted at the neck end of the shoulder seam, all of it from the front",
                      "how far the front is lifted at the neck point", False, "take in a seam",
                      neck_end),),
        usual_mm=(5, 13), usual_from=PRACTICE,
        source="Fitting Dresses, U.S. Department of Agriculture, 1946, part 9",
    ),
)  # fmt: skip
