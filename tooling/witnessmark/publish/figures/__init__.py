"""Figures, one a module: numbers in; marks to draw, a sentence and a table out."""
