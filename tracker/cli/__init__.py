"""The command line: what was typed becomes one task, its answer becomes text."""
