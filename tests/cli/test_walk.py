"""The main job as it is typed, from a body to a revised version, read back from the store."""

from pathlib import Path
from typing import Any

import pytest

from tracker.fitting.observation import State
from tracker.history.version import Standing
from tracker.store.engine import Store

SHEET = """
# measured on paper
height: 168
bust: 92; 92.2
waist: 74
hip: 99
"""


def test_from_a_body_to_the_next_version_and_back_again(tracker: Any, tmp_path: Path) -> None:
    def done(*typed: str) -> Any:
        said = tracker(*typed)
        assert said.status == 0, said.err
        return said

    done("store", "new")
    done("client", "new", "mara", "Mara Lind", "--consent", "measurements")
    (tmp_path / "sheet.txt").write_text(SHEET)
    kept = done("measure", "new", "--from", "sheet.txt", "--by", "Ida", "--wearing", "slip",
                "--on", "2026-03-01")  # fmt: skip
    assert "92.1 cm" in kept.out
    drafted = done("block", "draft", "--estimate")
    assert "estimated, not measured:" in drafted.out
    done("garment", "new", "--cloth", "calico")
    over = done("fitting", "new", "--over", "jersey dress")
    assert "measured in slip and is fitted over jersey dress" in " ".join(over.err.split())
    done("note", "new", "--seam", "side", "--sign", "too loose", "--pinned", "2mm at side waist",
         "--pinned", "nothing at underarm point", "--words", "loose at the waist")  # fmt: skip
    proposed = done("alter", "propose", "1.1")
    assert "4 mm at the side waist, to nothing at the underarm point" in " ".join(
        proposed.out.split()
    )
    assert "nothing was stored" in proposed.out
    accepted = done("alter", "accept", "1.1")
    assert "Stored as mara/bodice@2, made from mara/bodice@1." in accepted.out
    why = done("why", "--seam", "side")
    assert "“loose at the waist”" in why.out
    done("garment", "new", "--cloth", "calico")
    again = done("fitting", "new")
    assert "1.1" in again.out
    done("fitting", "settle", "1.1")
    assert "as written" in done("version", "again").out
    done("report", "compare", "mara/bodice", "--out", "c.html")
    done("report", "history", "--out", "h.html")
    done("print", "mara/bodice@2", "--paper", "sheet", "--out", "p.pdf")
    assert "sound" in done("store", "check").out

    with Store.open(tmp_path / "studio.db").reading() as books:
        first, second = books.versions("mara", "bodice")
        (note,) = books.notes("mara")
        assert second.parent_digest == first.digest
        assert first.standing is Standing.FITTED
        assert first.estimated
        assert note.state is State.SETTLED
        assert note.dealt_with_in == "mara/bodice@2"
        assert [t.step.because for t in second.taken] == [(note.observation_id,)]
        printed = books.last_printed("mara", "bodice")
        assert printed is not None
        assert printed[0] == second.address
    assert (tmp_path / "c.html").read_text().count("loose at the waist") >= 1
    assert (tmp_path / "p.pdf").read_bytes().startswith(b"%PDF-")


def test_a_passing_session_does_not_draft_the_block_unless_told(studio: Path, tracker: Any) -> None:
    tracker("client", "new", "nora", "Nora Fels")
    typed = ("measure", "new", "nora", "bust=104", "waist=98", "hip=108", "height=168")
    assert tracker(*typed, "--passing", "pregnancy", "--due", "2026-06-01").status == 0
    refused = tracker("block", "draft", "nora", "--estimate")
    assert refused.status == 1
    assert "only measured passingly (pregnancy)" in refused.err


def test_panels_are_a_pattern_of_their_own_and_the_block_stays(studio: Path, tracker: Any) -> None:
    tried = tracker("style", "panels", "mara/bodice", "--as", "princess", "--try")
    assert tried.status == 0, tried.err
    assert "princess" not in tracker("version", "list").out
    made = tracker("style", "panels", "mara/bodice", "--as", "princess")
    assert "Stored as mara/princess@1, made from mara/bodice@1." in made.out
    with Store.open(studio).reading() as books:
        panelled = books.version("mara", "princess")
        assert [t.step.kind for t in panelled.taken] == ["panel the front", "panel the back"]
        assert len(books.versions("mara", "bodice")) == 1


@pytest.mark.parametrize(
    ("typed", "kind"),
    [
        (["take-in", "--seam", "side", "4mm all along"], "take in a seam"),
        (["let-out", "mara/bodice@1", "--seam", "side", "4mm at side waist"], "take in a seam"),
        (["move-notch", "--piece", "front", "--notch", "side notch", "--by", "-4mm"],
         "move a notch"),
        (["add-dart", "--piece", "back", "--edge", "neckline", "--at", "3cm from neck point",
          "--width", "8mm", "--length", "6cm"], "add a dart"),
        (["make", "move a notch", "piece=front", "notch=side notch", "by=4mm", "partner=no"],
         "move a notch"),
    ],
)  # fmt: skip
def test_an_alteration_made_directly_is_tried_first_and_then_stored(
    typed: list[str], kind: str, studio: Path, tracker: Any
) -> None:
    tried = tracker("alter", *typed, "--try")
    assert tried.status == 0, tried.err
    with Store.open(studio).reading() as books:
        assert books.next_number("mara", "bodice") == 2
    assert tracker("alter", *typed, "--for", "a closer fit").status == 0
    with Store.open(studio).reading() as books:
        version = books.version("mara", "bodice", 2)
        assert [t.step.kind for t in version.taken] == [kind]
        assert version.sentence == "a closer fit"


def test_letting_out_what_was_taken_in_gives_the_same_lines_back(
    studio: Path, tracker: Any
) -> None:
    amounts = ("10mm at side waist", "nothing at underarm point")
    tracker("alter", "take-in", "--seam", "side", *amounts)
    tracker("alter", "let-out", "--seam", "side", *amounts)
    said = tracker("compare", "mara/bodice@1", "@3", "--json")
    assert said.json["furthest_mm"] < 1e-6
    assert "waist line" not in tracker("compare", "mara/bodice@1", "@3").out or all(
        abs((girth["after"] or 0) - (girth["before"] or 0)) < 1e-6 for girth in said.json["girths"]
    )


def test_several_alterations_make_one_version_in_their_order(studio: Path, tracker: Any) -> None:
    del studio
    said = tracker(
        "alter", "make", "take in a seam", "seam=side", "amounts=6mm at side waist",
        "amounts=nothing at underarm point",
        "+", "take in a seam", "seam=side", "amounts=-2mm at side waist",
        "amounts=nothing at underarm point", "--json",
    )  # fmt: skip
    assert said.status == 0
    version = tracker("version", "show", "--json").json
    assert len(version["steps"]) == 2
    waist = tracker("compare", "mara/bodice@1", "@2", "--json").json
    (line,) = [row for row in waist["girths"] if row["what"] == "waist line"]
    assert line["after"] - line["before"] == pytest.approx(-8.0, abs=0.05)


@pytest.mark.parametrize("words", [("+",), ("seam=side", "+"), ("+", "+", "move a notch")])
def test_a_plus_with_nothing_beside_it_is_refused(
    words: tuple[str, ...], studio: Path, tracker: Any
) -> None:
    del studio
    said = tracker("alter", "make", "take in a seam", *words)
    assert said.status == 2
    assert "before and after a + stands an alteration" in said.err.lower()


def test_an_older_version_than_the_approved_one_is_printed_with_a_warning(
    studio: Path, tracker: Any
) -> None:
    tracker("alter", "take-in", "--seam", "side", "4mm at side waist", "nothing at underarm point")
    tracker("version", "standing", "approved", "mara/bodice@2", "--by", "Ida")
    old = tracker("print", "mara/bodice@1", "--paper", "sheet")
    assert "mara/bodice@2 is approved for cloth and newer than mara/bodice@1" in " ".join(
        old.err.split()
    )
    new = tracker("print", "mara/bodice@2", "--paper", "sheet")
    assert "newer than" not in new.err
    assert "for cloth" in new.out
    cut = tracker("garment", "new", "mara/bodice@1")
    assert "newer than mara/bodice@1" in " ".join(cut.err.split())


def test_the_makers_unit_and_words_are_used(studio: Path, tracker: Any) -> None:
    assert tracker("prefer", "unit", "inches").status == 0
    tracker("prefer", "test garment", "toile")
    assert "34 3/4 in" in tracker("measure", "show").out
    assert "toile" in tracker("garment", "list").out
    kept = tracker("measure", "new", "bust=35", "waist=25 1/4")
    assert "25 1/4 in" in kept.out
    printed = tracker("print", "--paper", "sheet", "--for-cloth")
    assert "5/8 in" in printed.out


def test_an_exported_client_comes_back_and_an_erased_one_is_gone(
    studio: Path, tmp_path: Path, tracker: Any
) -> None:
    assert tracker("client", "export", "--out", "mara.json").status == 0
    assert tracker("client", "erase", "mara", "--yes").status == 0
    assert "No client yet" in tracker("client", "list").out
    assert tracker("client", "import", "mara.json").status == 0
    assert "mara/bodice@1" in tracker("client", "card").out
    assert tracker("store", "backup", "copy.db").status == 0
    assert "mara" in tracker("client", "list", "--store", "copy.db").out


def test_copies_that_may_still_hold_an_erased_client_are_named(
    studio: Path, tmp_path: Path, tracker: Any
) -> None:
    (tmp_path / "safe").mkdir()
    for copy in ("safe/march.db", "gone.db"):
        assert tracker("store", "backup", copy).status == 0
    (tmp_path / "gone.db").unlink()
    said = tracker("client", "erase", "mara", "--yes")
    assert said.status == 0
    told = "".join(said.err.split())
    assert "".join(str(tmp_path / "safe" / "march.db").split()) in told
    assert "gone.db" not in told
    assert "sound" in tracker("store", "check").out


def test_a_corrected_value_leaves_the_earlier_one_in_the_journal(
    studio: Path, tracker: Any
) -> None:
    said = tracker("measure", "correct", "waist=65", "--session", "1")
    assert "65.0 cm" in said.out
    with Store.open(studio).reading() as books:
        assert books.sessions("mara")[0].value("waist-girth") == 650.0
        assert any("640" in str(entry.before) for entry in books.journal("mara"))


def test_a_damaged_version_is_found_and_named(studio: Path, tracker: Any) -> None:
    import sqlite3
    from contextlib import closing

    with closing(sqlite3.connect(studio)) as books:
        books.execute("update version set sentence = 'drawn by another hand'")
        books.commit()
    for typed in (["store", "check"], ["version", "again"]):
        said = tracker(*typed)
        assert said.status == 1
        assert "mara/bodice@1" in said.err
    assert "DAMAGED" in tracker("store", "check").out
    assert tracker("check").status == 1


def test_what_a_cutter_would_question_is_told_beside_the_block(studio: Path, tracker: Any) -> None:
    del studio
    typed = ("block", "draft", "mara", "--as", "wide", "--estimate", "--ease", "across-front=7cm")
    made = tracker(*typed)
    assert made.status == 0, made.err
    assert "Mind: the front armhole" in made.err
    assert "the front armhole" not in made.out
