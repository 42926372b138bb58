"""The kinds of step, one file each."""
