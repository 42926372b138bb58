"""What a kind of alteration is, as a person meets it: its help, and its page."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.alterations.described import caption, parameters_of
from tracker.alterations.effect import Effect
from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind, NoExample, kind_named, kinds
from tracker.errors import TrackerError
from tracker.pattern.pattern import Pattern
from tracker.pattern.trace import Trace
from tracker.tasks.kind_written import (
    choices_of,
    command_line,
    command_words,
    is_several,
    typed_like,
    usual_words,
)  # fmt: skip
from tracker.tasks.papers import write_paper
from tracker.tasks.said import KindRow, kind_rows
from tracker.tasks.typed_kind import typed_name

if TYPE_CHECKING:
    from tracker.output.kind_page import KindShown, ParameterShown

#: The page that lists them all, among the others.
ALL_PAGE = "index.html"
#: Families that nobody types.
_NOT_TYPED = ("record",)


@dataclass(frozen=True)
class Shown:
    """A kind's example, done.

    Attributes:
        caption: what it shows.
        command: as it is typed; "" for what nobody types.
        sentence: what is done.
        effect: what it changes.
        kind: the step.
        before: the pattern it is shown on.
        after: what it gives.
        trace: what became of the material.
    """

    caption: str
    command: str
    sentence: str
    effect: Effect
    kind: Kind
    before: Pattern
    after: Pattern
    trace: Trace


@dataclass(frozen=True)
class KindHelp:
    """A kind explained.

    Attributes:
        word: what it is called.
        help: what it does.
        family: which sort of step.
        parameters: what to say, what must be said first.
        shown: its example; none where it has none.
    """

    word: str
    help: str
    family: str
    parameters: tuple["ParameterShown", ...]
    shown: Shown | None


def explain(word: str) -> KindHelp:
    """Explain a kind and do its example.

    Raises:
        UnknownKind: there is none of that word; the nearest is suggested.
    """
    kind = kind_named(" ".join(word.lower().split()))
    shown = _shown(kind)
    example = shown.kind if shown else None
    return KindHelp(kind.word, kind.help, kind.family, _parameters(kind, example), shown)


def speaking_of(words: str) -> tuple[KindRow, ...]:
    """Return the kinds whose help or example speaks of some words; none if they name a kind.

    Those that say them as they stand come alone; else those that have them all.
    """
    plain = words.lower().split()
    if " ".join(plain) in kinds():
        return ()

    def said(row: KindRow) -> str:
        return f"{row.word} {row.help} {caption(kinds()[row.word])}".lower()

    rows = kind_rows() if plain else ()
    phrase = tuple(r for r in rows if " ".join(plain) in said(r))
    return phrase or tuple(r for r in rows if all(w in said(r) for w in plain))


def _shown(kind: type[Kind]) -> Shown | None:
    try:
        example = kind.example()
    except NoExample:
        return None
    said = example.kind.sentence(example.pattern)
    done = apply_step(example.kind, example.pattern, "example")
    typed = "" if kind.family in _NOT_TYPED else command_line(command_words(example.kind))
    return Shown(
        caption(kind), typed, said, done.effect, example.kind, example.pattern, done.pattern,
        done.trace,
    )  # fmt: skip


def _parameters(kind: type[Kind], example: Kind | None) -> tuple["ParameterShown", ...]:
    from tracker.output.kind_page import ParameterShown

    if kind.family in _NOT_TYPED:
        return ()
    return tuple(
        ParameterShown(
            typed_name(p.field), typed_like(p, example), p.needed, usual_words(p), p.means,
            choices_of(p), is_several(p),
        )
        for p in parameters_of(kind)
    )  # fmt: skip


def write_kind_page(word: str, out: Path) -> Path:
    """Write a kind's page.

    Raises:
        TrackerError: no such kind, it has no example, or the file cannot be written.
    """
    from tracker.output.kind_page import kind_html

    return write_paper(out, kind_html(shown_kind(word)).encode())


def write_kind_pages(folder: Path) -> tuple[Path, ...]:
    """Write a page for every kind and one that lists them all; return them, that one first.

    Raises:
        TrackerError: the folder is no folder, or a file of that name is something else.
    """
    from tracker.output.kind_page import kind_html, kinds_html

    if folder.exists() and not folder.is_dir():
        raise TrackerError(f"{folder} is a file; name a folder for the pages")
    pages = [_page_of(one) for one in map(explain, kinds()) if one.shown]
    folder.mkdir(exist_ok=True)
    index = write_paper(folder / ALL_PAGE, kinds_html(pages).encode())
    return (
        index,
        *(write_paper(folder / k.file, kind_html(k, ALL_PAGE).encode()) for k in pages),
    )


def shown_kind(word: str) -> "KindShown":
    """Return what a kind's page shows.

    Raises:
        TrackerError: no such kind, or it has no example.
    """
    return _page_of(explain(word))


def _page_of(told: KindHelp) -> "KindShown":
    from tracker.output.kind_page import KindShown
    from tracker.output.picture import Picture, Step
    from tracker.tasks.reporting import effect_sentences

    shown = told.shown
    if shown is None:
        raise NoExample(f"{told.word} has no example to draw yet")
    picture = Picture(
        title=told.word,
        before=shown.before,
        after=shown.after,
        before_name="before",
        after_name="after",
        steps=(Step(shown.sentence, None, effect_sentences(shown.effect, shown.after)),),
        pieces=shown.effect.pieces,
    )
    return KindShown(
        told.word, told.help, told.family, told.parameters, shown.caption, shown.command, picture
    )
