"""A version of a pattern: its parent, its steps, its geometry, and a digest over them."""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from tracker.alterations.engine import apply_step
from tracker.alterations.kind import Kind
from tracker.errors import TrackerError
from tracker.history.step import Step, Taken
from tracker.pattern.canonical import canonical, digest_of, pattern_digest, settled
from tracker.pattern.pattern import Pattern


class Standing(StrEnum):
    """How far a version has come."""

    DRAWN = "drawn"
    FOR_A_TEST_GARMENT = "for a test garment"
    FITTED = "fitted"
    APPROVED_FOR_CLOTH = "approved for cloth"


@dataclass(frozen=True)
class Address:
    """Where a version is: ``client/pattern@number``."""

    client: str
    pattern: str
    number: int

    def __str__(self) -> str:
        return f"{self.client}/{self.pattern}@{self.number}"

    @classmethod
    def parse(cls, text: str) -> tuple[str, str, int | None]:
        """Read ``client/pattern`` or ``client/pattern@number``.

        Raises:
            TrackerError: it is neither.
        """
        head, at, number = text.strip().partition("@")
        client, slash, pattern = head.partition("/")
        if not (client and slash and pattern) or (at and not number.isdigit()):
            raise TrackerError(
                f"{text!r} is not the address of a pattern; write client/pattern for its newest "
                "version or client/pattern@3 for the third"
            )
        return client, pattern, int(number) if at else None


@dataclass(frozen=True)
class Root:
    """Where a pattern without parent came from.

    Attributes:
        kind: "draft a bodice", "brought in", …
        rule: the revision of the drafting arithmetic.
        recipe: body session, ease plan and choices, as plain values; a pattern is never
            worked out from it again, it says where the numbers came from.
        table: the draft's rows of wanted, got and chosen, as plain values.
        estimated: names of the body measurements that were estimated.
    """

    kind: str
    rule: int
    recipe: dict[str, Any]
    table: tuple[dict[str, Any], ...] = ()
    estimated: tuple[str, ...] = ()

    def record(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {
            "kind": self.kind,
            "rule": self.rule,
            "recipe": self.recipe,
            "table": list(self.table),
            "estimated": list(self.estimated),
        }

    @classmethod
    def from_record(cls, r: dict[str, Any]) -> "Root":
        """Read it back."""
        return cls(r["kind"], r["rule"], r["recipe"], tuple(r["table"]), tuple(r["estimated"]))


@dataclass(frozen=True)
class Version:
    """A version: computed from its parent and its steps, never redrawn by hand.

    Attributes:
        address: client code, pattern name and number.
        parent: the version it was made from, by address in words; none for a root.
        parent_digest: the parent's digest; "" for a root.
        root: where a root came from; none for a version with a parent.
        taken: the steps in order.
        pattern: its geometry.
        sentence: what it is, in a sentence.
        made_on: the date.
        digest: over parent digest, steps, geometry, sentence and date.
        standing: how far it has come; not part of the digest.
        standing_by: who approved it for cloth, and
        standing_on: when the standing was given.
    """

    address: Address
    parent: str | None
    parent_digest: str
    root: Root | None
    taken: tuple[Taken, ...]
    pattern: Pattern
    sentence: str
    made_on: dt.date
    digest: str = field(default="")
    standing: Standing = Standing.DRAWN
    standing_by: str = ""
    standing_on: dt.date | None = None

    @property
    def estimated(self) -> tuple[str, ...]:
        """Names of estimated measurements, for a root."""
        return self.root.estimated if self.root else ()


def version_digest(version: Version) -> str:
    """Work out a version's digest from what it holds."""
    return digest_of(
        {
            "format": 1,
            "parent": version.parent_digest,
            "root": version.root.record() if version.root else None,
            "steps": [t.step.record() for t in version.taken],
            "traces": digest_of([t.record() for t in version.taken]),
            "geometry": pattern_digest(version.pattern),
            "sentence": version.sentence,
            "made_on": version.made_on.isoformat(),
        }
    )


def first_version(
    address: Address, root: Root, pattern: Pattern, sentence: str, made_on: dt.date
) -> Version:
    """Return the first version of a pattern."""
    version = Version(
        address=address, parent=None, parent_digest="", root=_plain_root(root), taken=(),
        pattern=settled(pattern), sentence=sentence, made_on=made_on,
    )  # fmt: skip
    return _sealed(version)


def next_version(
    parent: Version,
    address: Address,
    steps: tuple[tuple[Kind, tuple[str, ...]], ...],
    sentence: str,
    made_on: dt.date,
    body_girths: Mapping[str, float] | None = None,
) -> Version:
    """Apply steps to a version and return the next one.

    Args:
        parent: the version to start from.
        address: the new version's address.
        steps: kinds in order, each with the ids of the observations behind it.
        sentence: what the version is for; empty takes the first step's sentence.
        made_on: the date.
        body_girths: body girths in millimetres by line, for limits in a refusal.

    Raises:
        TrackerError: a step cannot be done, or the date is before the parent's; nothing is made.
    """
    if made_on < parent.made_on:
        raise TrackerError(
            f"{parent.address} was made on {parent.made_on}, so nothing was made from it on "
            f"{made_on}"
        )
    pattern, taken = parent.pattern, list[Taken]()
    for position, (kind, because) in enumerate(steps):
        step = Step.of(kind, parent.digest, position, because)
        said = kind.sentence(pattern)
        applied = apply_step(kind, pattern, step.step_id, body_girths)
        taken.append(Taken(step, said, applied.effect, applied.trace))
        pattern = applied.pattern
    told = sentence or (taken[0].sentence if taken else "a copy")
    version = Version(
        address=address, parent=str(parent.address), parent_digest=parent.digest, root=None,
        taken=tuple(Taken.from_record(t.record()) for t in taken), pattern=pattern,
        sentence=told, made_on=made_on,
    )  # fmt: skip
    return _sealed(version)


def _plain_root(root: Root) -> Root:
    """Pass the recipe through JSON, so that memory and store agree."""
    import json

    return Root.from_record(json.loads(canonical(root.record())))


def _sealed(version: Version) -> Version:
    from dataclasses import replace

    return replace(version, digest=version_digest(version))
