"""Body measurements: what they are called, how they are taken, and what they can tell."""
