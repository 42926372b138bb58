"""Two versions laid over each other: what differs, in figures."""

from dataclasses import dataclass

from tracker.alterations.bodyside import split_sides
from tracker.alterations.effect import Changed
from tracker.history.replay import furthest_apart, outlines_apart
from tracker.pattern.bodyside import BodySide
from tracker.pattern.measure import around, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths


@dataclass(frozen=True, slots=True)
class SeamCompared:
    """A seam's two sides in both versions, millimetres; none where a version lacks it."""

    name: str
    side: str
    first_piece: str
    second_piece: str
    before: tuple[float, float] | None
    after: tuple[float, float] | None
    planned_before_mm: float
    planned_after_mm: float


@dataclass(frozen=True, slots=True)
class PieceCompared:
    """A piece in both versions.

    Attributes:
        label: the piece.
        area_before: mm², none where it is new.
        area_after: mm², none where it is gone.
        furthest_mm: the furthest its outlines lie apart, laid over each other.
        furthest_at: the edge that is at.
        laid_at: an edge that did not move, at which they are laid over each other.
    """

    label: str
    area_before: float | None
    area_after: float | None
    furthest_mm: float
    furthest_at: str
    laid_at: str


@dataclass(frozen=True)
class Comparison:
    """What differs between two patterns.

    Attributes:
        girths: every material line, before and after, whole garment.
        rounds: neckline and armholes all round.
        seams: every seam.
        darts: intake of every dart.
        notches: distance of every notch that moved.
        pieces: areas and furthest distance.
        furthest_mm: the furthest distance between outlines, and where.
        furthest_at: where that is.
    """

    girths: tuple[Changed, ...]
    rounds: tuple[Changed, ...]
    seams: tuple[SeamCompared, ...]
    darts: tuple[Changed, ...]
    notches: tuple[Changed, ...]
    pieces: tuple[PieceCompared, ...]
    furthest_mm: float
    furthest_at: str

    @property
    def same(self) -> bool:
        """Tell whether nothing differs."""
        return (
            self.furthest_mm == 0.0
            and all(c.by == 0 for c in (*self.girths, *self.darts, *self.notches))
            and all(p.area_before == p.area_after for p in self.pieces)
        )


def compare(old: Pattern, new: Pattern) -> Comparison:
    """Compare two versions, or two patterns from one block.

    Where only one of them has a piece split into the wearer's right and left, the other is
    split too, so that unequal halves are compared each with its own.
    """
    old, new = _alike(old, new), _alike(new, old)
    shared = [(p, _twin(new, p)) for p in old.pieces]
    twins = [(a, b) for a, b in shared if b is not None]
    furthest, where = 0.0, "nowhere"
    if all(p.has_outline for p in (*old.pieces, *new.pieces)):
        common = Pattern(tuple(a for a, _ in twins)), Pattern(tuple(b for _, b in twins))
        furthest, where = furthest_apart(*common)
    return Comparison(
        girths=_girths(old, new),
        rounds=_rounds(old, new),
        seams=_seams(old, new),
        darts=_darts(old, new),
        notches=_notches(twins),
        pieces=_pieces(old, new),
        furthest_mm=furthest,
        furthest_at=where,
    )


def _alike(pattern: Pattern, model: Pattern) -> Pattern:
    halved = {p.name for p in model.pieces if p.side is not BodySide.BOTH}
    whole = {p.name for p in pattern.pieces if p.side is BodySide.BOTH and p.has_outline}
    return split_sides(pattern, halved & whole).pattern


def _twin(pattern: Pattern, piece: Piece) -> Piece | None:
    return next((p for p in pattern.pieces if p.key == piece.key), None)


def _girths(old: Pattern, new: Pattern) -> tuple[Changed, ...]:
    names = dict.fromkeys((*lines_of(old), *lines_of(new)))
    was, now = set(lines_of(old)), set(lines_of(new))
    return tuple(
        Changed(
            line,
            girth(old, line) if line in was else None,
            girth(new, line) if line in now else None,
        )
        for line in names
    )


def _rounds(old: Pattern, new: Pattern) -> tuple[Changed, ...]:
    if not all(p.has_outline for p in (*old.pieces, *new.pieces)):
        return ()
    out = [Changed("neckline", around(old, "neckline"), around(new, "neckline"))]
    sides = [
        Changed(f"{s} armhole", around(old, "armhole", s), around(new, "armhole", s), str(s))
        for s in (BodySide.RIGHT, BodySide.LEFT)
    ]
    right, left = sides
    if right.before == left.before and right.after == left.after:
        return (*out, Changed("armhole", right.before, right.after))
    return (*out, *sides)


def _seams(old: Pattern, new: Pattern) -> tuple[SeamCompared, ...]:
    out = []
    was = {s.key: s for s in old.seams}
    for seam in new.seams:
        before = was.pop(seam.key, None) or was.get((seam.name, BodySide.BOTH))
        out.append(
            SeamCompared(
                seam.name, str(seam.side), seam.first[0].piece, seam.second[0].piece,
                _lengths(old, before.key) if before else None, _lengths(new, seam.key),
                before.planned_ease_mm if before else 0.0, seam.planned_ease_mm,
            )
        )  # fmt: skip
    told = {s.name for s in new.seams}
    for seam in was.values():
        if seam.name not in told:
            out.append(
                SeamCompared(
                    seam.name, str(seam.side), seam.first[0].piece, seam.second[0].piece,
                    _lengths(old, seam.key), None, seam.planned_ease_mm, 0.0,
                )
            )  # fmt: skip
    return tuple(out)


def _lengths(pattern: Pattern, key: tuple[str, BodySide]) -> tuple[float, float] | None:
    seam = next(s for s in pattern.seams if s.key == key)
    edges = [pattern.edge_of(r) for r in (*seam.first, *seam.second)]
    if any(not e.parts and e.declared_mm is None for e in edges):
        return None
    return side_lengths(pattern, seam)


def _darts(old: Pattern, new: Pattern) -> tuple[Changed, ...]:
    def intakes(pattern: Pattern) -> dict[str, float]:
        return {
            f"{d.name} of the {p.label}"
            + ("" if d.side is BodySide.BOTH else f" ({d.side})"): d.intake_mm
            for p in pattern.pieces
            for d in p.darts
        }

    was, now = intakes(old), intakes(new)
    return tuple(Changed(n, was.get(n), now.get(n)) for n in dict.fromkeys((*was, *now)))


def _notches(twins: list[tuple[Piece, Piece]]) -> tuple[Changed, ...]:
    out = []
    for a, b in twins:
        now = {n.key: n for n in b.notches}
        for notch in a.notches:
            after = now.get(notch.key)
            if after and after.corner == notch.corner and after.distance_mm != notch.distance_mm:
                out.append(
                    Changed(
                        f"{notch.name} of the {b.label}, from the {notch.corner}",
                        notch.distance_mm,
                        after.distance_mm,
                    )
                )
    return tuple(out)


def _pieces(old: Pattern, new: Pattern) -> tuple[PieceCompared, ...]:
    out = []
    for piece in new.pieces:
        twin = _twin(old, piece)
        if not piece.has_outline:
            continue
        if twin is None or not twin.has_outline:
            out.append(PieceCompared(piece.label, None, piece.area_mm2, 0.0, "", ""))
            continue
        off, at = outlines_apart(twin, piece)
        still = [e.name for e in piece.edges if twin.edge(*e.key).parts == e.parts]
        out.append(
            PieceCompared(
                piece.label, twin.area_mm2, piece.area_mm2, off, at, still[0] if still else ""
            )
        )
    fresh = {p.key for p in new.pieces}
    out.extend(
        PieceCompared(p.label, p.area_mm2, None, 0.0, "", "")
        for p in old.pieces
        if p.key not in fresh and p.has_outline
    )
    return tuple(out)
