"""What is said of ease that is not as planned, before a fitting had a say in it and after."""

from studio import TODAY
from wardrobe import bodice

from tracker.fitting.observation import Observation, Sign
from tracker.pattern.bodyside import BodySide
from tracker.pattern.finding import Finding
from tracker.store.engine import Store
from tracker.tasks.altering import Altered, alter
from tracker.tasks.checking import check_version
from tracker.tasks.ease_told import as_fitted
from tracker.tasks.notes import add_note
from tracker.tasks.said import take_in

ANEW = "it was altered for a fitting: plan the ease anew"


def sides_in(store: Store, because: tuple[str, ...]) -> Altered:
    spots = ((12.0, "side waist", 0.0), (0.0, "underarm point", 0.0))
    return alter(store, "mara/bodice", [take_in("side", BodySide.BOTH, spots)], TODAY, because)


def noted(store: Store) -> None:
    note = Observation(
        observation_id="note-1", fitting_id="", number=0, sign=Sign.TOO_LOOSE, seam="side"
    )
    add_note(store, "mara", None, note)


def remedies(store: Store) -> list[str]:
    found = check_version(store, "mara/bodice").checked.findings
    return [f.remedy for f in found if (f.code, f.place) == ("ease", "waist line")]


def test_ease_changed_for_a_fitting_is_planned_anew_and_not_let_out_again(studio: Store) -> None:
    noted(studio)
    made = sides_in(studio, ("1.1",))
    [told] = [f.remedy for f in made.findings if (f.code, f.place) == ("ease", "waist line")]
    assert told.startswith(ANEW)
    assert [r[: len(ANEW)] for r in remedies(studio)] == [ANEW]


def test_ease_changed_without_a_fitting_may_be_let_out_again(studio: Store) -> None:
    sides_in(studio, ())
    assert [r.startswith("take in or let out the side seams") for r in remedies(studio)] == [True]


def test_a_garment_smaller_than_the_body_is_let_out_all_the_same() -> None:
    pattern = bodice()
    planned = dict(pattern.ease)["waist line"]
    off = Finding("ease", "waist line", "", -planned - 5.0, 3.0, "mm", "let it out")
    little = Finding("ease", "waist line", "", 5.0 - planned, 3.0, "mm", "let it out")
    told = as_fitted((off, little), frozenset({"waist line"}), pattern)
    assert [f.remedy.startswith(ANEW) for f in told] == [False, True]
