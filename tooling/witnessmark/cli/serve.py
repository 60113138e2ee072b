"""witnessmark serve: look at a published site on this computer."""

from __future__ import annotations

from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import click

from witnessmark.errors import UnknownNameError, WitnessmarkError


class _Quiet(SimpleHTTPRequestHandler):
    """Serves files and says only what failed."""

    def log_request(self, code: object = "-", size: object = "-") -> None:
        """Say nothing of requests that went well."""


@click.command("serve")
@click.argument("site", default="site", required=False)
@click.option("--port", type=click.IntRange(0, 65535), default=8000, show_default=True)
def command(site: str, port: int) -> None:
    """Look at a published site in a browser; only this computer can reach it.

    Example: witnessmark serve site
    """
    folder = Path(site)
    if not (folder / "index.html").is_file():
        raise UnknownNameError(
            f"There is no published site in {site}.",
            remedy="Run `witnessmark publish` first, or name the folder it wrote.",
        )
    try:
        server = ThreadingHTTPServer(("127.0.0.1", port), partial(_Quiet, directory=str(folder)))
    except OSError as error:
        raise WitnessmarkError(
            f"Port {port} cannot be used: {error.strerror}.", remedy="Try --port 0 for a free one."
        ) from None
    with server:
        click.echo(f"Look at http://127.0.0.1:{server.server_port}/ and press Ctrl-C to stop.")
        try:
            server.serve_forever()
        except KeyboardInterrupt:
            click.echo("\nStopped.")
