"""``tracker carry``: withdraw steps, or bring corrections across to another base."""

from typing import TYPE_CHECKING, Annotated

from typer import Argument, Option

from tracker.cli import show
from tracker.cli.clock import today
from tracker.cli.effects import drawn, write_effect
from tracker.cli.options import AsJson, PictureFile, StoreFile, opened
from tracker.cli.plain import command, noun

if TYPE_CHECKING:
    from tracker.tasks.carrying import Carried
    from tracker.tasks.preferences import Manner

app = noun(
    "Steps put onto another base: withdraw some and work out the rest again, or bring her "
    "corrections across to a block drafted afresh. A step is called by version and step: 3.1."
)

Try = Annotated[bool, Option("--try", help="Only show what would come of it.")]
LeaveOut = Annotated[
    bool, Option("--leave-out", help="Go on without steps that cannot be done there.")
]
For = Annotated[str, Option("--for", metavar="TEXT", help="What the new version is for.")]


@command(app, "withdraw")
def withdraw(
    steps: Annotated[list[str], Argument(metavar="STEP …", help="Version and step: 3.1")],
    version: Annotated[
        str | None, Option("--from", metavar="VERSION", help="Of this version; else the newest.")
    ] = None,
    sentence: For = "",
    dry: Try = False,
    leave_out: LeaveOut = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Withdraw steps: a new version without them. Nothing is deleted; their notes wait again.

    tracker carry withdraw 2.1 --from mara/bodice --try
    """
    from tracker.tasks.carrying import withdraw_steps
    from tracker.tasks.preferences import manner

    books = opened(store)
    made = withdraw_steps(books, version, steps, today(), sentence, dry, leave_out)
    write_carried(made, manner(books), json)


@command(app, "across")
def across(
    source: Annotated[str, Argument(metavar="FROM", help="The version whose steps are meant.")],
    onto: Annotated[str, Argument(metavar="ONTO", help="The version they are put onto.")],
    sentence: For = "",
    dry: Try = False,
    leave_out: LeaveOut = False,
    picture: PictureFile = None,
    store: StoreFile = None,
    json: AsJson = False,
) -> None:
    """Bring her corrections across: each applies, applies with a stated change, or cannot.

    tracker carry across mara/bodice mara/bodice-2026 --try
    """
    from tracker.tasks.carrying import bring_steps_across
    from tracker.tasks.preferences import manner

    books = opened(store)
    made = bring_steps_across(books, source, onto, today(), sentence, dry, leave_out)
    write_carried(made, manner(books), json)


def write_carried(made: "Carried", how: "Manner", as_json: bool) -> None:
    """Write what became of each step, and what was stored; draw it where a picture was asked."""
    picture = drawn(made)
    if as_json:
        steps = [{"sentence": b.sentence, "outcome": b.outcome, "told": b.told} for b in made.steps]
        version = str(made.version.address) if made.version else None
        show.as_json({"parent": str(made.parent), "version": version, "steps": show.plain(steps),
                      "waiting": list(made.waiting),
                      "withdrawn": [t.sentence for t in made.gone],
                      "effect": show.plain(made.effect),
                      "findings": show.plain(made.findings),
                      "standing": [list(pair) for pair in made.standing]}
                     | ({"picture": str(picture)} if picture else {}))  # fmt: skip
        return
    for gone in made.gone:
        show.points([f"{show.begun(gone.sentence)} (left out)"])
    for step in made.steps:
        told = f": {step.told}" if step.told else ""
        show.points([f"{show.begun(step.sentence)} ({step.outcome}{told})"])
    if made.effect:
        write_effect(made.effect, how)
    for finding in made.findings:
        show.warn([f"{finding.sentence}; {finding.remedy}"])
    if picture:
        show.tell(f"{picture}: before dashed, after solid.")
    if made.version is None:
        _tell_standing(made)
        show.tell(f"Only shown, on {made.parent}: nothing was stored.")
        return
    show.tell(f"Stored as {made.version.address}, made from {made.parent}.")
    if made.waiting:
        show.tell(f"Waiting again: note {', '.join(made.waiting)}.")
    _tell_standing(made)


def _tell_standing(made: "Carried") -> None:
    bases = dict.fromkeys(base for _, base in made.standing)
    for base in bases:
        on_it = ", ".join(newest for newest, its in made.standing if its == base)
        show.tell(f"Developed from {base} and left as it is: {on_it}.")
