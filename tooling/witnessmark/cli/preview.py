"""witnessmark preview: one page at a time, as the records stand on disk, drafts included."""

from __future__ import annotations

from datetime import date
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from threading import Lock
from urllib.parse import unquote, urlsplit

import click

from witnessmark.cli.opening import AS_OF, open_museum
from witnessmark.cli.preview_answers import Answer, Answers
from witnessmark.errors import WitnessmarkError


@click.command("preview")
@click.argument("path", default="decisions", required=False)
@click.option("--port", type=click.IntRange(0, 65535), default=8001, show_default=True)
@click.option("--public", "is_public", is_flag=True, help="Show only what the public would see.")
@AS_OF
def command(path: str, port: int, *, is_public: bool, as_of: date | str | None) -> None:
    """Look at pages while records are written; only this computer can reach them.

    Each page is made when it is asked for, says what a check says of its record, and comes again by
    itself when a file is saved. Drafts and withheld records are shown; what is private in a
    published record is hidden in a draft too. The published site has no script, the preview a
    small one, which looks for saved files. Saved means saved: nothing need be committed.

    Example: witnessmark preview decisions
    """
    opened = open_museum(path)
    start = _start(opened.under, opened.folder)
    answers = Answers(opened.folder, as_of=as_of, is_public=is_public)
    try:
        server = preview_server(answers, port=port)
    except OSError as error:
        raise WitnessmarkError(
            f"Port {port} cannot be used: {error.strerror}.", remedy="Try --port 0 for a free one."
        ) from None
    with server:
        address = f"http://127.0.0.1:{server.server_port}/{start}"
        click.echo(f"Look at {address} and press Ctrl-C to stop.")
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            click.echo("\nStopped.")


def _start(under: str, folder: Path) -> str:
    """The page to begin with: that of the record or machine that was named, else the list."""
    parts = Path(under).relative_to(folder.name).parts if under else ()
    if parts and parts[-1].endswith((".yml", ".yaml")) and parts[-1][:4].isdigit():
        return f"d/{parts[-1][:8]}/"
    return f"m/{parts[0]}/" if parts else ""


def preview_server(answers: Answers, *, port: int) -> ThreadingHTTPServer:
    """A server of previews that only this computer can reach; not yet answering."""
    one_at_a_time = Lock()

    class Handler(BaseHTTPRequestHandler):
        """Answers GET and nothing else."""

        def do_GET(self) -> None:
            """Answer with a page."""
            if not _is_here(self.headers.get("Host", ""), server.server_port):
                self.send_error(403, "This is a preview for one computer")
                return
            wanted = unquote(urlsplit(self.path).path).lstrip("/")
            with one_at_a_time:
                answer = answers.to(wanted)
            self._send(answer)

        def _send(self, answer: Answer) -> None:
            self.send_response(answer.code)
            self.send_header("Content-Type", answer.kind)
            self.send_header("Content-Length", str(len(answer.content)))
            self.send_header("Cache-Control", "no-store")
            self.send_header("X-Content-Type-Options", "nosniff")
            self.end_headers()
            self.wfile.write(answer.content)

        def log_request(self, code: object = "-", size: object = "-") -> None:
            """Say nothing of requests that went well."""

    server = ThreadingHTTPServer(("127.0.0.1", port), Handler)  # its handler asks it for its port
    return server


def _is_here(host: str, port: object) -> bool:
    """True for a request to this computer by its own name.

    A page elsewhere could have its own name lead here and read drafts; it would send that name.
    """
    return host in {f"127.0.0.1:{port}", f"localhost:{port}"}
