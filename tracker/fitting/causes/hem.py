"""Causes at the width of a hem: too narrow to stride in, or too wide."""

from functools import partial
from typing import Any

from tracker.fitting.looking import Stage
from tracker.fitting.remedy import PRACTICE, Cause, one
from tracker.fitting.scene import NotHere, Scene


def width(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """The side seams out, or in, at the hem, from the hip line down."""
    seam = scene.seam("side")
    run = seam.first[0]
    piece = scene.pattern.piece(run.piece, run.side)
    edge = piece.edge(run.edge, run.side)
    upper = [corner for corner in (edge.start, edge.end) if "hem" not in corner]
    if len(upper) != 1 or not any(e.name == "hem" for e in piece.edges):
        raise NotHere("this pattern's side seam does not end at a hem")
    down = scene.at_line(piece, edge.name, upper[0], otherwise=200.0, line="hip line")
    return {"to": to, "by_mm": by_mm, "edge": "hem", "side": scene.side,
            "seams": [{"seam": seam.name, "corner": upper[0], "distance_mm": down}]}  # fmt: skip


CAUSES = tuple(
    Cause(
        name=f"hem too {how}", stage=Stage.HEM, of=("skirt", "bodice"), source=PRACTICE,
        usual_mm=(20, 100), usual_from=PRACTICE, tell=tell,
        remedies=(one(f"side seams {way} at the hem, from the hip line down", asks, wider,
                      "taper or widen", partial(width, to=to)),),
    )
    for how, way, wider, to, tell, asks in (
        ("narrow", "out", True, "widen", "it holds her back when she strides: rip the side seams "
         "from the hem up until she can, and measure the gaps",
         "how much wider the hem is to be, all round"),
        ("wide", "in", False, "taper", "it stands out or swings at the hem, the hips are right: "
         "pin the surplus at the side seams, alike on both",
         "how much narrower the hem is to be, all round"),
    )
)  # fmt: skip
