"""Ease is planned by garment and cloth, for a client, and for one pattern."""

import json
from pathlib import Path

import pytest
from studio import TODAY

from tracker.body.card import Card
from tracker.body.ease_tables import EASE_TABLES, ease_table
from tracker.body.own_ease import HER_OWN, OwnEase, own_plan
from tracker.errors import TrackerError
from tracker.store.engine import Store
from tracker.tasks.blocks import KINDS, DraftWish
from tracker.tasks.clients import export_client, import_client
from tracker.tasks.drafting import draft_block
from tracker.tasks.easing import change_ease, ease_of


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("cloth", ["woven", "stretch"])
def test_every_block_is_drafted_from_the_table_of_its_cloth(
    kind: str, cloth: str, studio: Store
) -> None:
    wish = DraftWish(kind=kind, pattern="another", estimate=True, cloth=cloth)
    made = draft_block(studio, "mara", wish, TODAY)
    plan = ease_table(kind, cloth)
    root = made.version.root
    assert root is not None
    assert root.recipe["ease"] == plan.to_record()
    eased = {r.name: r for r in made.rows if r.kind == "wanted"}
    assert eased["waist"].got == pytest.approx(eased["waist"].wanted, abs=0.1)


def test_a_client_s_own_ease_goes_before_the_table_and_a_pattern_s_before_both(
    studio: Store,
) -> None:
    change_ease(studio, "mara", "bodice", "woven", [("waist", 60.0), ("bust", 80.0)])
    wish = DraftWish(pattern="another", estimate=True, ease=(("bust", 70.0),))
    root = draft_block(studio, "mara", wish, TODAY).version.root
    assert root is not None
    kept = {line["name"]: line for line in root.recipe["ease"]["lines"]}
    assert (kept["waist"]["mm"], kept["waist"]["source"]) == (60.0, HER_OWN)
    assert kept["bust"]["mm"] == 70.0
    assert kept["hip"]["mm"] == ease_table("bodice").mm("hip")
    # Another garment, and the same in another cloth, keep their tables.
    assert ease_of(studio, "mara", "skirt", "woven")[1] == ease_table("skirt")
    assert ease_of(studio, "mara", "bodice", "stretch")[1] == ease_table("bodice", "stretch")


def test_the_table_s_ease_comes_back_when_it_is_asked_for(studio: Store) -> None:
    change_ease(studio, "mara", "bodice", "woven", [("waist", 60.0)])
    change_ease(studio, "mara", "bodice", "woven", [("waist", None)])
    assert ease_of(studio, "mara", "bodice", "woven")[1] == ease_table("bodice")


def test_a_client_s_ease_goes_along_when_she_is_exported(studio: Store, tmp_path: Path) -> None:
    change_ease(studio, "mara", "sleeve", "woven", [("wrist", 75.0)])
    planned = ease_of(studio, "mara", "sleeve", "woven")
    export_client(studio, "mara", tmp_path / "mara.json")
    elsewhere = Store.create(tmp_path / "elsewhere.db")
    import_client(elsewhere, tmp_path / "mara.json")
    assert ease_of(elsewhere, "mara", "sleeve", "woven") == planned


def test_a_card_without_ease_is_written_as_it_was_before_there_was_any() -> None:
    assert "ease" not in Card().to_record()
    own = Card(ease=(OwnEase(garment="skirt", cloth="stretch", line="hip", mm=-20.0),))
    assert Card.from_record(json.loads(json.dumps(own.to_record()))) == own


def test_only_the_table_it_is_for_is_changed() -> None:
    own = (OwnEase(garment="skirt", cloth="woven", line="hip", mm=77.0),)
    for (garment, cloth), table in EASE_TABLES.items():
        plan = own_plan(own, garment, cloth)
        assert (plan == table) == ((garment, cloth) != ("skirt", "woven"))


@pytest.mark.parametrize(
    ("garment", "cloth", "line", "mm", "told"),
    [
        ("skrit", "woven", "hip", 50.0, "Did you mean skirt?"),
        ("skirt", "silk", "hip", 50.0, "woven, stretch"),
        ("skirt", "woven", "bust", 50.0, "It has waist, hip"),
        ("skirt", "woven", "bust", None, "It has waist, hip"),
        ("skirt", "woven", "hip", 5000.0, "is no ease"),
    ],
)
def test_ease_that_cannot_be_gets_its_sentence_and_her_card_stays(
    garment: str, cloth: str, line: str, mm: float | None, told: str, studio: Store
) -> None:
    with pytest.raises(TrackerError) as refused:
        change_ease(studio, "mara", garment, cloth, [("waist", 30.0), (line, mm)])
    assert told in refused.value.sentence
    assert ease_of(studio, "mara", "skirt", "woven")[1] == ease_table("skirt")
