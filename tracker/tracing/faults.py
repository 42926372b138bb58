"""What cannot be read in a tracing: every fault in one sentence with its line."""

from dataclasses import dataclass

from tracker.errors import TrackerError

#: So many faults are told at once; the others show when these are mended.
MOST_TOLD = 12


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that cannot be read.

    Attributes:
        line: the line of the file, from 1; 0 where it is the whole file.
        words: what is wrong and what would work, without a full stop.
    """

    line: int
    words: str

    @property
    def sentence(self) -> str:
        """The fault as it is told."""
        where = f"line {self.line}: " if self.line else ""
        return f"{where}{self.words}"


class NotATracing(TrackerError):
    """A file that cannot be traced in; it holds all that is wrong, one sentence each.

    Attributes:
        faults: each fault, in the order of the file.
    """

    exit_code = 2

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = tuple(sorted(faults, key=lambda f: f.line))
        super().__init__(_told(self.faults))


def _told(faults: tuple[Fault, ...]) -> str:
    told = list(dict.fromkeys(f.sentence for f in faults))
    if len(told) == 1:
        return told[0]
    more = len(told) - MOST_TOLD
    lines = [f"  {sentence}" for sentence in told[:MOST_TOLD]]
    if more > 0:
        lines.append(f"  and {more} more, which show when these are mended")
    return "\n".join([f"{len(told)} things stand in the way:", *lines])


class Faults:
    """Gathers what is wrong while the reading goes on."""

    def __init__(self) -> None:
        self.found: list[Fault] = []

    def tell(self, line: int, words: str) -> None:
        """Write a fault down."""
        self.found.append(Fault(line, words))

    def stop_if_any(self) -> None:
        """Raise everything found so far.

        Raises:
            NotATracing: something was.
        """
        if self.found:
            raise NotATracing(tuple(self.found))
