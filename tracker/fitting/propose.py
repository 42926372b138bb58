"""From a note to an alteration: readings turned into amounts, and the effect foretold."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from tracker.alterations.cap_match import caps_left_to_do
from tracker.alterations.effect import Effect
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.alterations.lower_edges import edges_called
from tracker.alterations.out_of_date import told_out_of_date
from tracker.alterations.shaping import spot
from tracker.alterations.told import applied
from tracker.errors import TrackerError
from tracker.fitting.all_round import levelled, reshaped, turned_up
from tracker.fitting.at_a_dart import dart_at_the_waist, dart_changed
from tracker.fitting.at_a_line import at_the_line
from tracker.fitting.at_a_seam import at_the_seam
from tracker.fitting.by_cause import by_its_cause
from tracker.fitting.from_piece import (
    across_piece,
    as_seam_note,
    one_kind,
    places_of,
    seam_of_edge,
)
from tracker.fitting.garment import FittingError
from tracker.fitting.looking import LENGTHWAYS
from tracker.fitting.observation import Observation, Sign
from tracker.fitting.placing import at_a_dart, at_a_line, placed_on, spots_on
from tracker.fitting.reading import ON_ONE_LAYER, Reading, ReadingKind
from tracker.fitting.scene import part_of
from tracker.fitting.sharing import shared_out
from tracker.fitting.suggest import cause_named, chosen, likely, said_so
from tracker.history.step import Step, Taken
from tracker.pattern.canonical import pattern_digest
from tracker.pattern.edge import Edge
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.place import Place
from tracker.pattern.trace import Trace
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


@dataclass(frozen=True)
class Answer:
    """What a fitter decided a note's cause is, and how much.

    Attributes:
        cause: its name, or its number in the list of likely ones.
        by_mm: the amount asked for; without it the note's readings are counted.
    """

    cause: str
    by_mm: float | None = None


#: Signs of width; at a hem or a wrist they ask for no other height.
_WIDTH = (Sign.TOO_LOOSE, Sign.TOO_TIGHT, Sign.STRAIN)
#: Signs of a fold, or of a want of length, over a piece and not at an edge of it.
_ACROSS = (Sign.FOLDS_ACROSS, Sign.DRAG_LINES, Sign.RIDING_UP, Sign.TOO_LONG, Sign.TOO_SHORT)


class NoAmount(FittingError):
    """A note that says what is seen and not how much."""


def answers(
    pattern: Pattern,
    note: Observation,
    body_girths: Mapping[str, float] | None = None,
    to_nothing_at: tuple[tuple[str, float], ...] = (),
    answer: Answer | None = None,
    shared_with: tuple[str, ...] = (),
) -> tuple[Proposal, ...]:
    """Propose what a note asks for, from its readings or from a cause that was decided on.

    Args:
        pattern: the version's pattern.
        note: the note.
        body_girths: for the limits of a refusal.
        to_nothing_at: (corner, distance in mm) places at which the change ends; without any,
            one reading holds all along a seam.
        answer: the cause decided on; without it the readings themselves are followed.
        shared_with: other seams that a tape difference is shared out over.

    Returns:
        One proposal or several, in order: each is made for the pattern the one before leaves.

    Raises:
        NoAmount: the note has no readings and no cause was decided on.
        TrackerError: it cannot be done.
    """
    note, to_nothing_at = placed_on(pattern, note), spots_on(pattern, note, to_nothing_at)
    if shared_with:
        kinds, echo = shared_out(pattern, note, shared_with)
    else:
        kinds, echo = _decided(pattern, note, to_nothing_at, answer)
    told: list[Proposal] = []
    drawn = pattern
    for kind in kinds:
        told.append(proposal(drawn, kind, "" if told else echo, body_girths))
        drawn = told[-1].pattern
    return tuple(told) if len(told) == 1 else _taken_together(pattern, told)


def _taken_together(pattern: Pattern, told: list[Proposal]) -> tuple[Proposal, ...]:
    """Leave to be done what all the steps of one answer leave: the later ones mend the earlier."""
    *earlier, last = told
    start = earlier[-1].pattern
    between = set(_left_between(start, last.pattern))
    own = [left for left in last.effect.leaves if left not in between]
    left = (*own, *_left_between(pattern, last.pattern))
    mended = [replace(one, effect=replace(one.effect, leaves=())) for one in earlier]
    return (*mended, replace(last, effect=replace(last.effect, leaves=left)))


def _left_between(before: Pattern, after: Pattern) -> tuple[str, ...]:
    """What is left to do when one pattern becomes another, whatever the steps."""
    return (
        *applied(before, after, Trace()).effect.leaves,
        *caps_left_to_do(before, after),
        *told_out_of_date(before, after),
    )


def propose(
    pattern: Pattern,
    note: Observation,
    body_girths: Mapping[str, float] | None = None,
    to_nothing_at: tuple[tuple[str, float], ...] = (),
) -> Proposal:
    """Propose a single alteration from a note's readings; see ``answers``.

    Raises:
        NoAmount: the note has no readings.
        TrackerError: it cannot be done.
    """
    return answers(pattern, note, body_girths, to_nothing_at)[0]


def proposal(
    pattern: Pattern, kind: Kind, echo: str = "", body_girths: Mapping[str, float] | None = None
) -> Proposal:
    """Foretell what an alteration would do, without doing it."""
    said = kind.sentence(pattern)
    step = Step.of(kind, pattern_digest(pattern), 0, ())
    applied = apply_step(kind, pattern, step.step_id, body_girths)
    taken = Taken(step, said, applied.effect, applied.trace)
    return Proposal(kind, echo, said, applied.effect, applied.pattern, pattern, taken)


def has_amount(note: Observation) -> bool:
    """Tell whether a note has a reading that is not nothing."""
    return any(r.value_mm for r in note.readings)


def _decided(
    pattern: Pattern,
    note: Observation,
    nothing_at: tuple[tuple[str, float], ...],
    answer: Answer | None,
) -> tuple[tuple[Kind, ...], str]:
    if answer is not None:
        cause = cause_named(answer.cause, likely(pattern, note))
        made = chosen(pattern, note, cause, answer.by_mm)
        echo = f"{cause.name}; {made.echo}" if made.echo else cause.name
        return made.kinds, echo
    if not has_amount(note):
        raise NoAmount(
            f"note {note.number} has no amount to work from; name the alteration yourself, or the "
            "cause and the amount with --as and --by: tracker alter propose lists likely ones"
        )
    if note.seam is not None:
        return at_the_seam(pattern, note, nothing_at)
    return _at_the_piece(pattern, note, nothing_at)


def _at_the_piece(
    pattern: Pattern, note: Observation, nothing_at: tuple[tuple[str, float], ...]
) -> tuple[tuple[Kind, ...], str]:
    """What readings at a free edge, across a piece, at a line or at a dart come to."""
    read_as = one_kind(note.readings)
    if read_as is ReadingKind.FROM_FLOOR:
        kind, echo = levelled(pattern, note)
        return (kind,), echo
    largest = max(note.readings, key=lambda r: abs(r.value_mm))
    dart = at_a_dart(pattern, note, largest)
    if dart is not None:
        return dart_changed(pattern, note, *dart)
    line = at_a_line(pattern, largest)
    if line is not None:
        return at_the_line(pattern, note, line, largest)
    placed = places_of(pattern, note, nothing_at)
    if not placed:
        return by_its_cause(pattern, note, f"on the {note.piece}")
    if _only_a_corner(pattern, note, placed):
        return by_its_cause(pattern, note, f"at the {largest.corner}")
    inside = note.edge is None and note.sign in _ACROSS
    piece, edge, _ = placed[0]
    on_sleeve = part_of(piece) == "sleeve" and len({e.name for _, e, _ in placed}) == 1
    if not on_sleeve and (inside or len({e.name for _, e, _ in placed}) > 1):
        return _across(pattern, note, placed)
    where = f"at the {edge.name} of the {piece.label}"
    one_layer = read_as in ON_ONE_LAYER
    long_or_short = note.sign in (Sign.TOO_LONG, Sign.TOO_SHORT)
    at_the_underarm = largest.corner == "underarm point" and not largest.distance_mm
    if (edge.name == "crotch" and (one_layer or long_or_short)) or (
        edge.name == "armhole" and (long_or_short or (one_layer and at_the_underarm))
    ):
        return by_its_cause(pattern, note, where)
    sewn = seam_of_edge(pattern, piece, edge)
    if sewn is not None and edge.name not in ("neckline", "armhole"):
        return at_the_seam(pattern, as_seam_note(note, sewn), nothing_at)
    if piece.fold == edge.name:
        return _at_the_fold(pattern, note, piece, edge)
    if one_layer:
        return reshaped(pattern, placed, note)
    lower = edge.name in ("hem", "hip") and note.sign not in _WIDTH
    if lower or (edge.name in ("waist", "wrist") and note.sign in LENGTHWAYS):
        if read_as is ReadingKind.PINNED_FOLD:
            return turned_up(pattern, placed, note)
        return reshaped(pattern, placed, note)
    if edge.name == "waist" and read_as is ReadingKind.PINNED_FOLD and note.piece is not None:
        return dart_at_the_waist(pattern, note, piece, edge)
    return by_its_cause(pattern, note, where)


def _across(
    pattern: Pattern, note: Observation, placed: Sequence[tuple[Piece, Edge, Reading]]
) -> tuple[tuple[Kind, ...], str]:
    """A fold across a piece as it was pinned; where a dart lies in its way, as its cause asks."""
    kinds, echo = across_piece(pattern, note, placed)
    try:
        apply_step(kinds[-1], pattern, "try")
    except TrackerError:
        first = next((s for s in likely(pattern, note) if s.remedy is not None), None)
        if len(kinds) != 1 or first is None or not said_so(first.row, note):
            return kinds, echo
        try:
            made = chosen(pattern, note, first.cause)
        except TrackerError:
            return kinds, echo
        return made.kinds, f"{first.cause.name}; {made.echo}"
    return kinds, echo


def _only_a_corner(
    pattern: Pattern, note: Observation, placed: Sequence[tuple[Piece, Edge, Reading]]
) -> bool:
    """Tell whether one amount at a corner is all: which of its two edges is meant is not said."""
    if len(placed) != 1 or note.edge is not None:
        return False
    piece, _, reading = placed[0]
    ends = [e for e in piece.edges if reading.corner in (e.start, e.end)]
    unsaid = reading.edge is None and not reading.distance_mm and len(ends) > 1
    return unsaid and bool(likely(pattern, note))


def _at_the_fold(
    pattern: Pattern, note: Observation, piece: Piece, edge: Edge
) -> tuple[tuple[Kind, ...], str]:
    """A centre on the fold stays straight: what gapes at its top is closed at the neckline."""
    largest = max(note.readings, key=lambda r: abs(r.value_mm))
    pinned = largest.kind in (ReadingKind.PINNED_FOLD, ReadingKind.TAPE_DIFFERENCE)
    if largest.corner.endswith("neck") and largest.value_mm > 0 and pinned:
        at_neck = replace(
            note, edge="neckline", sign=Sign.GAPING,
            readings=(replace(largest, distance_mm=0.0, edge=None),),
        )  # fmt: skip
        kinds, echo = by_its_cause(pattern, at_neck, f"at the neckline of the {piece.label}")
        return kinds, f"{echo}; the {edge.name} is on the fold and stays straight"
    raise FittingError(
        f"the {edge.name} of the {piece.label} is on the fold and stays straight: a line there is "
        "on both halves, so the garment changes by twice as much; take it out at the neckline "
        "(--edge neckline), at the side seam, or make it a seam first"
    )


def check_readings(pattern: Pattern, note: Observation) -> None:
    """Refuse a reading that lies off the end of its seam or edge, before it is written down.

    Raises:
        TrackerError: the seam, a corner or a distance is not the pattern's.
    """
    note = placed_on(pattern, note)
    if note.seam is None:
        if note.piece is not None:
            piece = pattern.piece(note.piece, note.side)
            if note.edge:
                piece.edge(note.edge)
        elif note.edge is not None:
            edges_called(pattern, note.edge, note.side)
        said = [
            r for r in note.readings
            if at_a_line(pattern, r) is None and at_a_dart(pattern, note, r) is None
        ]  # fmt: skip
        for lies_on, edge, reading in places_of(pattern, replace(note, readings=tuple(said))):
            if edge.parts:
                spot(lies_on, edge, reading.corner, reading.distance_mm)
        return
    _is_a_seam(pattern, note.seam)
    seam = pattern.seam(note.seam, note.side)
    if any(r.kind is ReadingKind.FROM_FLOOR for r in note.readings):
        raise FittingError(
            "a height from the floor is read at a hem or waist; name the edge with --edge, not a "
            "seam"
        )
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


def _is_a_seam(pattern: Pattern, name: str) -> None:
    """Say where to note what has no seam of that name: at a dart, or beside a joined panel."""
    if any(s.name == name for s in pattern.seams):
        return
    for piece in pattern.pieces:
        if any(d.name == name for d in piece.darts):
            raise FittingError(
                f"the {name} is a dart and no seam: note it at its piece, as in --piece "
                f"“{piece.name}” --pinned “4mm at {name}”"
            )
    having = next((p for p in pattern.pieces for e in p.edges if e.name == name), None)
    if having is not None:
        raise FittingError(
            f"the {name} is an edge here and no seam: note it with --edge “{name}”, all round or "
            f"with --piece “{having.name}” on that piece alone"
        )
    joined = next((p for p in pattern.pieces if part_of(p) == "side"), None)
    if name == "side" and joined is not None:
        panels = dict.fromkeys(
            s.name for e in joined.edges for s in pattern.seams_on(joined, e)
            if len(s.first) == len(s.second) == 1 and s.name != "shoulder"
        )  # fmt: skip
        raise FittingError(
            f"this pattern has no side seam, the {joined.name} is one piece there: note it at "
            f"the {' or the '.join(panels)} seam, or at --piece “{joined.name}”"
        )
