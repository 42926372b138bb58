"""A measuring session: who measured whom when, in what, how often, and whether it will pass."""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any, Literal

from tracker.body.body import Body, BodyValue, NotABodyValue, NotMeasured, reading_record
from tracker.body.measurement import BodySide
from tracker.body.plausible import question
from tracker.body.vocabulary import checked_side, measurement, name_with_side
from tracker.errors import TrackerError
from tracker.pattern.finding import Finding
from tracker.units import write_angle, write_both

SessionKind = Literal["usual", "passing"]

HIGHEST_HEEL_MM = 200.0


class NotASession(TrackerError):
    """A measuring session that cannot be as it was given; the sentence says why."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What the tape said of one measurement, once or several times in a row.

    Args:
        key: the measurement.
        side: the wearer's right or left, or both.
        values: each repeat, mm (degrees for a slope).
        confirmed: an unusual value that was looked at again and kept.
        estimated: worked out, not measured.
    """

    key: str
    side: BodySide = "both"
    values: tuple[float, ...]
    confirmed: bool = False
    estimated: bool = False

    def __post_init__(self) -> None:
        entry = measurement(self.key)
        checked_side(entry, self.side)
        object.__setattr__(self, "key", entry.key)
        if not self.values:
            raise NotABodyValue(f"{self.name} has no reading; give at least one")
        for value in self.values:
            if not math.isfinite(value) or (value <= 0 and entry.unit == "mm"):
                raise NotABodyValue(
                    f"{self.name} cannot be {value:g}; give a length greater than nothing"
                )

    @property
    def name(self) -> str:
        """The trade name with its side."""
        return name_with_side(measurement(self.key), self.side)

    @property
    def value(self) -> float:
        """The mean of the repeats, mm (degrees for a slope)."""
        return math.fsum(self.values) / len(self.values)

    @property
    def repeats(self) -> int:
        """How often it was measured."""
        return len(self.values)

    @property
    def apart(self) -> float:
        """Largest less smallest repeat."""
        return max(self.values) - min(self.values)


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuringSession:
    """Measurements of one client on one day.

    Args:
        on: the day.
        by: who measured.
        wearing: what was worn: underwear, shoes.
        heel_mm: heel height of the shoes worn, 0 without.
        kind: "usual", or "passing" for a body that will change back.
        reason: of a passing session: pregnancy, brace, after surgery …
        reason_on: a date that goes with the reason (when the child is due).
        readings: one for each measurement and side.
        note: anything else.
    """

    on: date
    by: str
    wearing: str = ""
    heel_mm: float = 0.0
    kind: SessionKind = "usual"
    reason: str = ""
    reason_on: date | None = None
    readings: tuple[Reading, ...] = ()
    note: str = ""

    def __post_init__(self) -> None:
        if self.kind not in ("usual", "passing"):
            raise NotASession(f"a session is usual or passing, not “{self.kind}”")
        if self.kind == "passing" and not self.reason.strip():
            raise NotASession("a passing session needs its reason: pregnancy, brace, after surgery")
        if self.kind == "usual" and (self.reason or self.reason_on):
            raise NotASession(
                f"a usual session has no reason “{self.reason}”; call the session passing"
            )
        if not 0 <= self.heel_mm <= HIGHEST_HEEL_MM:
            raise NotASession(
                f"a heel of {self.heel_mm:g} mm is none; give 0 to {HIGHEST_HEEL_MM:g} mm"
            )
        seen: set[tuple[str, str]] = set()
        for one in self.readings:
            if (one.key, one.side) in seen:
                raise NotASession(f"{one.name} is given twice; give its repeats together")
            seen.add((one.key, one.side))

    @property
    def is_passing(self) -> bool:
        """Whether the body will change back, so that no block is drawn from it unasked."""
        return self.kind == "passing"

    def reading(self, key: str, side: BodySide = "both") -> Reading | None:
        """Return the reading of exactly this measurement and side, if any."""
        wanted = measurement(key).key
        for one in self.readings:
            if (one.key, one.side) == (wanted, side):
                return one
        return None

    def value(self, key: str, side: BodySide = "both") -> float:
        """Return the mean of the repeats, falling back between sides as a body does.

        Raises:
            NotMeasured: there is no reading of it.
        """
        return self.body().value(key, side)

    def body(self) -> Body:
        """Return the means of all readings as a body."""
        return Body(
            tuple(BodyValue(one.key, one.side, one.value, one.estimated) for one in self.readings)
        )

    def with_reading(self, reading: Reading) -> "MeasuringSession":
        """Return this session with a reading put in; one of the same place is replaced."""
        kept = tuple(
            one for one in self.readings if (one.key, one.side) != (reading.key, reading.side)
        )
        return replace(self, readings=(*kept, reading))

    def repeated(self, key: str, *values: float, side: BodySide = "both") -> "MeasuringSession":
        """Return this session with more repeats of a measurement."""
        before = self.reading(key, side)
        if before is None:
            return self.with_reading(Reading(key=key, side=side, values=values))
        return self.with_reading(replace(before, values=(*before.values, *values)))

    def confirm(self, key: str, side: BodySide = "both") -> "MeasuringSession":
        """Return this session with an unusual value confirmed.

        Raises:
            NotMeasured: there is no reading of it.
        """
        before = self.reading(key, side)
        if before is None:
            name = name_with_side(measurement(key), side)
            raise NotMeasured(f"{name} was not measured in this session, so it cannot be confirmed")
        return self.with_reading(replace(before, confirmed=True))

    def questions(self) -> tuple[Finding, ...]:
        """Return what to look at again: unusual repeats not confirmed, repeats far apart."""
        found: list[Finding] = []
        ordered = sorted(self.readings, key=lambda one: (measurement(one.key).order, one.side))
        for one in ordered:
            if not one.confirmed:
                found += _unusual(one)
            if one.apart > measurement(one.key).allowed:
                found.append(_far_apart(one))
        return tuple(found)

    def to_record(self) -> dict[str, Any]:
        """Return plain values for storing."""
        return {
            "format": 1,
            "on": self.on.isoformat(),
            "by": self.by,
            "wearing": self.wearing,
            "heel_mm": self.heel_mm,
            "kind": self.kind,
            "reason": self.reason,
            "reason_on": self.reason_on.isoformat() if self.reason_on else None,
            "note": self.note,
            "readings": [
                {
                    "key": one.key,
                    "side": str(one.side),
                    "values": list(one.values),
                    "confirmed": one.confirmed,
                    "estimated": one.estimated,
                }
                for one in self.readings
            ],
        }

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> "MeasuringSession":
        """Read what ``to_record`` wrote."""
        with reading_record(record, "measuring session"):
            reason_on = record["reason_on"]
            return cls(
                on=date.fromisoformat(record["on"]),
                by=record["by"],
                wearing=record["wearing"],
                heel_mm=float(record["heel_mm"]),
                kind=record["kind"],
                reason=record["reason"],
                reason_on=date.fromisoformat(reason_on) if reason_on else None,
                note=record["note"],
                readings=tuple(
                    Reading(
                        key=one["key"],
                        side=one["side"],
                        values=tuple(float(value) for value in one["values"]),
                        confirmed=bool(one["confirmed"]),
                        estimated=bool(one["estimated"]),
                    )
                    for one in record["readings"]
                ),
            )


def newest_body(sessions: Iterable[MeasuringSession], *, with_passing: bool = False) -> Body:
    """Return the newest value of each measurement and side over several sessions.

    A newer value for both sides replaces older ones of either side; an estimate never replaces
    what was measured. Passing sessions are left out unless asked for.
    """
    body = Body(())
    wanted = [one for one in sessions if with_passing or not one.is_passing]
    for session in sorted(wanted, key=lambda one: one.on):
        for value in session.body():
            measured = body.has(value.key, value.side) and not body.is_estimated(
                value.key, value.side
            )
            if not (value.estimated and measured):
                body = body.with_value(
                    value.key, value.value, value.side, estimated=value.estimated
                )
    return body


def _unusual(one: Reading) -> list[Finding]:
    """Question each repeat by itself: with one mistyped, their mean says little."""
    values = dict.fromkeys(one.values)
    asked = (question(BodyValue(one.key, one.side, value, one.estimated)) for value in values)
    return [finding for finding in asked if finding is not None]


def _far_apart(one: Reading) -> Finding:
    entry = measurement(one.key)
    is_angle = entry.unit == "deg"
    apart = write_angle(one.apart) if is_angle else write_both(one.apart)
    allowed = write_angle(entry.allowed) if is_angle else write_both(entry.allowed)
    return Finding(
        code="repeats far apart",
        place=one.name,
        sentence=(
            f"the readings of {one.name} lie {apart} apart, and careful ones at most {allowed}"
        ),
        figure=one.apart,
        tolerance=entry.allowed,
        unit="°" if is_angle else "mm",
        remedy="measure once more, lifting the tape off in between, and strike out the odd one",
    )
