"""A version, a check and a comparison in figures."""

from typing import TYPE_CHECKING, Any

from tracker.cli import show

if TYPE_CHECKING:
    from tracker.history.compare import Comparison, SeamCompared
    from tracker.pattern.checks import Checked
    from tracker.tasks.bodies import GirthsMeasured
    from tracker.tasks.preferences import Manner
    from tracker.tasks.versions import SeamRow, Shown


#: Lines round an arm or a leg; a garment's figure is that of both together.
_OF_LIMBS = ("upper arm line", "elbow line", "wrist line", "crotch line", "knee line")


def both(line: str) -> str:
    """Name a line as its figure is counted: round one body, or round both arms or legs."""
    return f"{line}, both" if line in _OF_LIMBS else line


def write_version(shown: "Shown", how: "Manner") -> None:
    """Write a version with its figures as sewn."""
    row = shown.row
    show.tell(f"{row.address}, {row.made_on}, {row.standing}: {show.begun(row.sentence)}")
    if shown.estimated:
        show.tell(f"Estimated, not measured: {', '.join(shown.estimated)}.")
    number = row.address.partition("@")[2]
    for k, step in enumerate(shown.steps, start=1):
        show.points([show.begun(step)], f"step {number}.{k}: ")
    if shown.notes:
        show.tell(f"Asked for by note {', '.join(shown.notes)}.")
    girths = [(both(n), how.length(mm), _ease(ease, how)) for n, mm, ease in shown.girths]
    girths += [(n if n != "armhole" else "armholes, both", how.length(mm), "")
               for n, mm in shown.rounds]  # fmt: skip
    show.say()
    show.say(show.table(("all round", "finished", "ease"), girths, "lrr"))
    if shown.measured_on:
        show.tell(f"Ease over the body as measured on {shown.measured_on}.")
    show.say()
    show.say(show.table(("seam", "sides"), [(_seam_name(s), _sides(s, how)) for s in shown.seams]))
    show.say()
    cells = [(p.label, p.cut, _lengths(p.edges, how), _lengths(p.darts, how)) for p in shown.pieces]
    show.say(show.table(("piece", "cut", "edges", "darts"), cells))


def _ease(mm: float | None, how: "Manner") -> str:
    return "" if mm is None else how.length(mm)


def _seam_name(seam: Any) -> str:
    return f"{seam.side} {seam.name}" if seam.side in ("right", "left") else seam.name


def _sides(seam: "SeamRow", how: "Manner") -> str:
    """Say a seam as it is read at the table: ``front 412, back 410: ease 2``."""
    ease = seam.second_mm - seam.first_mm
    told = f"{seam.first_piece} {how.length(seam.first_mm)}"
    if seam.first_piece == seam.second_piece and abs(ease) < 0.05:
        return told
    told += f", {seam.second_piece} {how.length(seam.second_mm)}"
    return f"{told}: ease {how.length(ease)}" if abs(ease) >= 0.05 else told


def _lengths(some: tuple[tuple[str, float], ...], how: "Manner") -> str:
    return "; ".join(f"{name} {how.length(mm)}" for name, mm in some)


def write_check(address: str, checked: "Checked", body: "GirthsMeasured | None") -> None:
    """Write what a check found, what passed with its figure, and what was not checked."""
    if checked.findings:
        cells = [
            (f"{f.code}: {f.place}", f"{f.figure:.1f} {f.unit}".strip(),
             f"{f.tolerance:g} {f.unit}".strip())
            for f in checked.findings
        ]  # fmt: skip
        show.say(show.table((f"{address}: LOOK", "figure", "within"), cells, "lrr"))
        show.say()
    show.say(show.table((f"{address}: passes", "figures"), _passed(checked)))
    for finding in checked.findings:
        show.points([f"{finding.sentence}. Usual remedy: {finding.remedy}."], "LOOK: ")
    show.points(checked.not_checked, "not checked: ")
    if body:
        show.tell(f"Ease is held against the body as measured on {body.on}.")
        show.warn(body.minded)


def _passed(checked: "Checked") -> list[tuple[str, str]]:
    """What passed, check by check: each place with its figure."""
    by_check: dict[str, list[str]] = {}
    for what, figure in checked.figures:
        code, _, place = what.partition(": ")
        by_check.setdefault(code, []).append(f"{place.removeprefix('the ')} {figure}")
    return [(code, "; ".join(places)) for code, places in by_check.items()]


def write_comparison(before: str, after: str, found: "Comparison", how: "Manner") -> None:
    """Write what differs between two versions."""
    if found.same:
        show.tell(f"{before} and {after} are the same.")
        return
    rows = [_changed(c, how) for c in (*found.girths, *found.rounds)]
    rows += [_seam(s, how) for s in found.seams]
    rows += [_changed(c, how, "dart: ") for c in found.darts]
    rows += [_changed(c, how, "notch: ") for c in found.notches]
    show.say(show.table(("", before, after, "change"), [r for r in rows if r], "lrrr"))
    show.say()
    pieces = [(p.label, how.length(p.furthest_mm), p.furthest_at, p.laid_at) for p in found.pieces]
    show.say(show.table(("piece", "furthest apart", "at the", "laid on the"), pieces, "lrll"))


def _changed(change: Any, how: "Manner", kind: str = "") -> tuple[str, ...]:
    before, after = ("–" if mm is None else how.length(mm) for mm in (change.before, change.after))
    by = "" if abs(change.by) < 0.05 else how.change(change.before, change.after, change.by)
    return f"{kind}{both(change.what)}", before, after, by


def _seam(seam: "SeamCompared", how: "Manner") -> tuple[str, ...]:
    before, after = (_pair(sides, how) for sides in (seam.before, seam.after))
    return f"{_seam_name(seam)} seam", before, after, "" if before == after else "moved"


def _pair(sides: tuple[float, float] | None, how: "Manner") -> str:
    if sides is None:
        return "–"
    one, two = (how.length(mm) for mm in sides)
    return one if one == two else f"{one} / {two}"
