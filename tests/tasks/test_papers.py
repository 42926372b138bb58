"""Reports and prints: what stands in them comes from the store, and files are written whole."""

import datetime as dt
from pathlib import Path

import pytest
from studio import MEASURED, TODAY

from tracker.alterations.kinds.add_a_dart import AddDart
from tracker.alterations.kinds.move_a_dart import MoveDart
from tracker.alterations.kinds.move_a_notch import MoveNotch
from tracker.body.session import MeasuringSession, Reading
from tracker.errors import TrackerError
from tracker.pattern.bodyside import BodySide
from tracker.store.engine import Store
from tracker.tasks.altering import alter
from tracker.tasks.bodies import girths_by
from tracker.tasks.checking import check_version
from tracker.tasks.history_report import report_history
from tracker.tasks.measuring import record_session
from tracker.tasks.papers import SomethingElseThere, write_paper
from tracker.tasks.preferences import manner, prefer
from tracker.tasks.printing import PrintWish, print_version
from tracker.tasks.reporting import report_comparison
from tracker.tasks.said import as_it_is, take_in
from tracker.tasks.spots import spot_of
from tracker.tasks.styling import PanelWish, panel

DART = AddDart(
    piece="back", name="neckline dart", edge="neckline", corner="neck point", distance_mm=30.0,
    width_mm=8.0, length_mm=60.0,
)  # fmt: skip


def _worked_on(store: Store) -> None:
    notch = MoveNotch(piece="front", notch="side notch", by_mm=5.0)
    amounts = ((4.0, "side waist", 0.0), (0.0, "underarm point", 0.0))
    for maker in (take_in("side", BodySide.BOTH, amounts), as_it_is(notch), as_it_is(DART)):
        alter(store, "mara/bodice", [maker], TODAY)


def test_every_step_can_be_pointed_at_on_the_outline_it_moved(studio: Store) -> None:
    _worked_on(studio)
    panel(studio, "mara/bodice", PanelWish(), TODAY, "princess")
    with studio.reading() as books:
        taken = [t for v in books.versions("mara", "bodice") for t in v.taken]
        own = books.version("mara", "princess").taken
        pattern = books.version("mara", "princess").pattern
    steps = [*taken, *own]
    wanted = ("side", "side", "neckline", "front princess", "back princess")
    for k, (step, edge) in enumerate(zip(steps, wanted, strict=True)):
        spot = spot_of(step, steps[k + 1 :], pattern)
        assert spot is not None
        piece = pattern.piece(spot[0], spot[1])
        gaps = {e.name: e.nearest(spot[2])[1] for e in piece.edges}
        assert min(gaps.values()) < 0.05, step.sentence
        assert gaps[edge] < 0.05, (step.sentence, gaps)


def test_a_comparison_report_says_each_change_and_which_note_asked(
    studio: Store, tmp_path: Path
) -> None:
    _worked_on(studio)
    made = report_comparison(studio, "mara/bodice@1", "@4", tmp_path / "c.html", TODAY)
    assert len(made.changes) == 3
    page = made.path.read_text()
    for sentence in (
        "4 mm (3/16 in) at the side waist",
        "moved 5 mm (3/16 in)",
        "8 mm (5/16 in), 60 mm (2 3/8 in) long",
    ):
        assert sentence in page
    assert "mara/bodice@1" in page
    assert "Mara Lind" not in page
    back = report_comparison(studio, "mara/bodice@4", "mara/bodice@1", tmp_path / "d.html", TODAY)
    assert back.changes == ()


def test_ease_is_held_against_the_body_a_version_was_made_for(
    studio: Store, tmp_path: Path
) -> None:
    _worked_on(studio)
    later = MeasuringSession(
        on=TODAY, by="Ida", readings=(Reading(key="waist-girth", values=(700.0,)),)
    )
    record_session(studio, "mara", later, new_id=lambda: "session-2")
    drawn, altered = (check_version(studio, f"mara/bodice@{n}").body for n in (1, 2))
    assert drawn is not None
    assert altered is not None
    assert (drawn.at["waist line"], drawn.on, drawn.since) == (640.0, MEASURED, TODAY)
    assert (altered.at["waist line"], altered.on, altered.since) == (700.0, TODAY, None)
    page = report_comparison(studio, "mara/bodice@1", "@2", tmp_path / "c.html", TODAY)
    assert "body as measured on 20 March 2026" in page.path.read_text()


def test_a_version_older_than_any_measuring_is_held_against_the_first_there_is(
    studio: Store,
) -> None:
    with studio.reading() as books:
        body = girths_by(books, "mara", MEASURED - dt.timedelta(days=1))
    assert body is not None
    assert body.on == MEASURED


def test_a_history_report_holds_sessions_fittings_and_versions(
    studio: Store, tmp_path: Path
) -> None:
    _worked_on(studio)
    code, path = report_history(studio, None, tmp_path / "h.html", TODAY)
    page = path.read_text()
    assert code == "mara"
    for words in ("thin bra", "calico", "bodice@4", "by Ida"):
        assert words in page
    why = page[page.index("Why is this line here?") : page.index("Garments and fittings")]
    assert "<summary>side seam" in why
    assert "mara/bodice@1" in why  # back to the draft
    assert "Right and left side seams in" in why


def test_a_print_is_remembered_and_follows_the_preferences(studio: Store, tmp_path: Path) -> None:
    made = print_version(studio, None, PrintWish(paper="sheet", out=tmp_path / "p.pdf"), TODAY)
    assert made.path.read_bytes().startswith(b"%PDF-")
    assert not made.for_cloth
    prefer(studio, "seam allowance", "1.2")
    prefer(studio, "unit", "inch")
    wish = PrintWish(paper="sheet", out=tmp_path / "p.pdf", for_cloth=True)
    assert print_version(studio, None, wish, TODAY).allowance_mm == 12.0
    with studio.reading() as books:
        printed = books.last_printed("mara", "bodice")
    assert printed is not None
    assert printed[1] == TODAY


def test_an_allowance_nobody_chose_follows_the_unit(studio: Store) -> None:
    assert manner(studio).allowance_mm == 15.0
    prefer(studio, "unit", "inch")
    assert manner(studio).allowance_mm == pytest.approx(15.875)


def test_a_print_that_cannot_be_made_is_not_remembered(studio: Store, tmp_path: Path) -> None:
    for wish in (
        PrintWish(paper="a5", out=tmp_path / "p.pdf"),
        PrintWish(paper="sheet", out=tmp_path / "nowhere" / "p.pdf"),
        PrintWish(paper="sheet", out=tmp_path / "p.pdf", own=(("sleeve", 10.0),)),
    ):
        with pytest.raises(TrackerError):
            print_version(studio, None, wish, TODAY)
    with studio.reading() as books:
        assert books.last_printed("mara", "bodice") is None
    assert list(tmp_path.glob("*.pdf")) == []


def test_a_paper_replaces_an_earlier_one_and_nothing_else(tmp_path: Path) -> None:
    path = tmp_path / "p.pdf"
    write_paper(path, b"%PDF-1 one")
    write_paper(path, b"%PDF-1 two")
    assert path.read_bytes() == b"%PDF-1 two"
    (tmp_path / "notes.txt").write_text("mine")
    (tmp_path / "h.html").write_text("my own page")
    for other in ("notes.txt", "h.html", "."):
        with pytest.raises(SomethingElseThere):
            write_paper(tmp_path / other, b"<!doctype html>")
    assert sorted(p.name for p in tmp_path.iterdir() if p.suffix != ".db") == [
        "h.html", "notes.txt", "p.pdf"
    ]  # fmt: skip


def test_a_dart_that_was_moved_is_pointed_at_and_not_an_edge_trued_beside_it(
    studio: Store,
) -> None:
    down = MoveDart(piece="front", dart="bust dart", by_mm=10.0, toward="side waist")
    alter(studio, "mara/bodice", [as_it_is(down)], TODAY)
    with studio.reading() as books:
        (taken,) = books.version("mara", "bodice").taken
        pattern = books.version("mara", "bodice").pattern
    spot = spot_of(taken, (), pattern)
    assert spot is not None
    assert spot[2] == pattern.piece("front").dart("bust dart").mouth_start


def test_the_head_of_a_comparison_of_many_changes_says_how_many_there_are(
    studio: Store, tmp_path: Path
) -> None:
    _worked_on(studio)
    many = report_comparison(studio, "mara/bodice@1", "@4", tmp_path / "c.html", TODAY)
    assert "<p>3 changes, numbered below. The newest: " in many.path.read_text()
    one = report_comparison(studio, "mara/bodice@3", "@4", tmp_path / "d.html", TODAY)
    assert "numbered below" not in one.path.read_text()


def test_the_areas_of_a_page_in_inches_are_square_inches(studio: Store, tmp_path: Path) -> None:
    _worked_on(studio)
    prefer(studio, "unit", "inch")
    made = report_comparison(studio, "mara/bodice@1", "@4", tmp_path / "c.html", TODAY)
    page = made.path.read_text()
    assert " sq in</td>" in page
    assert "cm²" not in page
