"""What the kinds that alter a set-in sleeve share: which sleeves are meant, each once."""

from collections.abc import Callable

from tracker.alterations.bodyside import Split
from tracker.alterations.cap import Cap
from tracker.alterations.set_in import SLEEVE, SetIn, armhole_seams, set_in
from tracker.alterations.sleeve_moved import Moved
from tracker.alterations.told import ONE_SIDE, mm, parted
from tracker.drafting.sleeve_pattern import ELBOW_LINE
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Fate, Trace

#: How far above the elbow a sleeve is lengthened or shortened; common practice, no source.
_ABOVE_ELBOW_MM = 60.0


def undrawn(pattern: Pattern, side: BodySide) -> bool:
    """Tell whether the sleeve meant has no outline, so that it is altered on the paper.

    Raises:
        NoSleeve: there is no sleeve.
    """
    sewn = list(armhole_seams(pattern, side))
    runs = [r for s in sewn for r in s.second]
    if runs:
        return any(not pattern.edge_of(r).parts for r in (*runs, *(x for s in sewn
                                                                   for x in s.first)))  # fmt: skip
    if any(SLEEVE in p.name and not p.has_outline for p in pattern.pieces):
        return True
    set_in(pattern, side)
    return False


def parted_sleeves(pattern: Pattern, side: BodySide) -> Split:
    """Split the sleeves where only the wearer's right or left is meant."""
    return parted(pattern, {s.piece.name for s in set_in(pattern, side)}, side)


def sleeves_meant(pattern: Pattern, side: BodySide) -> tuple[SetIn, ...]:
    """Return each sleeve meant once, though it may be sewn into two armholes."""
    found: dict[object, SetIn] = {}
    for sleeve in set_in(pattern, side):
        if side in ONE_SIDE and sleeve.cap.side not in (side, BodySide.BOTH):
            continue
        found.setdefault((sleeve.piece.key, sleeve.cap.key), sleeve)
    return tuple(found.values())


def each_moved(
    pattern: Pattern, side: BodySide, moved: Callable[[Pattern, SetIn], Moved]
) -> tuple[Pattern, Trace]:
    """Draw each sleeve meant again; the trace of all of it, the splitting included."""
    split = parted_sleeves(pattern, side)
    pattern, trace = split.pattern, split.trace
    fates: list[Fate] = []
    for sleeve in sleeves_meant(pattern, side):
        done = moved(pattern, sleeve)
        pattern = pattern.with_pieces(done.piece)
        fates += done.fates
    return pattern, trace.then(Trace(tuple(fates)))


def who(side: BodySide) -> str:
    """Begin a sentence: "Sleeves", or "Right sleeve only:"."""
    return f"{side.capitalize()} sleeve only:" if side in ONE_SIDE else "Sleeves"


def cap_told(before: Pattern, after: Pattern, side: BodySide) -> tuple[list[str], list[str]]:
    """Say how the caps changed, and what that leaves to be done to the sleeve's length."""
    notes, leaves = [], []
    split = parted_sleeves(before, side).pattern
    for old, new in zip(sleeves_meant(split, side), sleeves_meant(after, side), strict=True):
        if old.cap == new.cap:
            continue
        was, now = Cap(old.cap.drawn[0]), Cap(new.cap.drawn[0])
        label = new.piece.label
        longer = now.line.length - was.line.length
        length = f"{mm(abs(longer))} {'longer' if longer > 0 else 'shorter'}"
        by = now.height_mm - was.height_mm
        told = (
            f"{label}: {mm(abs(now.width_mm - was.width_mm))} "
            f"{'wider' if now.width_mm > was.width_mm else 'narrower'} at the underarm"
            if abs(now.width_mm - was.width_mm) >= 0.05
            else f"{label}: as wide as it was at the underarm"
        )
        height = f"{mm(abs(by))} {'higher' if by > 0 else 'lower'}, {now.height_mm:.0f} mm high now"
        told += f"; cap {height if abs(by) >= 0.05 else 'as high as it was'}, "
        told += length if abs(longer) >= 0.05 else "as long as it was"
        notes.append(told)
        if abs(by) >= 0.5:
            line = next((v.name for v in new.piece.levels if v.name == ELBOW_LINE), None)
            way = "shorter" if by < 0 else "longer"
            how = (
                f"; to keep its length, {'lengthen' if by < 0 else 'shorten'} it by "
                f"{abs(by):.1f} mm, {_ABOVE_ELBOW_MM:.0f} mm above the {line}"
                if line
                else ""
            )
            leaves.append(
                f"the {label} is {abs(by):.1f} mm {way} from the shoulder point to the wrist, its "
                f"underarm seam as it was{how}"
            )
    return notes, leaves


__all__ = ["cap_told", "each_moved", "parted_sleeves", "sleeves_meant", "undrawn", "who"]
