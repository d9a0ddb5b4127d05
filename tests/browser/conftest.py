"""One Lab on a copy of the notebooks, and one headless Chromium, for all tests of this folder."""

import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

from workbook.start import places

QUIET = ["--no-sandbox", "--disable-gpu", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip
PATIENCE_MS = 30_000
# what `python -m workbook --no-browser` does last, on a folder of our own
SERVE = """
import sys; from pathlib import Path; from workbook.start import lab
lab.serve(Path(sys.argv[1]), int(sys.argv[2]), browser=False)
"""


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


class Lab:
    """A running Lab; `address` is what it printed for the reader to open."""

    def __init__(self, command: list[str], cwd: Path, log: Path, **variables: str) -> None:
        with log.open("w") as out:
            self.process = subprocess.Popen(
                [*command], cwd=cwd, env=os.environ | variables,
                stdin=subprocess.DEVNULL, stdout=out, stderr=subprocess.STDOUT,
            )  # fmt: skip
        self.log, self.address = log, ""
        while not self.address:
            ended = self.process.poll() is not None
            words = log.read_text().split()
            self.address = next((w for w in words if w.startswith("http") and "token=" in w), "")
            assert self.address or not ended, f"Lab ended early:\n{log.read_text()}"
            time.sleep(0.02)

    def page(self, notebook: str) -> str:
        """The address of another notebook."""
        return self.address.replace(places.FIRST_NOTEBOOK, f"notebooks/{notebook}")

    def close(self) -> None:
        """End Lab and its kernels."""
        self.process.terminate()
        try:
            self.process.wait(timeout=30)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()


@pytest.fixture(scope="session")
def lab(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Lab]:
    """Lab on a copy, so that nothing a page saves reaches the checkout."""
    root = tmp_path_factory.mktemp("workbook")
    for folder in ("notebooks", "exercises"):
        shutil.copytree(
            places.PACKAGE.parent / folder, root / folder,
            ignore=shutil.ignore_patterns(".ipynb_checkpoints"),
        )  # fmt: skip
    lab = Lab([sys.executable, "-c", SERVE, str(root), str(free_port())], root, root / "lab.log")
    yield lab
    lab.close()


def chromium() -> str:
    """Where Debian's Chromium is; without it these tests are left out, except under CI."""
    found = shutil.which("chromium")
    if found is None:
        reason = "needs chromium (on Debian: apt-get install chromium)"
        pytest.fail(reason) if os.environ.get("CI") else pytest.skip(reason)
    return found


# Not for the whole session: Playwright leaves an event loop running in this thread, and the panels
# tested elsewhere behave differently inside one.
@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    where = chromium()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=where, args=QUIET)
        yield browser
        browser.close()


@dataclass
class Visit:
    """A page as a reader has it open, and what happened on it."""

    page: Page
    requests: list[str] = field(default_factory=list)
    dialogs: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    @classmethod
    def of(cls, browser: Browser, address: str, width: int = 1280, height: int = 800) -> "Visit":
        """Open `address` in a window of its own and touch nothing."""
        visit = cls(browser.new_page(viewport={"width": width, "height": height}))
        visit.page.set_default_timeout(PATIENCE_MS)
        visit.page.on("request", lambda request: visit.requests.append(request.url))
        visit.page.on("websocket", lambda socket: visit.requests.append(socket.url))
        visit.page.on("dialog", lambda dialog: visit.dialogs.append(dialog.message))
        visit.page.on("pageerror", lambda error: visit.errors.append(str(error)))
        visit.page.goto(address)
        return visit
