"""A check says the same however it is worked out: shared, in parts, or from what is remembered.

The oracle is the plain check of the whole museum read at once, which shares and remembers nothing.
"""

from __future__ import annotations

import hashlib
import json
import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from calling import DEMO, call
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.model.library import assemble
from witnessmark.model.trace import Traces
from witnessmark.repository.asking import Part, Request, check_museum
from witnessmark.repository.desk import Desk
from witnessmark.repository.disk import list_museum, paths_by_machine, read_museum
from witnessmark.repository.kept_file import memory_of
from witnessmark.repository.memory import recall
from witnessmark.repository.shelf import Shelf
from witnessmark.rules.check import check
from witnessmark.rules.outside import Outside
from witnessmark.rules.rulebook_check import load_shipped

Edit = Callable[[Path, random.Random], None]


@pytest.fixture
def museum(tmp_path: Path) -> Path:
    return Path(shutil.copytree(DEMO, tmp_path / "decisions"))


def seeded(number: int) -> random.Random:
    """Dice that fall the same in every run."""
    return random.Random(number)  # noqa: S311  edits, not secrets


def plainly(museum: Path) -> tuple[int, tuple[Diagnostic, ...]]:
    checked = check(assemble(read_museum(museum)), rulebook=load_shipped())
    return checked.records, checked.diagnostics


def asked(request: Request) -> tuple[int, tuple[Diagnostic, ...]]:
    checked = check_museum(request).checked
    return checked.records, checked.diagnostics


def records(museum: Path) -> list[Path]:
    return sorted(museum.glob("*/20[0-9][0-9]-[0-9][0-9][0-9]-*.yml"))


def drop_a_line(museum: Path, dice: random.Random) -> None:
    path = dice.choice(sorted(museum.rglob("*.yml")))
    lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
    del lines[dice.randrange(len(lines))]
    path.write_text("".join(lines), encoding="utf-8")


def change_a_number(museum: Path, dice: random.Random) -> None:
    path = dice.choice(sorted(museum.rglob("*.yml")))
    text = path.read_text(encoding="utf-8")
    found = dice.choice(list(re.finditer(r"[0-9]", text)))
    path.write_text(
        text[: found.start()] + dice.choice("0123456789") + text[found.end() :], encoding="utf-8"
    )


def change_a_state(museum: Path, dice: random.Random) -> None:
    path = dice.choice(records(museum))
    text = path.read_text(encoding="utf-8")
    states = ["draft", "for-review", "agreed", "under-way", "done", "withdrawn", "replaced"]
    changed = re.sub(r"^state: .*$", f"state: {dice.choice(states)}", text, flags=re.MULTILINE)
    path.write_text(changed, encoding="utf-8")


def swap_names(museum: Path, dice: random.Random) -> None:
    """An id, a label or a lot written anywhere becomes another that stands in the museum."""
    kinds = (r"\b20[0-9]{2}-[0-9]{3}\b", r"\bMQ-[0-9]{4}\b", r"(?<=from: )[a-z-]+(?:/[a-z/-]+)?")
    pattern = dice.choice(kinds)
    paths = sorted(museum.rglob("*.yml"))
    every = [(path, m) for path in paths for m in re.finditer(pattern, path.read_text("utf-8"))]
    path, found = dice.choice(every)
    text = path.read_text(encoding="utf-8")
    other = dice.choice(every)[1].group()
    path.write_text(text[: found.start()] + other + text[found.end() :], encoding="utf-8")


def take_a_file_away(museum: Path, dice: random.Random) -> None:
    dice.choice([p for p in sorted(museum.rglob("*")) if p.is_file()]).unlink()


def copy_a_record(museum: Path, dice: random.Random) -> None:
    path = dice.choice(records(museum))
    number = f"20{dice.randrange(10, 40)}-{dice.randrange(100, 999)}"
    text = path.read_text(encoding="utf-8")
    if dice.random() < 0.7:  # else two records claim one id
        text = re.sub(r"^id: .*$", f"id: {number}", text, flags=re.MULTILINE)
    folder = dice.choice(records(museum)).parent
    (folder / f"{number}-copy.yml").write_text(text, encoding="utf-8")


EDITS: tuple[Edit, ...] = (
    drop_a_line,
    change_a_number,
    change_a_state,
    swap_names,
    take_a_file_away,
    copy_a_record,
)
SEEDS = range(40 if os.environ.get("WITNESSMARK_SOAK") == "1" else 8)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_check_from_memory_says_what_a_check_without_one_says(museum: Path, seed: int) -> None:
    dice = seeded(seed)
    memory = museum.parent / "memory.json"
    check_museum(Request(museum, memory=memory))
    for _ in range(8):
        dice.choice(EDITS)(museum, dice)
        if not (museum / "museum.yml").exists():
            return
        assert plainly(museum) == asked(Request(museum, memory=memory))


@pytest.mark.parametrize("seed", SEEDS)
def test_checks_of_one_machine_or_part_in_between_leave_the_memory_true(
    museum: Path, seed: int
) -> None:
    dice = seeded(1000 + seed)
    memory = museum.parent / "memory.json"
    check_museum(Request(museum, memory=memory))
    for _ in range(4):
        before = {path: path.read_bytes() for path in museum.rglob("*") if path.is_file()}
        dice.choice(EDITS)(museum, dice)
        if not (museum / "museum.yml").exists():
            return
        machine = dice.choice(sorted(p.parent.name for p in museum.glob("*/machine.yml")))
        check_museum(Request(museum, f"{museum.name}/{machine}", memory))
        if dice.random() < 0.5:  # back as it was, which the part below finds remembered in part
            shutil.rmtree(museum)
            for path, content in before.items():
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_bytes(content)
        check_museum(Request(museum, memory=memory, part=Part(dice.choice((1, 2)), 2)))
        assert plainly(museum) == asked(Request(museum, memory=memory))


def test_a_change_of_prose_is_checked_again_and_no_other_folder_is(museum: Path) -> None:
    memory = museum.parent / "memory.json"
    check_museum(Request(museum, memory=memory))
    before = recall(memory).folders
    record = museum / "fire-pump" / "2023-004-shaft-bush.yml"
    assert record.exists()
    record.write_text(record.read_text("utf-8") + "# looked at again\n", encoding="utf-8")
    check_museum(Request(museum, memory=memory))
    after = recall(memory).folders
    others = [name for name in before if before[name].verdict_key != after[name].verdict_key]
    assert ["fire-pump"] == others


def test_the_last_answer_told_again_knows_the_place_of_each_finding(museum: Path) -> None:
    memory = museum.parent / "memory.json"
    record = records(museum)[0]
    record.write_text(record.read_text("utf-8").replace("title: ", "titel: ", 1), encoding="utf-8")
    first = check_museum(Request(museum, memory=memory)).checked.diagnostics
    again = check_museum(Request(museum, memory=memory)).checked.diagnostics
    assert [one.path for one in first] == [one.path for one in again]
    assert ("titel",) in [one.path for one in again]


def test_what_is_remembered_is_used(museum: Path) -> None:
    memory = museum.parent / "memory.json"
    (museum / "fire-pump" / "photos").mkdir(exist_ok=True)
    record = records(museum)[0]
    record.write_text(record.read_text("utf-8").replace("title: ", "titel: ", 1), encoding="utf-8")
    before = asked(Request(museum, memory=memory))
    text = memory.read_text(encoding="utf-8")
    body = text.partition("\n")[2].replace("titel", "TITLE")
    forged = recall(memory)
    assert forged.folders
    write_with_head(memory, body)
    memory.with_name(f"{memory.stem}-last.json").unlink()
    after = asked(Request(museum, memory=memory))
    assert before != after
    assert any("TITLE" in found.message for found in after[1])


def write_with_head(memory: Path, body: str) -> None:
    """A memory as the program would have written it, whatever stands in it."""
    head = memory.read_text(encoding="utf-8").partition("\n")[0].rpartition(" ")[0]
    digest = hashlib.sha256(body.encode()).hexdigest()
    memory.write_text(f"{head} {digest}\n{body}", encoding="utf-8")


def cut_short(memory: Path) -> None:
    memory.write_bytes(memory.read_bytes()[:-100])


def one_bit_off(memory: Path) -> None:
    raw = bytearray(memory.read_bytes())
    raw[len(raw) // 2] ^= 1
    memory.write_bytes(raw)


def of_another_version(memory: Path) -> None:
    raw = memory.read_bytes()
    first, _, rest = raw.partition(b" ")
    memory.write_bytes(first + b" 00" + rest[2:])


def not_json(memory: Path) -> None:
    write_with_head(memory, "{]")


def of_another_shape(memory: Path) -> None:
    write_with_head(memory, '{"fire-pump": {"key": 3}}')


def a_link(memory: Path) -> None:
    memory.rename(memory.with_name("elsewhere.json"))
    memory.symlink_to("elsewhere.json")


def open_to_others(memory: Path) -> None:
    memory.chmod(0o666)


def a_folder(memory: Path) -> None:
    memory.unlink()
    memory.mkdir()


def not_text(memory: Path) -> None:
    memory.write_bytes(b"\xff\xfe\x00\n\x80")


DAMAGES = (
    cut_short, one_bit_off, of_another_version, not_json, of_another_shape, a_link, open_to_others,
    a_folder, not_text,
)  # fmt: skip


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_memory_that_cannot_be_trusted_is_none(
    museum: Path, damage: Callable[[Path], None]
) -> None:
    memory = museum.parent / "memory.json"
    check_museum(Request(museum, memory=memory))
    assert recall(memory).folders
    damage(memory)
    assert {} == recall(memory).folders
    assert plainly(museum) == asked(Request(museum, memory=memory))


def test_a_memory_that_cannot_be_written_changes_nothing(museum: Path) -> None:
    memory = museum / "museum.yml" / "memory.json"
    assert plainly(museum) == asked(Request(museum, memory=memory))


def test_two_checks_at_once_both_say_the_truth_and_leave_a_whole_memory(museum: Path) -> None:
    command = [sys.executable, "-m", "witnessmark", "check", str(museum), "--format", "json"]
    running = [subprocess.Popen(command, stdout=subprocess.PIPE, text=True) for _ in range(3)]
    told = [one.communicate()[0] for one in running]
    assert [call("check", str(museum), "--no-cache", "--format", "json").out] * 3 == told
    assert recall(memory_of(museum)).folders


def test_nothing_is_remembered_of_a_museum_that_changed_while_it_was_read(museum: Path) -> None:
    listing = list_museum(museum)
    record = records(museum)[0]
    record.write_text(record.read_text("utf-8") + "\n", encoding="utf-8")
    desk = Desk(listing)
    desk.traces_of([record.parent.name])
    assert desk.has_changed()


def test_no_memory_lies_in_the_museum_or_its_clone(museum: Path) -> None:
    before = sorted(museum.parent.rglob("*"))
    call("check", str(museum))
    assert before == sorted(museum.parent.rglob("*"))


def test_without_a_cache_nothing_is_remembered(museum: Path) -> None:
    call("check", str(museum), "--no-cache")
    assert not memory_of(museum).exists()


@pytest.mark.parametrize("room", [0, 30_000, 10**9])
def test_what_is_laid_aside_comes_back_as_it_was(room: int) -> None:
    listing = list_museum(DEMO)
    shelf = Shelf(listing, room=room)
    names = list(paths_by_machine(listing))
    first = [shelf.lay_aside(name) for name in names]
    assert first == [shelf.folder(name) for name in names]
    assert not shelf.has_changed
    shelf.close()


def test_traces_are_the_same_a_folder_at_a_time_as_all_at_once() -> None:
    listing = list_museum(DEMO)
    desk = Desk(listing)
    apart = [
        t for traces in desk.traces_of(list(paths_by_machine(listing))).values() for t in traces
    ]
    whole = assemble(read_museum(DEMO)).traces.all
    assert sorted(apart, key=lambda t: t.id) == list(whole)
    assert isinstance(Traces(whole).by_id["2024-003"].title, str)


@pytest.mark.parametrize("jobs", ["1", "2", "5"])
def test_shared_out_or_not_the_same_bytes_are_printed(museum: Path, jobs: str) -> None:
    records(museum)[3].write_text("id: [\n", encoding="utf-8")
    drop_a_line(museum, seeded(7))
    alone = call("check", str(museum), "--no-cache", "--format", "json", "--jobs", "1")
    shared = call("check", str(museum), "--no-cache", "--format", "json", "--jobs", jobs)
    assert (alone.code, alone.out) == (shared.code, shared.out)
    assert 2 <= len(alone.json["diagnostics"])


@pytest.mark.parametrize("count", [1, 2, 8])
def test_parts_put_together_are_the_whole(museum: Path, tmp_path: Path, count: int) -> None:
    for seed in range(6):
        swap_names(museum, seeded(seed))
    whole = call("check", str(museum), "--format", "json")
    files = []
    for number in range(1, count + 1):
        part = call("check", str(museum), "--format", "json", "--shard", f"{number}/{count}")
        files.append(tmp_path / f"{number}.json")
        files[-1].write_text(part.out, encoding="utf-8")
    told = [row for file in files for row in json.loads(file.read_text())["diagnostics"]]
    merged = call("check", "--merge", *map(str, files), "--format", "json")
    assert (whole.code, whole.out) == (merged.code, merged.out)
    assert len(whole.json["diagnostics"]) == len(told)


def test_a_part_of_the_museum_says_which_part_it_is() -> None:
    told = [check_museum(Request(DEMO, part=Part(n, 2))).records for n in (1, 2)]
    assert not set(told[0]) & set(told[1])
    assert len(records(DEMO)) == len(told[0]) + len(told[1])


def test_parts_that_are_missing_or_of_two_museums_are_not_put_together(
    museum: Path, tmp_path: Path
) -> None:
    one, two, other = tmp_path / "1.json", tmp_path / "2.json", tmp_path / "other.json"
    one.write_text(call("check", str(museum), "--format", "json", "--shard", "1/2").out)
    two.write_text(call("check", str(museum), "--format", "json", "--shard", "2/2").out)
    drop_a_line(museum, seeded(1))
    other.write_text(call("check", str(museum), "--format", "json", "--shard", "2/2").out)
    missing = call("check", "--merge", str(one))
    assert (2, True) == (missing.code, "not all parts of one check: 1/2" in missing.err)
    mixed = call("check", "--merge", str(one), str(other))
    assert (2, True) == (mixed.code, "different states of the museum" in mixed.err)
    strange = call("check", "--merge", str(one), str(museum / "museum.yml"))
    assert (2, True) == (strange.code, "is not the JSON of a part" in strange.err)
    assert call("check", "--merge", str(one), str(two)).code in (0, 1)


@pytest.mark.parametrize("written", ["0/2", "3/2", "1", "a/b", "1/0", "²/3"])
def test_a_part_that_is_none_is_refused(written: str) -> None:
    told = call("check", str(DEMO), "--shard", written)
    assert (2, True) == (told.code, "Write 2/3 for the second of three." in told.err)


BANNED = ("git", "mkdocs", "pint", "rich", "numpy", "jinja2", "PIL", "weasyprint", "pyarrow")


@pytest.mark.parametrize(
    "words",
    [("--help",), ("check", str(DEMO)), ("check", str(DEMO / "fire-pump")), ("check", "--help")],
    ids=["help", "museum", "machine", "help of check"],
)
def test_the_check_path_imports_no_heavy_library(words: tuple[str, ...]) -> None:
    command = [sys.executable, "-X", "importtime", "-m", "witnessmark", *words]
    told = subprocess.run(command, capture_output=True, text=True, check=False).stderr
    imported = {line.rpartition("|")[2].strip().partition(".")[0] for line in told.splitlines()}
    assert "click" in imported
    assert not imported & set(BANNED)
    assert ("pydantic" in imported) is ("--help" not in words)


def put(museum: Path, name: str, before: str, after: str) -> None:
    (path,) = museum.glob(f"*/{name}*.yml") if "/" not in name else museum.glob(name)
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")


SLIP = ("2025-006", "follows: [2024-003]", "follows: [2024-103]")
NEW_ID = ("2026-004", "id: 2026-004", "id: 2024-104")
NOT_IN_LOT = ("2026-001", "from: roller-coupling-discs", "from: plough-pads")
STEP = "\n    - do: fit-new\n"
DRAWN = ("2024-005", STEP, "\n    - do: fit-old-stock\n      from: plough-pads\n")
SEEN_ACROSS: dict[str, tuple[list[tuple[str, str, str]], tuple[str, str, str], str]] = {
    "an id that is gone": ([], ("2024-003", "id: 2024-003", "id: 2024-013"), "2025-006"),
    "a likelier spelling": ([SLIP], NEW_ID, "2025-006"),
    "the state of what is followed": ([], ("2024-003", "\noutcome:", "\noutcom:"), "2025-006"),
    "a label's first owner": (
        [("2025-007", "MQ-0151", "MQ-0141")],
        ("2023-004", "MQ-0141", "MQ-0941"),
        "2025-007",
    ),
    "stock drawn elsewhere": ([NOT_IN_LOT], DRAWN, "2026-001"),
    "a donor's parts": (
        [],
        ("sister-dragline/machine.yml", "id: clutch-shaft", "id: cluch-shaft"),
        "2023-005",
    ),
    "what was given to another machine": (
        [],
        (
            "2023-005",
            "sister-dragline/swing-gear/clutch-shaft",
            "quay-crane/slewing-gear/upper-bush",
        ),
        "2024-003",
    ),
}


@pytest.mark.parametrize("what", SEEN_ACROSS)
def test_an_edit_elsewhere_that_a_record_can_see_is_seen(museum: Path, what: str) -> None:
    first, edit, touched = SEEN_ACROSS[what]
    memory = museum.parent / "memory.json"
    for one in first:
        put(museum, *one)
    before = [d for d in asked(Request(museum, memory=memory))[1] if touched in d.file]
    put(museum, *edit)
    records, found = asked(Request(museum, memory=memory))
    assert plainly(museum) == (records, found)
    assert before != [d for d in found if touched in d.file]


def test_what_was_asked_and_chosen_of_a_like_part_is_part_of_what_a_folder_sees(
    museum: Path,
) -> None:
    # The roller's record is about bushes of a running machine, as one of the dragline's is.
    before = Outside(assemble(read_museum(museum)).traces).of("dragline")
    put(museum, "2026-005", "state: done", "state: draft")
    after = Outside(assemble(read_museum(museum)).traces).of("dragline")
    assert before["alike"] != after["alike"]
    unlike = {name for name in before if before[name] != after[name]}
    assert {"alike"} == unlike
