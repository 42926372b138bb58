"""Likely causes of what is seen at a fitting, with their remedies: data, a file for each stage."""

from tracker.fitting.causes import arm, below, hem, legs, neck, shoulder, upper
from tracker.fitting.remedy import Cause

#: Every cause by its name.
CAUSES: dict[str, Cause] = {
    cause.name: cause
    for part in (shoulder, neck, upper, arm, below, hem, legs)
    for cause in part.CAUSES
}
