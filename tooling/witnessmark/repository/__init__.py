"""The disk and git: the only layer that touches them."""
