"""What a step changed: edges, seams, girths, notches and joins, always as measured."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import number
from tracker.pattern.measure import around, corner_angle, girth, lines_of, over_the_centre
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece, PieceKey
from tracker.pattern.seam import Seam
from tracker.pattern.walk import side_lengths

#: Changes of length under this are rounding.
NONE_MM = 0.005
NONE_DEG = 0.05
#: What a garment may have all round besides its material lines.
ROUNDS = ("neckline", "armhole")


@dataclass(frozen=True, slots=True)
class Changed:
    """A measure before and after, millimetres (degrees for a join).

    Attributes:
        what: its name: "front armhole", "bust line", "neckline all round".
        before: the value before; none for what is new.
        after: the value after; none for what is gone.
        side: the wearer's side, where only one changed.
    """

    what: str
    before: float | None
    after: float | None
    side: str = ""

    @property
    def by(self) -> float:
        """After minus before."""
        return (self.after or 0.0) - (self.before or 0.0)


@dataclass(frozen=True, slots=True)
class SeamChanged:
    """A seam's two sides before and after, millimetres."""

    name: str
    side: str
    before: tuple[float, float]
    after: tuple[float, float]
    planned_ease_mm: float

    @property
    def ease_by(self) -> float:
        """The change in how much longer the second side is."""
        return (self.after[1] - self.after[0]) - (self.before[1] - self.before[0])


@dataclass(frozen=True)
class Effect:
    """What a step changed.

    Attributes:
        pieces: labels of the pieces it touched.
        edges: each edge whose length changed.
        seams: each touched seam's two lengths.
        girths: each girth that changed; whole garment.
        rounds: neckline and armhole as sewn, all round, where they changed.
        notches: what happened to notches, in words.
        joins: corner sums that changed, degrees.
        leaves: what it leaves to be done elsewhere, in words.
        notes: anything else worth saying.
    """

    pieces: tuple[str, ...] = ()
    edges: tuple[Changed, ...] = ()
    seams: tuple[SeamChanged, ...] = ()
    girths: tuple[Changed, ...] = ()
    rounds: tuple[Changed, ...] = ()
    notches: tuple[str, ...] = ()
    joins: tuple[Changed, ...] = ()
    leaves: tuple[str, ...] = ()
    notes: tuple[str, ...] = field(default=())

    def sentence(
        self,
        write: Callable[[float], str] = lambda mm: f"{mm:.0f} mm",
        rounds: tuple[str, ...] = ROUNDS,
    ) -> str:
        """Say the girths and rounds that changed: "waist line 20 mm smaller; armhole unchanged".

        Args:
            write: writes a length.
            rounds: what the garment has all round, to be told where it did not change.
        """
        told = [
            f"{c.what} {write(abs(c.by))} {'larger' if c.by > 0 else 'smaller'}"
            for c in (*self.girths, *self.rounds)
            if abs(c.by) >= 0.5
        ]
        changed = " ".join(c.what for c in self.rounds if abs(c.by) >= 0.5)
        told += [f"{name} unchanged" for name in rounds if name not in changed]
        return "; ".join(told)


def effect_between(
    old: Pattern,
    new: Pattern,
    *,
    notches: Iterable[str] = (),
    leaves: Iterable[str] = (),
    notes: Iterable[str] = (),
) -> Effect:
    """Measure what changed; only pieces that are not the same object are looked at."""
    before = {p.key: p for p in old.pieces}
    after = {p.key: p for p in new.pieces}
    touched = [k for k in (*before, *(k for k in after if k not in before))
               if before.get(k) is not after.get(k)]  # fmt: skip
    if not touched:
        return Effect(notches=tuple(notches), leaves=tuple(leaves), notes=tuple(notes))
    names = {name for name, _ in touched}
    return Effect(
        pieces=tuple((after.get(k) or before[k]).label for k in touched),
        edges=tuple(_edges(before, after, touched)),
        seams=tuple(_seams(old, new, names)),
        girths=tuple(_girths(old, new)),
        rounds=tuple(_rounds(old, new, names)),
        notches=(*notches, *_made_marks(before, after)),
        joins=tuple(_joins(old, new, names)),
        leaves=tuple(leaves),
        notes=tuple(notes),
    )


def _made_marks(before: Mapping[PieceKey, Piece], after: Mapping[PieceKey, Piece]) -> Iterator[str]:
    """Tell of notches on a fold that are marks on the piece opened out."""
    for piece in before.values():
        opened = after.get((piece.name, BodySide.CENTRE))
        for notch in piece.notches if opened and piece.fold else ():
            if notch.edge == piece.fold:
                yield (
                    f"{notch.name} of the {piece.label}, on the fold, is a mark at the "
                    f"{notch.edge} of the piece opened out"
                )


def _lengths(piece: Piece | None) -> dict[tuple[str, BodySide], float]:
    if piece is None or not piece.has_outline:
        return {}
    return {e.key: e.length for e in piece.edges}


def _edges(
    before: dict[Any, Piece], after: dict[Any, Piece], touched: Iterable[Any]
) -> Iterable[Changed]:
    for key in touched:
        was, now = _lengths(before.get(key)), _lengths(after.get(key))
        label = (after.get(key) or before[key]).label
        for edge in (*was, *(k for k in now if k not in was)):
            a, b = was.get(edge), now.get(edge)
            if a is None or b is None or abs(a - b) >= NONE_MM:
                side = "" if edge[1] in (BodySide.BOTH, BodySide.CENTRE) else str(edge[1])
                yield Changed(f"{label} {edge[0]}", a, b, side)


def _seams(old: Pattern, new: Pattern, names: set[str]) -> Iterable[SeamChanged]:
    was = {s.key: s for s in old.seams}
    for seam in new.seams:
        if not any(r.piece in names for r in (*seam.first, *seam.second)):
            continue
        origin = was.get(seam.key) or was.get((seam.name, BodySide.BOTH))
        after = _sides(new, seam)
        before = _sides(old, origin) if origin else after
        if before and after:
            yield SeamChanged(seam.name, str(seam.side), before, after, seam.planned_ease_mm)


def _sides(pattern: Pattern, seam: Seam) -> tuple[float, float] | None:
    edges = [pattern.edge_of(r) for r in (*seam.first, *seam.second)]
    return side_lengths(pattern, seam) if all(e.parts for e in edges) else None


def _girths(old: Pattern, new: Pattern) -> Iterable[Changed]:
    known = set(lines_of(old))
    for line in lines_of(new):
        if line in known:
            a, b = girth(old, line), girth(new, line)
            if abs(a - b) >= NONE_MM:
                yield Changed(line, a, b)


def _rounds(old: Pattern, new: Pattern, names: set[str]) -> Iterable[Changed]:
    shell = (p for p in (*old.pieces, *new.pieces) if p.layer == "shell" or p.name in names)
    if not all(p.has_outline for p in shell):
        return
    a, b = around(old, "neckline"), around(new, "neckline")
    if abs(a - b) >= NONE_MM:
        yield Changed("neckline", a, b)
    sides = (BodySide.RIGHT, BodySide.LEFT)
    both = [(around(old, "armhole", s), around(new, "armhole", s), s) for s in sides]
    changed = [(a, b, s) for a, b, s in both if abs(a - b) >= NONE_MM]
    if len(changed) == 2 and abs(changed[0][1] - changed[1][1]) < NONE_MM:
        yield Changed("armhole", changed[0][0], changed[0][1])
    else:
        for a, b, s in changed:
            yield Changed(f"{s} armhole", a, b, str(s))


def _joins(old: Pattern, new: Pattern, names: set[str]) -> Iterable[Changed]:
    was = {(side, place): total for side, place, total in _corner_sums(old, names)}
    for side, place, after in _corner_sums(new, names):
        # Where right and left were parted since, both were what was there for both.
        before = was.get((side, place), was.get(("", place)))
        if before is not None and abs(after - before) >= NONE_DEG:
            yield Changed(f"{side} {place}".strip(), before, after)


def _corner_sums(pattern: Pattern, names: set[str]) -> Iterable[tuple[str, str, float]]:
    """Each seam's body side ("" for both), its end in words, and its angles' sum, degrees."""
    for seam in pattern.seams:
        if not any(r.piece in names for r in (*seam.first, *seam.second)):
            continue
        if _sides(pattern, seam) is None:
            continue
        for at_end in (False, True):
            total, corner = 0.0, ""
            for runs in (seam.first, seam.second):
                run = runs[-1] if at_end else runs[0]
                piece = pattern.piece(run.piece, run.side)
                edge = piece.edge(run.edge, run.side)
                edge_end = at_end != run.backward
                total += corner_angle(piece, edge, edge_end)
                if over_the_centre(piece, edge, edge_end):
                    total -= 90.0  # as it was when it was on the fold
                # By the first side's name: a sleeve's two underarm points have each their own.
                corner = corner or (edge.end if edge_end else edge.start)
            side = str(seam.side) if seam.side in (BodySide.RIGHT, BodySide.LEFT) else ""
            yield side, f"{seam.name} seam at the {corner}", total


# -- in and out ---------------------------------------------------------------------------


def effect_record(effect: Effect) -> dict[str, Any]:
    """Return an effect as plain values."""

    def mm(value: float | None) -> float | None:
        return None if value is None else number(value)

    def changed(c: Changed) -> list[Any]:
        return [c.what, mm(c.before), mm(c.after), c.side]

    return {
        "pieces": list(effect.pieces),
        "edges": [changed(c) for c in effect.edges],
        "seams": [
            [s.name, s.side, [number(x) for x in s.before], [number(x) for x in s.after],
             number(s.planned_ease_mm)]
            for s in effect.seams
        ],
        "girths": [changed(c) for c in effect.girths],
        "rounds": [changed(c) for c in effect.rounds],
        "notches": list(effect.notches),
        "joins": [changed(c) for c in effect.joins],
        "leaves": list(effect.leaves),
        "notes": list(effect.notes),
    }  # fmt: skip


def effect_from(r: dict[str, Any]) -> Effect:
    """Read an effect back."""
    return Effect(
        pieces=tuple(r["pieces"]),
        edges=tuple(Changed(*c) for c in r["edges"]),
        seams=tuple(
            SeamChanged(name, side, (a[0], a[1]), (b[0], b[1]), ease)
            for name, side, a, b, ease in r["seams"]
        ),
        girths=tuple(Changed(*c) for c in r["girths"]),
        rounds=tuple(Changed(*c) for c in r["rounds"]),
        notches=tuple(r["notches"]),
        joins=tuple(Changed(*c) for c in r["joins"]),
        leaves=tuple(r["leaves"]),
        notes=tuple(r["notes"]),
    )
