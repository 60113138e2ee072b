"""Witnessmark: a museum's decisions about historic machines, kept, checked, weighed and shown."""
