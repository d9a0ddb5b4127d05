"""One Lab on a copy of the notebooks, and one headless Chromium, for all tests of this folder."""

import os
import re
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, Locator, Page, expect, sync_playwright

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
        progress = {"WORKBOOK_DATA": str(log.parent / "progress")}  # never that of whoever tests
        with log.open("w") as out:
            self.process = subprocess.Popen(
                command, cwd=cwd, env=os.environ | progress | variables,
                stdin=subprocess.DEVNULL, stdout=out, stderr=subprocess.STDOUT,
            )  # fmt: skip
        self.address, begin = "", time.monotonic()
        while not self.address:
            if time.monotonic() - begin > PATIENCE_MS / 1000:
                self.close()
            ended = self.process.poll() is not None
            words = log.read_text().split()
            self.address = next((w for w in words if w.startswith("http") and "token=" in w), "")
            assert self.address or not ended, f"Lab ended early:\n{log.read_text()}"
            time.sleep(0.02)

    def page(self, notebook: str) -> str:
        """The address of another notebook, in a workspace of its own: no tabs of other visits."""
        own = f"/lab/workspaces/{notebook.removesuffix('.ipynb')}/"
        return self.address.replace("/lab/", own).replace(
            places.FIRST_NOTEBOOK, f"notebooks/{notebook}"
        )

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


# When a panel's first picture was replaced by the next [ms].
WATCH = """
window.firstFrames = [];
new MutationObserver((changes) => {
  const first = document.querySelector(".workbook-panel img");
  for (const { target } of changes) if (target === first) firstFrames.push(performance.now());
}).observe(document, { subtree: true, attributeFilter: ["src"] });
"""
# Sharp pictures are 960 or 1920 pixels wide, plain ones half of it; a wide plain one does not stay.
RESTED = """(before) => {
  const pictures = [...document.querySelectorAll(".workbook-panel img")];
  const seen = pictures.map((it) => it.src).join();
  if (window.lastSeen !== seen) [window.lastSeen, window.seenSince] = [seen, performance.now()];
  return pictures.length && pictures.every((it) => it.complete && it.naturalWidth >= 960)
    && pictures[0].src !== before && performance.now() - seenSince > 300;
}"""
# Folded cells ran too, but have no number on the page.
PROMPTS = "all => all.map((it) => it.querySelector('.jp-InputPrompt')?.textContent ?? '')"
FAULTS = ", ".join(
    f'[data-mime-type="application/vnd.jupyter.{kind}"]' for kind in ("stderr", "error")
)


@dataclass
class Visit:
    """A page as a reader has it open, and what happened on it."""

    page: Page
    requests: list[str] = field(default_factory=list)
    dialogs: list[str] = field(default_factory=list)

    @classmethod
    def of(cls, browser: Browser, address: str) -> "Visit":
        """Open `address` in a window of its own and touch nothing."""
        visit = cls(browser.new_page(viewport={"width": 1280, "height": 800}))
        page = visit.page
        page.set_default_timeout(PATIENCE_MS)
        page.add_init_script(WATCH)
        page.on("request", lambda request: visit.requests.append(request.url))
        page.on("websocket", lambda socket: visit.requests.append(socket.url))
        page.on("dialog", lambda dialog: visit.dialogs.append(dialog.message))
        page.goto(address)
        return visit

    @property
    def picture(self) -> str:
        """The address of the panel's first picture; every new picture has a new one."""
        return self.page.locator(".workbook-panel img").first.get_attribute("src") or ""

    @property
    def frames(self) -> int:
        """How many first pictures there have been."""
        return self.page.evaluate("firstFrames.length")

    def text(self, name: str) -> str:
        """What a text of the panel says."""
        return self.page.locator(f".workbook-{name}").inner_text()

    def wait_for_picture(self, since: str = "") -> None:
        """Wait until the first picture is there to be seen, another one than `since`."""
        self.page.wait_for_function(
            """(before) => [...document.querySelectorAll(".workbook-panel img")].slice(0, 1)
            .some((it) => it.src !== before && it.complete && it.naturalWidth > 0)""",
            arg=since,
        )

    def rest(self, since: str = "") -> None:
        """Wait until all pictures are sharp and no more come, after the picture `since`."""
        self.page.wait_for_function(RESTED, arg=since)

    def handle(self, name: str) -> Locator:
        """The handle of a slider."""
        return self.page.locator(f".workbook-{name} .noUi-handle")

    def focus_other_side(self, name: str) -> None:
        """Go to the side of a switch that is not down, with the Tab key where it is the second."""
        buttons = self.page.locator(f".workbook-{name} button")
        buttons.first.focus()
        if "mod-active" in (buttons.first.get_attribute("class") or ""):
            self.page.keyboard.press("Tab")

    def runs_by_itself(self) -> None:
        """All that opening a page must bring, without a click."""
        page = self.page
        self.wait_for_picture()
        notebook = page.locator(".jp-NotebookPanel:not(.lm-mod-hidden)")
        notebook.locator('.jp-Notebook-ExecutionIndicator[data-status="idle"]').wait_for()
        waiting = notebook.locator(".jp-CodeCell .jp-InputPrompt", has_text=re.compile(r"\[[ *]\]"))
        expect(waiting).to_have_count(0, timeout=PATIENCE_MS)
        assert notebook.locator(FAULTS).all_inner_texts() == []
        prompts = notebook.locator(".jp-CodeCell").evaluate_all(PROMPTS)
        counts = {at: int(found[0]) for at, it in enumerate(prompts)
                  if (found := re.findall(r"\d+", it))}  # fmt: skip
        assert len({count - at for at, count in counts.items()}) <= 1, "each ran once"
        assert self.dialogs == [] and page.locator(".jp-Dialog").all_inner_texts() == []
        top = notebook.locator(".jp-WindowedPanel-outer").element_handle()
        page.wait_for_function("(it) => it.scrollTop === 0", arg=top)

    def names_for_screen_readers(self) -> None:
        """Each handle, field and picture has a name of its own."""
        panel = self.page.locator(".workbook-panel")
        for parts, attribute in ((".noUi-handle", "aria-label"), ("img", "alt")):
            names = [part.get_attribute(attribute) for part in panel.locator(parts).all()]
            assert names and all(name and name.strip() for name in names), parts
            assert len(set(names)) == len(names), f"two {parts} of one name"

    def strangers(self) -> list[str]:
        """Requests to other machines."""
        assert len(self.requests) > 10 and any(url.startswith("ws:") for url in self.requests)
        hosts = {url: urlsplit(url).hostname for url in self.requests
                 if not url.startswith(("data:", "blob:"))}  # fmt: skip
        return [url for url, host in hosts.items() if host not in ("127.0.0.1", "localhost")]
