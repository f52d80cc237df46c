"""The demo, built in both editions and served on loopback, and a browser to open it with.

The tools are those of `package.json` beside this file and Debian's chromium. Where one is missing a test is skipped and
says so; on a machine that checks what is handed in (CI is set) it fails instead.
"""

from __future__ import annotations

import functools
import http.server
import threading
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from archive_tools.made_before import CACHE
from archive_tools.model.grades import Edition
from archive_tools.site_plugin import build_site
from tests.conftest import missing

ROOT = Path(__file__).resolve().parent.parent.parent
TOOLS = Path(__file__).resolve().parent / "node_modules"
AS_OF = date(2026, 11, 25)


def tool(path: str) -> Path:
    """A file of one of the tools."""
    if not (TOOLS / path).is_file():
        missing(path)
    return TOOLS / path


def _built(folder: Path, edition: Edition) -> Path:
    build_site(
        ROOT / "demo_collection",
        folder / "site",
        edition=edition,
        as_of=AS_OF,
        pages=ROOT / "content",
        cache=ROOT / "demo_collection" / CACHE,  # where all builds of the demo keep their pictures
        quiet=True,
    )
    return folder / "site"


@pytest.fixture(scope="session")
def public_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the public edition."""
    return _built(tmp_path_factory.mktemp("public"), Edition.PUBLIC)


@pytest.fixture(scope="session")
def internal_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the internal edition."""
    return _built(tmp_path_factory.mktemp("internal"), Edition.INTERNAL)


class _Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        pass


class _Server(http.server.ThreadingHTTPServer):
    def handle_error(self, request: Any, client_address: Any) -> None:
        """A page that is left while its pictures load is no error worth telling."""


@pytest.fixture(scope="session")
def serve() -> Iterator[Callable[[Path], str]]:
    """Serves a folder on loopback and gives its address."""
    servers: list[http.server.ThreadingHTTPServer] = []

    def start(folder: Path) -> str:
        handler = functools.partial(_Quiet, directory=str(folder))
        server = _Server(("127.0.0.1", 0), handler)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        return f"http://127.0.0.1:{server.server_address[1]}/"

    yield start
    for server in servers:
        server.shutdown()


@pytest.fixture(scope="session")
def public(public_site: Path, serve: Callable[[Path], str]) -> str:
    """The address of the public edition."""
    return serve(public_site)


@pytest.fixture(scope="session")
def internal(internal_site: Path, serve: Callable[[Path], str]) -> str:
    """The address of the internal edition."""
    return serve(internal_site)
