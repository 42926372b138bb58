"""A dressmaker's thread from body to block to fitting to the next version of the pattern."""

__version__ = "0.1.0"
