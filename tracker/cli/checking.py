"""``tracker check``: before cutting."""

import sys

from typer import Exit

from tracker.cli import show
from tracker.cli.options import AsJson, MaybeVersion, StoreFile, opened
from tracker.cli.plain import command, verb

app = verb()


@command(app, "check")
def check(version: MaybeVersion = None, store: StoreFile = None, json: AsJson = False) -> None:
    """Walk a version before cutting: seams, notches, darts, joins, grain, ease, the print.

    Everything is shown with its figure. Exit status 1 if there is something to look at.

        tracker check mara/bodice@2
        tracker check --json
    """
    from tracker.cli.figures import write_check
    from tracker.tasks.checking import check_version

    made = check_version(opened(store), version)
    address, checked, body = made.address, made.checked, made.body
    if json:
        told = {"measured_on": body.on if body else None, **show.plain(checked)}
        show.as_json({"address": address, "clean": checked.clean, **told})
    else:
        write_check(str(address), checked, body)
    if not checked.clean:
        count = show.counted(len(checked.findings), "thing")
        print(f"{count} to look at before cutting {address}.",
              file=sys.stderr)  # fmt: skip
        raise Exit(1)
