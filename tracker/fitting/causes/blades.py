"""Where a back is cut over the blades: for a round back, a flat one, and one blade only."""

from typing import Any

from tracker.errors import TrackerError
from tracker.fitting.scene import NotHere, Scene


def across_blades(scene: Scene, by_mm: float, panels: bool = False) -> dict[str, Any]:
    """A cut over the blades from the centre back to the armhole."""
    piece, centre = scene.first("back", "centre back", "centre")
    whole = any(e.name == "armhole" for e in piece.edges)
    if panels:
        if whole and not any(e.name.startswith("back princess") for e in piece.edges):
            raise NoPanels("the back is not panelled")
        beside = next((p.name for p in scene.pattern.pieces if p.name == "side back"), None)
        line = scene.has_line("across back", "bust line")
        if beside is None or whole:
            raise NoPanels("the cut does not cross a panel seam")
        return {"pieces": [piece.name, beside], "line": line,
                "above_mm": 0.0 if line == "across back" else 110.0,
                "first_mm": by_mm, "last_mm": 0.0, "side": scene.side}  # fmt: skip
    if not whole:
        raise NoPanels("the armhole is not on the same piece as the centre back")
    return {"piece": piece.name, "mouth_edge": centre, "mouth_corner": "centre back neck",
            "mouth_mm": scene.at_line(piece, centre, "centre back neck", otherwise=110,
                                      line="across back", mark="blade point"),
            "hinge_edge": "armhole", "hinge_corner": "shoulder point",
            "hinge_mm": scene.at_line(piece, "armhole", "shoulder point", otherwise=100,
                                      line="across back", mark="blade point", share=0.5),
            "by_mm": by_mm, "centre": scene.fold_at(piece, centre), "side": scene.side}  # fmt: skip


def one_blade(scene: Scene, by_mm: float) -> dict[str, Any]:
    """For one side only: a cut from the armhole to nothing at the centre back, which stays."""
    piece, centre = scene.first("back", "centre back", "centre")
    if scene.side == "both" or piece.fold == centre:
        raise NotHere("the centre seam stays as it is for one side only")
    scene.dart("back", "shoulder dart")
    # Clear of the blade point, to which the dart runs.
    up = 0.0 if scene.height(piece, line="across back") is not None else -15.0

    def at(edge: str, corner: str) -> float:
        return scene.at_line(piece, edge, corner, otherwise=110, line="across back",
                             mark="blade point", up_mm=up)  # fmt: skip

    return {"piece": piece.name, "mouth_edge": "armhole", "mouth_corner": "shoulder point",
            "mouth_mm": at("armhole", "shoulder point"), "hinge_edge": centre,
            "hinge_corner": "centre back neck", "hinge_mm": at(centre, "centre back neck"),
            "by_mm": by_mm, "side": scene.side}  # fmt: skip


def one_blade_closed(scene: Scene, by_mm: float) -> dict[str, Any]:
    """What that opened at the armhole, closed into the shoulder dart."""
    piece, _ = scene.first("back", "centre back", "centre")
    before = Scene(scene.start or scene.pattern, scene.note)
    opened = one_blade(before, by_mm)["mouth_mm"]
    return {"piece": piece.name, "edge": "armhole", "corner": "shoulder point",
            "distance_mm": opened + by_mm / 2, "by_mm": by_mm, "dart": "shoulder dart",
            "side": scene.side}  # fmt: skip


class NoPanels(TrackerError):
    """A cut that runs otherwise on this pattern."""


def folded_panels(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The same over back panels, folded out."""
    given = across_blades(scene, by_mm, panels=True)
    return given | {"first_mm": -by_mm}


__all__ = ["across_blades", "folded_panels", "one_blade", "one_blade_closed"]
