"""Check a version before cutting: the whole walk, and whether it will print right."""

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from tracker.alterations.before_cutting import before_cutting
from tracker.history.version import Address, Standing
from tracker.pattern.checked import Checked
from tracker.tasks.bodies import GirthsMeasured, girths_by
from tracker.tasks.ease_told import as_fitted, lines_fitted
from tracker.tasks.named import note_names, the_version
from tracker.tasks.preferences import manner
from tracker.tasks.printing import PrintWish, print_order
from tracker.tasks.versions import lineage

if TYPE_CHECKING:
    from tracker.store.engine import Store


@dataclass(frozen=True, slots=True)
class CheckedVersion:
    """A version as it was checked, and the girths its ease was held against, if there are any."""

    address: Address
    checked: Checked
    body: GirthsMeasured | None


def check_version(store: "Store", said: str | None) -> CheckedVersion:
    """Check a version before cutting, its ease against the body it was made for.

    Raises:
        TrackerError: no such version.
    """
    from tracker.output.fit import fit_to_print

    how = manner(store)
    with store.reading() as books:
        version = the_version(books, said)
        line = lineage(books, version)
        body = girths_by(books, version.address.client, version.made_on)
    for_cloth = version.standing is Standing.APPROVED_FOR_CLOTH
    order = print_order(version, line, PrintWish(out_of_date=True), how, for_cloth)
    checked = before_cutting(version.pattern, body.at if body else None)
    checked = replace(
        checked, findings=as_fitted(checked.findings, lines_fitted(line), version.pattern)
    )
    return CheckedVersion(version.address, checked.beside(fit_to_print(order)), body)


def before_approving(store: "Store", said: str | None) -> tuple[str, ...]:
    """Say what speaks against cutting cloth from a version: never fitted, notes open, findings.

    Raises:
        TrackerError: no such version.
    """
    checked = check_version(store, said)
    here, code = checked.address, checked.address.client
    minds: list[str] = []
    with store.reading() as books:
        of_pattern = f"{code}/{here.pattern}@"
        garments = {g.garment_id: g.cut_from or "" for g in books.garments(code)}
        fitted = {f.fitting_id: garments[f.garment_id] for f in books.fittings(code)}
        version = books.version(code, here.pattern, here.number)
        line = [str(v.address) for v in reversed(lineage(books, version))]
        last = next((v for v in line if v in fitted.values()), None)
        if last != str(here):
            since = f"; the last that was is of {last}" if last else ""
            minds.append(f"no garment cut from {here} was fitted{since}")
        names = note_names(books, code)
        open_notes = [
            names[n.observation_id]
            for n in books.notes(code)
            if n.waiting and fitted[n.fitting_id].startswith(of_pattern)
        ]
    if open_notes:
        which = "note" if len(open_notes) == 1 else "notes"
        wait = "waits" if len(open_notes) == 1 else "wait"
        minds.append(f"{which} {', '.join(open_notes)} of this pattern still {wait}")
    minds.extend(f"{f.sentence}; {f.remedy}" for f in checked.checked.findings)
    return tuple(minds)
