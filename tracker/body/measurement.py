"""What a body measurement is: its name, its path over the body, its plausible range."""

from dataclasses import dataclass
from typing import Literal

BodySide = Literal["both", "right", "left"]
"""The wearer's side. "both" stands for a measurement that is one, or the same on both sides."""

Purpose = Literal["bodice", "sleeve", "skirt", "trousers"]

MeasureUnit = Literal["mm", "deg"]

TWO_SESSIONS = 2.77
"""√2 × 1.96: how many technical errors two single readings may differ by, 19 times in 20."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """One entry of the vocabulary.

    Args:
        key: short name without spaces, used in records and on the command line.
        name: the trade's name.
        path: from where, over what, to where the tape runs.
        low: least that is plausible on an adult, in the entry's unit.
        high: most that is plausible on an adult, in the entry's unit.
        allowed: largest difference between two careful readings of the same body, in the
            entry's unit.
        allowed_source: the published source of ``allowed``, or "common practice, no source".
        purposes: the blocks it is for.
        sided: whether left and right may differ.
        unit: "mm" everywhere but for slopes, which are in degrees.
        order: place in the order in which the tape goes round, from 1.
        iso_name: its name in ISO 8559-1:2017, where it has one.
        iso_from_memory: the ISO name was written down from memory and not checked.
        words: other names in the trade, for finding it.
    """

    key: str
    name: str
    path: str
    low: float
    high: float
    allowed: float
    allowed_source: str
    purposes: tuple[Purpose, ...]
    sided: bool = False
    unit: MeasureUnit = "mm"
    order: int = 0
    iso_name: str | None = None
    iso_from_memory: bool = False
    words: tuple[str, ...] = ()

    @property
    def technical_error(self) -> float:
        """Technical error of measurement, in the entry's unit: ``allowed`` / 2.77."""
        return self.allowed / TWO_SESSIONS


OBSERVER = "ANSUR II measurer's handbook (Natick/TR-11/017), allowable observer error"
PRACTICE = "common practice, no source"
