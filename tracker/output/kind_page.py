"""A kind of alteration on a page of its own, and all of them on one with small pictures."""

from collections.abc import Iterable
from dataclasses import dataclass

from tracker.output.picture import Picture, picture_drawing
from tracker.output.report import page
from tracker.units import in_both

#: How the families of kinds are headed, in the order they are shown in.
FAMILIES = {
    "alteration": "Alterations",
    "style": "Styles",
    "draft": "Pieces drafted to a pattern",
    "plan": "Plans",
    "record": "Written down by the program",
}


@dataclass(frozen=True, slots=True)
class ParameterShown:
    """A parameter as a person meets it.

    Attributes:
        name: as it is typed.
        typed: how it is typed, "by=10mm".
        needed: it must be said.
        usual: what it is where it is not said; "" for nothing.
        means: what it is, in words.
        choices: the words it may be, where there are only some.
        several: it may be said several times.
    """

    name: str
    typed: str
    needed: bool
    usual: str
    means: str
    choices: tuple[str, ...] = ()
    several: bool = False

    @property
    def told(self) -> str:
        """What it is, and what it may be."""
        may = f" May be {', '.join(self.choices)}." if self.choices and self.name != "side" else ""
        more = " May be said several times." if self.several else ""
        return f"{self.means[:1].upper()}{self.means[1:].rstrip('.,;')}.{may}{more}"

    @property
    def otherwise(self) -> str:
        """What it is where it is not said."""
        return "must be said" if self.needed else self.usual or "—"


@dataclass(frozen=True, slots=True)
class KindShown:
    """A kind with its example.

    Attributes:
        word: what it is called.
        help: what it does.
        family: which sort of step.
        parameters: what to say.
        caption: what the example shows.
        command: the example as it is typed; "" for what is not typed.
        picture: the example, before and after.
        lang: the language of its words.
    """

    word: str
    help: str
    family: str
    parameters: tuple[ParameterShown, ...]
    caption: str
    command: str
    picture: Picture
    lang: str = "en"

    @property
    def file(self) -> str:
        """The name of its page among others."""
        return f"{self.word.replace(' ', '-')}.html"


def kind_html(about: KindShown, all_page: str = "") -> str:
    """Return a kind's page; ``all_page`` is where all of them are listed, if anywhere."""
    [step] = about.picture.steps
    return page(
        "kind.html",
        about=about,
        all_page=all_page,
        family=FAMILIES.get(about.family, about.family.capitalize()),
        begun=about.word.capitalize(),
        caption=about.caption,
        sentence=in_both(step.sentence),
        effects=step.effects,
        drawing=picture_drawing(about.picture, linked=False),
    )


def kinds_html(kinds: Iterable[KindShown]) -> str:
    """Return the page that lists kinds with small pictures, by family."""
    cards = [
        {
            "word": k.word, "file": k.file, "help": k.help, "caption": k.caption,
            "drawing": picture_drawing(k.picture, linked=False), "family": k.family,
        }
        for k in kinds
    ]  # fmt: skip
    order = [*FAMILIES, *sorted({str(c["family"]) for c in cards} - set(FAMILIES))]
    families = [
        (FAMILIES.get(f, f.capitalize()), [c for c in cards if c["family"] == f]) for f in order
    ]
    return page("kinds.html", families=[(name, found) for name, found in families if found])
