"""Is a change of the body real, or no more than two readings of one body may differ by?

Two careful single readings of an unchanged body differ by less than 2.77 technical errors 19
times in 20 (2.77 = 1.96 × √2). The mean of n readings is steadier by √n.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from tracker.body.measurement import TWO_SESSIONS, BodySide
from tracker.body.session import MeasuringSession
from tracker.body.vocabulary import measurement, name_with_side
from tracker.units import write_angle, write_both

JUDGED_TOGETHER = ("bust-girth", "waist-girth", "hip-girth")

_ONE_READING = 1.96


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """How one measurement changed between two sessions.

    Args:
        key: the measurement.
        side: the wearer's side.
        before: the earlier mean, mm or degrees.
        after: the later mean.
        limit: the least difference that is a real change.
    """

    key: str
    side: BodySide
    before: float
    after: float
    limit: float

    @property
    def difference(self) -> float:
        """After less before."""
        return self.after - self.before

    @property
    def is_real(self) -> bool:
        """Whether it is more than measuring can explain."""
        return abs(self.difference) > self.limit

    @property
    def sentence(self) -> str:
        """What changed and whether it can be believed."""
        entry = measurement(self.key)
        write = write_angle if entry.unit == "deg" else write_both
        name = name_with_side(entry, self.side)
        if self.difference == 0:
            return f"{name} is as it was, {write(self.after)}"
        by = f"{name} is {write(abs(self.difference))} {self._way(entry.name)}"
        if self.is_real:
            return (
                f"{by}, {write(self.before)} before and {write(self.after)} now: a real change "
                f"(more than {write(self.limit)}, {self._why(write)})"
            )
        return (
            f"{by}: no more than measuring explains (up to {write(self.limit)}, "
            f"{self._why(write)}); measure twice more"
        )

    def _way(self, name: str) -> str:
        larger, smaller = ("longer", "shorter") if "girth" not in name else ("larger", "smaller")
        if measurement(self.key).unit == "deg":
            larger, smaller = "steeper", "flatter"
        return larger if self.difference > 0 else smaller

    def _why(self, write: object) -> str:
        error = measurement(self.key).technical_error
        times = self.limit / error
        unit = "°" if measurement(self.key).unit == "deg" else " mm"
        return f"{times:.2f} × the technical error of {error:.1f}{unit}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Comparison:
    """Two sessions of one client held against each other.

    Args:
        changes: each measurement both have, in tape order.
        together: bust, waist and hip changed the same way, each too little by itself, and
            together that is real.
        passing: the later session is a passing one.
        conditions: what differed in how it was measured, as sentences.
    """

    changes: tuple[Change, ...]
    together: bool
    passing: bool
    conditions: tuple[str, ...]

    @property
    def real(self) -> tuple[Change, ...]:
        """The changes that are real by themselves."""
        return tuple(change for change in self.changes if change.is_real)

    @property
    def is_real(self) -> bool:
        """Whether the body has changed, by one measurement or by several together."""
        return bool(self.real) or self.together

    def asks_for_redraft(self, *, told: bool = False) -> bool:
        """Whether the block should be drawn again; a passing session never does unless told."""
        return self.is_real and (told or not self.passing)

    @property
    def sentence(self) -> str:
        """The answer in one sentence."""
        if not self.changes:
            return "the two sessions have no measurement in common"
        if not self.is_real:
            return "nothing has changed by more than measuring explains"
        names = [name_with_side(measurement(c.key), c.side) for c in self.real]
        what = (
            f"real changes: {', '.join(names)}"
            if names
            else ("bust, waist and hip have changed the same way, each a little, together really")
        )
        if self.passing:
            return f"{what}; the session is a passing one, so the block stays unless you say so"
        return what


def least_real_change(key: str, repeats_before: int = 1, repeats_after: int = 1) -> float:
    """Return the least difference of two means that is a real change, mm (degrees for a slope).

    2.77 × technical error for single readings; with n readings in both sessions, that / √n.
    """
    share = (1 / max(repeats_before, 1) + 1 / max(repeats_after, 1)) / 2
    return TWO_SESSIONS * measurement(key).technical_error * math.sqrt(share)


def compare(before: MeasuringSession, after: MeasuringSession) -> Comparison:
    """Hold a later session against an earlier one, what both measured (not estimated)."""
    changes = []
    for entry, side in _shared(before, after):
        one, other = before.reading(entry, side), after.reading(entry, side)
        if one is None or other is None or one.estimated or other.estimated:
            continue
        limit = least_real_change(entry, one.repeats, other.repeats)
        changes.append(
            Change(key=entry, side=side, before=one.value, after=other.value, limit=limit)
        )
    return Comparison(
        changes=tuple(changes),
        together=_together(changes),
        passing=after.is_passing,
        conditions=_conditions(before, after),
    )


def _shared(before: MeasuringSession, after: MeasuringSession) -> list[tuple[str, BodySide]]:
    places = [(one.key, one.side) for one in after.readings if before.reading(one.key, one.side)]
    return sorted(places, key=lambda place: (measurement(place[0]).order, place[1]))


def _together(changes: Iterable[Change]) -> bool:
    """Judge bust, waist and hip as one: their differences in standard errors, added up."""
    girths = [change for change in changes if change.key in JUDGED_TOGETHER]
    if len(girths) < 2 or any(change.is_real for change in girths):
        return False
    same_way = all(c.difference > 0 for c in girths) or all(c.difference < 0 for c in girths)
    steps = sum(c.difference / (c.limit / _ONE_READING) for c in girths) / math.sqrt(len(girths))
    return same_way and abs(steps) > _ONE_READING


def _conditions(before: MeasuringSession, after: MeasuringSession) -> tuple[str, ...]:
    said = []
    if before.wearing.strip().lower() != after.wearing.strip().lower():
        said.append(
            f"worn before: {before.wearing or 'not noted'}; worn now: "
            f"{after.wearing or 'not noted'}"
        )
    if before.heel_mm != after.heel_mm:
        said.append(
            f"heels of {before.heel_mm:g} mm before and {after.heel_mm:g} mm now: lengths to the "
            f"floor do not compare"
        )
    if before.by.strip().lower() != after.by.strip().lower():
        said.append(
            f"measured by {before.by} before and {after.by} now: two hands differ by more than one"
        )
    if before.is_passing and not after.is_passing:
        said.append(f"the earlier session was a passing one ({before.reason})")
    return tuple(said)
