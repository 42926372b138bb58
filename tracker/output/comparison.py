"""The comparison of two versions, as one self-contained page to hold at the table."""

from dataclasses import dataclass

from tracker.geometry.point import Point
from tracker.geometry.transform import Motion
from tracker.output.diagram import Diagram, NumberedPlace, draw_comparison
from tracker.output.figures import change, figure, unit_name
from tracker.output.report import page
from tracker.pattern.bodyside import BodySide
from tracker.pattern.pattern import Pattern
from tracker.pattern.piece import PieceKey
from tracker.units import Unit, write_both


@dataclass(frozen=True, slots=True)
class PatternView:
    """One of the two versions.

    Attributes:
        address: "bodice@2".
        pattern: the pattern.
        day: its date in words.
        standing: its standing in words, "for a test garment".
        sentence: what it was made for, in the maker's words.
    """

    address: str
    pattern: Pattern
    day: str
    standing: str
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class Spot:
    """Another place of a change: the other side of a seam, the other body side.

    Attributes:
        piece: the name of a piece of the new version.
        at: where, as that piece lies in the new version, millimetres.
        side: the body side of the piece.
    """

    piece: str
    at: Point
    side: BodySide = BodySide.BOTH


@dataclass(frozen=True, slots=True)
class Change:
    """One numbered change.

    Attributes:
        number: from 1; the number on the drawing.
        piece: the name of a piece of the new version it is shown on.
        at: the point it is about, where that piece lies in the new version, millimetres; none
            where there is nothing to point at.
        sentence: what, where and how much, in both units.
        reason: the note that asked for it.
        effects: what it did to seams, girths and ease, one sentence each.
        side: the body side of the piece.
        also: more places where the same number stands.
    """

    number: int
    piece: str
    at: Point | None
    sentence: str
    reason: str = ""
    effects: tuple[str, ...] = ()
    side: BodySide = BodySide.BOTH
    also: tuple[Spot, ...] = ()

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Every place its number stands at."""
        first = () if self.at is None else (Spot(self.piece, self.at, self.side),)
        return (*first, *self.also)


@dataclass(frozen=True, slots=True)
class GirthRow:
    """A girth before and after, millimetres; none where a version has no such line.

    Attributes:
        line: "bust line" …
        old_mm: finished, in the old version.
        new_mm: finished, in the new version.
        body_mm: the body there, if measured.
        planned_mm: the planned ease.
    """

    line: str
    old_mm: float | None
    new_mm: float | None
    body_mm: float | None = None
    planned_mm: float | None = None


@dataclass(frozen=True, slots=True)
class SeamSides:
    """A seam's two sides: "front 412, back 410: ease 2".

    Attributes:
        first: the piece or pieces of the first side.
        first_mm: its length.
        second: the piece or pieces of the second side; empty where a piece meets itself.
        second_mm: its length.
        planned_mm: the ease planned in it.
    """

    first: str
    first_mm: float
    second: str = ""
    second_mm: float = 0.0
    planned_mm: float = 0.0

    def words(self, unit: Unit) -> str:
        """Write it for people."""
        one = f"{self.first} {figure(self.first_mm, unit)}"
        if not self.second:
            return one
        ease = figure(abs(self.second_mm - self.first_mm), unit)
        said = f"{one}, {self.second} {figure(self.second_mm, unit)}: "
        said += "even" if ease == "0" else f"ease {ease}"
        return said + (f" (plan {figure(self.planned_mm, unit)})" if self.planned_mm else "")


@dataclass(frozen=True, slots=True)
class SeamRow:
    """A seam before and after; none where a version has no such seam."""

    seam: str
    old: SeamSides | None
    new: SeamSides | None


@dataclass(frozen=True, slots=True)
class CheckRow:
    """A check before and after.

    Attributes:
        place: which check, and where.
        old: the figure with its unit, or what was found; "—" when not checked.
        new: the same for the new version.
        old_passes: none when not checked.
        new_passes: none when not checked.
        remedy: what is usually done, where the new version does not pass.
        sentence: what is wrong with the new version, where it does not pass.
    """

    place: str
    old: str
    new: str
    old_passes: bool | None
    new_passes: bool | None
    remedy: str = ""
    sentence: str = ""


@dataclass(frozen=True, slots=True)
class Furthest:
    """How far apart two outlines of a piece are at most, and where."""

    piece: str
    mm: float
    where: str = ""


@dataclass(frozen=True, slots=True)
class WhyReason:
    """One step behind a line.

    Attributes:
        version: the version it is in.
        day: its date in words.
        sentence: what was done.
        moved: how far each line of the seam went, in words.
        notes: the notes that asked for it, each with its state.
    """

    version: str
    day: str
    sentence: str
    moved: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class WhyRow:
    """Why a line is where it is, newest reason first."""

    line: str
    reasons: tuple[WhyReason, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """Everything the page shows.

    Attributes:
        title: what it is about, in a few words.
        client_code: the code that stands for the client.
        old: the older version.
        new: the newer version.
        changes: the numbered changes.
        girths: girths before and after.
        seams: seams before and after.
        checks: checks before and after.
        furthest: the furthest distance between the outlines, piece by piece.
        laid_on: at which edges the outlines are laid over each other, in words.
        moved: how an old piece is moved to lie on its new one, where it is.
        measured: the day the body was measured, in words.
        not_checked: what was not checked, and why.
        why: of each seam of the newer version, why it is where it is.
        cautions: more cautions that apply.
        day: the date of the page, in words.
        unit: mm, or inches with fractions.
        lang: the language of its words.
    """

    title: str
    client_code: str
    old: PatternView
    new: PatternView
    changes: tuple[Change, ...] = ()
    girths: tuple[GirthRow, ...] = ()
    seams: tuple[SeamRow, ...] = ()
    checks: tuple[CheckRow, ...] = ()
    furthest: tuple[Furthest, ...] = ()
    laid_on: str = ""
    moved: tuple[tuple[PieceKey, Motion], ...] = ()
    measured: str = ""
    not_checked: tuple[str, ...] = ()
    why: tuple[WhyRow, ...] = ()
    cautions: tuple[str, ...] = ()
    day: str = ""
    unit: Unit = Unit.CM
    lang: str = "en"


def comparison_html(about: Comparison) -> str:
    """Return the page: open it from a folder, print it on one sheet, no network needed."""
    unit = about.unit
    failing = [c for c in about.checks if c.new_passes is False]
    return page(
        "comparison.html",
        about=about,
        drawing=comparison_drawing(about),
        unit=unit_name(unit),
        letter=unit is Unit.INCH,
        girths=[_girth_cells(row, unit) for row in about.girths],
        seams=[
            (row.seam, *(s.words(unit) if s else "—" for s in (row.old, row.new)))
            for row in about.seams
        ],
        furthest=[(f.piece, write_both(f.mm), f.where) for f in about.furthest],
        failing=failing,
        passing=sum(c.new_passes is True for c in about.checks),
        density=_density(about),
        has_body=any(row.body_mm is not None for row in about.girths),
        has_plan=any(row.planned_mm is not None for row in about.girths),
    )


def comparison_drawing(about: Comparison) -> Diagram:
    """Return the drawing of the two versions over each other."""
    places = tuple(
        NumberedPlace(c.number, (spot.piece, spot.side), spot.at, c.sentence)
        for c in about.changes
        for spot in c.spots
    )
    return draw_comparison(about.old.pattern, about.new.pattern, places, dict(about.moved))


def _girth_cells(row: GirthRow, unit: Unit) -> dict[str, str]:
    def shown(mm: float | None) -> str:
        return "—" if mm is None else figure(mm, unit)

    def ease(mm: float | None) -> str:
        return "—" if mm is None or row.body_mm is None else figure(mm - row.body_mm, unit)

    both = row.old_mm is not None and row.new_mm is not None
    return {
        "line": row.line,
        "old": shown(row.old_mm),
        "new": shown(row.new_mm),
        "change": change(row.old_mm or 0, row.new_mm or 0, unit) if both else "—",
        "body": shown(row.body_mm),
        "old_ease": ease(row.old_mm),
        "new_ease": ease(row.new_mm),
        "plan": shown(row.planned_mm),
    }


def _density(about: Comparison) -> int:
    """How tightly the printed sheet must be set: 0 roomy, 1 close, 2 very close."""
    letters = sum(
        len(c.sentence) + len(c.reason) + sum(map(len, c.effects)) + 60 for c in about.changes
    )
    rows = len(about.girths) + len(about.seams) + len(about.furthest)
    rows += sum(c.new_passes is False for c in about.checks) * 2
    load = letters / 60 + rows
    return 0 if load < 30 else 1 if load < 46 else 2
