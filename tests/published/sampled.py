"""Bodies the blocks were not tuned to: sampled from published surveys, and 247 real men.

Girths and heights are drawn with the published means, deviations and correlations; what no table
gives is its estimate ± its published spread, as for the 260 women, and the way a body holds
itself bends several lengths at once. Every group is the same for the same seed. A drawn body
whose measurements contradict each other is drawn again.
"""

import csv
import math
import random
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path

from published.bodies import BUST_OVER_CHEST_SPREAD_MM, DRAWN, NamedBody

from tracker.body.body import Body
from tracker.body.estimate import estimate, spread
from tracker.body.plausible import contradictions

HERE = Path(__file__).parent
IN = 25.4

BELOW: tuple[str, ...] = (
    "hip-arc-front",
    "hip-depth",
    "waist-to-knee",
    "inside-leg",
    "knee-height",
    "crotch-depth",
    "thigh-girth",
    "knee-girth",
    "crotch-length",
    "crotch-length-front",
    "crotch-length-back",
    "upper-arm-girth",
    "elbow-girth",
    "wrist-girth",
    "arm-length",
    "shoulder-to-elbow",
)
"""What is drawn after the trunk, each around what the ones before say."""


@dataclass(frozen=True, slots=True)
class Figure:
    """A group of bodies: means and deviations in mm, of what is drawn first.

    Attributes:
        name: what the group is called.
        count: how many there are.
        height: mean and deviation.
        chest: of the bust girth.
        waist: of the waist where a tied tape settles.
        hip: of the hip girth.
        prominence: full bust over high bust.
        stoop: how the group holds itself, in deviations: a round back above 0, an erect one
            below; a body differs from it by one.
        bust_low: how much lower the bust points are than estimated.
        source: where the figures come from.
    """

    name: str
    count: int
    height: tuple[float, float]
    chest: tuple[float, float]
    waist: tuple[float, float]
    hip: tuple[float, float]
    prominence: tuple[float, float]
    stoop: float
    bust_low: float
    source: str


SURVEY = "ANSUR II (US Army, 2012), 1,986 women: means, deviations and differences of girths"
MADE_UP = f"made up about {SURVEY}"

# The survey's waist, 861 ± 100, is taken at the navel; on the 260 women of bdims the girth at the
# navel is 139 ± 55 more than the narrowest, so that less a little is taken off here.
FIGURES: tuple[Figure, ...] = (
    Figure("survey", 300, (1628, 64), (947, 83), (745, 92), (1021, 76), (48, 18), 0.0, 0.0, SURVEY),
    Figure("larger", 150, (1630, 64), (1180, 95), (1010, 110), (1230, 105), (65, 22), 0.2, 12.0,
           MADE_UP),
    Figure("older", 150, (1575, 60), (1010, 85), (890, 95), (1050, 85), (50, 18), 1.3, 22.0,
           MADE_UP),
    Figure("petite", 100, (1510, 30), (880, 70), (700, 72), (950, 68), (44, 16), 0.0, 0.0, MADE_UP),
    Figure("tall", 100, (1790, 35), (960, 80), (760, 88), (1050, 78), (46, 16), 0.2, 0.0, MADE_UP),
    Figure("in her teens", 100, (1600, 62), (820, 45), (650, 42), (880, 48), (30, 9), 0.3, -8.0,
           MADE_UP),
)  # fmt: skip

CHEST_WAIST, CHEST_HIP, WAIST_HIP = 0.844, 0.743, 0.802
"""Correlations that follow from the survey's deviations of chest 83, waist 100 and hip 76 mm and
of their differences: chest less waist 54, hip less waist 60, hip less chest 57."""
WITH_HEIGHT = 0.3
"""Of height with each of the three girths; from memory."""


@cache
def figures(name: str, seed: int = 7) -> tuple[NamedBody, ...]:
    """Return a group of bodies by its name."""
    one = next(f for f in FIGURES if f.name == name)
    dice = random.Random(f"{name} {seed}")
    return tuple(
        NamedBody(f"{name} {number}", _possible(lambda: _figure(one, dice)), one.source)
        for number in range(1, one.count + 1)
    )


@cache
def men(seed: int = 7) -> tuple[NamedBody, ...]:
    """The 247 men of bdims, what it does not give drawn as for the women.

    Necks and shoulders follow the survey's 4,082 men (ANSUR II): neck base 435 ± 26, shoulder
    length 150 ± 10, back length 478 ± 28 to the navel. Chest girth stands for bust and high bust.
    """
    dice = random.Random(f"men {seed}")
    with (HERE / "bdims_men.csv").open(encoding="utf-8") as lines:
        rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    return tuple(
        NamedBody(f"bdims man {number}", _possible(lambda row=row: _man(row, dice)), "bdims 2003")
        for number, row in enumerate(rows, start=1)
    )


def everyone() -> tuple[NamedBody, ...]:
    """All groups, one after the other."""
    return (*(b for f in FIGURES for b in figures(f.name)), *men())


def as_noted(body: Body, step_mm: float) -> Body:
    """The body as people note it: lengths to the nearest step (5 mm, 1/4 inch), slopes to 1°."""
    for value in body:
        step = 1.0 if value.key == "shoulder-slope" else step_mm
        body = body.with_value(
            value.key, round(value.value / step) * step, value.side, estimated=value.estimated
        )
    return body


SEWER_KNOWS: tuple[tuple[str, ...], ...] = (
    ("bust-girth", "waist-girth", "hip-girth"),
    ("bust-girth", "waist-girth", "hip-girth", "height"),
    ("high-bust-girth", "bust-girth", "waist-girth", "hip-girth", "back-neck-to-waist"),
    ("bust-girth", "waist-girth", "hip-girth", "back-neck-to-waist", "shoulder-length", "height"),
    ("bust-girth", "waist-girth", "hip-girth", "across-back", "neck-base-girth",
     "upper-arm-girth", "arm-length"),
    ("bust-girth", "waist-girth", "hip-girth", "centre-front-length", "back-neck-to-waist"),
    ("bust-girth", "waist-girth", "hip-girth", "neck-point-to-bust-point",
     "neck-point-over-bust-to-waist", "bust-point-to-bust-point"),
    ("bust-girth", "waist-girth", "hip-girth", "crotch-depth", "inside-leg", "thigh-girth"),
    ("bust-girth", "underbust-girth", "waist-girth", "hip-girth", "shoulder-slope", "side-length"),
)  # fmt: skip
"""What someone sewing for herself has measured; the rest is to be estimated."""


def partly(body: Body, keys: tuple[str, ...]) -> Body:
    """The body with only these measurements, where it has them."""
    return Body(tuple(value for value in body if value.key in keys))


def _possible(draw: Callable[[], Body]) -> Body:
    body = draw()
    while contradictions(body):
        body = draw()
    return Body(tuple(replace(value, estimated=False) for value in body))


def _figure(one: Figure, dice: random.Random) -> Body:
    tall, a, b, c = (_cast(dice) for _ in range(4))
    chest = WITH_HEIGHT * tall + math.sqrt(1 - WITH_HEIGHT**2) * a
    waist = CHEST_WAIST * chest + math.sqrt(1 - CHEST_WAIST**2) * b
    by_chest = (CHEST_HIP - CHEST_WAIST * WAIST_HIP) / (1 - CHEST_WAIST**2)
    by_waist = (WAIST_HIP - CHEST_WAIST * CHEST_HIP) / (1 - CHEST_WAIST**2)
    left = 1 - by_chest * CHEST_HIP - by_waist * WAIST_HIP
    hip = by_chest * chest + by_waist * waist + math.sqrt(left) * c
    bust = _at(one.chest, chest)
    body = Body.of(
        {
            "height": _at(one.height, tall),
            "bust-girth": bust,
            "high-bust-girth": bust - max(_at(one.prominence, _cast(dice)), 12.0),
            "waist-girth": _at(one.waist, waist),
            "hip-girth": _at(one.hip, hip),
        }
    )
    return _drawn(body, dice, one.stoop + 0.7 * _cast(dice), one.bust_low)


def _man(row: dict[str, str], dice: random.Random) -> Body:
    cm = {name: 10 * float(value) for name, value in row.items()}
    chest = cm["chest_girth"]
    body = Body.of(
        {
            "height": cm["height"],
            "bust-girth": chest + 12.0 + abs(_cast(dice)) * 0.5 * BUST_OVER_CHEST_SPREAD_MM,
            "high-bust-girth": chest,
            "shoulder-girth": cm["shoulder_girth"],
            "waist-girth": cm["waist_girth"],
            "hip-girth": cm["hip_girth"],
            "thigh-girth": cm["thigh_girth"],
            "knee-girth": cm["knee_girth"],
            "upper-arm-girth": cm["upper_arm_girth"],
            "wrist-girth": cm["wrist_girth"],
            "neck-base-girth": 435 + 0.18 * (chest - 1010) + 18 * _cast(dice),
            "shoulder-length": 150 + 0.04 * (chest - 1010) + 8 * _cast(dice),
            "back-neck-to-waist": 455 + 0.2 * (cm["height"] - 1777) + 16 * _cast(dice),
        }
    )
    return _drawn(body, dice, 0.3 + 0.7 * _cast(dice), 0.0)


STOOP_MM = {
    "back-neck-to-waist": 6.0,
    "across-back": 5.0,
    "across-front": -4.0,
    "armhole-depth": 3.0,
    "neck-point-over-bust-to-waist": -5.0,
}
"""How one deviation of a rounder back moves what is drawn; made up."""


def _drawn(body: Body, dice: random.Random, stoop: float, bust_low: float) -> Body:
    known = set(body.keys)
    for key in (*DRAWN, *BELOW):
        if key in known:
            continue
        middle = estimate(body, [key]).value(key) + stoop * STOOP_MM.get(key, 0.0)
        if key == "neck-point-to-bust-point":
            middle += bust_low
        give = spread(key)
        if key == "crotch-length-back":  # both parts are read off one tape
            middle, give = body.value("crotch-length") - body.value("crotch-length-front"), 6.0
        value = middle + _cast(dice) * give
        body = body.with_value(key, round(value, 1), estimated=True)
    return estimate(body, ("bust-arc-back", "waist-arc-back", "hip-arc-back"))


def _at(mean_and_deviation: tuple[float, float], cast: float) -> float:
    mean, deviation = mean_and_deviation
    return round(mean + cast * deviation, 1)


def _cast(dice: random.Random) -> float:
    while True:
        cast = dice.gauss(0.0, 1.0)
        if abs(cast) <= 2.4:
            return cast
