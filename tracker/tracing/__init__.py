"""Tracing an existing pattern in, and writing one out: tables of points, drawings, no files."""
