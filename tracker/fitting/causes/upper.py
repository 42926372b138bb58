"""Causes at the bust, the back and the armhole."""

from typing import Any

from tracker.fitting.causes.shoulder import TWO_PARTS
from tracker.fitting.counting import Sort
from tracker.fitting.looking import Stage
from tracker.fitting.remedy import MEMORY, PRACTICE, Cause, at, one
from tracker.fitting.scene import NotHere, Scene, length_of

LINING = "The Dressmaker, 1910s, part 7"
USDA_ARMHOLE = "Fitting Dresses, U.S. Department of Agriculture, 1946, part 10"


def bust(scene: Scene, by_mm: float) -> dict[str, Any]:
    """More or less room over the bust of a front with its two darts."""
    if not scene.drawn:
        piece = scene.on("front", "armhole")
        return {"by_mm": by_mm, "piece": piece.name, "side": scene.side}
    piece, _ = scene.dart("front", "bust dart")
    waist = [d for d in piece.darts if d.name == "waist dart"]
    if not waist:
        raise NotHere("the front has no waist dart")
    return {"by_mm": by_mm, "piece": piece.name, "side": scene.side,
            "centre": "refuse" if scene.side == "both" else "straighten the fold"}  # fmt: skip


def panel_seam(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The front panel seam over the bust; the whole amount is shared by its two sides."""
    seam = scene.seam("front princess", "front panel")
    piece = scene.pattern.piece(seam.first[0].piece, seam.first[0].side)
    edge = piece.edge(seam.first[0].edge)
    top, foot = (edge.end, edge.start) if seam.first[0].backward else (edge.start, edge.end)
    each = by_mm if scene.side != "both" else by_mm / 2
    down = scene.at_line(piece, edge.name, top, otherwise=230, line="bust line")
    length = length_of(edge, 200.0)
    return {"seam": seam.name, "side": scene.side,
            "amounts": [at(top, 0.0, max(0.0, down - 120)), at(top, each, down),
                        at(foot, 0.0, max(0.0, (length - down) / 2))]}  # fmt: skip


def dart_moved(scene: Scene, by_mm: float, down: bool) -> dict[str, Any]:
    """The bust dart moved bodily, up or down."""
    if not scene.drawn:
        piece = scene.on("front", "side")
        return {"piece": piece.name, "dart": "bust dart", "by_mm": by_mm,
                "toward": "side waist" if down else "underarm point",
                "side": scene.side}  # fmt: skip
    piece, dart = scene.dart("front", "bust dart")
    edge = piece.edge(dart.mouth or "side")
    low, high = sorted(
        (edge.start, edge.end), key=lambda c: piece.corner(c).imag if piece.has_outline else 0.0
    )
    return {"piece": piece.name, "dart": dart.name, "by_mm": by_mm, "toward": low if down else high,
            "side": scene.side}  # fmt: skip


def dart_point(scene: Scene, by_mm: float) -> dict[str, Any]:
    """The noted dart sewn shorter or longer: its stand-back."""
    told = " ".join((scene.note.direction, scene.note.fitter_words, scene.note.edge or "")).lower()
    part = "back" if "back" in (scene.note.piece or "") else "front"
    names = ["bust dart", "waist dart", "shoulder dart", "side waist dart", "side dart"]
    names.sort(key=lambda n: n not in told)
    piece, dart = scene.dart(part, *names)
    return {"piece": piece.name, "dart": dart.name, "side": scene.side,
            "stand_back_mm": max(0.0, dart.stand_back_mm + by_mm)}  # fmt: skip


def width(scene: Scene, by_mm: float, line: str, to: str) -> dict[str, Any]:
    """The width across the back or the front."""
    return {"line": scene.has_line(line), "to": to, "by_mm": by_mm, "side": scene.side}


def armhole_edge(scene: Scene, by_mm: float, part: str, out: bool) -> dict[str, Any]:
    """The armhole's line moved at its middle, where no line across is drawn."""
    piece = scene.on(part, "armhole")
    edge = piece.edge("armhole")
    length = length_of(edge, 210.0)
    each = by_mm / 2 if scene.side == "both" else by_mm
    return {"piece": piece.name, "edge": "armhole", "side": scene.side,
            "amounts": [at(edge.start, 0.0), at(edge.start, -each if out else each, length / 2),
                        at(edge.end, 0.0)]}  # fmt: skip


def gap_on_armhole(scene: Scene, part: str) -> tuple[str, float]:
    """Where on the armhole the gap was read; half-way without."""
    piece = scene.on(part, "armhole")
    edge = piece.edge("armhole")
    for reading in scene.note.readings:
        if reading.value_mm and reading.corner in (edge.start, edge.end):
            return reading.corner, reading.distance_mm
    corner = "shoulder point" if "shoulder point" in (edge.start, edge.end) else edge.start
    return corner, round(length_of(edge, 210.0) * 0.55, 1)


def armhole_gap(scene: Scene, by_mm: float, part: str) -> dict[str, Any]:
    """A gap at the armhole closed into a dart."""
    piece = scene.on(part, "armhole")
    corner, distance = gap_on_armhole(scene, part)
    wanted = ("bust dart", "waist dart") if part == "front" else ("shoulder dart", "waist dart")
    for name in wanted:
        for dart in piece.darts:
            if dart.name == name and not dart.double_pointed:
                return {"piece": piece.name, "edge": "armhole", "corner": corner,
                        "distance_mm": distance, "by_mm": by_mm, "dart": name,
                        "side": scene.side}  # fmt: skip
    if not piece.has_outline:
        return {"piece": piece.name, "edge": "armhole", "corner": corner, "distance_mm": distance,
                "by_mm": by_mm, "dart": wanted[0], "side": scene.side}  # fmt: skip
    raise NotHere(f"the {piece.label} has no dart to take the gap's angle")


def armhole_fold(scene: Scene, by_mm: float, part: str) -> dict[str, Any]:
    """A wedge folded out from the armhole to the centre or the panel seam."""
    piece = scene.on(part, "armhole")
    corner, distance = gap_on_armhole(scene, part)
    hinge = next((e for e in piece.edges if e.name in (f"centre {part}", f"{part} princess")), None)
    if hinge is None:
        raise NotHere(f"the {piece.label} has no edge to fold to")
    length = length_of(hinge, 200.0)
    top = hinge.end if hinge.end.endswith(("neck", "shoulder", "armhole")) else hinge.start
    return {"piece": piece.name, "mouth_edge": "armhole", "mouth_corner": corner,
            "mouth_mm": distance, "hinge_edge": hinge.name, "hinge_corner": top,
            "hinge_mm": round(length * 0.45, 1), "by_mm": by_mm, "side": scene.side}  # fmt: skip


def armhole(scene: Scene, by_mm: float, to: str) -> dict[str, Any]:
    """The armhole raised or lowered under the arm, on front and back alike."""
    if scene.garment != "bodice":
        raise NotHere("this pattern has no armhole")
    return {"to": to, "by_mm": by_mm, "side": scene.side}


def _widths(part: str, wide: bool, name: str, tell: str, source: str) -> Cause:
    to = "wider" if wide else "narrower"
    line = f"across {part}"
    asks = (
        f"how much {to} the {part} is to be at that line, from armhole to armhole (on one body "
        "side only, of that side)"
    )
    return Cause(
        name=name, stage=Stage.BUST, tell=tell, source=source, usual_mm=(6, 20),
        usual_from=PRACTICE,
        remedies=(
            one(f"{line} {to}, the shoulder point stays", asks, wide, "change the width across",
                lambda s, mm: width(s, mm, line, to)),
            one(f"armhole line {'out' if wide else 'in'} at its middle", asks, wide,
                "reshape an edge", lambda s, mm: armhole_edge(s, mm, part, wide)),
        ),
    )  # fmt: skip


CAUSES = (
    Cause(
        name="full bust", of=("bodice",), stage=Stage.BUST, length=True,
        tell="folds point at the bust, the waist rises in front and the side seam is pulled "
        "forward: measure the full bust again, over what she wears",
        remedies=(
            one("more room over the bust, darts and length with it", "how much more the full bust "
                "is to have, all round", True, "more or less bust volume", bust),
            one("panel seams out over the bust", "how much more the full bust is to have, all "
                "round", True, "take in a seam", lambda s, mm: panel_seam(s, -mm), Sort.WHOLE),
        ),
        usual_mm=(10, 50), usual_from=PRACTICE, source=f"{LINING}; with darts {MEMORY}",
        by_hand="slash from the lower edge to the bust point and on to the armhole, and from the "
        "side to the bust point; spread, level the lower edge, and let the darts grow",
    ),
    Cause(
        name="small bust", of=("bodice",), stage=Stage.BUST,
        tell="cloth stands empty at the bust point: pin the surplus on both sides and add it up",
        remedies=(
            one("less room over the bust, darts and length with it", "how much less the full bust "
                "is to have, all round", False, "more or less bust volume",
                lambda s, mm: bust(s, -mm)),
            one("panel seams in over the bust", "how much less the full bust is to have, all "
                "round", False, "take in a seam", panel_seam, Sort.WHOLE),
        ),
        usual_mm=(10, 40), usual_from=PRACTICE, source=f"{LINING}; with darts {MEMORY}",
        by_hand="slash as for a full bust and lap the edges until the front lies smooth",
    ),
    Cause(
        name="low bust", stage=Stage.BUST, length=True,
        tell="the dart points above the bust: chalk the bust point and measure straight down to it",
        remedies=(one("bust dart, whole, down", "how far below the dart's aim the bust point is",
                      None, "move a dart", lambda s, mm: dart_moved(s, mm, down=True)),),
        usual_mm=(10, 30), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="high bust", stage=Stage.BUST, length=True,
        tell="the dart points below the bust: chalk the bust point and measure straight up to it",
        remedies=(one("bust dart, whole, up", "how far above the dart's aim the bust point is",
                      None, "move a dart", lambda s, mm: dart_moved(s, mm, down=False)),),
        usual_mm=(10, 30), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="dart too long", stage=Stage.BUST, length=True,
        tell="the point pokes, or runs past the fullest place: mark where it should end",
        remedies=(one("dart sewn shorter", "how much shorter it is to be sewn", None,
                      "change a dart", dart_point),),
        usual_mm=(10, 25), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="dart too short", stage=Stage.BUST, length=True,
        tell="fullness stands empty in front of the point: mark where it should end; never past "
        "the bust point",
        remedies=(one("dart sewn longer", "how much longer it is to be sewn", None,
                      "change a dart", lambda s, mm: dart_point(s, -mm)),),
        usual_mm=(5, 15), usual_from=PRACTICE, source=PRACTICE,
    ),
    _widths("back", True, "broad back", "the back strains across the blades and the armholes are "
            "drawn in when she reaches forward: slash down from the shoulder and let it open",
            "Problem areas: the back, Threads"),
    _widths("back", False, "narrow back", "folds stand upright at the back armholes: pin a fold "
            "down each side", PRACTICE),
    _widths("front", True, "broad chest", "the front strains across above the bust, arms down: "
            "slash down and let it open", PRACTICE),
    _widths("front", False, "narrow chest", "folds stand upright at the front armholes: pin a "
            "fold down each side", PRACTICE),
    Cause(
        name="bust shaping too small", stage=Stage.ARMHOLE,
        tell="the front armhole gapes about half-way down, and the gap points at the bust: pin a "
        "fold there (look first whether the bust is full: then it wants room, not closing)",
        remedies=(
            one("gap closed into the bust dart", "how much the armhole is too long: twice the "
                "depth of the fold", False, "close a gap into a dart",
                lambda s, mm: armhole_gap(s, mm, "front")),
            one("wedge folded out from the armhole", "how much the armhole is too long: twice "
                "the depth of the fold", False, "fold out",
                lambda s, mm: armhole_fold(s, mm, "front")),
        ),
        usual_mm=(5, 15), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="back armhole too long", stage=Stage.ARMHOLE,
        tell="the back armhole stands off over the blade: pin a fold there pointing at the blade "
        "(look first whether the back is round)",
        remedies=(
            one("gap closed into the shoulder or waist dart", "how much the armhole is too long: "
                "twice the depth of the fold", False, "close a gap into a dart",
                lambda s, mm: armhole_gap(s, mm, "back")),
            one("wedge folded out from the armhole", "how much the armhole is too long: twice "
                "the depth of the fold", False, "fold out",
                lambda s, mm: armhole_fold(s, mm, "back")),
        ),
        usual_mm=(4, 12), usual_from=PRACTICE, source=PRACTICE,
    ),
    Cause(
        name="armhole too high", stage=Stage.ARMHOLE,
        tell="it cuts in under the arm: snip the allowance there until it does not, and measure "
        "how far",
        remedies=(one("armhole lowered under the arm, front and back", "how far the armhole is to "
                      "be lowered under the arm", True, "raise or lower the armhole",
                      lambda s, mm: armhole(s, mm, "lower")),),
        usual_mm=(5, 15), usual_from=PRACTICE, source=USDA_ARMHOLE,
    ),
    Cause(
        name="armhole too low", stage=Stage.ARMHOLE,
        tell="the whole bodice lifts with the arm: measure from the armhole up to the arm, less a "
        "finger's breadth",
        remedies=(one("armhole raised under the arm, front and back", "how far the armhole is to "
                      "be raised under the arm", False, "raise or lower the armhole",
                      lambda s, mm: armhole(s, mm, "raise")),),
        usual_mm=(5, 20), usual_from=PRACTICE, source=USDA_ARMHOLE,
    ),
)  # fmt: skip

__all__ = ["CAUSES", "TWO_PARTS"]
