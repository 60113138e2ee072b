"""`python -m witnessmark` is the program."""

from __future__ import annotations

from witnessmark.cli import main

if __name__ == "__main__":
    main()
