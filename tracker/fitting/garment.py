"""What was sewn and tried on."""

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum

from tracker.errors import TrackerError


class GarmentKind(StrEnum):
    """What sort of garment a fitting is of."""

    TEST_GARMENT = "test garment"
    BASTED = "basted in the cloth"
    FINISHED = "finished"
    BOUGHT = "bought"


@dataclass(frozen=True, kw_only=True)
class Garment:
    """A garment cut from a version, or bought.

    Attributes:
        garment_id: opaque.
        kind: test garment, basted, finished or bought.
        cut_from: the version's address; none for a bought garment without a pattern.
        cloth: what it is made of.
        made_on: when it was cut.
        outlet_mm: the seam allowance left to let out of.
        note: anything else.
    """

    garment_id: str
    kind: GarmentKind
    cut_from: str | None
    cloth: str
    made_on: dt.date
    outlet_mm: float = 15.0
    note: str = ""


@dataclass(frozen=True, kw_only=True)
class Fitting:
    """One trying-on of a garment.

    Attributes:
        fitting_id: opaque.
        garment_id: which garment.
        on: the date.
        fitter: by whom.
        worn_beneath: what is worn underneath.
        heel_mm: heel height.
        inside_out: worn inside out, for pinning.
        note: anything else.
    """

    fitting_id: str
    garment_id: str
    on: dt.date
    fitter: str
    worn_beneath: str = ""
    heel_mm: float = 0.0
    inside_out: bool = False
    note: str = ""


class FittingError(TrackerError):
    """A fitting that cannot have been as it was told."""


def dressed_otherwise(
    beneath: str, heel_mm: float, measured_in: str, measured_heel_mm: float
) -> tuple[str, ...]:
    """Return warnings where a client was dressed otherwise for fitting than for measuring."""
    told = []
    if beneath.strip() and measured_in.strip() and _plain(beneath) != _plain(measured_in):
        told.append(
            f"she was measured in {measured_in} and is fitted over {beneath}: bust and waist may "
            "differ for that reason alone"
        )
    if abs(heel_mm - measured_heel_mm) >= 20:
        told.append(
            f"she was measured on a heel of {measured_heel_mm:.0f} mm and stands on "
            f"{heel_mm:.0f} mm now: hem and back length may differ for that reason alone"
        )
    return tuple(told)


def _plain(text: str) -> str:
    return " ".join(text.lower().split())
