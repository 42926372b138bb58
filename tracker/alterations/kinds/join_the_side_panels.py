"""Join the side panels: no side seam, one piece from princess seam to princess seam."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar

from tracker.alterations import examples
from tracker.alterations.along_seams import AmountAt, seam_moved
from tracker.alterations.bodyside import Split, split_sides
from tracker.alterations.effect import effect_between
from tracker.alterations.kind import Applied, Example, Kind
from tracker.alterations.told import on_paper
from tracker.drafting.style_join import join_side_panels
from tracker.drafting.style_join_choice import DART_POINT_MM, AtLine, JoinPlan
from tracker.drafting.style_join_foot import true_foot
from tracker.drafting.style_join_report import JoinReport, joined_told
from tracker.drafting.style_join_turn import crossing_mm
from tracker.drafting.style_split import CannotPart
from tracker.errors import nearest_names
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import settled
from tracker.pattern.edge import Edge
from tracker.pattern.measure import girth
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import Piece
from tracker.pattern.seam import Seam
from tracker.pattern.trace import Trace
from tracker.pattern.walk import walked

#: A girth is met to this at the panel seams, millimetres round the body.
MET_MM = 0.01


@dataclass(frozen=True, kw_only=True)
class JoinSidePanels(Kind):
    """Join the side front and the side back panel into one without a side seam.

    Attributes:
        front: the front side panel.
        back: the back one.
        seam: the seam they are sewn in.
        name: what the joined piece is called.
        at: at which line what share of the gap goes into the dart and into the panel seams;
            where she does not say, the waist's goes into the dart, other gaps stay as width
            and overlaps are given back at the panel seams.
        dart_point_mm: how far below the underarm the dart's point lies.
        opening_in: the seam that carries the opening now; asked for if not told.
        side: both, or the wearer's right or left only.
    """

    word: ClassVar[str] = "join the side panels"
    #: Rule 3 keeps the ease planned beside the bust when the panel seams take the gap.
    rule: ClassVar[int] = 3
    family: ClassVar[str] = "style"
    help: ClassVar[str] = (
        "Join the side front and the side back panel into one piece without a side seam: they "
        "meet at the underarm with their grain lines parallel, and the gap at each line is left "
        "as width, taken by a plumb waist dart, or taken or given at the two panel seams."
    )

    front: str = "side front"
    back: str = "side back"
    seam: str = "side"
    name: str = "side panel"
    at: tuple[AtLine, ...] = ()
    dart_point_mm: float = DART_POINT_MM
    opening_in: str | None = None
    side: BodySide = BodySide.BOTH

    @property
    def plan(self) -> JoinPlan:
        """What she chose."""
        return JoinPlan(
            front=self.front,
            back=self.back,
            seam=self.seam,
            name=self.name,
            choices=self.at,
            dart_point_mm=self.dart_point_mm,
        )

    @classmethod
    def example(cls) -> Example:
        """The panels of a bodice, its opening behind."""
        return Example(examples.panelled(), cls(opening_in="centre back"))

    def sentence(self, pattern: Pattern) -> str:
        """Say it: "Side front and side back joined without a side seam, at the underarm, …"."""
        del pattern
        who = "" if self.side is BodySide.BOTH else f" on the wearer's {self.side} side only"
        told = (
            f"{self.front.capitalize()} and {self.back} joined{who} into one {self.name} without a "
            f"{self.seam} seam, at the underarm and with their grain lines parallel"
        )
        for choice in self.at:
            told += f"; at the {choice.line} {_shares(choice)}"
        return told

    def apply(self, pattern: Pattern, step_id: str) -> Applied:
        """Join them, then take or give at the panel seams what she chose, and tell it all."""
        panels = [pattern.piece(name, self.side) for name in (self.front, self.back)]
        if not all(p.has_outline for p in panels):
            return on_paper(pattern, self.sentence(pattern))
        names = {self.front, self.back} if self.side is not BodySide.BOTH else ()
        split = split_sides(pattern, names)
        joined = join_side_panels(split.pattern, self.plan, self.side)
        new, trace = joined.pattern, split.trace.then(joined.trace)
        for report in joined.reports:
            at = BodySide(report.side)
            panel = new.piece(self.name, at)
            new, moved = _at_panel_seams(split.pattern, new, panel, report, step_id)
            trace = trace.then(moved)
        leaves, notes = self._opening(new)
        leaves += tuple(
            f"the {p.label} is taken from the {p.taken_from} and is out of date"
            for p in pattern.pieces
            if p.taken_from in (self.front, self.back) and p.traced is None
        )
        effect = effect_between(
            pattern,
            new,
            notches=(
                f"the notches of the {self.seam} seam are gone; an underarm notch is kept in the "
                "armhole",
            ),
            leaves=leaves,
            notes=(*joined_told(joined.reports), *notes),
        )
        return Applied(new, effect, trace)

    def _opening(self, new: Pattern) -> tuple[tuple[str, ...], tuple[str, ...]]:
        """Say once that there is no side seam left, and which seam carries the opening."""
        none_left = f"there is no {self.seam} seam left for an outlet or an opening"
        known = list(dict.fromkeys(s.name for s in new.seams if s.name != "shoulder"))
        if self.opening_in is None:
            return (f"{none_left}: say which seam carries them, {_or(known)}",), ()
        if self.opening_in not in known:
            raise CannotPart(
                f"the opening cannot go into the {self.opening_in} seam; what is left is "
                f"{_or(known)}.{nearest_names(self.opening_in, known)}"
            )
        return (), (f"{none_left}; the {self.opening_in} seam carries the opening",)


def _shares(choice: AtLine) -> str:
    went = [
        f"{share:.0%} {where}"
        for share, where in (
            (choice.dart, "into a plumb dart"),
            (choice.seams, "taken or given at the two panel seams"),
            (1 - choice.dart - choice.seams, "left as width"),
        )
        if share > 1e-9
    ]
    return " and ".join(went).replace("100% ", "all ")


def _or(names: list[str]) -> str:
    return " or ".join(", ".join(names).rsplit(", ", 1))


def _at_panel_seams(
    before: Pattern, pattern: Pattern, panel: Piece, report: JoinReport, step_id: str
) -> tuple[Pattern, Trace]:
    """Take in or let out both panel seams until each girth is what was stated.

    Half of a line's amount comes off (or goes on) at each seam, half of that on either piece.

    Args:
        before: the pattern before the panels were joined.
        pattern: the pattern with the joined panel.
        panel: the joined panel.
        report: what was stated.
        step_id: the step.
    """
    amounts = {x.line: x.seams_mm / 2 for x in report.lines if abs(x.seams_mm) > MET_MM}
    if not amounts:
        return pattern, Trace()
    wanted = {
        x.line: girth(before, x.line, panel.side) + x.left_mm * report.copies
        for x in report.lines
        if x.line in amounts
    }
    apart = Split(pattern, Trace())
    if panel.side is not BodySide.BOTH:
        seams = _panel_seams(pattern, panel, report.bottom)
        apart = split_sides(pattern, {r.piece for s in seams for r in (*s.first, *s.second)})
        pattern = apart.pattern
    for _ in range(8):
        new, trace = pattern, apart.trace
        for seam in _panel_seams(pattern, panel, report.bottom):
            for done, moved in _moved(new, seam, panel, report, amounts, step_id):
                new, trace = done, trace.then(moved)
        new = settled(new)
        off = {line: girth(new, line, panel.side) - mm for line, mm in wanted.items()}
        if max(map(abs, off.values())) < MET_MM:
            break
        for line, mm in off.items():
            amounts[line] += mm / report.copies / 2
    return new, trace


def _panel_seams(pattern: Pattern, panel: Piece, bottom: str) -> list[Seam]:
    """The seams that run down a panel to its bottom edge: each takes its half."""
    edge = panel.edge(bottom)
    return [s for e in (panel.before(edge), panel.after(edge)) for s in pattern.seams_on(panel, e)]


def _moved(
    pattern: Pattern,
    seam: Seam,
    panel: Piece,
    report: JoinReport,
    amounts: dict[str, float],
    step_id: str,
) -> Iterable[tuple[Pattern, Trace]]:
    """Move a panel seam, then true its foot; the pattern after each, and what it did."""
    places = tuple(_places(pattern, seam, panel, report, amounts))
    taken, trace = seam_moved(pattern, seam, places, 0.5, 0.5, step_id)
    yield taken, trace
    yield true_foot(taken, seam, report.bottom)


def _places(
    pattern: Pattern,
    seam: Seam,
    panel: Piece,
    report: JoinReport,
    amounts: dict[str, float],
) -> Iterable[AmountAt]:
    """The amount at each line along a seam; nothing at its top and where nothing is asked."""
    run = next(r for r in (*seam.first, *seam.second) if r.piece == panel.name)
    edge = panel.edge(run.edge, run.side)
    first = walked(pattern, seam.first)
    top, foot = first[0].first_corner, first[-1].last_corner
    length = first[-1].to_mm
    yield AmountAt(corner=top, distance_mm=0.0, amount_mm=0.0)
    last = 0.0
    for line in report.lines:
        along = _from_top(panel, edge, run.backward, line.line)
        amount = amounts.get(line.line, 0.0)
        if along is None:
            continue
        at = along * length / edge.length
        if at > length - 1.0:
            yield AmountAt(corner=foot, distance_mm=0.0, amount_mm=amount)
        elif at > last + 1.0:
            yield AmountAt(corner=top, distance_mm=at, amount_mm=amount)
            last = at


def _from_top(panel: Piece, edge: Edge, backward: bool, line: str) -> float | None:
    """How far down a panel's edge a line meets it."""
    level = panel.level(line, edge.side)
    at: float | None = None
    for name in level.edges:
        corners = {panel.edge(name, edge.side).start, panel.edge(name, edge.side).end}
        if edge.start in corners:
            at = 0.0
        elif edge.end in corners:
            at = edge.length
    for stroke in level.strokes:
        found = crossing_mm(edge, stroke)
        at = found if found is not None else at
    if at is None:
        return None
    return edge.length - at if backward else at


__all__ = ["AtLine", "JoinSidePanels"]
