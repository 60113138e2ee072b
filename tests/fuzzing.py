"""A fuzzer that follows the branches of the code: `python -m tests.fuzzing reader`.

It is atheris (libFuzzer for Python), which installs on few systems; `make fuzz` fetches it.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parent


def main() -> None:
    """Run one target until something comes out, or as long as libFuzzer's flags say."""
    sys.path.insert(0, str(HERE))
    try:
        import atheris  # type: ignore[import-untyped,unused-ignore]
    except ImportError:
        sys.exit("atheris is not here; `make fuzz` fetches it where it installs.")
    # Only what is read within this is followed, so nothing of the program may be read before.
    with atheris.instrument_imports(include=["witnessmark"]):
        from fuzz_targets import TARGETS
    name, *flags = sys.argv[1:] or [""]
    if name not in TARGETS:
        names = ", ".join(TARGETS)
        sys.exit(f"Name a target: {names}. Flags go to libFuzzer, such as -max_total_time=60.")
    target, seeds = TARGETS[name]
    with tempfile.TemporaryDirectory() as corpus:
        for number, seed in enumerate(seeds):
            Path(corpus, str(number)).write_bytes(seed)
        atheris.Setup([sys.argv[0], *flags, corpus], target)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
