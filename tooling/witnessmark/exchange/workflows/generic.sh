#!/bin/sh
# For any other build server: needs git, Python 3.11 and the whole history (no shallow clone).
# BASE is the branch that changes go into; the exit code is 1 when something needs a person.
set -eu
BASE="${BASE:-origin/main}"
python3 -m pip install witnessmark

check=0
witnessmark check decisions || check=$?
witnessmark check decisions --format junit > junit.xml || true
witnessmark check decisions --format sarif > witnessmark.sarif || true

review=0
witnessmark review "$BASE" HEAD --format html > review.html || true
witnessmark review "$BASE" HEAD > review.md || review=$?
cat review.md

[ "$check" -eq 0 ] && [ "$review" -eq 0 ]
