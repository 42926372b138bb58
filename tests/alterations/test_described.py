"""What a kind's parameters mean is said where the kind is, and none is forgotten."""

from dataclasses import fields

import pytest

from tracker.alterations.described import parameters_of
from tracker.alterations.kind import Kind, kinds
from tracker.alterations.kinds.fold_out import FoldOut
from tracker.alterations.kinds.take_in_a_seam import TakeIn

ALL = tuple(kinds().values())


@pytest.mark.parametrize("kind", ALL, ids=lambda k: k.word)
def test_every_parameter_of_every_kind_is_explained(kind: type[Kind]) -> None:
    told = parameters_of(kind)
    assert {p.field for p in told} == {f.name for f in fields(kind)}
    for parameter in told:
        assert parameter.means, f"{kind.word}: what is {parameter.field}?"
        assert "``" not in parameter.means
        assert "None" not in parameter.means


def test_what_must_be_said_comes_first_and_a_long_meaning_is_joined() -> None:
    told = parameters_of(TakeIn)
    assert [p.field for p in told] == ["seam", "amounts", "side", "share"]
    assert [p.needed for p in told] == [True, True, False, False]
    assert told[-1].usual == 0.5
    lengths = {p.field: p.means for p in parameters_of(TakeIn)}
    assert lengths["amounts"].endswith("one alone holds all along.")


def test_a_kind_like_another_is_explained_by_it() -> None:
    assert {p.field: p.means for p in parameters_of(FoldOut)}["hinge_edge"].startswith("the edge")


@pytest.mark.parametrize("kind", ALL, ids=lambda k: k.word)
def test_no_two_parameters_are_typed_alike(kind: type[Kind]) -> None:
    names = [f.name.removesuffix("_mm").removesuffix("_deg") for f in fields(kind)]
    assert len(set(names)) == len(names)
