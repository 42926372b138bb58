"""A step written as it is typed is read back as the same step."""

import shlex

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.described import parameters_of
from tracker.alterations.kind import Kind, kinds
from tracker.alterations.kinds.change_the_neckline import ChangeNeckline, Neck, NeckAt
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.cli.typed import hearing
from tracker.tasks.kind_written import choices_of, command_line, command_words, typed_like
from tracker.tasks.preferences import Manner
from tracker.tasks.typed_kind import read_kind
from tracker.units import Unit

#: A record only the program makes is never typed, and may hold a whole pattern.
KINDS = tuple(kind for kind in kinds().values() if kind.family != "record")


def read(words: tuple[str, ...], unit: Unit = Unit.CM) -> Kind:
    assert words[:3] == ("tracker", "alter", "make")
    pairs = [(name, text) for name, _, text in (w.partition("=") for w in words[4:])]
    return read_kind(words[3], pairs, hearing(Manner(unit=unit)))


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.word)
def test_every_example_typed_as_its_page_says_is_that_step(kind: type[Kind]) -> None:
    example = kind.example().kind
    for unit in Unit:
        assert read(command_words(example), unit) == example


@given(
    st.lists(
        st.tuples(
            st.sampled_from(["side waist", "underarm point"]),
            st.decimals(0, 400, places=2).map(float),
            st.decimals(-60, 60, places=2).map(float),
        ),
        min_size=1, max_size=3,
    ).filter(lambda places: any(amount for _, _, amount in places)),
    st.sampled_from([0.0, 0.25, 0.5, 1.0]),
    st.sampled_from(list(Unit)),
)  # fmt: skip
def test_any_amounts_at_any_places_are_read_back(
    places: list[tuple[str, float, float]], share: float, unit: Unit
) -> None:
    amounts = tuple(AmountAt(corner=c, distance_mm=d, amount_mm=a) for c, d, a in places)
    kind = TakeIn(seam="side", amounts=amounts, share=share)
    back = read(command_words(kind), unit)
    assert isinstance(back, TakeIn)
    assert back.share == share
    for one, other in zip(back.amounts, amounts, strict=True):
        assert one.corner == other.corner
        assert one.distance_mm == pytest.approx(other.distance_mm, abs=1e-9)
        assert one.amount_mm == pytest.approx(other.amount_mm, abs=1e-9)


def test_shares_and_pieces_are_written_too() -> None:
    place = NeckAt(piece="front", corner="neck point", distance_mm=25.0, share=0.4)
    kind = ChangeNeckline(to=Neck.LOOSER, by_mm=12.5, places=(place,), collar=False)
    words = command_words(kind)
    assert words[4:] == (
        "to=looser", "by=12.5mm", "places=40% at 25mm from neck point on front", "collar=no"
    )  # fmt: skip
    assert read(words) == kind


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.word)
def test_a_long_line_goes_on_and_the_shell_reads_it_as_it_was_meant(kind: type[Kind]) -> None:
    words = command_words(kind.example().kind)
    line = command_line(words)
    assert tuple(shlex.split(line.replace("\\\n", " "))) == words
    assert max(map(len, line.split("\n"))) <= 80


def test_a_word_the_shell_would_change_is_kept() -> None:
    words = ("tracker", 'name=a "$HOME" dart', "by=1/2in")
    assert tuple(shlex.split(command_line(words))) == words


@pytest.mark.parametrize("kind", KINDS, ids=lambda k: k.word)
def test_how_each_parameter_is_typed_is_shown_under_its_own_name(kind: type[Kind]) -> None:
    for parameter in parameters_of(kind):
        shown = typed_like(parameter)
        [word] = shlex.split(shown)
        assert "_" not in word.partition("=")[0]
        assert word.partition("=")[2]
        if "…" not in word and choices_of(parameter):
            assert word.partition("=")[2] in choices_of(parameter)
