"""The store: one SQLite file; no other package knows a database."""
