"""A body as drafting takes it: one value for each measurement and side, estimated or measured."""

import math
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from tracker.body.measurement import BodySide
from tracker.body.vocabulary import BY_KEY, checked_side, measurement, name_with_side
from tracker.errors import TrackerError


class NotMeasured(TrackerError):
    """A measurement is needed that this body does not have."""


class NotABodyValue(TrackerError):
    """A measurement that no body can have: nothing, less than nothing, not a number."""

    exit_code = 2


class BodyRecordUnreadable(TrackerError):
    """A stored body, session, card or ease plan cannot be read."""


@dataclass(frozen=True, slots=True)
class BodyValue:
    """One value of a body.

    Args:
        key: the measurement's key in the vocabulary.
        side: "right" or "left" of the wearer; "both" when it is one, or the same on both.
        value: millimetres, or degrees for a slope.
        estimated: worked out from other measurements, not taken with a tape.
    """

    key: str
    side: BodySide
    value: float
    estimated: bool = False

    @property
    def name(self) -> str:
        """The trade name with its side."""
        return name_with_side(measurement(self.key), self.side)


@dataclass(frozen=True, slots=True)
class Body:
    """Measurements of one body at one time. Immutable; every change returns a new one."""

    values: tuple[BodyValue, ...]
    _found: dict[tuple[str, str], BodyValue] = field(
        init=False, repr=False, compare=False, hash=False
    )

    def __post_init__(self) -> None:
        found: dict[tuple[str, str], BodyValue] = {}
        for one in self.values:
            entry = measurement(one.key)
            checked_side(entry, one.side)
            if not math.isfinite(one.value) or (one.value <= 0 and entry.unit == "mm"):
                raise NotABodyValue(
                    f"{one.name} cannot be {one.value:g}; give a length greater than nothing"
                )
            found[(entry.key, one.side)] = one
        ordered = sorted(
            found.values(), key=lambda one: (measurement(one.key).order, _SIDE_ORDER[one.side])
        )
        object.__setattr__(self, "values", tuple(ordered))
        object.__setattr__(self, "_found", found)

    @classmethod
    def of(
        cls,
        measured: Mapping[str, float] | Mapping[str | tuple[str, BodySide], float],
        *,
        estimated: Iterable[str] = (),
    ) -> "Body":
        """Make a body from ``{"bust-girth": 880, ("shoulder-length", "right"): 125}``.

        Args:
            measured: key, or key and side, to value (mm; degrees for a slope).
            estimated: keys among them that were estimated.
        """
        guessed = set(estimated)
        values = []
        for place, value in measured.items():
            name, side = (place, BOTH) if isinstance(place, str) else place
            key = measurement(name).key
            values.append(BodyValue(key, side, float(value), key in guessed))
        return cls(tuple(values))

    def __iter__(self) -> Iterator[BodyValue]:
        return iter(self.values)

    def __len__(self) -> int:
        return len(self.values)

    def has(self, key: str, side: BodySide = "both") -> bool:
        """Whether ``value(key, side)`` would find one."""
        return self._nearest(key, side) is not None

    def has_exactly(self, key: str, side: BodySide = "both") -> bool:
        """Whether this very side was given, without falling back on another."""
        return (key, side) in self._found

    def value(self, key: str, side: BodySide = "both") -> float:
        """Return a measurement in mm (degrees for a slope).

        A side that was not given by itself is taken from "both", else from the other side;
        "both" of a body given left and right is their mean.

        Raises:
            NotMeasured: the body has none; the sentence says what to measure.
            UnknownMeasurement: no measurement has this name.
        """
        found = self._nearest(key, side)
        if found is None:
            entry = measurement(key)
            raise NotMeasured(
                f"{name_with_side(entry, side if entry.sided else 'both')} was not measured; "
                f"measure it ({entry.path}) or ask for it to be estimated with --estimate"
            )
        return found.value

    def get(self, key: str, side: BodySide = "both") -> float | None:
        """Return the measurement as ``value`` does, or None."""
        found = self._nearest(key, side)
        return None if found is None else found.value

    def is_estimated(self, key: str, side: BodySide = "both") -> bool:
        """Whether what ``value(key, side)`` returns was estimated, in whole or in part."""
        found = self._nearest(key, side)
        return found is not None and found.estimated

    @property
    def keys(self) -> tuple[str, ...]:
        """The keys this body has, in tape order, each once."""
        return tuple(dict.fromkeys(one.key for one in self.values))

    @property
    def estimates(self) -> tuple[BodyValue, ...]:
        """The values that were estimated, in tape order."""
        return tuple(one for one in self.values if one.estimated)

    def is_uneven(self, key: str) -> bool:
        """Whether left and right differ."""
        right, left = self._nearest(key, "right"), self._nearest(key, "left")
        return right is not None and left is not None and right.value != left.value

    def with_value(
        self, key: str, value: float, side: BodySide = "both", *, estimated: bool = False
    ) -> "Body":
        """Return this body with one value put in or replaced.

        A value for "both" replaces left and right; a value for one side leaves the other.
        """
        replaced = {(key, side)} if side != "both" else {(key, s) for s in _SIDE_ORDER}
        kept = [one for one in self.values if (one.key, one.side) not in replaced]
        return Body((*kept, BodyValue(measurement(key).key, side, float(value), estimated)))

    def without(self, *keys: str) -> "Body":
        """Return this body without these measurements."""
        return Body(tuple(one for one in self.values if one.key not in keys))

    def to_record(self) -> dict[str, Any]:
        """Return plain values for storing."""
        return {
            "format": 1,
            "values": [
                {"key": o.key, "side": str(o.side), "value": o.value, "estimated": o.estimated}
                for o in self.values
            ],
        }

    @classmethod
    def from_record(cls, record: Mapping[str, Any]) -> "Body":
        """Read what ``to_record`` wrote."""
        with reading_record(record, "body"):
            return cls(
                tuple(
                    BodyValue(one["key"], one["side"], float(one["value"]), bool(one["estimated"]))
                    for one in record["values"]
                )
            )

    def _nearest(self, key: str, side: BodySide) -> BodyValue | None:
        found = self._found
        exact = found.get((key, side))
        if exact is not None:
            return exact
        if key not in BY_KEY:
            return self._nearest(measurement(key).key, side)
        right, left = found.get((key, "right")), found.get((key, "left"))
        if side != "both":
            return found.get((key, "both")) or (left if side == "right" else right)
        if right is not None and left is not None:
            mean = (right.value + left.value) / 2
            return BodyValue(key, "both", mean, right.estimated or left.estimated)
        return right or left


@contextmanager
def reading_record(record: Mapping[str, Any], what: str, known: int = 1) -> Iterator[None]:
    """Turn anything wrong with a stored record into one sentence.

    Raises:
        BodyRecordUnreadable: it is of a format this program does not know, or a part of it is
            missing or of the wrong kind.
    """
    written = record.get("format")
    if written != known:
        raise BodyRecordUnreadable(
            f"this {what} was stored in format {written!r}, and format {known} is the newest "
            f"known here; a newer version of the program can read it"
        )
    try:
        yield
    except KeyError as missing:
        raise BodyRecordUnreadable(
            f"this {what} cannot be read: {missing} is missing from it; take it from a backup"
        ) from missing
    except (TypeError, ValueError, AttributeError) as wrong:
        raise BodyRecordUnreadable(
            f"this {what} cannot be read: {wrong}; take it from a backup"
        ) from wrong


BOTH: BodySide = "both"
_SIDE_ORDER: dict[BodySide, int] = {"both": 0, "right": 1, "left": 2}
