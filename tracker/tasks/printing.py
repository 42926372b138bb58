"""Print a version at full scale."""

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from tracker.alterations.before_cutting import before_cutting
from tracker.alterations.out_of_date import out_of_date
from tracker.errors import TrackerError, nearest_names
from tracker.history.version import Address, Standing, Version
from tracker.tasks.bodies import girths_by
from tracker.tasks.named import the_version
from tracker.tasks.papers import day_words, write_paper
from tracker.tasks.preferences import Manner, manner
from tracker.tasks.versions import estimated_of, lineage, newer_approved

if TYPE_CHECKING:
    from tracker.output.order import PrintOrder
    from tracker.store.engine import Store


class NoSuchPaper(TrackerError):
    """Paper that no print is made on."""

    exit_code = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintWish:
    """What the maker asks of a print.

    Attributes:
        paper: a4, letter or sheet (one large sheet); "" for her usual.
        out: the file; none for CLIENT-PATTERN-3.pdf here.
        for_cloth: seams as for cloth; none leaves it to the version's standing.
        allowance_mm: on every seam; none for the usual.
        own: (edge, mm) with an allowance of its own.
        square_mm: what the 100 mm test square of an earlier print measured, across and up.
        roll_mm: the width of a paper roll, for one large sheet.
        out_of_date: pieces that are out of date too.
    """

    paper: str = ""
    out: Path | None = None
    for_cloth: bool | None = None
    allowance_mm: float | None = None
    own: tuple[tuple[str, float], ...] = ()
    square_mm: tuple[float, float] = (100.0, 100.0)
    roll_mm: float | None = None
    out_of_date: bool = False


@dataclass(frozen=True, slots=True)
class Printed:
    """A print as it was made.

    Attributes:
        path: the file.
        address: the version.
        paper: what it is laid out for.
        allowance_mm: on its seams.
        for_cloth: seams as for cloth, not as for a test garment.
        warnings: what to mind before cutting.
    """

    path: Path
    address: Address
    paper: str
    allowance_mm: float
    for_cloth: bool
    warnings: tuple[str, ...]


def print_version(store: "Store", said: str | None, wish: PrintWish, today: dt.date) -> Printed:
    """Write a version as a full-scale PDF and remember that it was printed.

    Raises:
        TrackerError: no such version, an allowance or paper that cannot be, or the file cannot
            be written.
    """
    how = manner(store)
    with store.reading() as books:
        version = the_version(books, said)
        line = lineage(books, version)
        newer = newer_approved(books, version.address)
        body = girths_by(books, version.address.client, version.made_on)
    for_cloth = wish.for_cloth
    if for_cloth is None:
        for_cloth = version.standing is Standing.APPROVED_FOR_CLOTH
    order = print_order(version, line, wish, how, for_cloth)
    paper, content = _laid_out(order, wish.paper or how.paper)
    a = version.address
    path = write_paper(wish.out or Path(f"{a.client}-{a.pattern}-{a.number}.pdf"), content)
    with store.writing() as books:
        books.mark_printed(a, today)
    warnings = []
    if newer:
        warnings.append(f"{newer} is approved for cloth and newer than {a}, which was printed")
    warnings.extend(body.minded if body else ())
    warnings.extend(_kept_back(order, wish, version))
    findings = before_cutting(version.pattern, body.at if body else None).findings
    late = {f"the {o.label}" for o in out_of_date(version.pattern)}
    warnings.extend(
        f"{f.sentence}; {f.remedy}"
        for f in findings
        if not (f.code == "out of date" and f.place in late)
    )
    return Printed(path, a, paper, order.added.seam_mm, for_cloth, tuple(warnings))


def _kept_back(order: "PrintOrder", wish: PrintWish, version: Version) -> Iterator[str]:
    """Say which pieces are out of date, and whether they were printed all the same."""
    for one in out_of_date(version.pattern):
        if wish.out_of_date:
            yield f"{one.sentence}; it was printed all the same"
        elif one.label in order.kept_back:
            yield (
                f"{one.sentence}, so it was not printed; {one.repair}, or print it all the same "
                "with --out-of-date"
            )


def print_order(
    version: Version, line: tuple[Version, ...], wish: PrintWish, how: Manner, for_cloth: bool
) -> "PrintOrder":
    """Return what is to be printed of a version.

    Args:
        version: the version.
        line: its ancestors and itself, the root first.
        wish: what the maker asks.
        how: her preferences.
        for_cloth: seams as for cloth.

    Raises:
        NoSuchPaper: an allowance is asked for an edge no piece has.
    """
    from tracker.output.allowance import Allowances
    from tracker.output.order import PrintOrder

    allowances = Allowances.by_preference(how.unit, test_garment=not for_cloth)
    seam_mm = wish.allowance_mm
    if seam_mm is None and for_cloth:
        seam_mm = how.allowance_mm
    if seam_mm is not None:
        allowances = replace(allowances, seam_mm=seam_mm)
    known = list(dict.fromkeys(e.name for p in version.pattern.pieces for e in p.edges))
    for edge, mm in wish.own:
        if edge not in known:
            raise NoSuchPaper(
                f"no piece has an edge called “{edge}”; there are {', '.join(known)}."
                f"{nearest_names(edge, known)}"
            )
        allowances = allowances.with_own(edge, mm)
    if for_cloth:
        allowances = allowances.as_kept(version.pattern)
    late = () if wish.out_of_date else out_of_date(version.pattern)
    names = {o.piece for o in late}
    return PrintOrder(
        pattern=replace(
            version.pattern,
            pieces=tuple(p for p in version.pattern.pieces if p.name not in names),
        ),
        client_code=version.address.client,
        address=f"{version.address.pattern}@{version.address.number}",
        standing=str(version.standing),
        day=day_words(version.made_on),
        unit=how.unit,
        allowances=allowances.neatened(version.pattern),
        test_garment=not for_cloth,
        estimated=line[0].estimated,
        estimated_of=estimated_of(line),
        kept_back=tuple(o.label for o in late),
        printed_square_mm=wish.square_mm,
        roll_mm=wish.roll_mm,
    )


def _laid_out(order: "PrintOrder", paper: str) -> tuple[str, bytes]:
    from tracker.output.order import PAPERS
    from tracker.output.sheet import large_sheet
    from tracker.output.tiles import tiled

    word = paper.strip().lower()
    if word == "sheet":
        return "one large sheet", large_sheet(order)
    for name, found in PAPERS.items():
        if name.lower() == word:
            return name, tiled(order, found)
    known = [*(name.lower() for name in PAPERS), "sheet"]
    raise NoSuchPaper(
        f"prints are made on {' or '.join(known)}, not on “{paper}”.{nearest_names(word, known)}"
    )
