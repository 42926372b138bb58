"""Bodies to try blocks on: published charts, 260 real women, postures, and contradictions.

Every function gives ``NamedBody`` values with all that decides a bodice. What a source does not
give is estimated, and for the 260 women estimated with the published spread around it.
"""

import csv
import random
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from tracker.body.body import Body
from tracker.body.estimate import BODICE_NEEDS, estimate, spread
from tracker.body.measurement import BodySide
from tracker.body.plausible import contradictions

IN = 25.4
HERE = Path(__file__).parent


@dataclass(frozen=True, slots=True)
class NamedBody:
    """A body, what it is called and where it comes from."""

    name: str
    body: Body
    source: str


@dataclass(frozen=True, slots=True)
class ContradictoryBody:
    """A body that cannot be, and the measurements a refusal has to name (keys)."""

    name: str
    body: Body
    keys: tuple[str, ...]


def chart_bodies() -> tuple[NamedBody, ...]:
    """Sizes of published charts, missing lengths estimated."""
    return (*_home_chart(), *_home_petites(), *_home_women(), *_misses(), _textbook_12())


def _completed(name: str, given: dict[str, float], source: str) -> NamedBody:
    return NamedBody(name, estimate(Body.of(given)), source)


_HOME = "Long-used US home-pattern body chart"


def _home_chart() -> list[NamedBody]:
    # Sizes 6 to 20, inches: bust, waist, hip, back waist length.
    rows = {
        6: (30.5, 23.0, 32.5, 15.5),
        8: (31.5, 24.0, 33.5, 15.75),
        10: (32.5, 25.0, 34.5, 16.0),
        12: (34.0, 26.5, 36.0, 16.25),
        14: (36.0, 28.0, 38.0, 16.5),
        16: (38.0, 30.0, 40.0, 16.75),
        18: (40.0, 32.0, 42.0, 17.0),
        20: (42.0, 34.0, 44.0, 17.25),
    }
    return [_home(f"home chart size {size}", row) for size, row in rows.items()]


def _home_petites() -> list[NamedBody]:
    # Same bust and hip, waist + 1/2 in, shorter back.
    backs = {6: 14.5, 8: 14.75, 10: 15.0, 12: 15.25, 14: 15.5, 16: 15.75}
    busts = {6: 30.5, 8: 31.5, 10: 32.5, 12: 34.0, 14: 36.0, 16: 38.0}
    waists = {6: 23.0, 8: 24.0, 10: 25.0, 12: 26.5, 14: 28.0, 16: 30.0}
    return [
        _home(
            f"home chart petite {size}",
            (busts[size], waists[size] + 0.5, busts[size] + 2.0, back),
        )
        for size, back in backs.items()
    ]


def _home_women() -> list[NamedBody]:
    # Women's range: back waist length runs evenly from 17 1/4 to 18 in.
    waists = (35.0, 37.0, 39.0, 41.5, 44.0, 46.5, 49.0)
    return [
        _home(
            f"home chart women's bust {42 + 2 * at}",
            (42.0 + 2 * at, waist, 44.0 + 2 * at, 17.25 + 0.125 * at),
        )
        for at, waist in enumerate(waists)
    ]


def _home(name: str, row: tuple[float, float, float, float]) -> NamedBody:
    bust, waist, hip, back = (inches * IN for inches in row)
    given = {
        "bust-girth": bust,
        "waist-girth": waist,
        "hip-girth": hip,
        "back-neck-to-waist": back,
    }
    return _completed(name, given, _HOME)


def _misses() -> list[NamedBody]:
    # ASTM D5585-11e1 misses (public abstract), inches: bust, underbust, upper chest, neck base,
    # shoulder girth, waist curvy, waist straight. The abstract has no hips and no
    # lengths; its upper chest equals the bust on size 4 and is no high bust as meant here.
    rows = {
        "00": (31.125, 25.75, 31.75, 13.25, 37.125, 23.875, 25.375),
        "0": (31.75, 26.5, 32.25, 13.5, 37.75, 24.625, 26.125),
        "4": (34.125, 28.0, 34.125, 14.0, 39.0, 26.125, 27.625),
        "8": (36.25, 30.0, 35.875, 14.625, 40.5, 28.0, 29.5),
        "10": (37.25, 31.0, 36.75, 14.875, 41.25, 29.0, 30.5),
        "12": (38.75, 32.5, 38.0, 15.125, 42.0, 30.75, 32.25),
        "16": (42.125, 35.75, 40.625, 15.75, 44.25, 34.5, 36.0),
        "18": (44.0, 37.625, 42.25, 16.0, 45.5, 36.75, 38.25),
    }
    bodies = []
    for size, (bust, under, _, neck, shoulders, curvy, straight) in rows.items():
        for figure, waist in (("curvy", curvy), ("straight", straight)):
            given = {
                "bust-girth": bust * IN,
                "underbust-girth": under * IN,
                "neck-base-girth": neck * IN,
                "shoulder-girth": shoulders * IN,
                "waist-girth": waist * IN,
            }
            bodies.append(_completed(f"misses {size} {figure}", given, "ASTM D5585-11e1"))
    return bodies


def _textbook_12() -> NamedBody:
    # Widely printed metric chart for size 12 (from memory). Its armhole depth of 21 cm is a
    # drafting figure with its ease in it, so 1 cm is taken off here.
    given = {
        "bust-girth": 880.0,
        "waist-girth": 680.0,
        "hip-girth": 940.0,
        "across-back": 344.0,
        "across-front": 324.0,
        "shoulder-length": 122.5,
        "neck-base-girth": 370.0,
        "back-neck-to-waist": 410.0,
        "armhole-depth": 200.0,
        "upper-arm-girth": 284.0,
        "wrist-girth": 160.0,
        "height": 1660.0,
    }
    return _completed("textbook size 12", given, "textbook chart, from memory")


# ------------------------------------------------------------------ 260 women

_COLUMNS = {
    "height": "height",
    "shoulder_girth": "shoulder-girth",
    "chest_girth": "high-bust-girth",
    "waist_girth": "waist-girth",
    "hip_girth": "hip-girth",
    "thigh_girth": "thigh-girth",
    "upper_arm_girth": "upper-arm-girth",
    "forearm_girth": "forearm-girth",
    "knee_girth": "knee-girth",
    "calf_girth": "calf-girth",
    "ankle_girth": "ankle-girth",
    "wrist_girth": "wrist-girth",
}

DRAWN: tuple[str, ...] = (
    "bust-girth",
    "neck-base-girth",
    "back-neck-to-waist",
    "shoulder-length",
    "shoulder-slope",
    "armhole-depth",
    "across-back",
    "across-front",
    "bust-arc-front",
    "waist-arc-front",
    "neck-point-to-bust-point",
    "bust-point-to-bust-point",
    "neck-point-to-waist-back",
    "neck-point-over-bust-to-waist",
    "centre-front-length",
    "side-length",
)
"""What the data set does not give, in the order drawn: each around what the ones before say."""

BUST_OVER_CHEST_SPREAD_MM = 15.0

LEFT_RIGHT = {"shoulder-length": 2.3, "shoulder-slope": 1.6}
"""Half the difference of left and right, one standard deviation.

Japanese women students (1970): 72.9 in 100 have shoulder lengths within 5 mm of each other
(so the difference has a deviation of 4.5 mm), 88.1 in 100 have slopes within 5 degrees (3.2).
"""


@cache
def bdims_women() -> tuple[Body, ...]:
    """What bdims gives of its 260 women, chest girth taken above the bust as high bust."""
    with (HERE / "bdims_women.csv").open(encoding="utf-8") as lines:
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        return tuple(
            Body.of({key: float(row[column]) * 10 for column, key in _COLUMNS.items()})
            for row in rows
        )


@cache
def bdims_bodies(seed: int = 1, *, uneven: bool = True) -> tuple[NamedBody, ...]:
    """The 260 women with everything a bodice needs, irregular as real bodies are.

    Bust = high bust turned round through the rule for estimating high bust from bust (at 860 mm
    the bust is 900 mm, and 1 mm of high bust is 1.22 mm of bust), ± 15 mm. Every other missing
    measurement is its estimate ± its published spread, drawn with ``seed`` and cut off at two
    standard deviations; a body that came out contradictory is drawn again.

    Args:
        seed: another seed gives other women with the same girths.
        uneven: let left and right shoulders differ as published.
    """
    dice = random.Random(seed)
    found = []
    for number, known in enumerate(bdims_women(), start=1):
        body = _drawn(known, dice, uneven)
        while contradictions(body):
            body = _drawn(known, dice, uneven)
        found.append(NamedBody(f"bdims {number}", estimate(body), "bdims 2003"))
    return tuple(found)


def _drawn(known: Body, dice: random.Random, uneven: bool) -> Body:
    body = known
    for key in DRAWN:
        deviation = BUST_OVER_CHEST_SPREAD_MM if key == "bust-girth" else spread(key)
        middle = estimate(body, [key]).value(key) + _cast(dice, deviation)
        if key == "bust-girth":
            middle = max(middle, known.value("high-bust-girth") + 12)
        if uneven and key in LEFT_RIGHT:
            half = _cast(dice, LEFT_RIGHT[key])
            sides: tuple[tuple[BodySide, float], ...] = (
                ("right", middle + half),
                ("left", middle - half),
            )
        else:
            sides = (("both", middle),)
        for side, value in sides:
            body = body.with_value(key, round(value, 1), side, estimated=True)
    return body


def _cast(dice: random.Random, deviation: float) -> float:
    while True:
        cast = dice.gauss(0.0, 1.0)
        if abs(cast) <= 2.0:
            return cast * deviation


# ------------------------------------------------------------------ postures


def posture_bodies() -> tuple[NamedBody, ...]:
    """Made-up bodies that stand or are built otherwise than the average; every one possible."""
    middle = estimate(
        Body.of({"bust-girth": 920.0, "waist-girth": 740.0, "hip-girth": 980.0, "height": 1650.0})
    )
    full = estimate(
        Body.of({"bust-girth": 1080.0, "waist-girth": 900.0, "hip-girth": 1100.0, "height": 1640.0})
    )
    cases = {
        "round back": _changed(
            middle,
            {
                "back-neck-to-waist": 18,
                "neck-point-to-waist-back": 22,
                "across-back": 16,
                "across-front": -12,
                "armhole-depth": 10,
                "neck-point-over-bust-to-waist": -8,
                "centre-front-length": -10,
            },
        ),
        "erect back": _changed(
            middle,
            {
                "back-neck-to-waist": -14,
                "neck-point-to-waist-back": -15,
                "across-back": -12,
                "across-front": 10,
                "armhole-depth": -6,
                "side-length": -6,
                "neck-point-over-bust-to-waist": 10,
                "centre-front-length": 10,
                "neck-point-to-bust-point": 6,
            },
        ),
        "square shoulders": middle.with_value("shoulder-slope", 15),
        "very square shoulders": middle.with_value("shoulder-slope", 12),
        "sloping shoulders": middle.with_value("shoulder-slope", 28),
        "very sloping shoulders": middle.with_value("shoulder-slope", 32),
        "low right shoulder": middle.with_value("shoulder-slope", 26, "right"),
        "narrow shoulders": _changed(
            middle, {"shoulder-length": -14, "across-back": -14, "across-front": -12}
        ),
        "broad shoulders": _changed(
            middle, {"shoulder-length": 16, "across-back": 20, "across-front": 16}
        ),
        "full bust on a narrow back": _full_bust(full, 70),
        "fuller bust on a narrow back": _full_bust(full, 100),
        "small bust": _full_bust(middle, -22),
        "low bust": _changed(full, {"neck-point-to-bust-point": 22}),
        "high bust": _changed(middle, {"neck-point-to-bust-point": -10}),
        "long trunk": _lengthened(middle, 35),
        "short trunk": _lengthened(middle, -35),
        "large waist": _waist(full, 1060),
        "small waist": _waist(middle, 640),
        "thick neck": _changed(middle, {"neck-base-girth": 30}),
        "slender neck": _changed(middle, {"neck-base-girth": -25}),
    }
    return tuple(NamedBody(name, body, "made up") for name, body in cases.items())


def _changed(body: Body, amounts: dict[str, float]) -> Body:
    for key, amount in amounts.items():
        body = body.with_value(key, body.value(key) + amount)
    return body


def _full_bust(body: Body, more: float) -> Body:
    """Put so much more round the front at the bust, with the length it takes, back as it was."""
    return _changed(
        body,
        {
            "bust-girth": more,
            "bust-arc-front": more,
            "neck-point-over-bust-to-waist": 0.35 * more,
            "centre-front-length": 0.3 * more,
            "neck-point-to-bust-point": 0.2 * more,
            "bust-point-to-bust-point": 0.12 * more,
        },
    )


def _lengthened(body: Body, more: float) -> Body:
    return _changed(
        body,
        {
            "back-neck-to-waist": more,
            "neck-point-to-waist-back": more,
            "neck-point-over-bust-to-waist": more,
            "centre-front-length": more,
            "armhole-depth": 0.3 * more,
            "side-length": 0.7 * more,
            "neck-point-to-bust-point": 0.45 * more,
        },
    )


def _waist(body: Body, girth: float) -> Body:
    more = girth - body.value("waist-girth")
    return _changed(
        body, {"waist-girth": more, "waist-arc-front": more * 0.55, "waist-arc-back": more * 0.45}
    )


# ------------------------------------------------------------------ contradictions


def contradictory_bodies() -> tuple[ContradictoryBody, ...]:
    """Bodies that cannot be, each with the measurements that must be named."""
    sound = estimate(
        Body.of({"bust-girth": 920.0, "waist-girth": 740.0, "hip-girth": 980.0, "height": 1650.0}),
        (
            *BODICE_NEEDS,
            "hip-arc-front",
            "hip-arc-back",
            "underbust-girth",
            "shoulder-width",
            "bust-point-to-waist",
            "shoulder-point-to-centre-waist-back",
            "shoulder-point-to-centre-waist-front",
        ),
    )
    sound = Body(tuple(replace(value, estimated=False) for value in sound))
    cases: tuple[tuple[str, dict[str, float], tuple[str, ...]], ...] = (
        # name, what is misread by how much, what must be named
        ("bust arc short by 6 cm", {"bust-arc-front": -60}, ("bust-arc-front", "bust-girth")),
        ("waist arc long by 5 cm", {"waist-arc-back": 50}, ("waist-arc-back", "waist-girth")),
        ("hip arc short by 5 cm", {"hip-arc-back": -50}, ("hip-arc-back", "hip-girth")),
        ("underbust over bust", {"underbust-girth": 200}, ("underbust-girth", "bust-girth")),
        ("high bust over bust", {"high-bust-girth": 90}, ("high-bust-girth", "bust-girth")),
        (
            "front length 10 cm short",
            {"neck-point-over-bust-to-waist": -100},
            ("neck-point-over-bust-to-waist", "centre-front-length"),
        ),
        (
            "bust depth read to the waist",
            {"neck-point-to-bust-point": 150},
            ("neck-point-to-bust-point", "neck-point-over-bust-to-waist"),
        ),
        (
            "centre front from the neck point",
            {"centre-front-length": 90},
            ("centre-front-length", "neck-point-over-bust-to-waist"),
        ),
        (
            "back length from the neck point down to the hip",
            {"back-neck-to-waist": 80},
            ("back-neck-to-waist", "neck-point-to-waist-back"),
        ),
        (
            "armhole depth 5 cm too deep",
            {"armhole-depth": 50},
            ("armhole-depth", "side-length"),
        ),
        ("across back over the arms", {"across-back": 130}, ("across-back", "bust-girth")),
        ("across front halved", {"across-front": -165}, ("across-front", "bust-girth")),
        (
            "bust points round the body",
            {"bust-point-to-bust-point": 110},
            ("bust-point-to-bust-point", "bust-girth"),
        ),
        (
            "shoulder to centre waist, back, 6 cm short",
            {"shoulder-point-to-centre-waist-back": -60},
            ("shoulder-point-to-centre-waist-back", "shoulder-slope"),
        ),
        (
            "shoulder to centre waist, front, 7 cm long",
            {"shoulder-point-to-centre-waist-front": 70},
            ("shoulder-point-to-centre-waist-front", "shoulder-length"),
        ),
        ("shoulder down the arm", {"shoulder-length": 45}, ("shoulder-length", "shoulder-width")),
    )
    return tuple(
        ContradictoryBody(name, _changed(sound, amounts), keys) for name, amounts, keys in cases
    )
