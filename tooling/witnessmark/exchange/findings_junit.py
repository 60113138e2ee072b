"""What a check found, as JUnit XML: one test a record and code, failed where it counts.

Source: the elements that GitLab Docs, "Unit test reports", and the Jenkins JUnit plugin read; the
format has no standard, so that only what both know is written.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from xml.etree import ElementTree as ET

from witnessmark.exchange.escapes import one_line, xml_text
from witnessmark.exchange.findings_hosts import worst_first
from witnessmark.model.diagnostics import Diagnostic
from witnessmark.rules.checked import Checked


def findings_as_junit(checked: Checked, *, records: Sequence[str]) -> str:
    """One suite; a record without findings is one passed test, a note fails nothing.

    `records` are the files that were read, so that a check that finds nothing still shows them.
    """
    cases = _cases(checked)
    faulted = {file for file, _ in cases}
    clean = [file for file in records if file not in faulted]
    failures = sum(any(d.counts for d in found) for found in cases.values())
    total = str(len(cases) + len(clean))
    counts = {"tests": total, "failures": str(failures), "errors": "0", "skipped": "0"}
    root = ET.Element("testsuites", {"name": "witnessmark", **counts})
    suite = ET.SubElement(root, "testsuite", {"name": "witnessmark check", **counts})
    for (file, code), found in cases.items():
        _case(suite, file, code, found)
    for file in clean:
        ET.SubElement(suite, "testcase", {"classname": xml_text(file), "name": "check"})
    ET.indent(root)
    return ET.tostring(root, encoding="unicode", xml_declaration=True) + "\n"


def _cases(checked: Checked) -> Mapping[tuple[str, str], list[Diagnostic]]:
    cases: dict[tuple[str, str], list[Diagnostic]] = {}
    for diagnostic in worst_first(checked.diagnostics):
        cases.setdefault((diagnostic.file, diagnostic.code), []).append(diagnostic)
    return cases


def _case(suite: ET.Element, file: str, code: str, found: list[Diagnostic]) -> None:
    named = {"classname": xml_text(file), "name": code, "file": xml_text(file)}
    case = ET.SubElement(suite, "testcase", named)
    text = "\n".join(f"line {d.line}, column {d.column}: {one_line(d.message)}" for d in found)
    if any(d.counts for d in found):
        first = xml_text(one_line(found[0].message))
        failure = ET.SubElement(case, "failure", {"message": first, "type": code})
        failure.text = f"{xml_text(text)}\n{xml_text(one_line(found[0].fix))}"
    else:
        ET.SubElement(case, "system-out").text = xml_text(text)
