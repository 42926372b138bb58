"""Invariant 9 where it is kept: in a real SQLite file, nothing a person entered is ever dropped.

Measurements are corrected, notes changed, alterations made and withdrawn, in any order; after it
every value, every wording and every step ever entered is still found in the store, and in the
file a client is exported to. (Withdrawal on its own is held by the alterations' invariants.)
"""

import os
import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st
from studio import TODAY

from tracker.alterations.along_seams import AmountAt
from tracker.alterations.kinds.take_in_a_seam import TakeIn
from tracker.body.session import Reading
from tracker.errors import TrackerError
from tracker.fitting.observation import Observation, Sign
from tracker.store.engine import Store
from tracker.tasks.altering import alter
from tracker.tasks.carrying import withdraw_steps
from tracker.tasks.clients import export_client, import_client
from tracker.tasks.measuring import correct_session
from tracker.tasks.notes import add_note, change_note
from tracker.tasks.storekeeping import check_store

EXAMPLES = 200 if os.environ.get("TRACKER_TESTS") == "deep" else 12

#: What is done, and a number that makes it another one each time.
deeds = st.lists(
    st.tuples(st.sampled_from(["correct", "note", "change", "alter", "withdraw"]),
              st.integers(0, 40)),
    min_size=1, max_size=9,
)  # fmt: skip


@dataclass
class Entered:
    """All that was typed, as it was typed."""

    values: list[tuple[str, float]] = field(default_factory=lambda: [("waist-girth", 640.0)])
    words: list[str] = field(default_factory=list)
    steps: list[tuple[str, str]] = field(default_factory=list)
    withdrawn: list[str] = field(default_factory=list)
    last: str = "mara/bodice@1"
    notes: int = 0


def correct(store: Store, entered: Entered, k: int) -> None:
    value = 640.0 + k
    correct_session(store, "mara", 1, (Reading(key="waist-girth", values=(value,)),))
    entered.values.append(("waist-girth", value))


def note(store: Store, entered: Entered, k: int) -> None:
    entered.notes += 1
    words = f"loose at the side, seen {k} times"
    told = Observation(
        observation_id=f"note-{entered.notes}", fitting_id="", number=0, sign=Sign.TOO_LOOSE,
        seam="side", fitter_words=words,
    )  # fmt: skip
    add_note(store, "mara", None, told)
    entered.words.append(words)


def change(store: Store, entered: Entered, k: int) -> None:
    if entered.notes:
        words = f"on looking again, {k} mm at least"
        which = f"1.{1 + k % entered.notes}"
        change_note(store, "mara", which, lambda was: replace(was, client_words=words))
        entered.words.append(words)


def a_step(store: Store, entered: Entered, k: int) -> None:
    step = TakeIn(
        seam="side",
        amounts=(
            AmountAt(corner="underarm point", distance_mm=0.0, amount_mm=0.0),
            AmountAt(corner="side waist", distance_mm=0.0, amount_mm=1.0 + k / 10),
        ),
    )
    because = [f"1.{entered.notes}"] if entered.notes and k % 2 else []
    made = alter(store, entered.last, [lambda _: step], TODAY, because, f"round {k}")
    assert made.version is not None
    taken = made.version.taken[0]
    entered.steps.append((taken.step.step_id, taken.sentence))
    entered.last = str(made.version.address)


def take_back(store: Store, entered: Entered, k: int) -> None:
    open_steps = [s for s, _ in entered.steps if s not in entered.withdrawn]
    if not open_steps:
        return
    gone = open_steps[k % len(open_steps)]
    with store.reading() as books:
        names = {
            t.step.step_id: f"{v.address.number}.{i}"
            for v in books.versions("mara", "bodice")
            for i, t in enumerate(v.taken, 1)
        }
    try:
        made = withdraw_steps(store, entered.last, [names[gone]], TODAY, f"taken back {k}")
    except TrackerError:
        return  # in another line by now
    entered.withdrawn.append(gone)
    assert made.version is not None
    entered.last = str(made.version.address)


DEEDS: dict[str, Callable[[Store, Entered, int], None]] = {
    "correct": correct, "note": note, "change": change, "alter": a_step, "withdraw": take_back,
}  # fmt: skip


def assert_all_there(store: Store, entered: Entered) -> None:
    with store.reading() as books:
        sessions = books.sessions("mara")
        told = [(r.key, v) for s in sessions for r in s.readings for v in r.values]
        journal = books.journal("mara")
        versions = books.versions("mara", "bodice")
        words = [w for n in books.notes("mara") for w in (n.fitter_words, n.client_words)]
    past = str([(e.what, e.before, e.after) for e in journal])
    for key, value in entered.values:
        assert (key, value) in told or str(value) in past, value
    for said in entered.words:
        assert said in words or said in past, said
    kept = {t.step.step_id: t.sentence for v in versions for t in v.taken}
    for step_id, sentence in entered.steps:
        assert kept.get(step_id) == sentence
    left_out = str([t.step.parameters for v in versions for t in v.taken])
    for step_id in entered.withdrawn:
        # That it was withdrawn is on record too, by its id.
        assert step_id in left_out


@settings(max_examples=EXAMPLES)
@given(done=deeds)
@example(done=[("correct", 3), ("correct", 7), ("correct", 3)])
@example(done=[("note", 1), ("change", 2), ("alter", 5), ("change", 4), ("withdraw", 0)])
@example(done=[("alter", 5), ("alter", 9), ("withdraw", 0), ("alter", 2), ("withdraw", 1)])
def test_9_corrected_changed_and_withdrawn_all_that_was_entered_is_still_there(
    built_studio: Path, done: list[tuple[str, int]]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "studio.db"
        shutil.copy(built_studio, path)
        store, entered = Store.open(path), Entered()
        for what, k in done:
            DEEDS[what](store, entered, k)
        # Opened afresh: what counts is what lies in the file.
        store = Store.open(path)
        assert_all_there(store, entered)
        assert not check_store(store).damage
        export_client(store, "mara", Path(folder) / "mara.json")
        other = Store.create(Path(folder) / "other.db")
        import_client(other, Path(folder) / "mara.json")
        assert_all_there(other, entered)
