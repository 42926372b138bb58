"""What speaks against cutting is said when a version is approved for cloth."""

from studio import TODAY

from tracker.fitting.observation import Observation, Sign
from tracker.pattern.bodyside import BodySide
from tracker.store.engine import Store
from tracker.tasks.altering import alter
from tracker.tasks.checking import before_approving
from tracker.tasks.notes import add_note
from tracker.tasks.said import take_in


def test_a_version_never_fitted_is_told_with_the_last_that_was(studio: Store) -> None:
    maker = take_in("side", BodySide.BOTH, ((3.0, "side waist", 0.0),))
    alter(studio, "mara/bodice", [maker], TODAY)
    assert not any("was fitted" in told for told in before_approving(studio, "mara/bodice@1"))
    told = before_approving(studio, "mara/bodice@2")
    assert told[0] == (
        "no garment cut from mara/bodice@2 was fitted; the last that was is of mara/bodice@1"
    )
    assert any("waist line" in mind for mind in told[1:])


def test_notes_that_wait_are_told(studio: Store) -> None:
    assert not any("still wait" in told for told in before_approving(studio, "mara/bodice@1"))
    note = Observation(observation_id="n", fitting_id="", number=0, sign=Sign.GAPING, seam="side")
    add_note(studio, "mara", None, note)
    assert "note 1.1 of this pattern still waits" in before_approving(studio, "mara/bodice@1")
