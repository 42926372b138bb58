"""Figures for people: rounded to 1 mm or 1/16 in, with a sign where it matters."""

from tracker.units import SIXTEENTHS, Unit, write_inches, write_mm

MINUS = "−"


def figure(mm: float, unit: Unit) -> str:
    """Write a length without its unit, for a table whose head says it: ``412``, ``16 1/4``."""
    written = write_mm(mm) if unit is Unit.CM else write_inches(mm)
    return written.rsplit(" ", 1)[0].replace("-", MINUS)


def change(old_mm: float, new_mm: float, unit: Unit) -> str:
    """Write by how much something changed: ``+20``, ``−5``, ``0``.

    Where the two read alike and the change does not, or the other way about: ``under 1/16``.
    """
    written = figure(new_mm - old_mm, unit)
    if (figure(old_mm, unit) == figure(new_mm, unit)) != (written == "0"):
        return "under 1" if unit is Unit.CM else f"under 1/{SIXTEENTHS}"
    if written.startswith(MINUS):
        return written
    return written if written == "0" else f"+{written}"


def unit_name(unit: Unit) -> str:
    """Return what figures are counted in, for the head of a table."""
    return "mm" if unit is Unit.CM else "inches"
