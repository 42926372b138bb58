"""Plane curves: knows nothing of sewing."""
