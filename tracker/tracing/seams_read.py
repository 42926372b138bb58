"""The tables of seams, matches and ease, read."""

from typing import TYPE_CHECKING

from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.tracing.rows import Row
from tracker.tracing.tracing import TracedRun, TracedSeam

if TYPE_CHECKING:
    from tracker.tracing.reading import Reader

_SEWN = {"first": "first", "1": "first", "second": "second", "2": "second"}
Key = tuple[str, BodySide | None]


def seams_of(reader: "Reader") -> tuple[TracedSeam, ...]:
    """Read every seam with its matches and its ease."""
    runs: dict[Key, tuple[Row, list[TracedRun], list[TracedRun]]] = {}
    for row in reader.rows.of("seams"):
        key = reader.name(row, "seam"), reader.side(row, "seam side")
        sewn = _SEWN[reader.word(row, "sewn", tuple(_SEWN), "first")]
        run = TracedRun(
            reader.name(row, "piece"),
            reader.name(row, "edge"),
            reader.side(row, "body side"),
            reader.name(row, "starts at"),
            row.line,
        )
        _, first, second = runs.setdefault(key, (row, [], []))
        (first if sewn == "first" else second).append(run)
    matches: dict[Key, list[tuple[str, str, str, str, int]]] = {}
    for row in reader.rows.of("matches"):
        names = [reader.name(row, c) for c in ("first piece", "first", "second piece", "second")]
        found = _seam(reader, row, runs)
        if found is not None:
            a, b, c, d = names
            matches.setdefault(found, []).append((a, b, c, d, row.line))
    eases: dict[Key, list[tuple[float, str, str, int]]] = {}
    for row in reader.rows.of("ease"):
        amount = reader.rows.length(row, "amount", reader.faults)
        found = _seam(reader, row, runs)
        if amount is not None and found is not None:
            ends = reader.name(row, "from"), reader.name(row, "to")
            eases.setdefault(found, []).append((amount, *ends, row.line))
    out = []
    for key, (row, first, second) in runs.items():
        if not first:
            reader.faults.tell(row.line, f"the {key[0]} seam has no first side")
        out.append(
            TracedSeam(
                *key,
                row.line,
                tuple(first),
                tuple(second),
                tuple(matches.get(key, ())),
                tuple(eases.get(key, ())),
            )
        )
    return tuple(out)


def _seam(
    reader: "Reader", row: Row, known: dict[Key, tuple[Row, list[TracedRun], list[TracedRun]]]
) -> Key | None:
    key = reader.name(row, "seam"), reader.side(row, "seam side")
    if key in known:
        return key
    named = [k for k in known if k[0] == key[0]]
    if key[1] is None and len(named) == 1:
        return named[0]
    names = sorted({k[0] for k in known})
    told = f"there are {', '.join(names)}" if names else "there are none"
    reader.faults.tell(
        row.line,
        f"there is no seam called {key[0]} in the table of seams; {told}."
        f"{nearest_names(key[0], names, 1)}",
    )
    return None
