"""Papers to print from the terminal and write on: the measuring sheet."""

from typing import TYPE_CHECKING

from tracker.cli import show

if TYPE_CHECKING:
    from tracker.body.sheet import MeasuringSheet, SheetLine
    from tracker.tasks.preferences import Manner

_BLANK = "________"


def write_sheet(code: str, sheet: "MeasuringSheet", how: "Manner") -> None:
    """Write a measuring sheet: preparation, cautions, and a line to fill in for each side."""
    whose = f" for {code}" if code else ""
    show.say(f"MEASURING SHEET{whose} ({', '.join(sheet.purposes)}), in {how.unit}")
    show.say("Date ____________  By ____________________  Wearing ________________________")
    show.say()
    show.points(sheet.before_you_start)
    show.say()
    show.points(sheet.cautions, "! ")
    if sheet.posture:
        show.say()
        show.tell(f"Seen last time: {'; '.join(sheet.posture)}.")
    show.say()
    rows = [row for line in sheet.lines for row in _rows(line, how)]
    show.say(show.table(("", "measurement", "path of the tape", "last", "first", "again"), rows))


def _rows(line: "SheetLine", how: "Manner") -> list[tuple[str, ...]]:
    from tracker.tasks.values import write_value

    rows: list[tuple[str, ...]] = []
    for k, (side, last) in enumerate(zip(line.boxes, line.last, strict=True)):
        name = line.measurement.name if side == "both" else f"{line.measurement.name}, {side}"
        before = "" if last is None else write_value(last, line.measurement.unit, how.unit)
        number = f"{line.number}" if k == 0 else ""
        path = line.measurement.path if k == 0 else ""
        rows.append((number, name, path, before, _BLANK, _BLANK))
    return rows
