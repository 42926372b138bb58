"""Steps withdrawn and brought across: a new version, whole or not at all."""

import pytest
from studio import DRAWN, TODAY, everything
from wardrobe import bodice, paper

from tracker.alterations.kinds.panel_the_front import PanelFront
from tracker.fitting.observation import Observation, Sign, State
from tracker.history.replay import furthest_apart
from tracker.history.version import Address, Root, first_version
from tracker.pattern.bodyside import BodySide
from tracker.pattern.canonical import pattern_digest
from tracker.store.engine import Store
from tracker.tasks.altering import alter
from tracker.tasks.carrying import CannotAll, NoSuchStep, bring_steps_across, withdraw_steps
from tracker.tasks.clients import new_client
from tracker.tasks.notes import add_note
from tracker.tasks.picturing import picture_of_carried
from tracker.tasks.said import as_it_is, take_in


def _two_steps(store: Store) -> None:
    note = Observation(
        observation_id="note-1", fitting_id="", number=0, sign=Sign.TOO_LOOSE, seam="side"
    )
    add_note(store, "mara", None, note)
    waist = ((4.0, "side waist", 0.0), (0.0, "underarm point", 0.0))
    alter(store, "mara/bodice", [take_in("side", BodySide.BOTH, waist)], TODAY, ["1.1"])
    centre = ((6.0, "centre back waist", 0.0), (0.0, "centre back neck", 0.0))
    alter(store, "mara/bodice", [take_in("centre back", BodySide.BOTH, centre)], TODAY)


def test_a_withdrawn_step_is_gone_its_note_waits_again_and_nothing_is_deleted(
    studio: Store,
) -> None:
    _two_steps(studio)
    made = withdraw_steps(studio, "mara", ["2.1"], TODAY)
    assert made.waiting == ("1.1",)
    assert made.version is not None
    with studio.reading() as books:
        versions = books.versions("mara", "bodice")
        assert [v.address.number for v in versions] == [1, 2, 3, 4]
        assert versions[3].parent == "mara/bodice@1"
        assert [t.step.kind for t in versions[3].taken] == ["withdraw steps", "take in a seam"]
        assert books.note("note-1").state is State.OPEN
    # Withdrawing what is left gives the first version's lines back.
    again = withdraw_steps(studio, "mara", ["4.2"], TODAY)
    assert again.version is not None
    assert pattern_digest(again.version.pattern) == pattern_digest(versions[0].pattern)


def test_trying_stores_nothing(studio: Store) -> None:
    _two_steps(studio)
    before = everything(studio.path)
    assert withdraw_steps(studio, "mara", ["2.1"], TODAY, dry=True).version is None
    assert everything(studio.path) == before


@pytest.mark.parametrize("said", ["9.1", "2.2", "first", "bodice@1.1", ""])
def test_a_step_that_is_not_there_is_answered_with_those_that_are(said: str, studio: Store) -> None:
    _two_steps(studio)
    with pytest.raises(NoSuchStep, match=r"bodice@2\.1, bodice@3\.1"):
        withdraw_steps(studio, "mara", [said], TODAY)


def _another(store: Store, client: str, name: str, drawn: bool = True) -> None:
    pattern = bodice() if drawn else paper()
    version = first_version(
        Address(client, name, 1), Root("brought in", 1, {}), pattern, "another base", DRAWN
    )
    with store.writing() as books:
        books.add_version(version)


def test_her_corrections_come_across_to_a_base_drawn_afresh(studio: Store) -> None:
    _two_steps(studio)
    _another(studio, "mara", "afresh")
    made = bring_steps_across(studio, "mara/bodice", "mara/afresh", TODAY)
    assert made.version is not None
    assert [str(b.outcome) for b in made.steps] == ["applies", "applies"]
    assert str(made.version.address) == "mara/afresh@2"
    with studio.reading() as books:
        # The same base and the same steps: the same lines.
        one = books.version("mara", "afresh").pattern
        other = books.version("mara", "bodice").pattern
    assert furthest_apart(one, other)[0] < 1e-6


def test_one_bodys_corrections_are_not_put_on_another(studio: Store) -> None:
    _two_steps(studio)
    new_client(studio, "odile", "Odile Varga")
    _another(studio, "odile", "bodice")
    with pytest.raises(CannotAll, match="two clients"):
        bring_steps_across(studio, "mara/bodice", "odile/bodice", TODAY)


def test_what_carrying_would_do_is_told_in_figures_and_with_what_a_check_finds(
    studio: Store,
) -> None:
    _two_steps(studio)
    _another(studio, "mara", "afresh")
    across = bring_steps_across(studio, "mara/bodice", "mara/afresh", TODAY, dry=True)
    assert across.effect is not None
    [waist] = [c for c in across.effect.girths if c.what == "waist line"]
    # 4 mm at each side seam and 6 mm at the centre back, which is there once.
    assert waist.by == pytest.approx(-14.0, abs=0.5)
    assert across.effect.leaves == ()
    without = withdraw_steps(studio, "mara/bodice", ["2.1"], TODAY, dry=True)
    assert without.effect is not None
    [waist] = [c for c in without.effect.girths if c.what == "waist line"]
    assert waist.by == pytest.approx(8.0, abs=0.5)
    assert [t.sentence.split(" at ")[0] for t in without.gone] == [
        "Right and left side seams in 4 mm"
    ]


def test_patterns_developed_from_it_are_said_to_stand_on_the_version_as_it_was(
    studio: Store,
) -> None:
    _two_steps(studio)
    alter(studio, "mara/bodice@3", [as_it_is(PanelFront())], TODAY, into="panelled")
    _another(studio, "mara", "afresh")
    made = withdraw_steps(studio, "mara/bodice", ["2.1"], TODAY)
    assert made.standing == (("mara/panelled@1", "mara/bodice@3"),)
    with studio.reading() as books:
        assert books.version("mara", "panelled").parent == "mara/bodice@3"


def test_a_picture_of_a_withdrawal_lists_the_step_that_is_left_out(studio: Store) -> None:
    _two_steps(studio)
    made = withdraw_steps(studio, "mara/bodice", ["2.1"], TODAY, dry=True)
    first, kept = picture_of_carried(made).steps
    assert first.sentence.endswith("(left out)")
    assert any("waist" in told for told in first.effects)
    assert kept.sentence.startswith("Centre back seam in 6 mm")
