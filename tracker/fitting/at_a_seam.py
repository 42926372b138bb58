"""Amounts read at a seam, turned into alterations of it."""

from tracker.alterations.kind import Kind, kind_named
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.errors import TrackerError
from tracker.fitting.by_cause import by_its_cause
from tracker.fitting.counting import Spot, read_for
from tracker.fitting.from_piece import one_kind
from tracker.fitting.garment import FittingError
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.reading import ON_ONE_LAYER, understand
from tracker.fitting.scene import Scene
from tracker.fitting.suggest import Suggestion, chosen, likely, said_so
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.seam import Seam

#: Signs of a seam that runs elsewhere than it should: it is shifted, not taken in.
_ELSEWHERE = (Sign.OFF_PLACE, Sign.SWINGING)
#: Signs of length: along the seam, and not across it.
_LENGTH = (Sign.TOO_LONG, Sign.TOO_SHORT)
#: Causes answered by the slope of the shoulder, the underarm going with it.
_SLOPES = ("sloping shoulders", "square shoulders", "one shoulder lower")

Places = tuple[tuple[str, float], ...]


def at_the_seam(
    pattern: Pattern, note: Observation, nothing_at: Places
) -> tuple[tuple[Kind, ...], str]:
    """Return what a note's readings at its seam come to.

    Where it runs elsewhere than it should, the seam is shifted; where it is too long or too
    short, the likely cause that fits is answered; where the words tell of the shoulder's slope,
    the underarm goes along; otherwise it is taken in or let out.

    Raises:
        TrackerError: the readings cannot be taken so.
    """
    assert note.seam is not None
    seam = pattern.seam(note.seam, note.side)
    marked = next((r for r in note.readings if r.piece), None)
    if note.sign in _ELSEWHERE and marked is not None and seam.side is not BodySide.CENTRE:
        return _shifted(note, marked.piece or "", nothing_at)
    if note.sign in _LENGTH and not nothing_at:
        try:
            return by_its_cause(pattern, note, f"at the {seam.name} seam")
        except TrackerError as fault:
            raise FittingError(
                f"seen as “{note.sign}” at the {seam.name} seam, and none of its likely causes is "
                "answered by what was read there: say where the fold or slash runs (--piece front "
                "--pinned “1cm at 10cm below the waist line”), the edge that is wrong (--edge "
                "hem), or the cause with --as"
            ) from fault
    sloped = _slope(pattern, note, seam, nothing_at)
    if sloped is not None:
        made = chosen(pattern, note, sloped.cause)
        return made.kinds, f"{sloped.cause.name}; {made.echo}"
    return _taken_in(pattern, note, seam, nothing_at)


def _taken_in(
    pattern: Pattern, note: Observation, seam: Seam, nothing_at: Places
) -> tuple[tuple[Kind, ...], str]:
    understood = understand(pattern, seam, note.side, note.readings)
    runs_out = tuple(nothing_at) or _where_it_turns(pattern, note, seam)
    amounts = [AmountAt(corner=c, distance_mm=d, amount_mm=a) for c, d, a in understood.amounts] + [
        AmountAt(corner=c, distance_mm=d, amount_mm=0.0) for c, d in runs_out
    ]
    kind = TakeIn(seam=seam.name, side=note.side, share=understood.share, amounts=tuple(amounts))
    echo = understood.sentence
    if len(amounts) == 1:
        echo += "; one place alone holds all along, --nothing-at PLACE ends it"
    return (kind,), echo


def _where_it_turns(pattern: Pattern, note: Observation, seam: Seam) -> Places:
    """Where a centre seam turns under, at the inside leg, it stays unless it was read there.

    Square to the seam is there up and down, and the crotch would be raised or lowered.
    """
    run = seam.first[-1]
    edge = pattern.edge_of(run)
    if run.edge != "crotch" or seam.side is not BodySide.CENTRE:
        return ()
    end = edge.start if edge.end.startswith("centre") else edge.end
    read = any(r.corner == end for r in note.readings)
    return () if read else ((end, 0.0),)


def _slope(
    pattern: Pattern, note: Observation, seam: Seam, nothing_at: Places
) -> Suggestion | None:
    """The slope of the shoulder, where the words tell of it and it runs to nothing at the neck."""
    if seam.name != "shoulder" or one_kind(note.readings) in ON_ONE_LAYER:
        return None
    amounts = [r for r in note.readings if r.value_mm]
    zeros = {r.corner for r in note.readings if not r.value_mm} | {c for c, _ in nothing_at}
    at_its_end = all(r.corner == "shoulder point" and not r.distance_mm for r in amounts)
    if len(amounts) != 1 or not at_its_end or zeros != {"neck point"}:
        return None
    first = next((s for s in likely(pattern, note) if s.remedy is not None), None)
    if first is None or first.cause.name not in _SLOPES or not said_so(first.row, note):
        return None
    try:
        chosen(pattern, note, first.cause)
    except TrackerError:
        return None
    return first


def _shifted(note: Observation, towards: str, nothing_at: Places) -> tuple[tuple[Kind, ...], str]:
    """A seam that runs elsewhere than it should goes to where it was chalked."""
    kind = one_kind(note.readings)
    places = [(r.corner, r.distance_mm, r.value_mm) for r in note.readings]
    places += [(corner, distance, 0.0) for corner, distance in nothing_at]
    given = {
        "seam": note.seam, "towards": towards, "side": Scene(Pattern(()), note).side,
        "amounts": [{"corner": c, "distance_mm": d, "amount_mm": a} for c, d, a in places],
    }  # fmt: skip
    largest = max((a for _, _, a in places), key=abs)
    echo = read_for("shift a seam", kind, largest, Spot.PAIR).echo
    return (kind_named("shift a seam").from_parameters(given),), echo


__all__ = ["at_the_seam"]
