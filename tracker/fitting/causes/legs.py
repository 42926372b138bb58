"""Causes at the crotch and the thighs of trousers."""

from functools import partial
from typing import Any

from tracker.fitting.counting import Sort
from tracker.fitting.looking import Stage
from tracker.fitting.remedy import PRACTICE, Cause, one
from tracker.fitting.scene import NotHere, Scene


def depth(scene: Scene, by_mm: float) -> dict[str, Any]:
    """Crotch depth: all pieces longer or shorter between waist and crotch."""
    return trousers_only(scene, {"by_mm": by_mm, "side": scene.side})


def _at_the_point(scene: Scene, by_mm: float, *, part: str, way: int) -> dict[str, Any]:
    return crotch(scene, way * by_mm, part, True)


def crotch(scene: Scene, by_mm: float, part: str, at_point: bool) -> dict[str, Any]:
    """Crotch length, in front or behind, at the inside-leg point or at the centre."""
    given = {f"{part}_mm": by_mm, "side": scene.side,
             "at": "inside-leg point" if at_point else "centre"}  # fmt: skip
    return trousers_only(scene, given)


def curve(scene: Scene, by_mm: float, part: str) -> dict[str, Any]:
    """The crotch curve scooped out."""
    piece = scene.on(part, "crotch").name
    return {"piece": piece, "to": "scoop", "by_mm": by_mm, "side": scene.side}


def noted(scene: Scene) -> str:
    """Return whether a note is at the front or the back; behind where it does not say."""
    told = f"{scene.note.piece or ''} {scene.note.seam or ''}"
    return "front" if "front" in told else "back"


def thigh(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The inside-leg points out (in, when negative), half in front and half behind."""
    given = {"front_mm": by_mm / 2, "back_mm": by_mm / 2, "side": scene.side}
    return trousers_only(scene, given)


def trousers_only(scene: Scene, given: dict[str, Any]) -> dict[str, Any]:
    """Return parameters that are for trousers.

    Raises:
        NotHere: these are none.
    """
    if scene.garment != "trousers":
        raise NotHere("these are no trousers")
    return given


def leg(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The legs wider (narrower, when negative) at knee and hem."""
    return trousers_only(scene, {"knee_mm": by_mm, "hem_mm": by_mm, "side": scene.side})


def swung(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """The legs swung from the knee."""
    return trousers_only(scene, {"to": to, "by_mm": by_mm, "side": scene.side})


CAUSES = (
    Cause(
        name="crotch too high", stage=Stage.HIPS, length=True,
        tell="it binds from below, front and back alike, and the waist is pulled down: let the "
        "waist down until it does not, and measure",
        remedies=(one("crotch deeper, front and back", "how much lower the crotch is to be", True,
                      "change the crotch depth", depth),),
        usual_mm=(10, 25), usual_from=PRACTICE,
        source="Guide C-209, New Mexico State University",
    ),
    Cause(
        name="crotch too low", stage=Stage.HIPS, length=True,
        tell="it hangs below her, front and back alike: pin a fold right round between waist and "
        "hip",
        remedies=(one("crotch less deep, front and back", "how much higher the crotch is to be: "
                      "twice the depth of the fold", False, "change the crotch depth",
                      lambda s, mm: depth(s, -mm)),),
        usual_mm=(10, 25), usual_from=PRACTICE,
        source="Guide C-209, New Mexico State University",
    ),
    *(
        Cause(
            name=f"crotch too {'short' if short else 'long'} {where}", stage=Stage.HIPS,
            length=True, tell=tell, usual_mm=(6, 20), usual_from=PRACTICE, source=PRACTICE,
            remedies=(one(f"crotch {'longer' if short else 'shorter'} {where}, at the inside-leg "
                          "point", asks, short, "change the crotch length",
                          partial(_at_the_point, part=part, way=1 if short else -1)),),
        )
        for part, where, short, tell, asks in (
            ("back", "behind", True, "lines run from the crotch up to the seat and it cuts in "
             "when she sits: rip the inside leg at its top, behind, and let it open",
             "how far the inside leg opens at its top"),
            ("back", "behind", False, "cloth bags under the seat between the legs: pin it at the "
             "top of the inside leg, behind", "how much is too long: twice the depth of the fold"),
            ("front", "in front", True, "lines fan upwards from the crotch in front: rip the "
             "inside leg at its top, in front, and let it open",
             "how far the inside leg opens at its top"),
            ("front", "in front", False, "cloth stands in folds at the crotch in front: pin it at "
             "the top of the inside leg, in front",
             "how much is too long: twice the depth of the fold"),
        )
    ),
    Cause(
        name="crotch curve too full", stage=Stage.HIPS,
        tell="it cuts into her at the curve only, above and below it is right: chalk the curve "
        "where it should run",
        remedies=(one("crotch curve scooped out, front or back as noted", "how far the chalk is "
        "inside the seam",
                      None, "scoop or fill the crotch", lambda s, mm: curve(s, mm, noted(s))),),
        usual_mm=(3, 10), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="thigh too tight", stage=Stage.HIPS,
        tell="it strains round the thigh at the top of the leg: rip the inside leg there and let "
        "it open", source="Guide C-209, New Mexico State University",
        remedies=(one("inside-leg points out, half in front and half behind", "how much more each "
                      "thigh is to have, all round", True, "move the inside-leg point", thigh,
                      Sort.ROUND),),
        usual_mm=(10, 30), usual_from=PRACTICE,
    ),
    Cause(
        name="thigh too loose", stage=Stage.HIPS,
        tell="folds stand at the top of the inside leg: pin them along the seam",
        remedies=(one("Inside-leg points in, half in front and half behind", "how much less each "
                      "thigh is to have, all round", False, "move the inside-leg point",
                      lambda s, mm: thigh(s, -mm), Sort.ROUND),),
        usual_mm=(10, 30), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="knock knees", stage=Stage.HANG, of=("trousers",),
        tell="the legs twist and lean on the inside of the knee, the crease runs inwards: pin the "
        "leg at the knee until the crease hangs straight, and measure at the hem",
        remedies=(one("legs swung outwards from the knee", "how far out the hem of each leg is to "
                      "go", None, "swing the leg", lambda s, mm: swung(s, mm, "outwards")),),
        usual_mm=(10, 25), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="bow legs", stage=Stage.HANG, of=("trousers",),
        tell="the legs lean on the outside of the knee and stand off inside it, the crease runs "
        "outwards: pin until the crease hangs straight, and measure at the hem",
        remedies=(one("legs swung inwards from the knee", "how far in the hem of each leg is to go",
                      None, "swing the leg", lambda s, mm: swung(s, mm, "inwards")),),
        usual_mm=(10, 25), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="leg too narrow", stage=Stage.HIPS, of=("trousers",),
        tell="it holds on to knee or calf when she sits: rip the inside leg from the knee down and "
        "let it open", source="Guide C-209, New Mexico State University",
        remedies=(one("legs wider at knee and hem, both seams alike", "how much wider each leg is "
                      "to be, all round", True, "shape the leg", leg),),
        usual_mm=(10, 40), usual_from=PRACTICE,
    ),
    Cause(
        name="leg too wide", stage=Stage.HIPS, of=("trousers",),
        tell="pin the surplus alike along inside leg and side, the crease still in the middle",
        remedies=(one("legs narrower at knee and hem, both seams alike", "how much narrower each "
                      "leg is to be, all round", False, "shape the leg",
                      lambda s, mm: leg(s, -mm)),),
        usual_mm=(10, 40), usual_from=PRACTICE, source=PRACTICE,
    ),
)  # fmt: skip
