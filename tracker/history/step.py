"""A step as it is recorded: a kind's word and its parameters, and why it was made."""

from dataclasses import dataclass
from typing import Any

from tracker.alterations.effect import Effect, effect_from, effect_record
from tracker.alterations.kind import Kind, kind_named
from tracker.pattern.canonical import digest_of
from tracker.pattern.trace import Trace, trace_from, trace_record

FORMAT = 1


@dataclass(frozen=True)
class Step:
    """One recorded change.

    Attributes:
        step_id: opaque; displacements and traces carry it.
        kind: the word of its kind.
        rule: the revision of the arithmetic that was used.
        parameters: the kind's parameters as plain values, lengths in millimetres.
        because: opaque ids of the observations that asked for it.
    """

    step_id: str
    kind: str
    rule: int
    parameters: dict[str, Any]
    because: tuple[str, ...] = ()

    @classmethod
    def of(cls, kind: Kind, parent_digest: str, position: int, because: tuple[str, ...]) -> "Step":
        """Record a kind; the id follows from what it is and where it stands, so replays agree."""
        parameters = kind.parameters()
        body = [parent_digest, position, kind.word, kind.rule, parameters]
        return cls(digest_of(body)[:16], kind.word, kind.rule, parameters, because)

    def as_kind(self) -> Kind:
        """Return the kind with its parameters read back."""
        return kind_named(self.kind).from_parameters(self.parameters)

    def record(self) -> dict[str, Any]:
        """Return it as plain values, as digested and stored."""
        return {
            "format": FORMAT,
            "id": self.step_id,
            "kind": self.kind,
            "rule": self.rule,
            "parameters": self.parameters,
            "because": list(self.because),
        }

    @classmethod
    def from_record(cls, r: dict[str, Any]) -> "Step":
        """Read it back."""
        return cls(r["id"], r["kind"], r["rule"], r["parameters"], tuple(r["because"]))


@dataclass(frozen=True)
class Taken:
    """A step that was taken: with its sentence, effect and trace as they were then."""

    step: Step
    sentence: str
    effect: Effect
    trace: Trace

    def record(self) -> dict[str, Any]:
        """Return it as plain values."""
        return {
            "step": self.step.record(),
            "sentence": self.sentence,
            "effect": effect_record(self.effect),
            "trace": trace_record(self.trace),
        }

    @classmethod
    def from_record(cls, r: dict[str, Any]) -> "Taken":
        """Read it back."""
        return cls(
            Step.from_record(r["step"]),
            r["sentence"],
            effect_from(r["effect"]),
            trace_from(r["trace"]),
        )
