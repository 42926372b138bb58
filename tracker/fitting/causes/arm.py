"""Causes in the sleeve, once its armhole is settled."""

from typing import Any

from tracker.fitting.counting import Sort
from tracker.fitting.looking import Stage
from tracker.fitting.remedy import PRACTICE, Cause, one
from tracker.fitting.scene import NotHere, Scene, length_of

CAPS = "Set-in sleeve solutions, Threads, 2021"
USDA_SLEEVE = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 10"


def sleeve_length(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The sleeve longer or shorter between elbow and wrist."""
    piece = scene.on("sleeve", "cap")
    if scene.side != "both":
        raise NotHere("one sleeve alone is made longer or shorter at its lower edge")
    lines = {level.name for level in piece.levels}
    if "elbow line" in lines:
        line, above = "elbow line", -80.0
    elif lines or not piece.has_outline:
        line = next((n for n in ("sleeve hem line", "wrist line", "hem") if n in lines), "wrist")
        above = 120.0
    else:
        raise NotHere("the sleeve has no line to measure from")
    return {"line": line, "above_mm": above, "by_mm": by_mm, "pieces": [piece.name],
            "side": scene.side}  # fmt: skip


def one_wrist(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """The lower edge of one sleeve."""
    piece = scene.on("sleeve", "cap")
    edge = next((e.name for e in piece.edges if e.name in ("hem", "wrist")), None)
    if edge is None:
        raise NotHere("the sleeve has no lower edge")
    return {"to": to, "by_mm": by_mm, "edge": edge, "side": scene.side}


def wrist(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """The sleeve wider or narrower at its lower edge, from the elbow."""
    piece = scene.on("sleeve", "cap")
    own = [
        s for s in scene.pattern.seams
        if all(r.piece == piece.name for r in (*s.first, *s.second)) and s.first != s.second
    ]  # fmt: skip
    if not own:
        raise NotHere("the sleeve has no underarm seam of its own")
    run = own[0].first[0]
    edge = piece.edge(run.edge)
    lower = next((e.name for e in piece.edges if e.name in ("hem", "wrist")), "hem")
    ends = (edge.start, edge.end)
    top = next((c for c in ends if "underarm" in c), ends[0])
    length = length_of(edge, 400.0)
    return {"to": to, "by_mm": by_mm, "round": "each sleeve or leg", "edge": lower,
            "side": scene.side,
            "seams": [{"seam": own[0].name, "corner": top, "distance_mm": round(length / 2,
            1)}]}  # fmt: skip


def cap(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """The cap higher or lower, the upper arm as wide as it is."""
    scene.on("sleeve", "cap")
    return {"to": to, "by_mm": by_mm, "side": scene.side}


CAUSES = (
    Cause(
        name="full upper arm", stage=Stage.SLEEVE,
        tell="the sleeve strains round the upper arm, folds lie across: slash it down its middle "
        "and let it open; the arm wants 50 mm of ease",
        remedies=(one("upper arm fuller, the cap as long as it was", "how much more each upper arm "
                      "is to have, all round", True, "change the upper arm",
                      lambda s, mm: cap(s, mm, "fuller")),),
        usual_mm=(10, 40), usual_from=PRACTICE, source=CAPS,
    ),
    Cause(
        name="thin upper arm", stage=Stage.SLEEVE,
        tell="upright folds hang from the cap: pin the surplus down the middle of the sleeve",
        remedies=(one("upper arm narrower, the cap as long as it was", "how much less each upper "
                      "arm is to have, all round", False, "change the upper arm",
                      lambda s, mm: cap(s, mm, "narrower")),),
        usual_mm=(10, 30), usual_from=PRACTICE, source=CAPS,
    ),
    Cause(
        name="sleeve set for an arm further back", stage=Stage.SLEEVE,
        tell="folds run from the back of the cap towards the front of the arm, which hangs "
        "forward: "
        "turn the cap's notch towards the front until the grain hangs with the arm",
        remedies=(one("sleeve turned forward in its armhole, all cap notches together", "how far "
        "the "
                      "cap is turned along the armhole", None, "turn the sleeve",
                      lambda s, mm: cap(s, mm, "forward")),),
        usual_mm=(6, 15), usual_from=PRACTICE, source=USDA_SLEEVE,
    ),
    Cause(
        name="sleeve set for an arm further forward", stage=Stage.SLEEVE,
        tell="folds run from the front of the cap towards the back of the arm, which hangs back: "
        "turn the cap's notch towards the back until the grain hangs with the arm",
        remedies=(one("sleeve turned back in its armhole, all cap notches together", "how far the "
                      "cap is turned along the armhole", None, "turn the sleeve",
                      lambda s, mm: cap(s, mm, "back")),),
        usual_mm=(6, 15), usual_from=PRACTICE, source=USDA_SLEEVE,
    ),
    Cause(
        name="cap too low", stage=Stage.SLEEVE, length=True,
        tell="folds run down from the top of the cap to both sides, and the sleeve strains when "
        "the "
        "arm hangs: rip the cap over the shoulder and measure how far it opens",
        remedies=(one("cap raised, the upper arm as wide as it is", "how far the ripped cap opens "
        "over "
                      "the shoulder", True, "raise or lower the cap",
                      lambda s, mm: cap(s, mm, "raise")),),
        usual_mm=(6, 20), usual_from=PRACTICE, source=USDA_SLEEVE,
    ),
    Cause(
        name="cap too high", stage=Stage.SLEEVE, length=True,
        tell="a fold lies across below the shoulder and the cap collapses: pin the fold",
        remedies=(one("cap lowered, the upper arm as wide as it is", "how much is folded away: "
        "twice "
                      "the depth of the fold", False, "raise or lower the cap",
                      lambda s, mm: cap(s, mm, "lower")),),
        usual_mm=(6, 20), usual_from=PRACTICE, source=USDA_SLEEVE,
    ),
    Cause(
        name="sleeve too long", stage=Stage.SLEEVE, length=True,
        tell="with the arm a little bent it passes the wrist bone: measure by how much",
        remedies=(
            one("sleeve shorter, below the elbow", "how much shorter it is to be", False,
                "lengthen or shorten", lambda s, mm: sleeve_length(s, -mm)),
            one("that sleeve's lower edge raised", "how much shorter it is to be", False,
                "raise or lower an edge", lambda s, mm: one_wrist(s, mm, "raise")),
        ),
        source=PRACTICE,
    ),
    Cause(
        name="sleeve too short", stage=Stage.SLEEVE, length=True,
        tell="with the arm a little bent it ends short of the wrist bone: measure by how much",
        remedies=(
            one("sleeve longer, below the elbow", "how much longer it is to be", True,
                "lengthen or shorten", sleeve_length),
            one("that sleeve's lower edge lowered", "how much longer it is to be", True,
                "raise or lower an edge", lambda s, mm: one_wrist(s, mm, "lower")),
        ),
        source=PRACTICE,
    ),
    Cause(
        name="sleeve tight below the elbow", stage=Stage.SLEEVE,
        tell="it strains round the fore-arm or wrist: rip its seam from the hem and measure the "
        "gap",
        remedies=(one("sleeve wider at its hem, from the elbow", "how much wider each sleeve is to "
                      "be at its hem", True, "taper or widen", lambda s, mm: wrist(s, mm,
                      "widen"), Sort.ROUND),),
        source=PRACTICE,
    ),
    Cause(
        name="sleeve loose below the elbow", stage=Stage.SLEEVE,
        tell="pin the surplus along its seam, the hand still passing",
        remedies=(one("sleeve narrower at its hem, from the elbow", "how much narrower each sleeve "
                      "is to be at its hem", False, "taper or widen",
                      lambda s, mm: wrist(s, mm, "taper"), Sort.ROUND),),
        source=PRACTICE,
    ),
)  # fmt: skip
