"""Pieces, edges, seams, darts, notches and levels: the pattern, measured and checked."""
