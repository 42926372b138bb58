"""One small class per kind of step: its parameters and how it changes a pattern."""
