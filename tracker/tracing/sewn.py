"""Seams as the maker named them: each side's edges found, and the way they are sewn."""

from dataclasses import dataclass, replace

from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.errors import PatternError
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Match, PlannedEase, Run, Seam
from tracker.pattern.walk import notch_on_side, walked
from tracker.tracing.faults import Faults
from tracker.tracing.tracing import TracedRun, TracedSeam


@dataclass(frozen=True, slots=True)
class _Step:
    run: Run
    edge: Edge

    @property
    def first(self) -> str:
        return self.edge.end if self.run.backward else self.edge.start

    @property
    def last(self) -> str:
        return self.edge.start if self.run.backward else self.edge.end

    @property
    def turned(self) -> "_Step":
        return _Step(replace(self.run, backward=not self.run.backward), self.edge)


def sewn(
    pattern: Pattern, seams: tuple[TracedSeam, ...], faults: Faults, notes: list[str]
) -> Pattern:
    """Return the pattern with its seams."""
    for traced in seams:
        seam = _seam(pattern, traced, faults, notes)
        if seam is not None:
            if any(s.key == seam.key for s in pattern.seams):
                faults.tell(traced.line, f"there are two seams called {seam.name}; name them apart")
            pattern = replace(pattern, seams=(*pattern.seams, seam))
    return pattern


def _seam(pattern: Pattern, traced: TracedSeam, faults: Faults, notes: list[str]) -> Seam | None:
    first = _side(pattern, traced, traced.first, None, faults)
    if not first:
        return None
    second = first
    if traced.second:
        second = _side(pattern, traced, traced.second, first, faults)
        if not second:
            return None
    if not traced.second and not all(s.run.side is BodySide.BOTH for s in first):
        faults.tell(
            traced.line,
            f"the {traced.name} seam has a first side only; name the edges of its second",
        )
        return None
    runs = tuple(s.run for s in first), tuple(s.run for s in second)
    sides = {r.side for r in (*runs[0], *runs[1])}
    side = traced.side
    if side is None:
        side = sides.pop() if len(sides) == 1 and traced.second else BodySide.CENTRE
    seam = Seam(traced.name, side, *runs)
    matches = _matches(pattern, seam, traced, faults)
    seam = replace(seam, matches=matches)
    seam = replace(seam, ease=_eases(pattern, seam, traced, faults))
    _one_way_up(traced, first, second, notes)
    return seam


def _side(
    pattern: Pattern, traced: TracedSeam, runs: tuple[TracedRun, ...],
    first: tuple[_Step, ...] | None, faults: Faults,
) -> tuple[_Step, ...]:  # fmt: skip
    """Find a side's edges and bring them into sewing direction."""
    steps = [step for run in runs if (step := _found(pattern, traced, run, faults)) is not None]
    if len(steps) < len(runs):
        return ()
    out = [_begun(traced, runs[0], steps, first, faults)]
    for run, step in zip(runs[1:], steps[1:], strict=True):
        at = run.starts_at or out[-1].last
        if run.starts_at and run.starts_at not in (step.first, step.last):
            _no_end(traced, run, step, faults)
        backward = step.last == at and step.first != at
        same = step.first != at and step.last != at and out[-1].run.backward
        out.append(step.turned if backward or same else step)
    return tuple(out)


def _found(pattern: Pattern, traced: TracedSeam, run: TracedRun, faults: Faults) -> _Step | None:
    pieces = [p for p in pattern.pieces if p.name == run.piece]
    if not pieces:
        known = sorted({p.name for p in pattern.pieces})
        faults.tell(
            run.line,
            f"the {traced.name} seam names the piece “{run.piece}”, and there are "
            f"{', '.join(known)}.{nearest_names(run.piece, known, 1)}",
        )
        return None
    edges = [e for p in pieces for e in p.edges if e.name == run.edge]
    fits = [e for e in edges if run.side is None or e.side is run.side]
    if len(fits) == 1:
        return _Step(Run(run.piece, run.edge, fits[0].side), fits[0])
    known = sorted({e.name for p in pieces for e in p.edges})
    if not edges:
        words = f"and it has {', '.join(known)}.{nearest_names(run.edge, known, 1)}"
    elif not fits:
        words = f"and that is on the {' and '.join(str(e.side) for e in edges)} side"
    else:
        words = "which is there right and left; say which under “body side”"
    faults.tell(
        run.line, f"the {traced.name} seam names the {run.edge} of the {run.piece}, {words}"
    )
    return None


def _no_end(traced: TracedSeam, run: TracedRun, step: _Step, faults: Faults) -> None:
    faults.tell(
        run.line,
        f"the {traced.name} seam starts at the “{run.starts_at}”, and the {run.edge} of the "
        f"{run.piece} runs from the {step.edge.start} to the {step.edge.end}",
    )


def _begun(
    traced: TracedSeam, run: TracedRun, steps: list[_Step], first: tuple[_Step, ...] | None,
    faults: Faults,
) -> _Step:  # fmt: skip
    """The first edge of a side in sewing direction."""
    step = steps[0]
    if run.starts_at:
        if run.starts_at not in (step.first, step.last):
            _no_end(traced, run, step, faults)
        return step if step.first == run.starts_at else step.turned
    if len(steps) > 1:
        after = {steps[1].first, steps[1].last}
        if step.last in after and step.first in after:
            faults.tell(
                run.line,
                f"the {traced.name} seam can be sewn from the {step.first} or from the "
                f"{step.last}; say which under “starts at”",
            )
        return step.turned if step.first in after and step.last not in after else step
    if first is None:
        return step
    begins, ends = first[0].first, first[-1].last
    if begins in (step.first, step.last):
        return step if step.first == begins else step.turned
    if ends in (step.first, step.last):
        return step if step.last == ends else step.turned
    # Two pieces right side up run past each other where they are sewn.
    return step if first[0].run.backward else step.turned


def _matches(pattern: Pattern, seam: Seam, traced: TracedSeam, faults: Faults) -> tuple[Match, ...]:
    if seam.on_itself:
        return ()
    out = []
    for a, b, c, d, line in traced.matches:
        match = Match(a, b, c, d)
        try:
            _meets(pattern, seam, match)
            out.append(match)
        except PatternError as fault:
            faults.tell(line, f"{fault.sentence.rstrip('.')} ({a}: {b}; {c}: {d})")
    if traced.matches:
        return tuple(out)
    theirs = {n: p for p, n in _notches(pattern, seam.second)}
    return tuple(
        Match(piece, name, theirs[name], name)
        for piece, name in _notches(pattern, seam.first)
        if name in theirs
    )


def _meets(pattern: Pattern, seam: Seam, match: Match) -> None:
    if _known(pattern, seam):
        notch_on_side(pattern, walked(pattern, seam.first), match.first_piece, match.first)
        notch_on_side(pattern, walked(pattern, seam.second), match.second_piece, match.second)


def _known(pattern: Pattern, seam: Seam) -> bool:
    edges = [pattern.edge_of(run) for run in (*seam.first, *seam.second)]
    return all(e.parts or e.declared_mm is not None for e in edges)


def _notches(pattern: Pattern, runs: tuple[Run, ...]) -> list[tuple[str, str]]:
    return [
        (run.piece, notch.name)
        for run in runs
        for notch in pattern.piece(run.piece, run.side).notches
        if notch.edge == run.edge and notch.side is pattern.edge_of(run).side
    ]


def _eases(
    pattern: Pattern, seam: Seam, traced: TracedSeam, faults: Faults
) -> tuple[PlannedEase, ...]:
    corners = {c for run in seam.second for c in _ends(pattern.edge_of(run))}
    places = sorted(corners | {name for _, name in _notches(pattern, seam.second)})
    for _, start, end, line in traced.eases:
        for name in (start, end):
            if name not in places:
                faults.tell(
                    line,
                    f"the ease of the {seam.name} seam lies between places of its second side, "
                    f"{', '.join(places)}; “{name}” is none of them."
                    f"{nearest_names(name, places, 1)}",
                )
    return tuple(PlannedEase(amount, start, end) for amount, start, end, _ in traced.eases)


def _ends(edge: Edge) -> tuple[str, str]:
    return edge.start, edge.end


def _one_way_up(
    traced: TracedSeam, first: tuple[_Step, ...], second: tuple[_Step, ...], notes: list[str]
) -> None:
    """Tell where two pieces lie with different sides up: sewn edges then run the same way."""
    if len(first) != 1 or len(second) != 1 or first == second:
        return
    one, other = first[0], second[0]
    drawn = bool(one.edge.parts and other.edge.parts)
    if drawn and one.run.backward == other.run.backward and one.first == other.first:
        notes.append(
            f"the {one.run.piece} and the {other.run.piece} lie with different sides of the cloth "
            f"up, by their {traced.name} seam: if one of them was traced as her left half, say "
            "left under “half” in the table of pieces"
        )


def apart(pattern: Pattern, piece: Piece) -> bool:
    """Tell whether no seam has any edge of a piece."""
    return not any(pattern.seams_on(piece, edge) for edge in piece.edges)
