"""What each kind of alteration leaves the same: a row for each, after the design's table."""

import itertools
from collections.abc import Callable

import pytest

from tracker.alterations.kind import Kind
from tracker.alterations.kinds.change_the_upper_arm import CapKept
from tracker.alterations.kinds.raise_the_cap import Kept
from tracker.pattern.measure import around, corner_angle, girth, lines_of
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.walk import side_lengths, stations

Same = Callable[[Pattern, Pattern, Kind], None]
#: Both body sides alike: one side is held by each kind's own tests.
BOTH = "both"


def lengths(before: Pattern, after: Pattern, *edges: str, within: float = 0.05) -> None:
    """Edges of these names are as long as they were, on every piece that has them."""
    for piece in before.pieces:
        for edge in piece.edges:
            if edge.name in edges:
                now = after.piece(*piece.key).edge(*edge.key).length
                assert now == pytest.approx(edge.length, abs=within), (piece.label, edge.name)


def others(before: Pattern, after: Pattern, piece: str) -> None:
    """Every other piece has the very same edges."""
    for one in before.pieces:
        if one.name != piece:
            assert after.piece(*one.key).edges == one.edges, one.label


def girths(before: Pattern, after: Pattern, *but: str, within: float = 0.05) -> None:
    for line in set(lines_of(before)) - set(but):
        assert girth(after, line) == pytest.approx(girth(before, line), abs=within), line


def differences(before: Pattern, after: Pattern, *seams: str, within: float = 0.05) -> None:
    """The two sides of a seam are as different in length as they were."""
    for seam in before.seams:
        if (seam.name in seams or not seams) and not seam.on_itself:
            was, now = side_lengths(before, seam), side_lengths(after, after.seam(seam.name))
            assert now[1] - now[0] == pytest.approx(was[1] - was[0], abs=within), seam.name


def corners(before: Pattern, after: Pattern, *names: str) -> None:
    for piece in before.pieces:
        for corner in set(names) & set(piece.corners):
            assert after.piece(*piece.key).corner(corner) == piece.corner(corner), corner


def both_darts(before: Pattern, after: Pattern, step: Kind) -> tuple[object, object]:
    return tuple(p.piece(step.piece).dart(step.dart) for p in (before, after))


# -- a row for each kind ----------------------------------------------------------------------


def shifted(before: Pattern, after: Pattern, step: Kind) -> None:
    if step.seam == "armhole":
        return  # what it is shifted to is the sleeve, which no line goes on over
    # The crotch line leans a little; lines to the armhole end on an armhole drawn again.
    girths(before, after, "crotch line", "across front", "across back")
    if step.seam == "shoulder":
        assert around(after, "armhole") == pytest.approx(around(before, "armhole"), abs=0.05)


def lengthened(before: Pattern, after: Pattern, step: Kind) -> None:
    girths(before, after, "across front", "across back", within=0.25 * abs(step.by_mm))
    if step.above_mm < 60 and step.line in ("bust line", "waist line", "hip line"):
        lengths(before, after, "neckline", "shoulder")


def dart_moved(before: Pattern, after: Pattern, step: Kind) -> None:
    was, now = both_darts(before, after, step)
    assert now.intake_mm == pytest.approx(was.intake_mm, abs=0.01)
    assert now.leg_lengths[0] == pytest.approx(now.leg_lengths[1], abs=0.01)
    if was.mouth:
        assert now.angle_rad == pytest.approx(was.angle_rad, abs=1e-4)
        lengths(before, after, was.mouth, within=0.5)
    others(before, after, step.piece)


def dart_turned(before: Pattern, after: Pattern, step: Kind) -> None:
    lost = before.piece(step.piece).dart(step.dart)
    angles = [sum(d.angle_rad for d in p.piece(step.piece).darts) for p in (before, after)]
    assert angles[0] == pytest.approx(angles[1], abs=1e-6)
    known = {e.name for e in before.piece(step.piece).edges} - {lost.mouth}
    lengths(before, after, *known, within=1e-4)
    others(before, after, step.piece)


def gap_closed(before: Pattern, after: Pattern, step: Kind) -> None:
    front = before.piece(step.piece)
    known = {e.name for e in front.edges} - {step.edge, front.dart(step.dart).mouth}
    lengths(before, after, *known)
    if front.dart(step.dart).mouth != step.edge:
        lengths(before, after, front.dart(step.dart).mouth, within=0.1)
    others(before, after, step.piece)


def dart_added(before: Pattern, after: Pattern, step: Kind) -> None:
    new = after.piece(step.piece).dart(step.name)
    assert new.leg_lengths[0] == pytest.approx(new.leg_lengths[1], abs=0.01)
    known = {e.name for e in before.piece(step.piece).edges} - {step.edge}
    lengths(before, after, *known, within=1e-4)
    if not new.double_pointed:
        was, now = (p.piece(step.piece).edge(step.edge).length for p in (before, after))
        assert was - now == pytest.approx(step.width_mm, abs=0.35 + 0.1 * step.width_mm)
    others(before, after, step.piece)


def dart_changed(before: Pattern, after: Pattern, step: Kind) -> None:
    was, now = both_darts(before, after, step)
    assert now.leg_lengths[0] == pytest.approx(now.leg_lengths[1], abs=0.01)
    known = {e.name for e in before.piece(step.piece).edges} - {was.mouth}
    shared = {d.mouth for d in before.piece(step.piece).darts if abs(d.pivot - was.pivot) < 0.01}
    lengths(before, after, *(known - shared), within=1e-4)
    others(before, after, step.piece)


def dart_removed(before: Pattern, after: Pattern, step: Kind) -> None:
    if not step.seam:
        known = {e.name for e in before.piece(step.piece).edges}
        known -= {before.piece(step.piece).dart(step.dart).mouth}
        lengths(before, after, *known, within=1e-4)
        others(before, after, step.piece)


def slashed(before: Pattern, after: Pattern, step: Kind) -> None:
    straightened = step.centre != "refuse" and before.piece(step.piece).fold
    if not straightened:
        lengths(before, after, step.hinge_edge, within=0.3)
    cut = {step.mouth_edge, step.hinge_edge}
    crossed = {d.mouth for d in before.piece(step.piece).darts}
    if not straightened:
        rest = {e.name for e in before.piece(step.piece).edges} - cut - crossed
        lengths(before, after, *rest, within=1e-4)
    others(before, after, step.piece)


def slashed_across(before: Pattern, after: Pattern, step: Kind) -> None:
    for piece in before.pieces:
        if piece.name not in step.pieces:
            assert after.piece(*piece.key).edges == piece.edges, piece.label
    # The seam the cut goes on over, from each piece to the next, matches as it did.
    straight = step.centre == "straighten the fold"
    within = 0.5 + (0.3 * abs(step.amount_mm) if straight else 0.0)
    for pair in itertools.pairwise(step.pieces):
        off = []
        for seam in before.seams:
            if {r.piece for r in (*seam.first, *seam.second)} >= set(pair) and not seam.on_itself:
                was, now = side_lengths(before, seam), side_lengths(after, after.seam(seam.name))
                off.append(abs((now[1] - now[0]) - (was[1] - was[0])))
        assert min(off) < within, pair


def sloped(before: Pattern, after: Pattern, step: Kind) -> None:
    corners(before, after, "neck point", "centre front neck", "centre back neck")
    # Panelled, one piece gives the other of the shoulder what the seam swings over it.
    assert around(after, "shoulder") == pytest.approx(around(before, "shoulder"), abs=0.1)
    girths(before, after, "across front", "across back")
    if step.underarm and all("side" not in p.name for p in before.pieces):
        assert around(after, "armhole") == pytest.approx(around(before, "armhole"), abs=0.1)


def shoulder_lengthened(before: Pattern, after: Pattern, step: Kind) -> None:
    corners(before, after, "neck point", "underarm point")
    lengths(before, after, "neckline", "side", "waist", within=1e-4)
    differences(before, after, "shoulder")


def width_changed(before: Pattern, after: Pattern, step: Kind) -> None:
    girths(before, after, step.line)
    lengths(before, after, "side", "waist", "neckline")
    corners(before, after, "neck point", "underarm point")
    if not step.shoulder:
        corners(before, after, "shoulder point")
        lengths(before, after, "shoulder")


def bust_changed(before: Pattern, after: Pattern, step: Kind) -> None:
    lengths(before, after, "shoulder", "neckline", within=1e-4)
    lengths(before, after, "armhole", "side", within=0.1)
    differences(before, after, "side", "shoulder", within=0.1)
    others(before, after, step.piece)


def neck_changed(before: Pattern, after: Pattern, step: Kind) -> None:
    girths(before, after, "across front", "across back")
    lengths(before, after, "armhole", "side", "waist", within=1e-4)
    differences(before, after, "shoulder", within=0.15)


def arm_changed(before: Pattern, after: Pattern, step: Kind) -> None:
    girths(before, after, "upper arm line", *(["elbow line"] if step.nothing_mm else []))
    differences(before, after, "underarm", within=0.3)
    if step.keep == CapKept.LENGTH:
        lengths(before, after, "cap", within=1e-3)
        differences(before, after, "armhole", within=1e-3)
    lengths(before, after, "armhole", within=0.0)


def cap_raised(before: Pattern, after: Pattern, step: Kind) -> None:
    if step.keep == Kept.WIDTH:
        girths(before, after)
        lengths(before, after, "front underarm", "back underarm", within=1e-4)
    else:
        lengths(before, after, "cap", within=1e-3)
        differences(before, after, "underarm", within=0.3)
    lengths(before, after, "armhole", within=0.0)


def sleeve_turned(before: Pattern, after: Pattern, step: Kind) -> None:
    del step
    for piece in before.pieces:
        assert after.piece(*piece.key).edges == piece.edges
    ease = [after.seam("armhole").planned_ease_mm, before.seam("armhole").planned_ease_mm]
    assert ease[0] == pytest.approx(ease[1], abs=1e-4)


def cap_fitted(before: Pattern, after: Pattern, step: Kind) -> None:
    lengths(before, after, "armhole", "shoulder", "neckline", within=1e-4)
    differences(before, after, "underarm", within=0.3)
    del step


def armhole_lowered(before: Pattern, after: Pattern, step: Kind) -> None:
    del step
    corners(before, after, "shoulder point", "neck point")
    lengths(before, after, "shoulder", "neckline", "waist", within=1e-4)
    differences(before, after, "side", within=0.1)
    girths(before, after, "bust line", "upper arm line", "across front", "across back")


def tapered(before: Pattern, after: Pattern, step: Kind) -> None:
    # Both sides of the seam alike; over the bust their curves differ, and so do their lengths.
    differences(before, after, *(s.seam for s in step.seams), within=0.08 * step.by_mm + 0.1)


def edge_raised(before: Pattern, after: Pattern, step: Kind) -> None:
    """All but the edge and what ends on it."""
    for piece in before.pieces:
        near: set[str] = set()
        for edge in piece.edges:
            if edge.name == step.edge:
                near |= {edge.name, piece.before(edge).name, piece.after(edge).name}
        for edge in piece.edges:
            if edge.name not in near:
                now = after.piece(*piece.key).edge(*edge.key)
                assert now.parts == edge.parts, (piece.label, edge.name)


def reshaped(before: Pattern, after: Pattern, step: Kind) -> None:
    others(before, after, step.piece)
    piece = before.piece(step.piece)
    edge = piece.edge(step.edge)
    near = {edge.name, piece.before(edge).name, piece.after(edge).name}
    lengths(before, after, *({e.name for e in piece.edges} - near), within=1e-4)


def corner_moved(before: Pattern, after: Pattern, step: Kind) -> None:
    others(before, after, step.piece)
    piece = before.piece(step.piece)
    touched = {e.name for e in piece.edges if step.corner in (e.start, e.end)}
    lengths(before, after, *({e.name for e in piece.edges} - touched), within=1e-4)


def taken_in(before: Pattern, after: Pattern, step: Kind) -> None:
    seam = before.seam(step.seam)
    touched = {r.piece for r in (*seam.first, *seam.second)}
    for piece in before.pieces:
        if piece.name not in touched:
            assert after.piece(*piece.key).edges == piece.edges
            continue
        runs = {r.edge for r in (*seam.first, *seam.second) if r.piece == piece.name}
        near = runs | {
            e.name for r in runs for e in (piece.before(piece.edge(r)), piece.after(piece.edge(r)))
        }
        for edge in piece.edges:
            if edge.name not in near:
                assert after.piece(*piece.key).edge(*edge.key).parts == edge.parts, edge.name


def joined_true(before: Pattern, after: Pattern, step: Kind) -> None:
    """The seam itself, and whatever does not cross it at that corner."""
    lengths(before, after, step.seam, within=0.01)
    for piece in before.pieces:
        for edge in piece.edges:
            if step.corner not in (edge.start, edge.end):
                now = after.piece(*piece.key).edge(*edge.key)
                assert now.parts == edge.parts, (piece.label, edge.name)


def crotch_changed(before: Pattern, after: Pattern, step: Kind) -> None:
    differences(before, after, "inside leg", "side", within=0.1)
    lengths(before, after, "side", "hem", within=0.05)
    smooth_through(before, after)


def crotch_deepened(before: Pattern, after: Pattern, step: Kind) -> None:
    del step
    differences(before, after, "inside leg", "side", within=0.2)
    lengths(before, after, "waist", "hem", "inside leg", within=0.3)
    smooth_through(before, after)


def crotch_scooped(before: Pattern, after: Pattern, step: Kind) -> None:
    others(before, after, step.piece)
    lengths(before, after, "side", "hem", "inside leg", "waist", within=0.05)
    smooth_through(before, after)


def inside_leg_moved(before: Pattern, after: Pattern, step: Kind) -> None:
    del step
    differences(before, after, "inside leg", "side", within=0.1)
    lengths(before, after, "side", "waist", "hem", within=1e-4)
    smooth_through(before, after)


def smooth_through(before: Pattern, after: Pattern) -> None:
    """At the inside-leg point the crotch runs on from front to back as it did."""

    def bend(pattern: Pattern) -> float:
        return sum(_crotch_angle(p) for p in pattern.pieces)

    assert bend(after) == pytest.approx(bend(before), abs=1.0)


def _crotch_angle(piece: Piece) -> float:
    crotch = piece.edge("crotch")
    return corner_angle(piece, crotch, at_end=crotch.end == "inside-leg point")


def leg_shaped(before: Pattern, after: Pattern, step: Kind) -> None:
    del step
    girths(before, after, "knee line", "hem")
    lengths(before, after, "waist", "crotch", within=1e-4)
    differences(before, after, "inside leg", "side", within=1.0)


def leg_swung(before: Pattern, after: Pattern, step: Kind) -> None:
    girths(before, after, "knee line", "hem")
    girths(before, after, "hem", within=4.0)  # the cut is near the knee line, which leans a little
    lengths(before, after, "waist", "crotch")
    # Trued level again, the hem runs a little aslant to the legs: by the cosine of the swing.
    lengths(before, after, "hem", within=0.03 * step.by_mm)
    differences(before, after, "inside leg", "side", within=0.5)


def notched(before: Pattern, after: Pattern, step: Kind) -> None:
    for piece in before.pieces:
        assert after.piece(*piece.key).edges == piece.edges
    if step.partner:
        for seam in after.seams:
            if not seam.on_itself and not seam.ease:
                was = set(before.seam(seam.name).matches)
                fresh = [m for m in seam.matches if m not in was]
                pairs = stations(after, seam)
                old = max(abs(a - b) for a, b in stations(before, before.seam(seam.name)))
                assert not fresh or max(abs(a - b) for a, b in pairs) <= old + 0.1


def undrawn(before: Pattern, after: Pattern, step: Kind) -> None:
    """Grain, layer, cut instruction: no line moves."""
    del step
    for piece in before.pieces:
        assert after.piece(*piece.key).edges == piece.edges
        assert after.piece(*piece.key).darts == piece.darts


SAME: dict[str, Same] = {
    "take in a seam": taken_in, "shift a seam": shifted, "lengthen or shorten": lengthened,
    "slash and spread": slashed, "fold out": slashed, "slash across the pieces": slashed_across,
    "add a dart": dart_added, "change a dart": dart_changed, "move a dart": dart_moved,
    "turn a dart": dart_turned, "remove a dart": dart_removed,
    "close a gap into a dart": gap_closed, "reshape an edge": reshaped,
    "raise or lower an edge": edge_raised, "level an edge": edge_raised,
    "move a corner": corner_moved, "change the shoulder slope": sloped,
    "change the shoulder length": shoulder_lengthened, "change the width across": width_changed,
    "more or less bust volume": bust_changed, "change the upper arm": arm_changed,
    "raise or lower the cap": cap_raised, "turn the sleeve": sleeve_turned,
    "fit the cap to the armhole": cap_fitted, "raise or lower the armhole": armhole_lowered,
    "change the crotch length": crotch_changed, "change the crotch depth": crotch_deepened,
    "scoop or fill the crotch": crotch_scooped, "move the inside-leg point": inside_leg_moved,
    "shape the leg": leg_shaped, "swing the leg": leg_swung, "taper or widen": tapered,
    "change the neckline": neck_changed, "true a join": joined_true, "add a notch": notched,
    "move a notch": notched, "remove a notch": notched, "set the grain": undrawn,
    "set the layer": undrawn, "set the cut instruction": undrawn,
    "set the allowance": undrawn,
}  # fmt: skip
