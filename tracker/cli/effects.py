"""What an alteration did, or would do, in sentences and figures."""

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from tracker.cli import show
from tracker.cli.figures import both
from tracker.cli.options import PICTURE

if TYPE_CHECKING:
    from pathlib import Path

    from tracker.alterations.effect import Changed, Effect, SeamChanged
    from tracker.fitting.propose import Proposal
    from tracker.history.version import Address
    from tracker.tasks.altering import Altered
    from tracker.tasks.carrying import Carried
    from tracker.tasks.preferences import Manner

#: A change under this would be shown as none.
SHOWN_MM = 0.5


def write_altered(made: "Altered", how: "Manner", as_json: bool) -> None:
    """Write what was made, or would be; draw it where a picture was asked for."""
    picture = drawn(made)
    if as_json:
        show.as_json(_record(made) | ({"picture": str(picture)} if picture else {}))
        return
    for proposal in made.proposals:
        if proposal.echo:
            show.tell(f"Understood as {proposal.echo}.")
        show.tell(f"{show.begun(proposal.sentence)}.")
        write_effect(proposal.effect, how)
    show.warn(made.warnings)
    for finding in made.findings:
        show.warn([f"{finding.sentence}; {finding.remedy}"])
    if picture:
        show.tell(f"{picture}: before dashed, after solid.")
    if made.version is None:
        if made.otherwise:
            show.tell(
                f"It may also be: {', '.join(made.otherwise)}; --as CAUSE shows that instead, "
                "--likely what tells them apart."
            )
        show.tell(only_shown(made.parent))
        return
    notes = f" Dealt with in it: note {', '.join(made.notes)}." if made.notes else ""
    show.tell(f"Stored as {made.version.address}, made from {made.parent}.{notes}")


def only_shown(parent: "Address") -> str:
    """Say that nothing was stored, and what to do where there is no pattern to store it in."""
    if parent.number:
        return f"Only shown: {parent} is as it was, and nothing was stored."
    return (
        f"Only said: {parent.pattern} has no pattern in this store. Alter it itself, and say so "
        "with: tracker fitting done NOTE"
    )


def drawn(made: "Altered | Carried") -> "Path | None":
    """Draw what was done where a picture was asked for; return the file."""
    path = PICTURE.get()
    if path is None:
        return None
    from tracker.tasks.picturing import write_picture

    return write_picture(made, path)


def _record(made: "Altered") -> dict[str, Any]:
    return {
        "parent": str(made.parent) if made.parent.number else None,
        "version": str(made.version.address) if made.version else None,
        "notes": list(made.notes),
        "steps": [_step(p) for p in made.proposals],
        "findings": show.plain(made.findings),
        "warnings": list(made.warnings),
        "otherwise": list(made.otherwise),
    }


def _step(proposal: "Proposal") -> dict[str, Any]:
    return {
        "kind": proposal.kind.word,
        "parameters": proposal.kind.parameters(),
        "understood": proposal.echo,
        "sentence": proposal.sentence,
        "effect": show.plain(proposal.effect),
    }


def write_effect(effect: "Effect", how: "Manner") -> None:
    """Write what changed: girths first, then what is all round, then seams and edges."""
    rows = [_changed(c, how) for c in (*effect.girths, *effect.rounds) if _shows(c)]
    for s in effect.seams:
        name = f"{s.side} {s.name} seam" if s.side in ("right", "left") else f"{s.name} seam"
        before, after = _pair(s.before, how), _pair(s.after, how)
        moved = max(abs(a - b) for a, b in zip(s.before, s.after, strict=True))
        if moved >= SHOWN_MM:
            rows.append((name, before, after, _ease(s, how)))
    # A piece that was parted or split has new edges only; its seams say enough of those.
    rows += [
        _changed(c, how) for c in effect.edges if _shows(c) and None not in (c.before, c.after)
    ]
    if rows:
        show.say(show.table(("", "before", "after", "change"), rows, "lrrr"))
    for change in effect.joins:
        show.tell(f"{change.what}: {change.before:.1f}° before, {change.after:.1f}° now", "  ")
    _points("notch", effect.notches)
    _points("left to do", effect.leaves)
    _points("note", effect.notes)


def _shows(change: "Changed") -> bool:
    return abs(change.by) >= SHOWN_MM


def _points(mark: str, sentences: Iterable[str]) -> None:
    show.points(sentences, f"{mark}: ")


def _changed(change: "Changed", how: "Manner") -> tuple[str, str, str, str]:
    by = how.change(change.before, change.after, change.by)
    return _what(change), _length(change.before, how), _length(change.after, how), by


def _what(change: "Changed") -> str:
    return both(change.what) if not change.side or change.side in change.what else (
        f"{change.what}, {change.side}"
    )  # fmt: skip


def _length(mm: float | None, how: "Manner") -> str:
    return "–" if mm is None else how.length(mm)


def _pair(sides: tuple[float, float], how: "Manner") -> str:
    if abs(sides[0] - sides[1]) < 0.05:
        return how.length(sides[0])
    return f"{how.length(sides[0])} / {how.length(sides[1])}"


def _ease(seam: "SeamChanged", how: "Manner") -> str:
    """The ease there is now; of a seam that has none and had none, how much longer it is."""
    was, ease = (sides[1] - sides[0] for sides in (seam.before, seam.after))
    if abs(ease) >= 0.05:
        return f"ease {how.length(ease)}"
    by = seam.after[0] - seam.before[0]
    return "" if abs(was) >= 0.05 else f"{'+' if by > 0 else ''}{how.length(by)}"
