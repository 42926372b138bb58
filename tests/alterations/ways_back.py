"""The step that takes another one back, where there is one, as a fitter would say it."""

from collections.abc import Callable, Iterable
from dataclasses import fields, replace
from typing import Any

from tracker.alterations.across import cut_across
from tracker.alterations.along_seams import AmountAt
from tracker.alterations.bodyside import split_sides
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.add_a_notch import AddNotch
from tracker.alterations.kinds.bust_volume import BustVolume
from tracker.alterations.kinds.change_a_dart import ChangeDart
from tracker.alterations.kinds.change_the_neckline import ChangeNeckline, Neck
from tracker.alterations.kinds.change_the_shoulder_length import Length, ShoulderLength
from tracker.alterations.kinds.change_the_shoulder_slope import ShoulderSlope, Slope
from tracker.alterations.kinds.change_the_width_across import Width, WidthAcross
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.lengthen_or_shorten import Lengthen
from tracker.alterations.kinds.move_a_corner import MoveCorner
from tracker.alterations.kinds.move_a_dart import MoveDart
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.alterations.kinds.raise_an_edge import Height, RaiseEdge
from tracker.alterations.kinds.remove_a_notch import RemoveNotch
from tracker.alterations.kinds.reshape_an_edge import ReshapeEdge
from tracker.alterations.kinds.shift_a_seam import ShiftSeam
from tracker.alterations.kinds.slash_across import SlashAcross
from tracker.alterations.kinds.slash_and_spread import SlashAndSpread
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.alterations.kinds.taper_or_widen import Taper, TaperOrWiden
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern

#: A step, the pattern before it and the pattern after it.
Way = Callable[[Any, Pattern, Pattern], Kind | None]


def _other(field: str, words: Iterable[str]) -> Way:
    one, two = words

    def way(step: Kind, before: Pattern, after: Pattern) -> Kind:
        del before, after
        now = getattr(step, field)
        return replace(step, **{field: two if now == one else one})

    return way


def _negative(*fields: str) -> Way:
    def way(step: Kind, before: Pattern, after: Pattern) -> Kind:
        del before, after
        return replace(step, **{f: -getattr(step, f) for f in fields})

    return way


def _cut_back(*fields: str) -> Way:
    """The amounts taken back at the same height, as long as the cut meets the same edges there."""

    def way(step: Kind, before: Pattern, after: Pattern) -> Kind | None:
        def met(pattern: Pattern) -> list[tuple[str, str, str, str]]:
            found = []
            for piece in pattern.pieces:
                if piece.name in (step.pieces or {p.name for p in before.pieces}) and any(
                    v.name == step.line for v in piece.levels
                ):
                    try:
                        at = cut_across(piece, step.line, step.above_mm)
                    except TrackerError:
                        return []
                    found += [(piece.name, str(piece.side), str(e.edge.side), e.edge.name)
                              for e in (at.left, at.right)]  # fmt: skip
            return found

        split = split_sides(before, {p.name for p in after.pieces if p.side is not BodySide.BOTH})
        if not met(after) or met(split.pattern) != met(after):
            return None
        return _negative(*fields)(step, before, after)

    return way


def _same_place(edge: Edge, now: Edge, amount: AmountAt) -> AmountAt:
    """The amount taken back at the same place, as a tape from the corner finds it now."""
    back = replace(amount, amount_mm=-amount.amount_mm)
    if not amount.distance_mm:
        return back
    at = amount.distance_mm
    at = at if amount.corner == edge.start else edge.length - at
    wanted = edge.base_distance(at)
    # A left edge may run the other way than the one that stood for both.
    wanted = wanted if edge.start == now.start else now.base_length - wanted
    low, high = 0.0, now.length
    for _ in range(50):
        middle = (low + high) / 2
        if _foot(now, middle) < wanted:
            low = middle
        else:
            high = middle
    return replace(back, distance_mm=low if amount.corner == now.start else now.length - low)


def _foot(edge: Edge, at_mm: float) -> float:
    index, rest = edge.locate(at_mm)
    along, _ = edge.base_lines[index].nearest(edge.parts[index].point_at(rest))
    return sum(base.length for base in edge.base_lines[:index]) + along


def _one_place(step: TakeIn | ShiftSeam | ReshapeEdge, after: Pattern) -> bool:
    """Tell whether its places are the same distance along on both body sides."""
    halves = len({p.name for p in after.pieces}) < len(after.pieces)
    centre = any(p.side is BodySide.CENTRE for p in after.pieces)
    unequal = step.side is BodySide.BOTH and (halves or centre)
    return not (unequal and any(a.distance_mm for a in step.amounts))


def _seam_back(step: TakeIn | ShiftSeam, before: Pattern, after: Pattern) -> Kind | None:
    seam, now = before.seam(step.seam, step.side), after.seam(step.seam, step.side)
    if len(seam.first) > 1 and any(a.distance_mm for a in step.amounts):
        return None
    if not _one_place(step, after):
        return None
    was, new = before.edge_of(seam.first[0]), after.edge_of(now.first[0])
    return replace(step, amounts=tuple(_same_place(was, new, a) for a in step.amounts))


def _edge_back(step: ReshapeEdge, before: Pattern, after: Pattern) -> Kind | None:
    if not _one_place(step, after):
        return None
    was = before.piece(step.piece, step.side).edge(step.edge, step.side)
    now = after.piece(step.piece, step.side).edge(step.edge, step.side)
    return replace(step, amounts=tuple(_same_place(was, now, a) for a in step.amounts))


def _opened_back(step: SlashAndSpread, before: Pattern, after: Pattern) -> Kind:
    """Fold out what was spread, or spread what was folded out, at the same mouth and hinge."""
    del before, after
    values = {f.name: getattr(step, f.name) for f in fields(step)}
    return (SlashAndSpread if isinstance(step, FoldOut) else FoldOut)(**values)


def _dart_moved_back(step: MoveDart, before: Pattern, after: Pattern) -> Kind | None:
    del after
    piece = before.piece(step.piece, step.side)
    mouth = next((d.mouth for d in piece.darts if d.name == step.dart), None)
    for edge in piece.edges:
        if edge.name == mouth and step.toward in (edge.start, edge.end):
            return replace(step, toward=edge.end if step.toward == edge.start else edge.start)
    return None


def _dart_back(step: ChangeDart, before: Pattern, after: Pattern) -> Kind | None:
    del before, after
    if step.across_mm:
        return None
    return replace(step, deeper_mm=-step.deeper_mm, longer_mm=-step.longer_mm)


def _notch_out(step: AddNotch, before: Pattern, after: Pattern) -> Kind:
    del before, after
    return RemoveNotch(piece=step.piece, notch=step.name, side=step.side, partner=step.partner)


WAYS: dict[type[Kind], Way] = {
    TakeIn: _seam_back,
    ShiftSeam: _seam_back,
    ReshapeEdge: _edge_back,
    RaiseEdge: _other("to", Height),
    MoveCorner: _negative("along_mm", "across_mm"),
    ShoulderSlope: _other("to", Slope),
    ShoulderLength: _other("to", Length),
    WidthAcross: _other("to", Width),
    ChangeNeckline: _other("to", Neck),
    TaperOrWiden: _other("to", Taper),
    Lengthen: _cut_back("by_mm"),
    SlashAndSpread: _opened_back,
    FoldOut: _opened_back,
    SlashAcross: _cut_back("first_mm", "last_mm"),
    BustVolume: _negative("by_mm"),
    ChangeDart: _dart_back,
    MoveDart: _dart_moved_back,
    MoveNotch: _negative("by_mm"),
    AddNotch: _notch_out,
}


def way_back(step: Kind, before: Pattern, after: Pattern) -> Kind | None:
    """Return the step that takes a step back; nothing where there is none."""
    way = WAYS.get(type(step))
    return way(step, before, after) if way else None
