"""Formats for other programs."""
