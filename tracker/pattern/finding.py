"""A finding: what every check hands back, of a pattern or of a body."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Finding:
    """Something a maker would want to know before cutting.

    Attributes:
        code: which check, in short.
        place: where.
        sentence: what is wrong, for people.
        figure: the measured value.
        tolerance: what would pass, in the same unit.
        unit: "mm" or "°".
        remedy: what is usually done.
    """

    code: str
    place: str
    sentence: str
    figure: float
    tolerance: float
    unit: str
    remedy: str
