"""What is marked on two panels, marked on the one they are joined into."""

from dataclasses import dataclass, replace

from tracker.drafting.style_join_edges import Drawn
from tracker.drafting.style_join_turn import Laid, joined_stroke, length
from tracker.drafting.style_region import Region, strokes_by_region
from tracker.geometry.point import SAME_MM
from tracker.pattern.bodyside import BodySide
from tracker.pattern.dart import Dart
from tracker.pattern.marks import Level, Notch, Stroke
from tracker.pattern.piece import Piece
from tracker.pattern.walk import notch_on_edge

#: The notch that is left where the side seam was.
UNDERARM_NOTCH = "underarm notch"


@dataclass(frozen=True)
class Levels:
    """The joined material lines, and what the dart on the join takes of each.

    Attributes:
        levels: the lines.
        taken_mm: the dart's width at each line it crosses.
    """

    levels: tuple[Level, ...]
    taken_mm: dict[str, float]


def joined_levels(one: Laid, other: Laid, piece: Piece, dart: Dart | None) -> Levels:
    """Return both panels' material lines as one panel's, each one line where both have it."""
    out: dict[tuple[str, BodySide], Level] = {}
    for here, there in ((other, one), (one, other)):
        for level in here.piece.levels:
            if level.key in out:
                continue
            also = there.level(level.name)
            if also is None:
                out[level.key] = level
                continue
            left, right = (level, also) if here is other else (also, level)
            edges = tuple(dict.fromkeys((*left.edges, *right.edges)))
            out[level.key] = replace(
                level, edges=edges, strokes=_joined(left, right, one, other)
            )  # fmt: skip
    if dart is None:
        return Levels(tuple(out.values()), {})
    taken: dict[str, float] = {}
    fresh = []
    for level in out.values():
        strokes = _broken(level.strokes, piece, dart)
        taken[level.name] = length(level.strokes) - length(strokes)
        fresh.append(replace(level, strokes=strokes))
    return Levels(tuple(fresh), taken)


def _joined(left: Level, right: Level, one: Laid, other: Laid) -> tuple[Stroke, ...]:
    its, mine = other.to_join(left), one.to_join(right)
    if its is None or mine is None:
        return left.strokes + right.strokes
    rest = [s for s in left.strokes if s not in (its, its[::-1])]
    more = [s for s in right.strokes if s not in (mine, mine[::-1])]
    return (*rest, *joined_stroke(its, mine), *more)


def _broken(strokes: tuple[Stroke, ...], piece: Piece, dart: Dart) -> tuple[Stroke, ...]:
    """Strokes with what lies in the dart left out."""
    one, two = dart.legs
    inside = Region((one, two.reversed)) if dart.double_pointed else Region(
        (one, two, type(one).line(dart.mouth_end, dart.mouth_start))
    )  # fmt: skip
    whole = Region(piece.ring)
    return tuple(strokes_by_region(strokes, dart.legs, (inside, whole))[1])


def joined_notches(one: Laid, other: Laid, arm: Drawn, bottom: Drawn) -> tuple[Notch, ...]:
    """Return both panels' notches, those of the old side seam dropped, an underarm one added.

    Those of the armhole and of the waist are measured from the joined edge's two ends, so that
    what truing does at the join does not move them.
    """
    out: list[Notch] = []
    names: set[str] = set()
    for here in (one, other):
        for notch in here.piece.notches:
            if notch.edge == here.side.name:
                continue
            fresh = notch
            for old, drawn in ((here.armhole, arm), (here.bottom, bottom)):
                if notch.edge == old.name:
                    fresh = _again(notch, here, drawn)
            if fresh.name in names:
                fresh = replace(fresh, name=renamed(fresh.name, here))
            names.add(fresh.name)
            out.append(fresh)
    side = one.side.side
    out.append(Notch(UNDERARM_NOTCH, side, arm.edge.name, arm.edge.start, arm.split_mm))
    return tuple(out)


def renamed(name: str, here: Laid) -> str:
    """Return the name of a notch whose name the other panel has too: "side back waist notch"."""
    return f"{here.piece.name} {name}"


def _again(notch: Notch, here: Laid, drawn: Drawn) -> Notch:
    """A notch of an edge that is now one end of a longer one."""
    old = here.armhole if notch.edge == here.armhole.name else here.bottom
    at = notch_on_edge(old, notch)
    first = old.start == drawn.edge.start
    corner, distance = (drawn.edge.start, at) if first else (drawn.edge.end, old.length - at)
    room = drawn.split_mm if first else drawn.edge.length - drawn.split_mm
    return replace(
        notch,
        edge=drawn.edge.name,
        corner=corner,
        distance_mm=min(max(distance, 0.0), room - SAME_MM),
    )
