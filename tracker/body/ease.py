"""Ease: by how much a finished garment is larger than the body, line by line, as a plan.

Wearing ease is what a body needs to breathe, sit and reach. It is never used up in place of
an alteration.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from tracker.body.body import reading_record
from tracker.errors import TrackerError, nearest_names

OWN_CHOICE = "the maker's own choice"


class UnknownEaseLine(TrackerError):
    """An ease plan has no line of the name that was typed."""

    exit_code = 2


class NotAnEase(TrackerError):
    """An amount that is no ease: not a number, or more than any garment has."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class EaseLine:
    """The ease planned at one line.

    Args:
        name: the line ("bust", "armhole-depth").
        mm: finished garment less body, in mm: of the whole girth or the whole width. May be
            negative in stretch cloth.
        low: least that is usual, in mm.
        high: most that is usual on a close garment, in mm.
        source: where the figure comes from.
    """

    name: str
    mm: float
    low: float
    high: float
    source: str

    @property
    def is_usual(self) -> bool:
        """Whether the planned amount lies in the usual range."""
        return self.low <= self.mm <= self.high


@dataclass(frozen=True, slots=True)
class EasePlan:
    """Planned ease, line by line. Immutable."""

    lines: tuple[EaseLine, ...]

    @property
    def names(self) -> tuple[str, ...]:
        """The lines this plan has."""
        return tuple(line.name for line in self.lines)

    def line(self, name: str) -> EaseLine:
        """Return the line.

        Raises:
            UnknownEaseLine: the plan has none of that name.
        """
        for line in self.lines:
            if line.name == name:
                return line
        hint = nearest_names(name, list(self.names)) or f" It has {', '.join(self.names)}."
        raise UnknownEaseLine(f"this ease plan has no line called “{name}”.{hint}")

    def mm(self, name: str) -> float:
        """Return the planned ease at a line, in mm of the whole girth, width or length."""
        return self.line(name).mm

    def with_line(self, name: str, mm: float, source: str = OWN_CHOICE) -> "EasePlan":
        """Return this plan with another amount at one line.

        Raises:
            UnknownEaseLine: the plan has none of that name.
            NotAnEase: the amount is no number, or beyond 1 m either way.
        """
        if not math.isfinite(mm) or abs(mm) > 1000:
            raise NotAnEase(f"{mm:g} mm is no ease for {name}; give an amount below 1000 mm")
        changed = replace(self.line(name), mm=float(mm), source=source)
        return EasePlan(tuple(changed if line.name == name else line for line in self.lines))

    def to_record(self) -> dict[str, Any]:
        """Return plain values for storing."""
        return {
            "format": 1,
            "lines": [
                {"name": n.name, "mm": n.mm, "low": n.low, "high": n.high, "source": n.source}
                for n in self.lines
            ],
        }

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> "EasePlan":
        """Read what ``to_record`` wrote."""
        with reading_record(record, "ease plan"):
            return cls(tuple(EaseLine(**line) for line in record["lines"]))


_COLLEGE = "Central Washington University costume text, ch. 16"
_SHARE = "common practice, no source: bust ease shared 20 % back, 80 % armhole, 0 % front"

DEFAULT_BODICE_EASE = EasePlan(
    (
        EaseLine(
            name="bust",
            mm=50,
            low=38,
            high=102,
            source=f"{_COLLEGE}: 1 1/2 to 2 in; New Mexico State University Guide C-228: 3 to 4 in",
        ),
        EaseLine(name="waist", mm=25, low=19, high=26, source=f"{_COLLEGE}: 3/4 to 1 in"),
        EaseLine(name="hip", mm=51, low=50, high=70, source=f"{_COLLEGE}: 2 to 2 3/4 in"),
        EaseLine(
            name="neck-base",
            mm=6,
            low=5,
            high=10,
            source="common practice, no source: 5 to 10 mm round the whole neckline",
        ),
        EaseLine(
            name="armhole-depth",
            mm=20,
            low=15,
            high=25,
            source="common practice, no source: 15 to 25 mm below the underarm",
        ),
        EaseLine(name="across-back", mm=10, low=0, high=21, source=_SHARE),
        EaseLine(name="across-front", mm=4, low=0, high=12, source=_SHARE),
        EaseLine(
            name="back-length",
            mm=7,
            low=5,
            high=10,
            source="common practice, no source: 5 to 10 mm",
        ),
        EaseLine(
            name="front-length",
            mm=7,
            low=5,
            high=10,
            source="common practice, no source: as the back length",
        ),
        EaseLine(
            name="shoulder",
            mm=6,
            low=0,
            high=6.5,
            source=(
                "Woman's Encyclopaedia, about 1912: back shoulder 1/4 in longer than the front, "
                "eased in"
            ),
        ),
        EaseLine(
            name="upper-arm",
            mm=50,
            low=38,
            high=102,
            source=(
                "Santa Rosa Junior College, sleeve lesson: 1 1/2 to 2 in; common practice: 4 in "
                "is ample"
            ),
        ),
    )
)
"""Minimum ease of a close-fitting bodice block in woven cloth, each figure with its source."""

_SLEEVE = "Santa Rosa Junior College, sleeve lesson"

DEFAULT_SLEEVE_EASE = EasePlan(
    (
        DEFAULT_BODICE_EASE.line("upper-arm"),
        EaseLine(name="elbow", mm=40, low=38, high=80, source=f"{_SLEEVE}: 1 1/2 to 2 in or more"),
        EaseLine(name="wrist", mm=40, low=38, high=120, source=f"{_SLEEVE}: 1 1/2 to 2 in or more"),
        EaseLine(
            name="sleeve-cap",
            mm=30,
            low=13,
            high=48,
            source=f"{_SLEEVE}: 1 to 1 7/8 in; common practice, no source: from 1/2 in",
        ),
        EaseLine(
            name="arm-length",
            mm=0,
            low=0,
            high=15,
            source="common practice, no source: none, or enough for a bent arm",
        ),
    )
)
"""Ease of a close set-in sleeve in woven cloth, of one arm; of the cap, over its armhole."""
