"""A picture of what an alteration would do, or did: before and after, and nothing stored for it."""

from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.errors import TrackerError
from tracker.history.step import Taken
from tracker.tasks.altering import Altered
from tracker.tasks.carrying import Carried
from tracker.tasks.papers import check_place, write_paper

if TYPE_CHECKING:
    from tracker.output.diagram import NumberedPlace
    from tracker.output.picture import Picture
    from tracker.pattern.pattern import Pattern
    from tracker.store.engine import Store

#: What a picture can be written as.
KINDS = (".svg", ".html")
_OPTION = "--picture"


class NotAPicture(TrackerError):
    """A picture asked for as a sort of file it is not written as."""

    exit_code = 2


def check_picture(path: Path) -> Path:
    """Refuse a place where no picture can go, before anything is done.

    Raises:
        NotAPicture: its name does not end in .svg or .html.
        TrackerError: its folder is not there, or something else is in its place.
    """
    if path.suffix.lower() not in KINDS:
        raise NotAPicture(f"a picture is written as {' or '.join(KINDS)}, so {path} cannot be one")
    return check_place(path, _OPTION)


def write_picture(made: Altered | Carried, path: Path) -> Path:
    """Draw what was made, or would be, over what it starts from.

    Raises:
        TrackerError: nothing is done, or the file cannot be written.
    """
    from tracker.output.picture import picture_html, picture_svg

    about = picture_of(made) if isinstance(made, Altered) else picture_of_carried(made)
    as_page = path.suffix.lower() == ".html"
    text = picture_html(about) if as_page else picture_svg(about)
    return write_paper(path, text.encode(), _OPTION)


def picture_of(made: Altered) -> "Picture":
    """Return what a picture of an alteration shows."""
    from tracker.output.picture import Picture, Step
    from tracker.tasks.reporting import effect_sentences
    from tracker.units import in_both

    if not made.proposals:
        raise NotAPicture("nothing is done, so there is nothing to draw")
    before, after = made.proposals[0].before, made.proposals[-1].pattern
    taken = [p.taken for p in made.proposals]
    steps = tuple(
        Step(
            p.sentence,
            _place(k + 1, p.taken, taken[k + 1 :], after, before),
            effect_sentences(p.effect, after),
        )
        for k, p in enumerate(made.proposals)
    )
    pieces = tuple(dict.fromkeys(label for p in made.proposals for label in p.effect.pieces))
    parent = str(made.parent)
    to_see = [*made.warnings, *(f"{f.sentence}; {f.remedy}" for f in made.findings)]
    return Picture(
        title=f"{made.version.address} from {parent}" if made.version else f"{parent}, altered so",
        before=before,
        after=after,
        before_name=parent,
        after_name=str(made.version.address) if made.version else "as it would be",
        steps=steps,
        pieces=pieces,
        mind=tuple(in_both(sentence) for sentence in to_see),
    )


def write_causes(
    store: "Store", client: str | None, notes: Iterable[str], start: str | None, path: Path
) -> Path:
    """Draw each likely cause of some notes by a usual amount, one below another.

    A cause that cannot be drawn, or is answered by hand, has no picture.

    Raises:
        TrackerError: no such note or version, none of its causes can be drawn, or the file
            cannot be written.
    """
    from tracker.output.picture import pictures_html, pictures_svg

    title, pictures = _causes(store, client, notes, start)
    if not pictures:
        raise NotAPicture("none of the likely causes can be drawn, so there is nothing to draw")
    as_page = path.suffix.lower() == ".html"
    text = pictures_html(title, pictures) if as_page else pictures_svg(title, pictures)
    return write_paper(path, text.encode(), _OPTION)


def _causes(
    store: "Store", client: str | None, notes: Iterable[str], start: str | None
) -> tuple[str, list["Picture"]]:
    from tracker.fitting.propose import Answer, answers
    from tracker.fitting.suggest import likely
    from tracker.tasks.altering import parent_of
    from tracker.tasks.named import note_names, the_client, the_note

    pictures: list[Picture] = []
    with store.reading() as books:
        code = the_client(books, client).code
        found = tuple(the_note(books, code, name) for name in dict.fromkeys(notes))
        parent, _ = parent_of(books, found, start)
        names = note_names(books, code)
    for note in found:
        name = names[note.observation_id]
        for number, one in enumerate(likely(parent.pattern, note, drawn=True), start=1):
            if one.remedy is None:
                continue
            cause, by_mm = one.cause.name, float(f"{one.cause.trial_mm:.0f}")  # as the list has it
            made = answers(parent.pattern, note, answer=Answer(cause, by_mm))
            about = picture_of(Altered(parent.address, None, made, (), (), ()))
            title = f"Note {name}, {number}. {cause[0].upper()}{cause[1:]}, by {by_mm:.0f} mm"
            pictures.append(replace(about, title=title))
    told = ", ".join(names[n.observation_id] for n in found)
    return f"Likely causes of note {told}, on {parent.address}", pictures


def picture_of_carried(made: Carried) -> "Picture":
    """Return what a picture of steps put onto another base shows."""
    from tracker.output.picture import Picture, Step
    from tracker.tasks.reporting import effect_sentences
    from tracker.units import in_both

    if made.was is None or made.pattern is None:
        raise NotAPicture("nothing is done, so there is nothing to draw")
    after = made.pattern
    gone = tuple(
        Step(
            f"{t.sentence} (left out)", None,
            effect_sentences(made.effect, after) if made.effect and len(made.gone) == 1 else (),
        )
        for t in made.gone
    )  # fmt: skip
    steps = gone + tuple(
        Step(
            f"{b.sentence} ({b.outcome}{f': {b.told}' if b.told else ''})",
            None,
            effect_sentences(b.effect, after) if b.effect else (),
        )
        for b in made.steps
    )
    was = {p.key: p for p in made.was.pattern.pieces}
    now = {p.key: p for p in after.pieces}
    changed = [k for k in (*was, *(k for k in now if k not in was)) if was.get(k) != now.get(k)]
    return Picture(
        title=f"{made.version.address if made.version else made.was.address}, worked out so",
        before=made.was.pattern,
        after=after,
        before_name=str(made.was.address),
        after_name=str(made.version.address) if made.version else "as it would be",
        steps=steps,
        pieces=tuple((now.get(k) or was[k]).label for k in changed),
        mind=tuple(in_both(f"{f.sentence}; {f.remedy}") for f in made.findings),
    )


def _place(
    number: int, taken: Taken, later: list[Taken], after: "Pattern", before: "Pattern"
) -> "NumberedPlace | None":
    from tracker.output.diagram import NumberedPlace
    from tracker.tasks.spots import spot_of

    spot = spot_of(taken, later, after, before)
    if spot is None:
        return None
    piece, side, point = spot
    return NumberedPlace(number, (piece, side), point, taken.sentence)
