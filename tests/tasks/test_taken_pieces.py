"""Taken pieces through the store: checked, kept back from printing, traced again."""

import io
from pathlib import Path

import pytest
from studio import TODAY

from tracker.alterations.kinds.leave_it_as_it_is import LeaveAsItIs
from tracker.alterations.kinds.reshape_an_edge import AmountAt, ReshapeEdge
from tracker.alterations.kinds.trace_a_facing import TraceFacing
from tracker.alterations.kinds.trace_it_again import TraceAgain
from tracker.alterations.tracing import EdgeOf
from tracker.body.session import MeasuringSession, Reading
from tracker.store.engine import Store
from tracker.tasks.altering import alter
from tracker.tasks.checking import check_version
from tracker.tasks.measuring import record_session
from tracker.tasks.printing import PrintWish, print_version
from tracker.tasks.said import as_it_is
from tracker.tasks.styling import SleeveWish, sew_in_sleeves
from tracker.tasks.versions import show_version, work_out_again

LOWER = ReshapeEdge(
    piece="front", edge="neckline",
    amounts=(AmountAt(corner="centre front neck", distance_mm=0.0, amount_mm=10.0),
             AmountAt(corner="neck point", distance_mm=0.0, amount_mm=0.0)),
)  # fmt: skip
FACE = TraceFacing(
    name="front facing", edges=(EdgeOf(piece="front", edge="neckline"),), width_mm=60.0
)


def made(store: Store, *kinds: object) -> None:
    alter(store, "mara/bodice", [as_it_is(kind) for kind in kinds], TODAY)


def printed(store: Store, out: Path, **wish: object) -> tuple[str, tuple[str, ...]]:
    from pypdf import PdfReader

    wished = PrintWish(paper="sheet", out=out, **wish)
    told = print_version(store, "mara/bodice", wished, TODAY)
    text = PdfReader(io.BytesIO(out.read_bytes())).pages[0].extract_text()
    return " ".join(text.split()), told.warnings


def codes(store: Store) -> set[str]:
    return {f.code for f in check_version(store, "mara/bodice").checked.findings}


def test_a_check_also_tells_whether_it_prints_right(studio: Store) -> None:
    figures = dict(check_version(studio, "mara/bodice").checked.figures)
    assert figures["cutting line: the front"] == "0.0 mm"
    assert figures["label: the back"].startswith("letters from")
    assert "grain: the front" in figures


def test_what_is_out_of_date_is_kept_from_printing_until_it_is_put_right(
    studio: Store, tmp_path: Path
) -> None:
    made(studio, FACE)
    text, minded = printed(studio, tmp_path / "1.pdf")
    assert "FRONT FACING" in text
    assert not any("out of date" in m for m in minded)
    assert "out of date" not in codes(studio)

    made(studio, LOWER)
    assert "out of date" in codes(studio)
    text, minded = printed(studio, tmp_path / "2.pdf")
    assert "FRONT FACING" not in text
    assert "Out of date, so not printed: front facing." in text
    (told,) = (m for m in minded if "out of date" in m)
    assert "so it was not printed" in told
    assert 'tracker style again --piece "front facing"' in told
    assert "--out-of-date" in told

    text, minded = printed(studio, tmp_path / "3.pdf", out_of_date=True)
    assert "FRONT FACING" in text
    assert any("it was printed all the same" in m for m in minded)

    made(studio, TraceAgain(piece="front facing"))
    text, minded = printed(studio, tmp_path / "4.pdf")
    assert "FRONT FACING" in text
    assert "out of date" not in codes(studio)
    assert all(r.sound for r in work_out_again(studio, "mara/bodice"))


def test_a_piece_left_as_it_is_prints_again(studio: Store, tmp_path: Path) -> None:
    made(studio, FACE, LOWER, LeaveAsItIs(piece="front facing"))
    text, minded = printed(studio, tmp_path / "1.pdf")
    assert "FRONT FACING" in text
    # It is not out of date; that it no longer is as long as its neckline is still found.
    assert not any("out of date" in m for m in minded)
    assert "taken pieces" in codes(studio)


@pytest.mark.parametrize("estimate", [True, False])
def test_a_sleeve_from_an_estimated_arm_says_so_on_its_piece(
    studio: Store, tmp_path: Path, estimate: bool
) -> None:
    measured = [("upper-arm-girth", 290.0), ("arm-length", 590.0)]
    if not estimate:
        measured += [
            ("elbow-girth", 260.0), ("wrist-girth", 165.0), ("shoulder-to-elbow", 350.0),
        ]  # fmt: skip
    session = MeasuringSession(
        on=TODAY, by="Ida", wearing="thin bra",
        readings=tuple(Reading(key=key, values=(mm,)) for key, mm in measured),
    )  # fmt: skip
    record_session(studio, "mara", session, new_id=lambda: "arm")
    sew_in_sleeves(studio, "mara/bodice", SleeveWish(estimate=estimate), TODAY, None)
    text, _ = printed(studio, tmp_path / "1.pdf")
    assert "SLEEVE" in text
    assert bool(show_version(studio, "mara/bodice").estimated) is estimate
    assert ("wrist" in text and "estimated, not measured" in text) is estimate
    # One label, the sleeve's, and the title name what was estimated; front and back do not.
    assert text.lower().count("estimated, not measured") == (2 if estimate else 0)
