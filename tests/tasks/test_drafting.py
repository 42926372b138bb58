"""Blocks are drafted and kept, each kind from what it needs, and styled in steps."""

import pytest
from studio import TODAY

from tracker.alterations.kind import kind_named
from tracker.body.ease_tables import ease_table
from tracker.body.session import MeasuringSession, Reading
from tracker.errors import TrackerError
from tracker.history.replay import check_again
from tracker.pattern.bodyside import BodySide
from tracker.store.engine import Store
from tracker.tasks.blocks import KINDS, DraftWish, makers
from tracker.tasks.drafting import draft_block
from tracker.tasks.measuring import record_session
from tracker.tasks.styling import SleeveWish, sew_in_sleeves
from tracker.tasks.versions import show_version


@pytest.mark.parametrize("kind", ["skirt", "torso", "trousers"])
def test_a_block_of_any_kind_is_kept_under_its_own_name(kind: str, studio: Store) -> None:
    made = draft_block(studio, "mara", DraftWish(kind=kind, estimate=True), TODAY)
    assert str(made.version.address) == f"mara/{kind}@1"
    assert made.estimated  # only three girths were measured
    assert all(abs(r.got - r.wanted) <= 0.1 for r in made.rows if r.kind == "wanted")
    with studio.reading() as books:
        kept = books.version("mara", kind)
    assert kept.root is not None
    assert kept.root.kind == f"draft {kind}"
    assert check_again(kept, None).sound


@pytest.mark.parametrize("kind", KINDS)
def test_draft_and_version_name_the_same_estimated_measurements(kind: str, studio: Store) -> None:
    wish = DraftWish(kind=kind, pattern="new", estimate=True)
    made = draft_block(studio, "mara", wish, TODAY)
    (told,) = (row.note for row in made.rows if row.name == "estimated")
    assert told == f"estimated, not measured: {', '.join(made.estimated)}"
    assert made.estimated == show_version(studio, "mara/new").estimated
    assert "side length" not in made.estimated  # an estimate of it goes into no block


def test_every_kind_has_its_maker_and_its_plan() -> None:
    found = makers()
    assert tuple(found) == KINDS
    assert all(ease_table(kind).lines and maker.needs for kind, maker in found.items())


@pytest.mark.parametrize(
    ("wish", "told"),
    [
        (DraftWish(kind="skrit"), "Did you mean skirt?"),
        (DraftWish(kind="torso", length_mm=600.0), "leave it out"),
        (DraftWish(back_shoulder="gathers"), "neither"),
        (DraftWish(kind="skirt", ease=(("bust", 20.0),), estimate=True), "bust"),
    ],
)
def test_what_cannot_be_drafted_gets_its_sentence(
    wish: DraftWish, told: str, studio: Store
) -> None:
    with pytest.raises(TrackerError) as refused:
        draft_block(studio, "mara", wish, TODAY)
    assert told in refused.value.sentence
    with studio.reading() as books:
        assert books.pattern_names("mara") == ("bodice",)


ARM = (("upper-arm-girth", 285.0), ("elbow-girth", 255.0), ("wrist-girth", 160.0),
       ("arm-length", 590.0), ("shoulder-to-elbow", 335.0))  # fmt: skip


def test_sleeves_are_a_step_of_the_next_version(studio: Store) -> None:
    readings = tuple(Reading(key=key, values=(mm,)) for key, mm in ARM)
    session = MeasuringSession(on=TODAY, by="Ida", readings=readings)
    record_session(studio, "mara", session, new_id=lambda: "session-2")
    wish = SleeveWish(ease=(("sleeve-cap", 20.0),))
    tried, mind = sew_in_sleeves(studio, "mara/bodice", wish, TODAY, None, dry=True)
    assert tried.version is None
    assert mind == ()
    made, _ = sew_in_sleeves(studio, "mara/bodice", wish, TODAY, None)
    assert made.version is not None
    assert [t.step.kind for t in made.version.taken] == ["add a sleeve"]
    kind = kind_named("add a sleeve").from_parameters(made.version.taken[0].step.parameters)
    assert kind.cap_ease_mm == 20.0
    assert "sleeve" in {p.name for p in made.version.pattern.pieces}


def test_an_estimated_arm_is_said_with_the_version(studio: Store) -> None:
    with pytest.raises(TrackerError, match="upper arm girth"):
        sew_in_sleeves(studio, "mara/bodice", SleeveWish(), TODAY, None)
    wish = SleeveWish(estimate=True, side=BodySide.RIGHT)
    made, mind = sew_in_sleeves(studio, "mara/bodice", wish, TODAY, "sleeved")
    assert "estimated, not measured" in mind[0]
    assert made.version is not None
    assert str(made.version.address) == "mara/sleeved@1"
    assert "estimated, not measured" in made.version.sentence
