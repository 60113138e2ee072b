"""The verb `new`: a draft that checks without errors, with all that can be known written out."""

from __future__ import annotations

import re
import threading
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from building import BASE, DECISION, FINDINGS, MACHINE, museum, on_disk, plainly
from calling import Called, call
from talking import talk
from witnessmark.errors import RefusedError, UnknownNameError
from witnessmark.model.meant import meant
from witnessmark.model.new_decision import Draft, draft_text, next_decision_id
from witnessmark.model.new_machine import part_in
from witnessmark.model.option_drafts import begun
from witnessmark.model.question_sorts import SORTS, sort_of
from witnessmark.model.words import Kind, Phase
from witnessmark.repository.writing import create_text

DAY = "2024-06-01"
QUESTION = "The bush of the drum is worn: it knocks, #2 most of all. What now?"
ASKED = ("--machine", "winch", "--part", "drum/bush", "--question", QUESTION)
AIM = ("--aim", "Lift half a tonne", "--aim-because", "It is kept running")


def new(root: Path, *words: str) -> Called:
    return call("new", "--museum", str(root), "--as-of", DAY, *words)


def record(root: Path, name: str = "2024-002-bush.yml") -> Any:
    return plainly((root / "winch" / name).read_text(encoding="utf-8"))


def found(root: Path, file: str = "winch/2024-002-bush.yml") -> list[Any]:
    called = call("check", str(root / file), "--format", "json").json["diagnostics"]
    return list(called)


@pytest.fixture(scope="module")
def drafted(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The small museum with one draft; tests here only look at it."""
    root = on_disk(tmp_path_factory.mktemp("new"))
    called = new(root, *ASKED, *AIM)
    assert 0 == called.code, called.err
    return root


def test_a_draft_checks_without_an_error_or_warning(drafted: Path) -> None:
    of_draft = [one for one in found(drafted) if one["file"].endswith("2024-002-bush.yml")]
    assert {"note"} == {one["level"] for one in of_draft}


def test_it_takes_the_next_free_id_the_policy_of_the_day_and_the_open_findings(
    drafted: Path,
) -> None:
    read = record(drafted)
    assert {
        "id": "2024-002", "policy": "2023-04", "opened": DAY, "state": "draft",
        "findings": ["f-001"], "about": ["drum/bush"], "question": QUESTION,
        "proposed_by": "fitter",
    }.items() <= read.items()  # fmt: skip


def test_it_begins_with_leaving_as_found_and_a_hazard_of_each_phase(drafted: Path) -> None:
    read = record(drafted)
    assert "leave-as-found" == read["options"][0]["kind"]
    assert {phase.value for phase in Phase} == {hazard["when"] for hazard in read["hazards"]}


def test_a_machine_kept_running_may_also_be_stopped(drafted: Path) -> None:
    kinds = [option["kind"] for option in record(drafted)["options"]]
    assert ["leave-as-found", "renew-like-for-like", "repair", "stop-running"] == kinds


def test_every_option_answers_every_hazard_and_every_aspect_that_people_judge(
    drafted: Path,
) -> None:
    read = record(drafted)
    hazards = {hazard["id"] for hazard in read["hazards"]}
    aspects = {"form", "use", "technique", "setting", "spirit"}
    for option in read["options"]:
        assert hazards == set(option["answers"])
        assert aspects == set(option["judged"]) | set(option["unaffected"])


def test_no_grade_level_or_choice_is_written_by_the_program(drafted: Path) -> None:
    read = record(drafted)
    assert {None} == {hazard["before"] for hazard in read["hazards"]}
    assert {None} == set(read["choice"].values())
    levels = [judged["likely"] for one in read["options"] for judged in one["judged"].values()]
    assert {None} == set(levels)


def test_it_is_written_one_field_a_line_with_its_schema_beside_it(drafted: Path) -> None:
    text = (drafted / "winch" / "2024-002-bush.yml").read_text(encoding="utf-8")
    assert text.startswith("# yaml-language-server: $schema=../schema/decision.schema.json\n")
    assert "{" not in re.sub(r"#.*", "", text)
    assert max(len(line) for line in text.splitlines()) <= 120


def test_it_tells_of_precedents(demo: Path) -> None:
    called = call(
        "new", "--museum", str(demo), "--as-of", "demo", "--machine", "motor roller", "--part",
        "front roll bush", "--question", "The bush is worn. What now?", "--dry-run",
    )  # fmt: skip
    assert 0 == called.code, called.err
    assert re.search(r"Met before:\n  \d{4}-\d{3} \(.* alike, [a-z-]+\): .*", called.out)
    assert not list((demo / "motor-roller").glob("2026-008*"))


def test_a_draft_filled_by_its_notes_alone_is_a_sound_record(tmp_path: Path) -> None:
    """Each blank is answered with the example that its own note shows, as far as one fits all."""
    root = on_disk(tmp_path)
    assert 0 == new(root, *ASKED, *AIM, "--option", "repair: Scrape it in").code
    path = root / "winch" / "2024-002-bush.yml"
    lines = path.read_text(encoding="utf-8").splitlines()
    # An example that is grave and improbable would ask for its own reason, which is another test.
    fitting = {
        "after": "2D",
        "by": "curator",
        "date": DAY,
        "do": "adjust",
        "option": "leave",
        "undo": "1",
    }
    for one in found(root):
        if one["code"] != "WM073" or not one["file"].endswith(path.name):
            continue
        name = one["field"].rpartition(".")[2]
        example = re.search(r"as in: (.*?)(?: or take .*)?\.$", one["message"])
        assert example, one["message"]
        text = fitting.get(name) or example[1].rstrip(";")
        quoted = f'"{text}"' if ":" in text or "," in text else text
        lines[one["line"] - 1] = f"{lines[one['line'] - 1].rstrip()} {quoted}"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    assert "WM073" not in {one["code"] for one in found(root)}
    path.write_text(
        path.read_text(encoding="utf-8").replace("state: draft", "state: for-review"), "utf-8"
    )
    errors = [one for one in found(root) if one["level"] == "error" and path.name in one["file"]]
    assert [] == errors


def test_a_question_without_a_finding_is_told_how_one_is_added(tmp_path: Path) -> None:
    called = new(on_disk(tmp_path), "--machine", "winch", "--part", "shaft", "--question", "What?")
    assert (0, True) == (called.code, "witnessmark finding winch" in called.out)


def test_a_finding_is_added_with_the_draft_and_named_in_it(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    words = ("--found", "It drips: a lot", "--basis", "seen", "--grade", "act")
    called = new(root, "--machine", "winch", "--part", "shaft", "--question", "What?", *words)
    assert 0 == called.code, called.err
    log = plainly((root / FINDINGS).read_text(encoding="utf-8"))["findings"]
    assert ("f-002", "It drips: a lot", "drum/shaft") == (
        log[-1]["id"], log[-1]["what"], log[-1]["part"],
    )  # fmt: skip
    assert ["f-002"] == record(root, "2024-002-shaft.yml")["findings"]


def test_a_dry_run_shows_the_draft_and_writes_nothing(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    called = new(root, *ASKED, "--dry-run")
    assert (True, ["2024-001-drum-bush.yml"]) == (
        "id: 2024-002" in called.out, [path.name for path in (root / "winch").glob("2024*")],
    )  # fmt: skip


REFUSED = {
    "machine": (("--machine", "crane", *ASKED[2:]), "There are: sister, winch"),
    "part": ((*ASKED[:2], "--part", "flange", *ASKED[4:]), "Drum bush (drum/bush)"),
    "finding": ((*ASKED, "--finding", "f-009"), "f-001"),
    "person": ((*ASKED, "--by", "fiter"), 'Did you mean "fitter"?'),
    "kind": ((*ASKED, "--option", "rollers: Fit them"), "renew-like-for-like"),
    "question": (ASKED[:4], "--question"),
    "half a finding": ((*ASKED, "--found", "It drips"), "--basis"),
}


@pytest.mark.parametrize("name", REFUSED)
def test_what_leads_nowhere_is_told_with_the_names_there_are(tmp_path: Path, name: str) -> None:
    words, told = REFUSED[name]
    root = on_disk(tmp_path)
    called = new(root, *words)
    assert (2, True) == (called.code, told in " ".join(called.err.split())), called.err
    assert 1 == len(list((root / "winch").glob("2024*")))


def test_text_that_nobody_can_see_is_refused(tmp_path: Path) -> None:
    called = new(on_disk(tmp_path), *ASKED[:5], "a\u202eb")
    assert (1, True) == (called.code, "Refused" in called.err)


def test_a_museum_without_machines_is_told_to_enter_one(tmp_path: Path) -> None:
    root = on_disk(tmp_path, without=(DECISION, MACHINE, FINDINGS, "sister/machine.yml"))
    called = new(root, *ASKED)
    assert (1, True) == (called.code, "witnessmark new machine" in called.err)


def test_a_policy_that_is_not_yet_valid_is_told(tmp_path: Path) -> None:
    called = call("new", "--museum", str(on_disk(tmp_path)), "--as-of", "2020-01-01", *ASKED)
    assert (1, True) == (called.code, "valid_from" in called.err)


def test_at_the_terminal_everything_is_asked_and_shown(tmp_path: Path) -> None:
    answers = [
        "winsh", "winch", "shaft", "It is bent", "seen", "watch", "What should be done about it?",
        "Lift", "It is run", "", "", "renew", "repair: Straighten it cold", "",
    ]  # fmt: skip
    root = on_disk(tmp_path)
    called = talk("new", "--museum", str(root), "--as-of", DAY, answers=answers)
    assert 0 == called.code, called.out + called.err
    read = record(root, "2024-002-shaft.yml")
    assert ["leave", "repair", "stop"] == [option["id"] for option in read["options"]]
    assert ["f-002"] == read["findings"]
    for shown in ("kept running", "drum/shaft", "f-001 act drum/bush", "renew-like-for-like"):
        assert shown in called.out


def test_nothing_is_ever_written_over(tmp_path: Path) -> None:
    (tmp_path / "a.yml").write_text("mine", encoding="utf-8")
    with pytest.raises(RefusedError):
        create_text(tmp_path / "a.yml", "other")
    assert ("mine", ["a.yml"]) == (
        (tmp_path / "a.yml").read_text("utf-8"), [path.name for path in tmp_path.iterdir()],
    )  # fmt: skip


def test_of_many_who_write_one_file_at_once_one_succeeds_and_none_is_cut_short(
    tmp_path: Path,
) -> None:
    won: list[str] = []

    def write(text: str) -> None:
        try:
            create_text(tmp_path / "one.yml", text)
            won.append(text)
        except RefusedError:
            pass

    texts = [letter * 10_000 for letter in "abcdefgh"]
    writers = [threading.Thread(target=write, args=(text,)) for text in texts]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join()
    assert [(tmp_path / "one.yml").read_text("utf-8")] == won


def test_a_disk_without_links_takes_a_new_file_all_the_same_and_still_replaces_none(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    # What Linux says on a vfat file system (link(2), EPERM).
    monkeypatch.setattr("os.link", no_links)
    create_text(tmp_path / "a.yml", "mine")
    with pytest.raises(RefusedError):
        create_text(tmp_path / "a.yml", "other")
    assert ("mine", ["a.yml"]) == (
        (tmp_path / "a.yml").read_text("utf-8"), [path.name for path in tmp_path.iterdir()],
    )  # fmt: skip


def test_a_draft_with_a_blank_question_is_no_bar_to_publishing_and_is_not_shown(
    tmp_path: Path,
) -> None:
    root = on_disk(tmp_path, without=(DECISION,))
    assert 0 == new(root, *ASKED[:5], "Shall the secret bush be drawn?").code
    path = root / "winch" / "2024-001-bush.yml"
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace("  Shall the secret bush be drawn?\n", ""), encoding="utf-8")
    machine = root / MACHINE
    text = machine.read_text(encoding="utf-8").replace("running", "reserve")
    machine.write_text(text.replace(", made_to: be-used-up", ", made_to: wear"), encoding="utf-8")
    words = ("--skin", "plain", "--out", str(tmp_path / "site"), "--as-of", DAY)
    called = call("publish", str(root), *words)
    assert 0 == called.code, called.out + called.err
    assert not (tmp_path / "site" / "d" / "2024-001").exists()


def test_a_gap_in_the_numbers_is_never_filled_and_each_year_begins_anew() -> None:
    later = BASE[DECISION].replace("id: 2024-001", "id: 2024-007")
    library = museum(also={"winch/2024-007-late.yml": later})
    assert ("2024-008", "2025-001") == (
        next_decision_id(library, 2024), next_decision_id(library, 2025),
    )  # fmt: skip


def test_when_all_numbers_of_a_year_are_taken_there_is_none() -> None:
    last = BASE[DECISION].replace("id: 2024-001", "id: 2024-999")
    assert next_decision_id(museum(also={"winch/2024-999-last.yml": last}), 2024) is None


@pytest.mark.parametrize("kind", Kind)
def test_an_option_of_every_kind_begins_with_something_to_say(kind: Kind) -> None:
    option = begun(kind, "", about=("drum/bush",), hazards={"drops": False, "slips": True})
    assert option.title
    assert option.steps or option.consequences
    assert {"drops", "slips"} == set(option.answers) | set(option.none)


@pytest.mark.parametrize("name", SORTS)
def test_every_sort_brings_a_hazard_of_each_phase_and_two_ways_to_weigh(name: str) -> None:
    sort = SORTS[name]
    assert set(Phase) == {hazard.when for hazard in sort.hazards}
    assert 2 == len(set(sort.kinds) - {Kind.LEAVE_AS_FOUND})


def test_every_worksheet_a_sort_names_exists() -> None:
    named = sorted({sheet for sort in SORTS.values() for sheet in sort.sheets})
    listed = call("worksheet", "list").out
    assert [] == [name for name in named if name not in listed]


@pytest.mark.parametrize(
    ("text", "sort"),
    [
        ("The bush is worn", "worn-part"),
        ("Oil or grease in the axle boxes?", "lubricant"),
        ("The gas strut leaks", "pressure"),
        ("Can it be moved over the tiled floor?", "moving"),
        ("Shall we let visitors ride?", "other"),
    ],
)
def test_the_sort_is_read_from_the_words_of_the_question(text: str, sort: str) -> None:
    assert sort == sort_of([text])


NAMES = {"drum/bush": "Drum bush", "drum/shaft": "Drum shaft", "frame/left": "Left cheek"}


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("drum/bush", "drum/bush"), ("bush", "drum/bush"), ("the Drum bush", "drum/bush"),
        ("drum busch", "drum/bush"), ("cheek", "frame/left"), ("drum", None), ("", None),
        ("axle", None),
    ],
)  # fmt: skip
def test_a_part_is_known_by_its_address_its_name_or_nearly_so(
    text: str, wanted: str | None
) -> None:
    assert wanted == meant(text, NAMES)


TEXTS = st.text("".join(map(chr, range(0x20, 0x7F))) + "äéß±\u2026", min_size=1).filter(str.strip)


@given(question=TEXTS, title=TEXTS, what=TEXTS)
def test_any_text_is_read_back_as_it_was_given(question: str, title: str, what: str) -> None:
    hazard = replace(SORTS["other"].hazards[0], what=what)
    draft = Draft(
        id="2024-002", title=title, question=question, aim="", aim_because="",
        about=("drum/bush",), findings=(), policy="2023-04", opened=date(2024, 6, 1),
        proposed_by="fitter", hazards=(hazard,), options=(),
    )  # fmt: skip
    read = plainly(draft_text(draft))
    assert (" ".join(question.split()), title, what) == (
        read["question"], read["title"], read["hazards"][0]["what"],
    )  # fmt: skip


# A machine


MACHINE_WORDS = (
    "--what", "A hammer: of 1898", "--matters", "The only one", "--state", "As it last worked",
)  # fmt: skip
PART = "Ram / Guide strips, as-built, made to wear, 4, 12 kg, bronze"


def machine(root: Path, name: str, *words: str) -> Called:
    return call("new", "machine", name, "--museum", str(root), "--as-of", DAY, *words)


def test_a_machine_is_entered_with_its_parts_and_checks_without_an_error(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    called = machine(root, "The Steam Hammer", *MACHINE_WORDS, "--part", PART)
    assert 0 == called.code, called.err
    read = plainly((root / "steam-hammer" / "machine.yml").read_text(encoding="utf-8"))
    assert [
        {
            "id": "guide-strips", "name": "Guide strips", "origin": "as-built",
            "made_to": "wear", "count": 4, "mass": "12 kg", "material": "bronze",
        }
    ] == read["assemblies"][0]["parts"]  # fmt: skip
    assert [] == found(root, "steam-hammer")


def test_a_running_machine_says_where_that_was_decided(tmp_path: Path) -> None:
    words = (*MACHINE_WORDS, "--part", PART, "--kept", "running")
    root = on_disk(tmp_path)
    assert (2, True) == (
        (called := machine(root, "A", *words)).code, "--decided" in called.err,
    )  # fmt: skip
    assert 0 == machine(root, "Hammer", *words, "--decided", "Minutes, 2019", "--shows", "It").code
    assert [] == found(root, "hammer")


def test_a_machine_that_is_there_is_never_written_over(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    before = (root / MACHINE).read_text(encoding="utf-8")
    called = machine(root, "The winch", *MACHINE_WORDS, "--part", PART)
    assert (1, before) == (called.code, (root / MACHINE).read_text(encoding="utf-8"))


def test_a_part_made_to_be_used_up_says_from_what_that_is_known(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    part = "Ram / Packing, be-used-up"
    called = machine(root, "Hammer", *MACHINE_WORDS, "--part", part)
    assert (1, True) == (called.code, "made_to_known_from" in called.err)
    words = (*MACHINE_WORDS, "--part", f"{part}, known from the handbook")
    assert 0 == machine(root, "Hammer", *words).code


def test_two_parts_of_one_name_get_ids_of_their_own(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    words = (*MACHINE_WORDS, "--part", "Ram / Bolt", "--part", "Ram / Bolt")
    assert 0 == machine(root, "Hammer", *words).code
    parts = plainly((root / "hammer" / "machine.yml").read_text("utf-8"))["assemblies"][0]["parts"]
    assert ["bolt", "bolt-2"] == [part["id"] for part in parts]


@pytest.mark.parametrize("line", ["Guide strips", "/ Guide", "Ram /", "", "蒸 / 気"])
def test_a_line_without_assembly_and_part_says_how_it_is_written(line: str) -> None:
    with pytest.raises(UnknownNameError, match="Guide bushes, as-built"):
        part_in(line)


def test_a_machine_is_asked_for_at_the_terminal(tmp_path: Path) -> None:
    root = on_disk(tmp_path)
    answers = [
        "Steam hammer", "A hammer", "1898", "runing", "on-display", "The last", "As in 1964",
        "Guides", PART, "",
    ]  # fmt: skip
    called = talk("new", "machine", "--museum", str(root), "--as-of", DAY, answers=answers)
    assert 0 == called.code, called.out + called.err
    read = plainly((root / "steam-hammer" / "machine.yml").read_text(encoding="utf-8"))
    assert ("1898", "on-display") == (read["built"], read["kept"][0]["as"])
