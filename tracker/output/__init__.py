"""Drawings, charts, reports and printed sheets, from plain values."""
