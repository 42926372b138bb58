"""Facings, linings, bands, collars, stands and folds as they are typed."""

from pathlib import Path
from typing import Any

import pytest


def pieces(tracker: Any, version: str) -> dict[str, dict[str, Any]]:
    shown = tracker("version", "show", version, "--json").json
    return {p["label"]: p for p in shown["pieces"]}


def test_a_bodice_is_faced_lined_and_checked_as_it_is_typed(studio: Path, tracker: Any) -> None:
    typed = [
        ("facing", "--edge", "neckline", "--width", "6cm"),
        ("lining", "--ease", "side=3mm", "--pleat", "2cm"),
        ("interfacing", "--smaller", "2mm"),
        ("collar", "--height", "3cm"),
        ("band", "--edge", "waist", "--overlap", "3cm", "--name", "waistband"),
    ]
    for words in typed:
        said = tracker("style", *words)
        assert said.status == 0, said.err
    made = pieces(tracker, "mara/bodice")
    assert list(made) == [
        "front", "back", "front facing", "back facing", "front lining", "back lining",
        "front facing interfacing", "back facing interfacing", "collar", "waistband",
    ]  # fmt: skip
    edges = {p: dict(made[p]["edges"]) for p in made}
    front = edges["front"]
    assert edges["front facing"]["neckline"] == pytest.approx(front["neckline"])
    assert edges["front lining"]["neckline"] == pytest.approx(
        edges["front facing"]["inner edge"], abs=0.05
    )
    checked = tracker("check", "mara/bodice", "--json")
    codes = {what.partition(":")[0] for what, _ in checked.json["figures"]}
    assert {"taken pieces", "up to date", "grain", "label", "cutting line", "stand-back"} <= codes


def test_a_flat_collar_and_a_shaped_stand_follow_the_neckline_as_they_are_typed(
    studio: Path, tracker: Any
) -> None:
    flat = tracker("style", "flat-collar", "--overlap", "2cm", "--end", "point", "--try")
    assert "draws it up at the neck" in " ".join(flat.out.split()), flat.err
    stand = tracker("style", "collar", "--shorter", "16mm", "--name", "stand", "--as", "standing")
    assert "rises by" in " ".join(stand.out.split()), stand.err
    lowered = tracker("style", "neckline", "mara/standing", "--front", "2cm")
    assert lowered.status == 0, lowered.err
    again = tracker("style", "again", "mara/standing", "--piece", "stand")
    assert again.status == 0, again.err
    edges = {p: dict(v["edges"]) for p, v in pieces(tracker, "mara/standing").items()}
    wanted = edges["front"]["neckline"] + edges["back"]["neckline"]
    assert edges["stand"]["neck edge"] == pytest.approx(wanted, abs=0.1)


def test_what_is_tried_is_shown_and_nothing_is_stored(studio: Path, tracker: Any) -> None:
    said = tracker("style", "facing", "--edge", "armhole", "--in-one", "--width", "5cm", "--try")
    assert said.status == 0
    assert "cut in one across the side seam" in said.out.replace("\n", " ").replace("  ", " ")
    assert len(tracker("version", "list", "mara/bodice", "--json").json) == 1


def test_a_neckline_lowered_puts_its_facing_out_of_date_until_it_is_traced_again(
    studio: Path, tracker: Any
) -> None:
    tracker("style", "facing", "--edge", "neckline of front")
    lowered = tracker(
        "alter", "make", "reshape an edge", "piece=front", "edge=neckline",
        "amounts=10mm at centre front neck; nothing at neck point",
    )  # fmt: skip
    assert "out of date" in lowered.out
    check = tracker("check")
    assert check.status == 1
    assert "LOOK: the front facing was taken from the front" in " ".join(check.out.split())
    printed = tracker("print", "--paper", "sheet")
    assert "so it was not printed" in " ".join(printed.err.split())
    assert "--out-of-date" in printed.err
    assert tracker("style", "again").status == 0
    assert "out of date" not in tracker("check").out
    assert "not printed" not in tracker("print", "--paper", "sheet").err


def test_a_check_reads_check_by_check_with_every_figure(studio: Path, tracker: Any) -> None:
    said = tracker("check")
    assert max(len(line) for line in said.out.splitlines()) <= 80
    assert "mara/bodice@1: passes" in said.out
    text = " ".join(said.out.split())
    assert "front 0.0 °; back 0.0 °" in text
    assert len(said.out.splitlines()) < 45


def test_a_neckline_that_runs_over_a_stand_is_faced_with_it(studio: Path, tracker: Any) -> None:
    assert tracker("style", "button-stand", "--width", "2cm").status == 0
    assert tracker("style", "facing", "--edge", "neckline").status == 0
    assert tracker("style", "lining").status == 0
    made = pieces(tracker, "mara/bodice")
    assert "front edge" in dict(made["front facing"]["edges"])
    assert "facing seam" in dict(made["front lining"]["edges"])


def test_a_stand_and_a_fold_as_they_are_typed(studio: Path, tracker: Any) -> None:
    before = dict(tracker("version", "show", "--json").json["rounds"])
    assert tracker("style", "button-stand", "--width", "2cm", "--facing", "6cm").status == 0
    assert tracker("style", "fold", "--piece", "back").status == 0
    made = pieces(tracker, "mara/bodice")
    assert made["front"]["cut"] == "cut 2, a pair"
    assert made["back"]["cut"] == "cut 1 on the fold"
    assert "facing edge" in dict(made["front"]["edges"])
    assert dict(tracker("version", "show", "--json").json["rounds"]) == pytest.approx(before)
    assert tracker("style", "fold", "--piece", "back", "--off").status == 0
    assert pieces(tracker, "mara/bodice")["back"]["cut"] == "cut 2, a pair"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("facing",), "Which edge? Name it with --edge"),
        (("facing", "--edge", "necklin"), "Did you mean neckline?"),
        (("facing", "--edge", "neckline", "--width", "20cm"), "the most that can be drawn"),
        (("lining", "--piece", "frnt"), "Did you mean front"),
        (("lining", "--ease", "sid=3mm"), "Did you mean side?"),
        (("interfacing",), "no facing, band or collar yet"),
        (("band", "--edge", "waist", "--opens-at", "side"), "not at the side"),
        (("collar", "--height", "0"), "stands higher than nothing"),
        (("collar", "--shorter", "12cm"), "shorter than its neck edge, all round"),
        (("flat-collar", "--end", "square"), "ends round or point, not “square”"),
        (("flat-collar", "--overlap", "20cm"), "13 mm is usual"),
        (("button-stand", "--width", "20cm"), "the most that can be drawn"),
        (("fold", "--piece", "front"), "no edge called 'centre back'"),
        (("again",), "No piece of this pattern is out of date"),
        (("again", "--piece", "front"), "not traced by a step"),
    ],
)
def test_what_cannot_be_done_is_one_sentence(
    studio: Path, tracker: Any, words: tuple[str, ...], told: str
) -> None:
    said = tracker("style", *words)
    assert said.status != 0
    assert told in " ".join(said.err.split())
    assert "Traceback" not in said.err
