"""Blocks drafted from a body, and the geometry of styles developed from them."""
