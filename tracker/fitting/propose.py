"""From a note to an alteration: readings turned into amounts, and the effect foretold."""

from collections.abc import Mapping
from dataclasses import dataclass

from tracker.alterations.effect import Effect
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.kinds.take_in_a_seam import AmountAt, TakeIn
from tracker.fitting.garment import FittingError, Garment, GarmentKind
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.reading import understand
from tracker.history.step import Step, Taken
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.pattern import Pattern
from tracker.pattern.place import Place
from tracker.pattern.walk import seam_distance


@dataclass(frozen=True)
class Proposal:
    """An alteration proposed for a note; nothing is changed until it is accepted.

    Attributes:
        kind: the alteration.
        echo: how the readings were understood.
        sentence: what would be done.
        effect: what it would change.
        pattern: the pattern it would give.
        before: the pattern it would be done to.
        taken: the step as it would be written down, with its trace.
    """

    kind: Kind
    echo: str
    sentence: str
    effect: Effect
    pattern: Pattern
    before: Pattern
    taken: Taken


def propose(
    pattern: Pattern,
    note: Observation,
    body_girths: Mapping[str, float] | None = None,
    to_nothing_at: tuple[tuple[str, float], ...] = (),
) -> Proposal:
    """Propose an alteration from a note's readings.

    Args:
        pattern: the version's pattern.
        note: a note at a seam, with readings.
        body_girths: for the limits of a refusal.
        to_nothing_at: (corner, distance in mm) places at which the change ends; without any,
            one reading holds all along the seam.

    Raises:
        FittingError: the note has no readings or is not at a seam.
        TrackerError: it cannot be done.
    """
    if note.seam is None or not note.readings:
        raise FittingError(
            f"note {note.number} has no amount at a seam to work from; name the alteration yourself"
        )
    seam = pattern.seam(note.seam, note.side)
    understood = understand(pattern, seam, note.side, note.readings)
    amounts = [AmountAt(corner=c, distance_mm=d, amount_mm=a) for c, d, a in understood.amounts] + [
        AmountAt(corner=c, distance_mm=d, amount_mm=0.0) for c, d in to_nothing_at
    ]
    kind = TakeIn(seam=note.seam, side=note.side, share=understood.share, amounts=tuple(amounts))
    return proposal(pattern, kind, understood.sentence, body_girths)


def proposal(
    pattern: Pattern, kind: Kind, echo: str = "", body_girths: Mapping[str, float] | None = None
) -> Proposal:
    """Foretell what an alteration would do, without doing it."""
    said = kind.sentence(pattern)
    step = Step.of(kind, pattern_digest(pattern), 0, ())
    applied = apply_step(kind, pattern, step.step_id, body_girths)
    taken = Taken(step, said, applied.effect, applied.trace)
    return Proposal(kind, echo, said, applied.effect, applied.pattern, pattern, taken)


def check_readings(pattern: Pattern, note: Observation) -> None:
    """Refuse a reading that lies off the end of its seam, before it is written down.

    Raises:
        TrackerError: the seam, a corner or a distance is not the pattern's.
    """
    if note.seam is None:
        assert note.piece is not None
        piece = pattern.piece(note.piece, note.side)
        if note.edge:
            piece.edge(note.edge)
        return
    seam = pattern.seam(note.seam, note.side)
    if any(not pattern.edge_of(run).parts for run in (*seam.first, *seam.second)):
        return
    for reading in note.readings:
        seam_distance(
            pattern,
            Place(
                seam=note.seam, side=note.side, corner=reading.corner,
                distance_mm=reading.distance_mm,
            ),
        )  # fmt: skip


#: What of an outlet must stay as a seam when the rest is let out.
LEAST_SEAM_MM = 6.0


class NoOutletLeft(FittingError):
    """Letting out more than the garment has allowance for."""


def check_outlet(kind: Kind, garment: Garment) -> None:
    """Refuse to let out a garment cut in its cloth by more than its allowance holds.

    A test garment is cut anew, so nothing limits it.

    Raises:
        NoOutletLeft: with the most that can be let out on each piece.
    """
    if garment.kind is GarmentKind.TEST_GARMENT or not isinstance(kind, TakeIn):
        return
    out = max((-a.amount_mm for a in kind.amounts), default=0.0)
    on_a_piece = out * max(kind.share, 1 - kind.share)
    most = max(garment.outlet_mm - LEAST_SEAM_MM, 0.0)
    if on_a_piece > most + 0.05:
        raise NoOutletLeft(
            f"the {kind.seam} seam would be let out {on_a_piece:.1f} mm on a piece, and "
            f"{most:.0f} mm is the most: the garment has {garment.outlet_mm:.0f} mm of allowance, "
            f"of which {LEAST_SEAM_MM:.0f} mm stays as the seam"
        )


_TIGHT = (Sign.TOO_TIGHT, Sign.STRAIN)
_LOOSE = (Sign.TOO_LOOSE, Sign.FOLDS_ALONG)


def against_the_sign(note: Observation, kind: Kind) -> str | None:
    """Say where an alteration goes the other way than what was seen asks for."""
    amount = kind.amount_mm or 0.0
    if note.sign in _TIGHT and amount > 0:
        return (
            f"note {note.number} says {note.sign}, and this takes the {note.seam} seam in; a gap, "
            "or a minus before the amount, lets it out"
        )
    if note.sign in _LOOSE and amount < 0:
        return (
            f"note {note.number} says {note.sign}, and this lets the {note.seam} seam out; a "
            "pinned fold takes it in"
        )
    return None
