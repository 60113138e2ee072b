"""The record checks and the museum's rule book."""
