"""Named ease tables: what is usual for a garment in woven or in stretch cloth.

A table is where a plan starts; every line can be changed for a client or a pattern. Figures of
woven cloth are published minimum ease where there is any. Stretch cloth is common practice, no
source: a firm knit that gives a quarter of its width; the cloth's own stretch decides.
"""

from __future__ import annotations

from typing import Literal, get_args

from tracker.body.ease import DEFAULT_BODICE_EASE, DEFAULT_SLEEVE_EASE, EaseLine, EasePlan
from tracker.errors import TrackerError, nearest_names

Garment = Literal["bodice", "torso", "sleeve", "skirt", "trousers"]
Cloth = Literal["woven", "stretch"]


class UnknownEaseTable(TrackerError):
    """There is no table for this garment or this cloth."""

    exit_code = 2


_COLLEGE = "Central Washington University costume text, ch. 16"
_EXTENSION = "New Mexico State University Guide C-209"
_STRETCH = "common practice, no source: a firm knit"
_KNIT_CAP = "common practice, no source: a cap in knit has 0 to 1/2 in"
#: What no cloth stretches to: an armhole or a crotch higher than the body's, a cap that is short.
_NEVER_LESS = ("armhole-depth", "crotch-depth", "sleeve-cap")

_WAIST = EaseLine(name="waist", mm=16, low=13, high=19, source=f"{_COLLEGE}: 1/2 to 3/4 in")
_HIP = EaseLine(name="hip", mm=51, low=50, high=70, source=f"{_COLLEGE}: 2 to 2 3/4 in")

SKIRT_EASE = EasePlan((_WAIST, _HIP))
"""Minimum ease of a straight skirt in woven cloth."""

TROUSER_EASE = EasePlan(
    (
        _WAIST,
        _HIP,
        EaseLine(
            name="crotch-depth",
            mm=19,
            low=0,
            high=26,
            source=f"{_EXTENSION}: 1/2 in up to a hip of 36 in, 1 in over 38 in",
        ),
        EaseLine(
            name="crotch-length",
            mm=20,
            low=0,
            high=40,
            source="common practice, no source: 1 cm in front and 1 cm behind",
        ),
        EaseLine(
            name="thigh",
            mm=90,
            low=25,
            high=140,
            source=f"{_EXTENSION}: 1 to 2 in or more; what a classic block's crotch extensions "
            "leave: common practice, no source",
        ),
        EaseLine(
            name="knee",
            mm=100,
            low=25,
            high=160,
            source=f"{_EXTENSION}: at least 1 in; a straight leg: common practice, no source",
        ),
    )
)
"""Minimum ease of trousers in woven cloth."""


def _stretched(plan: EasePlan, amounts: dict[str, float]) -> EasePlan:
    """Return the plan in stretch cloth; what is not named keeps its amount."""
    return EasePlan(
        tuple(
            EaseLine(
                name=n.name,
                mm=amounts[n.name],
                low=0.0 if n.name in _NEVER_LESS else amounts[n.name] - 30.0,
                high=13.0 if n.name == "sleeve-cap" else n.high,
                source=_KNIT_CAP if n.name == "sleeve-cap" else _STRETCH,
            )
            if n.name in amounts
            else n
            for n in plan.lines
        )
    )


_STRETCH_TRUNK = {"bust": 0.0, "waist": 0.0, "hip": 0.0, "armhole-depth": 10.0, "across-back": 0.0,
                  "across-front": 0.0, "upper-arm": 10.0}  # fmt: skip

EASE_TABLES: dict[tuple[str, str], EasePlan] = {
    ("bodice", "woven"): DEFAULT_BODICE_EASE,
    ("bodice", "stretch"): _stretched(DEFAULT_BODICE_EASE, _STRETCH_TRUNK),
    ("torso", "woven"): DEFAULT_BODICE_EASE,
    ("torso", "stretch"): _stretched(DEFAULT_BODICE_EASE, _STRETCH_TRUNK),
    ("sleeve", "woven"): DEFAULT_SLEEVE_EASE,
    ("sleeve", "stretch"): _stretched(
        DEFAULT_SLEEVE_EASE, {"upper-arm": 10.0, "elbow": 10.0, "wrist": 10.0, "sleeve-cap": 6.0}
    ),
    ("skirt", "woven"): SKIRT_EASE,
    ("skirt", "stretch"): _stretched(SKIRT_EASE, {"waist": 0.0, "hip": 0.0}),
    ("trousers", "woven"): TROUSER_EASE,
    ("trousers", "stretch"): _stretched(
        TROUSER_EASE, {"waist": 0.0, "hip": 0.0, "thigh": 50.0, "knee": 20.0, "crotch-depth": 6.0}
    ),
}
"""The plan a garment starts from, by garment and cloth."""


def ease_table(garment: str, cloth: str = "woven") -> EasePlan:
    """Return the usual ease plan of a garment in woven or stretch cloth.

    Raises:
        UnknownEaseTable: there is none; the sentence says which there are.
    """
    for said, known, what in (
        (garment, get_args(Garment), "garment"),
        (cloth, get_args(Cloth), "cloth"),
    ):
        if said not in known:
            hint = nearest_names(said, list(known))
            raise UnknownEaseTable(
                f"there is no ease table for the {what} “{said}”; there are tables for "
                f"{', '.join(known)}.{hint}"
            )
    return EASE_TABLES[garment, cloth]
