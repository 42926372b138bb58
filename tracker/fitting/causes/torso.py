"""A hollow back on a torso: the fold crosses a double-pointed dart, which is drawn again after."""

from typing import Any

from tracker.fitting.remedy import Remedy, Step
from tracker.fitting.scene import NotHere, Scene
from tracker.pattern.dart import Dart
from tracker.pattern.piece import Piece

_DART = "waist dart"
#: So far above the waist the fold is laid.
_UP_MM = 40.0


def _with_dart(scene: Scene) -> tuple[Piece, Dart]:
    """The back and its double-pointed dart, as they were before anything was done."""
    before = Scene(scene.start or scene.pattern, scene.note)
    piece, dart = before.dart("back", _DART)
    if not dart.double_pointed:
        raise NotHere("the back's waist dart opens from an edge")
    if not any(e.name == "neckline" for e in piece.edges):
        raise NotHere("the back begins at the waist")
    return piece, dart


def taken_out(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The dart taken away, so that the fold can be laid."""
    del by_mm
    piece, dart = _with_dart(scene)
    return {"piece": piece.name, "dart": dart.name, "side": scene.side}


def folded(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The wedge above the waist, from the centre back to the side seam."""
    piece, _ = _with_dart(scene)
    names = {e.name for e in piece.edges}
    if not {"centre back", "side"} <= names:
        raise NotHere("the fold would cross a panel seam")
    side = piece.edge("side")
    top = side.end if "underarm" in side.end else side.start

    def at(edge: str, corner: str) -> float:
        return scene.at_line(piece, edge, corner, otherwise=0.0, line="waist line", up_mm=_UP_MM)

    return {"piece": piece.name, "mouth_edge": "centre back", "mouth_corner": "centre back neck",
            "mouth_mm": at("centre back", "centre back neck"), "hinge_edge": "side",
            "hinge_corner": top, "hinge_mm": at("side", top), "by_mm": by_mm,
            "centre": scene.fold_at(piece, "centre back"), "side": scene.side}  # fmt: skip


def drawn_again(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The dart where it was, shorter above the waist by what the fold took there."""
    piece, dart = _with_dart(scene)
    edge = next((e for e in piece.edges if e.name in ("hip", "hem")), None)
    if edge is None:
        raise NotHere("the back has no lower edge")
    one, two = dart.legs
    upper, lower = one.start, one.end
    shares = [k / 40 for k in range(1, 40)]
    pairs = [(one.point_at(one.length * s), two.point_at(two.length * s)) for s in shares]
    joint_share = sum(one.lengths[:1]) / one.length
    pairs.append((one.point_at(one.length * joint_share), two.point_at(two.length * joint_share)))
    a, b = max(pairs, key=lambda p: abs(p[0] - p[1]))
    widest = (a + b) / 2
    along, inward = edge.nearest(widest)
    side = piece.edge("side")
    far = max(side.point_at(0.0).real, side.point_at(side.length / 2).real, key=abs)
    near = piece.corner("centre back neck").real
    lost = by_mm * min(1.0, max(0.0, (far - widest.real) / (far - near)))
    corner = edge.start if along <= edge.length / 2 else edge.end
    return {"piece": piece.name, "name": dart.name, "edge": edge.name, "corner": corner,
            "distance_mm": round(along if corner == edge.start else edge.length - along, 1),
            "width_mm": round(dart.intake_mm, 2), "inward_mm": round(inward, 1),
            "length_mm": round(max(20.0, abs(upper - widest) - lost), 1),
            "toward_edge_mm": round(abs(widest - lower), 1), "stand_back_mm": dart.stand_back_mm,
            "pressed": dart.pressed, "side": scene.side}  # fmt: skip


FOLDED_OUT = Remedy(
    "wedge folded out above the waist; the waist dart taken out first and drawn again",
    "how much is too long at the centre back: twice the depth of the fold", False,
    (
        Step("remove a dart", taken_out),
        Step("fold out", folded),
        Step("add a dart", drawn_again),
    ),
    counted_for="fold out",
)  # fmt: skip
