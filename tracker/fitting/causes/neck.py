"""Causes at the height of a neckline: it sits too high in front or behind, or too low."""

from functools import partial
from typing import Any

from tracker.fitting.looking import Stage
from tracker.fitting.remedy import PRACTICE, Cause, one
from tracker.fitting.scene import Scene


def line(scene: Scene, by_mm: float, way: int) -> dict[str, Any]:
    """The neckline in, or out, at its centre, to nothing at the neck point."""
    note = scene.note
    behind = "back" in f"{note.piece or ''} {note.direction} {note.fitter_words}".lower()
    part = "back" if behind else "front"
    piece = scene.on(part, "neckline")
    amounts = [
        {"corner": f"centre {part} neck", "distance_mm": 0.0, "amount_mm": way * by_mm},
        {"corner": "neck point", "distance_mm": 0.0, "amount_mm": 0.0},
    ]
    return {"piece": piece.name, "edge": "neckline", "amounts": amounts, "side": scene.side}


CAUSES = tuple(
    Cause(
        name=f"neckline too {high}", stage=Stage.SHOULDER, tell=tell, source=PRACTICE,
        usual_mm=(5, 20), usual_from=PRACTICE,
        remedies=(one(f"neckline {way} at its centre, to nothing at the shoulder", asks, None,
                      "reshape an edge", partial(line, way=sign)),),
    )
    for high, way, sign, tell, asks in (
        ("high", "lower", 1, "it cuts into the throat (or the nape) at the centre only: snip the "
         "allowance there until it lies, and chalk the line",
         "how far below the edge the chalk is"),
        ("low", "higher", -1, "it lies below the pit of the throat (or the nape) and stands away "
         "from nothing: mark where it should run, and measure up to it",
         "how far above the edge the mark is"),
    )
)  # fmt: skip
