"""What was traced in, told: lengths and how near the lines came, seams, what to look at again."""

from typing import TYPE_CHECKING

from tracker.cli import show

if TYPE_CHECKING:
    from tracker.tasks.preferences import Manner
    from tracker.tasks.tracing import TracedIn


def write_traced(made: "TracedIn", how: "Manner", *, as_json: bool) -> None:
    """Write what a tracing became, or would become."""
    if as_json:
        told = {k: getattr(made.traced, k) for k in ("furthest_mm", "edges", "seams", "notes")}
        about = {"address": made.address, "file": made.file, "sentence": made.sentence}
        show.as_json(about | told)
        return
    show.tell(f"{made.address or 'Not stored'}: {show.begun(made.sentence)}.")
    rows = [
        (
            e.piece,
            e.edge,
            e.points or "",
            "" if e.length_mm is None else how.length(e.length_mm),
            "" if e.tape_mm is None or not e.points else how.length(e.tape_mm),
            f"{e.furthest_mm:.2f} mm" if e.points else "",
        )
        for e in made.traced.edges
    ]
    heads = ("piece", "edge", "points", "length", "by the tape", "furthest point")
    show.say()
    show.say(show.table(heads, rows, "llrrrr"))
    seams = [
        (
            s.seam,
            f"{s.first} {how.length(s.first_mm)}",
            f"{s.second} {how.length(s.second_mm)}",
            how.length(s.second_mm - s.first_mm),
            how.length(s.ease_mm) if s.ease_mm else "",
            "" if s.agrees else "DIFFERS",
        )
        for s in made.traced.seams
    ]
    if seams:
        show.say()
        heads = ("seam", "one side", "other side", "longer by", "planned", "")
        show.say(show.table(heads, seams, "lllrrl"))
    show.warn(made.traced.notes)


def write_layout() -> None:
    """Write how a file to trace in is laid out."""
    from tracker.tracing.layout import ABOUT, described

    for paragraph in ABOUT:
        show.tell(paragraph)
        show.say()
    for title, columns in described():
        show.tell(show.begun(title))
        rows = [(name, f"{says}{' (needed)' if needed else ''}") for name, says, needed in columns]
        show.say(show.table(("", ""), [(f"  {name}", says) for name, says in rows]))
        show.say()
