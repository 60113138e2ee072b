"""The detached signature that `sign --key` writes beside a record."""

from __future__ import annotations

from pathlib import Path

from witnessmark.errors import RefusedError
from witnessmark.model.decision import Signature
from witnessmark.model.library import DecisionFile
from witnessmark.model.source import Document
from witnessmark.model.statement import signature_path, statement_of
from witnessmark.repository.signatures import sign_statement
from witnessmark.repository.writing import replace_text


def write_signature(folder: Path, entry: DecisionFile, document: Document, *, key: Path) -> None:
    """Sign the newest agreement of a record's new text, before that text is written.

    Raises:
        RefusedError: the key was not taken, or a signature file of this role is there already.
    """
    written = document.data.get("agreed") if isinstance(document.data, dict) else None
    agreement = Signature.model_validate(written[-1] if isinstance(written, list) else {})
    path = folder / signature_path(entry.machine, entry.id, agreement.role.value)
    armoured = sign_statement(statement_of(entry.id, agreement), key=key)
    if path.is_symlink() or (path.exists() and path.read_bytes() != armoured):
        # The same signature is what a run left that was killed before it wrote the record.
        raise RefusedError(
            f"{path} is there already.", remedy="Take it away if its agreement was taken back."
        )
    path.parent.mkdir(parents=True, exist_ok=True)
    replace_text(path, armoured.decode("ascii"))
