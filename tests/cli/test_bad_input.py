"""Whatever is typed wrong gets its own sentence, and nothing is half stored."""

from pathlib import Path
from typing import Any

import pytest
from studio import everything

# what was typed, exit status, what the sentence says
BAD = [
    # clients
    ("client new mara Other", 1, "belongs to Mara Lind already; give another, such as mara-2"),
    ("client new Mara! Other", 1, "cannot be a client's code; use 2 to 24 small letters"),
    ("client card maro", 1, "No client has the code 'maro'. Did you mean mara?"),
    ("client card --posture 'low sholder, marked'", 2, "Did you mean low shoulder"),
    ("client card --posture 'round back, very'", 2, "is not a side of the body"),
    ("client card --withdraw photos", 1, "has not agreed to “photos”"),
    ("client erase mara", 2, "say so with: tracker client erase mara --yes"),
    ("client erase maro --yes", 1, "Did you mean mara?"),
    ("client import nowhere.json", 1, "nowhere.json: no such file or directory"),
    # measuring
    ("measure new", 2, "Nothing was measured"),
    ("measure new mara", 2, "Nothing was measured"),
    ("measure new bust", 2, "Nothing was measured"),
    ("measure new bsut=88", 2, "There is no measurement called “bsut”."),
    ("measure new bust=eighty", 2, "Bust girth: “eighty” is not a length"),
    ("measure new bust=88kg", 2, "“kg” in “88kg” is not a unit of length"),
    ("measure new bust=-88", 2, "less than nothing"),
    ("measure new 'left bust=88'", 2, "one measurement of the whole body; leave out “left”"),
    ("measure new bust=188", 1, "Nothing was stored yet: bust girth 1880 mm"),
    ("measure new bust=88 --keep waist", 1, "was not measured in this session"),
    ("measure new bust=88 --on 2026-02-30", 2, "no 2026-02-30; February 2026 has 28 days"),
    ("measure new bust=88 --on 2026-13-01", 2, "there is no month 13"),
    ("measure new bust=88 --on 1.2.2026", 2, "write year-month-day"),
    ("measure new bust=88 --on 2026-03-21", 2, "is yet to come"),
    ("measure new bust=88 --heel 40cm", 2, "heel of 400 mm"),
    ("measure show --session 7", 2, "no session 7; her sessions are numbered 1 to 1"),
    ("measure compare", 2, "measured 1 times; a comparison needs two"),
    ("measure sheet --for bodise", 2, "Did you mean bodice?"),
    ("measure correct", 2, "Nothing to correct"),
    # drafting
    ("block draft mara", 1, "has a pattern called bodice already"),
    ("block draft --as block", 1, "A bodice cannot be drafted without"),
    ("block draft --as 'my block'", 2, "cannot be a pattern's name"),
    ("block draft --as two --ease bost=5", 2, "no line called “bost”. Did you mean bust?"),
    ("block draft --as two --ease 5cm", 2, "write it like bust=6cm"),
    ("block draft --as two --back-shoulder pleat", 2, "“pleat” is neither"),
    ("block table", 1, "was not drafted here"),
    # garments and fittings
    ("garment new mara/bodice@9", 1, "9"),
    ("garment new mara/bodyce", 1, "bodice"),
    ("garment new --kind toil", 1, "Did you mean toile?"),
    ("garment new --on 2026-01-01", 1, "was made on 2026-02-02"),
    ("garment new --on 2026-03-21", 2, "yet to come"),
    ("fitting new --garment 4", 1, "has no garment 4; they are numbered 1 to 1"),
    ("fitting new --on 2026-01-31", 1, "cut on 2026-02-02, so it was not fitted on 2026-01-31"),
    ("fitting new --on 2026-04-01", 2, "yet to come"),
    ("fitting settle 1.1", 1, "has no notes"),
    # notes
    ("note new", 1, "tied to a seam or to a piece"),
    ("note new --seam sied", 1, "Did you mean side?"),
    ("note new --seam side --side up", 2, "not a side of the wearer"),
    ("note new --seam side --sign tigth", 1, "Did you mean too tight?"),
    ("note new --seam side --cause weather", 1, "it is one of body, style, cloth, taste"),
    ("note new --seam side --pinned 5mm", 2, "does not say how much and where"),
    ("note new --seam side --pinned '5mm at side wast'", 1, "Did you mean side waist?"),
    ("note new --seam side --pinned '5mm at 90cm from side waist'", 1, "off the end of the side"),
    ("note new --seam side --pinned '-5mm at side waist'", 1, "never negative"),
    ("note new --piece frnt", 1, "Did you mean front?"),
    ("note new --piece front --edge wiast", 1, "Did you mean waist?"),
    ("note new --piece front --pinned '5mm at side waits'", 1, "no corner called “side waits”"),
    ("alter propose 1.1 --by 5mm", 2, "Say the cause too"),
    ("note new --seam side --piece front", 2, "the one or the other"),
    ("note new --seam side --fitting 3", 1, "no fitting 3; they are numbered 1 to 1"),
    ("note change 1.1 --words x", 1, "no note 1.1"),
    ("note change first --words x", 2, "is not a note"),
    # alterations
    ("alter propose 1.1", 1, "no note 1.1"),
    ("alter accept 3.1", 1, "no fitting 3"),
    ("alter take-in --seam side", 2, "How much, and where?"),
    ("alter take-in --seam side '5mm'", 2, "How much, and where?"),
    ("alter take-in bodice '5mm' --seam side", 2, "does not say how much and where"),
    ("alter take-in --seam side '0 at side waist'", 1, "Every amount is nothing"),
    ("alter take-in --seam said '5mm at side waist'", 1, "Did you mean side?"),
    ("alter take-in --seam side '5mm at side waste'", 1, "Did you mean side waist?"),
    ("alter take-in --seam side '5mm at 3m from side waist'", 1, "off the end"),
    ("alter take-in --seam side --only fromt '5mm at side waist'", 2, "Did you mean front?"),
    ("alter take-in mara/bodice@8 --seam side '5mm at side waist'", 1, "8"),
    ("alter take-in --seam side '5mm at side waist' --because 1.9", 1, "no note 1.9"),
    ("alter take-in --seam side '9m at side waist'", 1, "is the most that can be drawn here"),
    ("alter move-notch --piece front --notch 'side notsh' --by 5mm", 1, "Did you mean side notch"),
    ("alter move-notch --piece front --notch 'side notch' --by 5m", 1, "which is 205 mm long"),
    ("alter add-dart --piece back --edge waist --at '9cm from side waist' --width 0 --length 5cm",
     1, "both are more than nothing"),
    ("alter make 'tke in a seam' seam=side", 1, "Did you mean take in a seam"),
    ("alter make 'move a notch' pice=front", 2, "it has piece, notch, by, side, partner."),
    ("alter make 'move a notch' piece=front", 2, "Move a notch also needs notch, by"),
    ("client ease mara bust=much", 2, "“much” is not a length"),
    ("client ease mara --garment skrit", 2, "Did you mean skirt?"),
    ("block draft mara --as other --cloth silk", 2, "woven, stretch"),
    ("carry withdraw 2.1", 2, "nothing was altered yet"),
    ("carry across mara/bodice mara/bodise", 1, "bodice"),
    # versions, checks, comparisons, reasons, papers
    ("version list mara/bodies", 1, "bodice"),
    ("version show mara/bodice@4", 1, "4"),
    ("version show bodice@two", 2, "write the number after the @"),
    ("version standing aproved", 1, "Did you mean approved for cloth?"),
    ("version standing approved", 2, "Who approves it for cloth?"),
    ("version standing fitted --on 2026-01-01", 1, "was made on 2026-02-02"),
    ("check mara/bodice@3", 1, "3"),
    ("compare", 2, "has no parent to compare it with; name two versions"),
    ("compare mara/bodice@1 mara/bodice@5", 1, "5"),
    ("why", 2, "Why is what there?"),
    ("why --seam shulder", 1, "Did you mean shoulder or side?"),
    ("why --piece back --edge wast", 1, "Did you mean waist?"),
    ("report compare", 2, "has no parent"),
    ("report history --out nowhere/h.html", 1, "The folder nowhere is not there"),
    ("print --paper a5", 2, "not on “a5”"),
    ("print --allowance 90cm", 2, "cannot be cut"),
    ("print --own hem=4cm", 2, "No piece has an edge called “hem”"),
    ("print --square 50mm", 2, "not printed at full scale"),
    # preferences and the store
    ("prefer units inch", 2, "Did you mean unit?"),
    ("prefer unit ell", 2, "Unit may be cm or inch"),
    ("prefer 'seam allowance' much", 2, "is not a length"),
    ("store new", 1, "already"),
    ("store backup studio.db", 1, "exists already"),
    ("style panels --no-front --no-back", 2, "neither leaves nothing to do"),
    ("style panels --front-from hip", 1, "hip"),
]  # fmt: skip


@pytest.mark.parametrize(("typed", "status", "sentence"), BAD, ids=[b[0] for b in BAD])
def test_bad_input_gets_its_sentence_and_nothing_is_stored(
    typed: str, status: int, sentence: str, studio: Path, tracker: Any
) -> None:
    import shlex

    before = everything(studio)
    said = tracker(*shlex.split(typed))
    assert sentence in said.err
    assert said.status == status
    assert said.out == ""
    assert "fault of the program" not in said.err
    assert everything(studio) == before


@pytest.mark.parametrize(
    "typed",
    ["client list", "client card", "measure new bust=88", "version list", "check", "prefer"],
)
def test_without_a_store_the_way_to_one_is_told(typed: str, tracker: Any) -> None:
    said = tracker(*typed.split())
    assert said.status == 1
    assert "There is no store at studio.db; make one with" in said.err


@pytest.mark.parametrize("typed", ["client list", "client card", "store check", "store update"])
def test_a_file_that_is_no_store_is_left_as_it_is(typed: str, tmp_path: Path, tracker: Any) -> None:
    (tmp_path / "studio.db").write_text("a shopping list")
    said = tracker(*typed.split())
    assert said.status == 1
    assert "not a store of this program" in said.err
    assert (tmp_path / "studio.db").read_text() == "a shopping list"


def test_with_several_clients_she_is_asked_for(studio: Path, tracker: Any) -> None:
    tracker("client", "new", "odile", "Odile Varga")
    for typed in ("measure list", "note list", "client card", "check"):
        said = tracker(*typed.split())
        assert said.status == 2
        assert "Which client? There are mara and odile" in said.err
    assert tracker("check", "mara").status == tracker("check", "bodice").status


def test_something_else_of_that_name_is_not_written_over(
    studio: Path, tmp_path: Path, tracker: Any
) -> None:
    (tmp_path / "wages.pdf").write_text("wages")
    said = tracker("print", "--out", "wages.pdf")
    assert said.status == 1
    assert "is something else and was left as it is" in said.err
    assert (tmp_path / "wages.pdf").read_text() == "wages"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("alter propose mara 1.1", "“mara” is not a note; write fitting and note, as in 2.3. A "
                                   "client is named with --client, as in: 1.1 --client mara."),
        ("alter accept mara 1.1 1.2", "as in: 1.1 1.2 --client mara."),
        ("fitting settle mara 1.1", "as in: 1.1 --client mara."),
        ("fitting settle side", "write fitting and note, as in 2.3"),
    ],
)  # fmt: skip
def test_a_client_among_notes_is_told_where_she_belongs(
    words: str, told: str, tracker: Any, studio: object
) -> None:
    said = tracker(*words.split())
    assert said.status == 2
    assert told in said.err


def test_a_note_that_cannot_be_settled_is_named_with_its_fitting(
    tracker: Any, studio: object
) -> None:
    tracker("note", "new", "--seam", "side", "--sign", "too loose", "--pinned", "4mm at side waist")
    assert "note 1.1 was made at this fitting" in tracker("fitting", "settle", "1").err.lower()
    tracker("garment", "new", "--cloth", "calico")
    tracker("fitting", "new", "--fitter", "Ida")
    said = tracker("fitting", "settle", "1.1")
    assert "Note 1.1 is open, not altered" in said.err


def test_a_draft_that_lacks_measurements_says_how_to_have_them_estimated(
    tracker: Any, studio: object
) -> None:
    for words in (["block", "draft", "--kind", "trousers"], ["block", "draft", "--as", "again"],
                  ["style", "sleeve", "--try"]):  # fmt: skip
        said = tracker(*words)
        assert said.status == 1
        assert "estimated" in said.err
        assert "--estimate" in said.err
