"""From facts to the three scores, each with the facts it came from."""
