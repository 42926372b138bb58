"""What can be wrong with a pattern or with what is asked of one."""

from tracker.errors import TrackerError


class PatternError(TrackerError):
    """A pattern that is not whole, or a question it cannot answer."""


class UnknownName(PatternError):
    """A piece, edge, corner, seam, dart, notch or line that the pattern does not have."""


class NoOutline(PatternError):
    """A question about a line that was never drawn; the pattern has names and lengths only."""
