"""A kind of alteration explained in the terminal, and on pages."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.cli import show
from tracker.errors import TrackerError

if TYPE_CHECKING:
    from tracker.tasks.kind_pages import KindHelp
    from tracker.tasks.said import KindRow


class NotBoth(TrackerError):
    """A page was asked for of all kinds, or all pages of one."""

    exit_code = 2


def list_kinds(as_json: bool) -> None:
    """List every kind: what it does and takes."""
    from tracker.tasks.said import kind_rows

    _table(kind_rows(), as_json)
    if not as_json:
        show.say()
        show.tell(
            'One of them with an example: tracker alter kinds "take in a seam"; by what is seen: '
            'tracker alter kinds "round back"'
        )


def _table(rows: Sequence["KindRow"], as_json: bool) -> None:
    if as_json:
        show.as_json(rows)
        return
    cells = [(r.word, r.help, ", ".join(r.parameters)) for r in rows]
    show.say(show.table(("kind", "what it does", "parameters"), cells))


def explain_kind(word: str, as_json: bool) -> None:
    """Explain one kind, with its example done; of what is no kind, list those that speak of it."""
    from tracker.tasks.kind_pages import explain, speaking_of

    others = speaking_of(word)
    if others:
        _table(others, as_json)
        return
    told = explain(word)
    if as_json:
        show.as_json(_record(told))
        return
    show.tell(f"{show.begun(told.word)}: {told.help[:1].lower()}{told.help[1:]}")
    if told.parameters:
        show.say()
        rows = [(p.name, p.typed, p.otherwise, p.told) for p in told.parameters]
        show.say(show.table(("say", "typed like", "if not said", "what it is"), rows))
    if told.shown is not None:
        _example(told)


def _example(told: "KindHelp") -> None:
    from tracker.cli.effects import write_effect
    from tracker.tasks.preferences import Manner

    shown = told.shown
    assert shown is not None
    show.say()
    show.tell(f"For example: {shown.caption}")
    if shown.command:
        show.say()
        show.say("\n".join(f"  {line}" for line in shown.command.split("\n")))
        show.say()
    show.tell(f"{show.begun(shown.sentence)}.")
    write_effect(shown.effect, Manner())
    show.say()
    show.tell(f'Drawn: tracker alter kinds "{told.word}" --page {_file(told.word)}')


def _file(word: str) -> str:
    return f"{word.replace(' ', '-')}.html"


def _record(told: "KindHelp") -> dict[str, object]:
    shown = told.shown
    example = shown and {
        "shows": shown.caption, "command": shown.command, "parameters": shown.kind.parameters(),
        "sentence": shown.sentence, "effect": show.plain(shown.effect),
    }  # fmt: skip
    return {
        "word": told.word, "help": told.help, "family": told.family,
        "parameters": show.plain(told.parameters), "example": example,
    }  # fmt: skip


def write_pages(word: str | None, page: str | None, folder: str | None) -> None:
    """Write one kind's page, or a folder with all of them.

    Raises:
        NotBoth: a page of no kind, or a folder of one kind.
    """
    from tracker.tasks.kind_pages import write_kind_page, write_kind_pages

    if (page and folder) or (page and not word) or (folder and word):
        raise NotBoth(
            'name a kind and the file for its page, as in: tracker alter kinds "move a dart" '
            "--page move-a-dart.html; or only a folder for all pages: --pages FOLDER"
        )
    if page and word:
        show.tell(f"{write_kind_page(word, Path(page))}: {word}, with its example drawn.")
    if folder:
        index, *pages = write_kind_pages(Path(folder))
        show.tell(f"{index}: begin there; {show.counted(len(pages), 'page')} beside it.")
