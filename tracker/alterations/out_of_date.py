"""Which pieces taken from others no longer are what their parents are."""

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.alterations.kind import kind_named
from tracker.alterations.tracing import Tracing
from tracker.errors import TrackerError
from tracker.geometry.point import turn_between
from tracker.geometry.transform import Motion
from tracker.pattern.canonical import settled
from tracker.pattern.finding import Finding
from tracker.pattern.following import changed_since, furthest_since
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece

#: A piece is what would be traced now when no line of it lies further off, millimetres.
SAME_MM = 0.05


@dataclass(frozen=True, slots=True)
class OutOfDate:
    """A piece that is not what would be traced from its parents now.

    Attributes:
        piece: the piece's name.
        label: as people read it.
        parents: the names of the pieces it was taken from.
        since: what of them changed since, an edge at a time.
    """

    piece: str
    label: str
    parents: tuple[str, ...]
    since: tuple[str, ...]

    @property
    def sentence(self) -> str:
        """Say that it is out of date, and why."""
        parents = " and the ".join(self.parents)
        return (
            f"the {self.label} was taken from the {parents} and is out of date: since then "
            f"{'; '.join(self.since)}"
        )

    @property
    def repair(self) -> str:
        """Say what to type to put it right."""
        again = f'tracker style again --piece "{self.piece}"'
        return f"have it drawn again: {again}; or say that it stays as it is: {again} --keep"


def traced_again(pattern: Pattern, name: str) -> tuple[tuple[Piece, ...], tuple[str, ...]]:
    """Draw a traced piece again from its parents as they are now, and say what is worth saying.

    Args:
        pattern: the pattern.
        name: the piece's name; a right and a left one are drawn together.

    Raises:
        TrackerError: it was not traced by a step, or cannot be traced any more.
    """
    traced = pattern.piece(name).traced
    if traced is None:
        raise TrackerError(f"the {name} was not traced by a step, so none can trace it again")
    kind = kind_named(traced.word).from_parameters(traced.parameters)
    assert isinstance(kind, Tracing)
    return kind.drawn(pattern)


def out_of_date(pattern: Pattern) -> tuple[OutOfDate, ...]:
    """Return the traced pieces that are out of date, in the pattern's order.

    A piece is not when nothing it was drawn from has changed, nor when drawn again it would be
    what it is: a lining lengthened together with its shell. What is taken from a piece that is
    out of date is so too.
    """
    out: dict[str, OutOfDate] = {}
    for piece in pattern.pieces:
        if piece.traced is None or piece.name in out:
            continue
        parents = tuple(dict.fromkeys(s.piece for s in piece.traced.seen))
        late = tuple(f"the {name} is out of date itself" for name in parents if name in out)
        since = changed_since(pattern, piece)
        if late or (since and not _is_what_it_would_be(pattern, piece)):
            out[piece.name] = OutOfDate(piece.name, piece.label, parents, late + since)
    return tuple(out.values())


def _is_what_it_would_be(pattern: Pattern, piece: Piece) -> bool:
    try:
        fresh, _ = traced_again(pattern, piece.name)
    except TrackerError:
        return False
    now = {p.key: p for p in settled(Pattern(fresh)).pieces}
    mine = [p for p in pattern.pieces if p.name == piece.name]
    return len(mine) == len(now) and all(p.key in now and _alike(p, now[p.key]) for p in mine)


def _alike(one: Piece, other: Piece) -> bool:
    """Tell whether two pieces are drawn alike, edge by edge, wherever they lie."""
    if [e.key for e in one.edges] != [e.key for e in other.edges] or one.fold != other.fold:
        return False
    onto = _onto(one, other)
    for a, b in zip(one.edges, other.edges, strict=True):
        if len(a.parts) != len(b.parts) or abs(a.length - b.length) > SAME_MM:
            return False
        spots = ((a.length * k / 8, b.length * k / 8) for k in range(9))
        if any(abs(onto.of(a.point_at(s)) - b.point_at(t)) > SAME_MM for s, t in spots):
            return False
    # A notch she added is hers; one that would be drawn elsewhere is not where it should be.
    notches = {n.key: n for n in one.notches}
    return all(
        n.key in notches
        and notches[n.key].corner == n.corner
        and abs(notches[n.key].distance_mm - n.distance_mm) <= SAME_MM
        for n in other.notches
    )


def _onto(one: Piece, other: Piece) -> Motion:
    """Return what lays one piece on another by their longest edges."""
    longest = max(one.edges, key=lambda e: e.length)
    twin = other.edge(*longest.key)
    a, b = longest.drawn[0].start, longest.drawn[-1].end
    c, d = twin.drawn[0].start, twin.drawn[-1].end
    return Motion.turn(a, turn_between(b - a, d - c)).then(Motion.move(c - a))


def told_out_of_date(before: Pattern, after: Pattern) -> tuple[str, ...]:
    """Say which pieces a step left out of date that were not before, with the repair offered."""
    if not any(p.traced for p in after.pieces):
        return ()
    known = {o.piece: o.since for o in out_of_date(before)}
    return tuple(
        f"{o.sentence}; {o.repair}" for o in out_of_date(after) if known.get(o.piece) != o.since
    )


def findings_of(pattern: Pattern) -> Iterable[Finding]:
    """Return the out-of-date pieces as findings of a check."""
    for one in out_of_date(pattern):
        yield Finding(
            "out of date", f"the {one.label}", one.sentence,
            max(furthest_since(pattern, p) for p in pattern.pieces if p.name == one.piece),
            SAME_MM, "mm", one.repair,
        )  # fmt: skip


__all__ = ["OutOfDate", "findings_of", "out_of_date", "told_out_of_date", "traced_again"]
