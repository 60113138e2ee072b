"""An editor's side of a language server, over the Language Server Protocol (3.17) on stdio."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Any, Self

SERVER = "WITNESSMARK_YAML_SERVER"
"""May name the folder of the npm package yaml-language-server."""


def server_folder() -> Path | None:
    """Where the npm package lies: named by the environment, or installed for all; else None."""
    named = os.environ.get(SERVER)
    if named:
        return Path(named)
    if not (shutil.which("node") and shutil.which("npm")):
        return None
    done = subprocess.run(
        ["npm", "root", "-g"], capture_output=True, text=True, check=False, timeout=60
    )
    folder = Path(done.stdout.strip() or "/nowhere") / "yaml-language-server"
    return folder if folder.is_dir() else None


class Editor:
    """One open conversation with the server."""

    def __init__(self, folder: Path) -> None:
        command = ["node", str(folder / "bin" / "yaml-language-server"), "--stdio"]
        self._process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        self._last = 0
        self._stop = threading.Timer(60, self._process.kill)

    def __enter__(self) -> Self:
        self._stop.start()
        self.ask("initialize", processId=None, rootUri=None, capabilities={})
        self.tell("initialized")
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._stop.cancel()
        self._process.kill()
        self._process.communicate()

    def tell(self, method: str, **params: Any) -> None:
        self._send({"method": method, "params": params})

    def ask(self, method: str, **params: Any) -> Any:
        self._last += 1
        self._send({"id": self._last, "method": method, "params": params})
        for message in self._messages():
            if message.get("id") == self._last and "method" not in message:
                return message.get("result")
        raise AssertionError(f"the server gave no answer to {method}")

    def faults(self, uri: str) -> list[str]:
        """The messages on a file, as soon as the server has looked at it."""
        for message in self._messages():
            told = message.get("params", {})
            if message.get("method") == "textDocument/publishDiagnostics" and told["uri"] == uri:
                return [one["message"] for one in told["diagnostics"]]
        raise AssertionError("the server looked at nothing")

    def _send(self, message: dict[str, Any]) -> None:
        body = json.dumps({"jsonrpc": "2.0", **message}).encode()
        assert self._process.stdin
        self._process.stdin.write(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))
        self._process.stdin.flush()

    def _messages(self) -> Iterator[dict[str, Any]]:
        assert self._process.stdout
        while head := self._process.stdout.readline():
            if not head.lower().startswith(b"content-length"):
                continue
            while self._process.stdout.readline().strip():
                pass
            message = json.loads(self._process.stdout.read(int(head.split(b":")[1])))
            if "id" in message and "method" in message:
                # The server asks for settings; an editor that has none says so.
                nothing: Any = [{}] if message["method"] == "workspace/configuration" else None
                self._send({"id": message["id"], "result": nothing})
            else:
                yield message


@contextmanager
def opened(folder: Path, file: Path, text: str) -> Iterator[tuple[Editor, str]]:
    """A file as it stands in an editor, with its address."""
    uri = file.as_uri()
    with Editor(folder) as editor:
        document = {"uri": uri, "languageId": "yaml", "version": 1, "text": text}
        editor.tell("textDocument/didOpen", textDocument=document)
        yield editor, uri
