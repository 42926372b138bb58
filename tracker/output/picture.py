"""A small picture of before and after: of what an alteration would do, or of an example."""

import html
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tracker.output.diagram import Diagram, NumberedPlace, draw_comparison
from tracker.output.report import page
from tracker.output.svg import number
from tracker.pattern.pattern import Pattern
from tracker.units import in_both

#: Letters of the words below a picture, and how many go on a line, in a picture so wide.
_LETTER_MM, _LINE_MM, _LETTERS = 3.4, 5.0, 96
_WIDE_MM = 190.0
_LETTERING = 'font-family="DejaVu Sans, Verdana, sans-serif"'
#: The numbers as the pages have them, for a picture that stands alone.
_NUMBERS = (
    ".number line{stroke:#1b1914;stroke-width:1.1px}.number .dot{fill:#1b1914}"
    ".number .ring{fill:#fffdf7;stroke:#1b1914;stroke-width:1.7px}"
    ".number text{fill:#1b1914;font-weight:bold}"
    ".names text{fill:#57524a;letter-spacing:.12em;text-transform:uppercase}"
)


@dataclass(frozen=True, slots=True)
class Step:
    """One change in a picture.

    Attributes:
        sentence: what is done.
        place: where its number stands; none where there is nothing to point at.
        effects: what it does to girths, seams and notches, and what it leaves to do.
    """

    sentence: str
    place: NumberedPlace | None = None
    effects: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """Before and after, with what was done between.

    Attributes:
        title: what it shows.
        before: the pattern before, drawn dashed.
        after: the pattern after, drawn solid.
        before_name: what the one before is called.
        after_name: what the one after is called.
        steps: what is done, in order, each numbered.
        pieces: labels of the pieces that were touched; all where empty.
        mind: what to look at.
        lang: the language of its words.
    """

    title: str
    before: Pattern
    after: Pattern
    before_name: str
    after_name: str
    steps: tuple[Step, ...] = ()
    pieces: tuple[str, ...] = ()
    mind: tuple[str, ...] = ()
    lang: str = "en"


def picture_drawing(about: Picture, *, linked: bool = True) -> Diagram:
    """Return the drawing: the touched pieces before and after, one over the other."""
    places = tuple(s.place for s in about.steps if s.place)
    names = _names(about)
    before, after = (_only(p, names) for p in (about.before, about.after))
    return draw_comparison(before, after, places, linked=linked)


def _names(about: Picture) -> set[str]:
    """Names of the pieces to draw: the touched ones, and beside a new one what it goes with."""
    touched = {
        p.name
        for pattern in (about.before, about.after)
        for p in pattern.pieces
        if p.label in about.pieces and p.has_outline
    }
    known = {p.name for p in about.before.pieces}
    found = set(touched)
    for piece in about.after.pieces:
        if piece.name in touched - known:
            found |= {piece.taken_from} if piece.taken_from else set()
            for edge in piece.edges:
                for seam in about.after.seams_on(piece, edge):
                    found |= {run.piece for run in (*seam.first, *seam.second)}
    return found


def _only(pattern: Pattern, names: set[str]) -> Pattern:
    """The pieces of these names; all where none is meant."""
    kept = tuple(p for p in pattern.pieces if p.name in names)
    return replace(pattern, pieces=kept, seams=()) if names else pattern


def picture_html(about: Picture) -> str:
    """Return the picture as a page, with all its words."""
    return page(
        "picture.html",
        about=about,
        drawing=picture_drawing(about),
        steps=[(in_both(s.sentence), s.effects) for s in about.steps],
    )


def pictures_html(title: str, pictures: Sequence[Picture]) -> str:
    """Return several pictures, each under its title, as one page."""
    shown = [
        (one, picture_drawing(one, linked=False), [in_both(s.sentence) for s in one.steps])
        for one in pictures
    ]
    return page("causes.html", title=title, pictures=shown, lang="en")


def picture_svg(about: Picture) -> str:
    """Return the picture as a drawing that stands alone, its sentences below it."""
    size, drawn, tall = _drawn_with_words(about, "")
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_WIDE_MM:g}mm" '
        f'height="{number(tall)}mm" {size} role="img" aria-labelledby="title words" '
        f"{_LETTERING}>\n{drawn}</svg>\n"
    )


def pictures_svg(title: str, pictures: Sequence[Picture]) -> str:
    """Return several pictures as one drawing, one below another, each under its title."""
    inner, top = "", 0.0
    for k, about in enumerate(pictures, start=1):
        size, drawn, tall = _drawn_with_words(about, f"-{k}", titled=True)
        inner += (
            f'<svg x="0" y="{number(top)}" width="{_WIDE_MM:g}" height="{number(tall)}" {size} '
            f'role="img" aria-labelledby="title-{k} words-{k}">\n{drawn}</svg>\n'
        )
        top += tall + _LINE_MM
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_WIDE_MM:g}mm" '
        f'height="{number(top)}mm" viewBox="0 0 {_WIDE_MM:g} {number(top)}" '
        f'aria-labelledby="title" {_LETTERING}>\n'
        f'<title id="title">{html.escape(title)}</title>\n{inner}</svg>\n'
    )


def _drawn_with_words(
    about: Picture, ident: str, *, titled: bool = False
) -> tuple[str, str, float]:
    """A drawing with its sentences below it: its view box, what is in it, its height in mm."""
    drawing = picture_drawing(about, linked=False)
    low_x, low_y, wide, high = (float(v) for v in drawing.view_box.split())
    unit = wide / _WIDE_MM  # drawn millimetres to one of the picture's
    lines = [f"dashed: {about.before_name}   solid: {about.after_name}"]
    for k, step in enumerate(about.steps, start=1):
        begin = f"{k}. " if len(about.steps) > 1 else ""
        lines += textwrap.wrap(begin + in_both(step.sentence), _LETTERS)
    told = " ".join(in_both(s.sentence) + "." for s in about.steps)
    begin = f"{lines[0]}. {told}"
    if titled:
        lines.insert(0, about.title)
    top = low_y + high + 2 * unit
    words = "\n".join(
        f'<text x="{number(low_x + 2 * unit)}" y="{number(top + _LINE_MM * unit * (k + 1))}" '
        f'font-size="{number(_LETTER_MM * unit)}" fill="#1b1914">{html.escape(line)}</text>'
        for k, line in enumerate(lines)
    )
    tall = high + (2 + _LINE_MM * (len(lines) + 0.6)) * unit
    size = f'viewBox="{number(low_x)} {number(low_y)} {number(wide)} {number(tall)}"'
    drawn = (
        f'<title id="title{ident}">{html.escape(about.title)}</title>\n'
        f'<desc id="words{ident}">{html.escape(begin)}</desc>\n'
        f"<style>{_NUMBERS}</style>\n"
        f'<rect x="{number(low_x)}" y="{number(low_y)}" width="{number(wide)}" '
        f'height="{number(tall)}" fill="#ffffff"/>\n{drawing.marks}\n{words}\n'
    )
    return size, drawn, tall / unit
