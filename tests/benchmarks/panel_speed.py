"""Speed of the first panel, in one run: `python tests/benchmarks/panel_speed.py` prints the table.

In the kernel, from a slider's move to the pictures' bytes, beside the same two pictures drawn anew;
in headless Chromium, from a key press to the new picture on the page; and from the command to the
first picture. The machine is shared, so everything is measured in three rounds and the round with
the least median counts. `--kernel` leaves the browser out.
"""

import io
import os
import shutil
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import cycle, islice
from pathlib import Path
from typing import Any

from workbook import demo
from workbook.draw.ball_picture import BallPicture
from workbook.draw.lane_picture import LanePicture
from workbook.draw.picture import DPI, Picture
from workbook.panels import (
    lay_it_out,
    measure_the_bowler,
    read_the_ball,
    watch_it_roll,
    work_the_surface,
)
from workbook.panels.layout_pair import LayoutPair
from workbook.panels.panel import Panel

ROOT = Path(__file__).parents[2]
ROUNDS = 3
DRAG_S = 2.0
MOVES = {
    "distance_a": [2.0 + 0.125 * step for step in range(33)],
    "drilling_a": [float(angle) for angle in range(10, 95, 5)],
    "grit_a": ["500", "1000", "2000", "3000", "4000"],
}

CHAPTERS: list[tuple[Callable[[], Panel], str, list[Any]]] = [
    (read_the_ball, "rg_low_in", [2.46 + 0.01 * step for step in range(20)]),
    (lay_it_out, "pin_to_pap_in", MOVES["distance_a"]),
    (lay_it_out, "drilling_angle_deg", MOVES["drilling_a"]),
    (measure_the_bowler, "error", ["1/32", "1/16", "1/8"]),
    (watch_it_roll, "grit_b", MOVES["grit_a"]),
    (work_the_surface, "grit_b", MOVES["grit_a"]),
]


@dataclass
class Took:
    """Times of one kind, in milliseconds unless the name says otherwise."""

    name: str
    times: list[float]
    target: str = ""

    def __str__(self) -> str:
        median = f"{statistics.median(self.times):9.1f}"
        worst = f"{max(self.times):9.1f}" if len(self.times) > 1 else " " * 9
        return f"{self.name:<64}{median}{worst}   {self.target}"


def best(rounds: list[list[float]]) -> list[float]:
    """The round with the least median."""
    return min(rounds, key=statistics.median)


def timed(job: Callable[[], Any], clock: Callable[[], float] = time.perf_counter) -> float:
    """How long a job takes [ms]."""
    begin = clock()
    job()
    return (clock() - begin) * 1e3


def forth_and_back(values: list[Any], moves: int) -> list[Any]:
    """So many values, each other than the one before, starting away from the demo's own."""
    return list(islice(cycle([*values, *values[-2:0:-1]]), moves))


def move(panel: Panel, name: str, value: Any) -> None:
    """What the kernel does when a slider's new value arrives."""
    panel.controls[name].value = value


def drawn_anew(panel: LayoutPair) -> dict[str, tuple[Picture, bytes]]:
    """The panel's two pictures from nothing: "clear and show"."""
    out = {}
    for name, kind in (("lane", LanePicture), ("balls", BallPicture)):
        picture, file = kind(), io.BytesIO()
        picture.show(panel.panel.pictures[name]._scene)
        picture.figure.savefig(file, format="png", dpi=DPI)
        out[name] = (picture, file.getvalue())
    return out


def kernel_part(moves: int, rounds: int = ROUNDS) -> tuple[list[Took], LayoutPair]:
    """Times in the kernel, and the panel as the moves have left it."""
    held = LayoutPair(demo.USUAL)
    held.panel.strict = True
    rests, anew, table = [], [], []
    for name, values in MOVES.items():
        wall, cpu = [], []
        for _ in range(rounds):
            wall.append([]), cpu.append([])
            for value in forth_and_back(values, moves):
                at = time.process_time()
                wall[-1].append(timed(lambda n=name, v=value: move(held.panel, n, v)))
                cpu[-1].append((time.process_time() - at) * 1e3)
        words = f"kernel: {name[:-2]} moved, to the bytes of lane and balls"
        table += [
            Took(words, best(wall), "25 median"),
            Took("   the same, processor time", best(cpu)),
        ]
    for _ in range(rounds):
        rests.append([]), anew.append([])
        for value in forth_and_back(MOVES["distance_a"], max(2, moves // 4)):
            move(held.panel, "distance_a", value)
            rests[-1].append(timed(held.panel.settle))
            anew[-1].append(timed(lambda: drawn_anew(held)))
    table.append(Took("kernel: at rest, sharp pictures, bands, notes, shares", best(rests)))
    table.append(Took("clear and show: the same two pictures drawn anew", best(anew)))
    return table, held


def chapters_part(moves: int, rounds: int = ROUNDS) -> list[Took]:
    """The same for the panels of the chapters: a move, and the rest that follows it."""
    table = []
    for build, name, values in CHAPTERS:
        panel = build()
        panel.strict = True
        wall, rests = [], []
        for _ in range(rounds):
            wall.append([]), rests.append([])
            for value in forth_and_back(values, moves):
                wall[-1].append(timed(lambda p=panel, n=name, v=value: move(p, n, v)))
                rests[-1].append(timed(panel.settle))
        words = f"kernel: {build.__name__}, {name} moved"
        table.append(Took(f"{words}, to the bytes of all pictures", best(wall), "25 median"))
        table.append(Took("   at rest", best(rests), "300 with new maps"))
    return table


# When what followed the last press of a key was there to be seen [ms after the press].
LISTEN = """() => {
  const pictures = ["lane", "balls"].map((it) => document.querySelector(`img.workbook-${it}`));
  const sentence = document.querySelector(".workbook-sentence");
  window.came = {}; window.pressed = 0;
  const mark = (what) => { if (!(what in came)) came[what] = performance.now() - pressed; };
  document.addEventListener("keydown", (press) => {
    window.pressed = press.timeStamp; window.came = {};
  }, true);
  for (const it of pictures) {
    const both = it === pictures[1] ? " both" : "";
    new MutationObserver(() => it.decode().then(
      () => mark((it.naturalWidth < 1920 ? "frame" : "sharp") + both), () => {},
    )).observe(it, { attributeFilter: ["src"] });
  }
  new MutationObserver(() => {
    if (/\\(\\d+\\.\\d+( \\w+)? to \\d/.test(sentence.textContent)) mark("bands");
  }).observe(sentence, { subtree: true, childList: true, characterData: true });
}"""


@contextmanager
def copy_of_checkout() -> Iterator[Path]:
    """The checkout in a folder of its own, without caches, so that nothing here is touched."""
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        shutil.copy(ROOT / "pyproject.toml", root)
        leave = shutil.ignore_patterns("__pycache__", ".ipynb_checkpoints")
        for part in ("workbook", "notebooks", "exercises"):
            shutil.copytree(ROOT / part, root / part, ignore=leave)
        yield root


def browser_part(presses: int, rounds: int = ROUNDS) -> list[Took]:
    """Times in the browser; the first start compiles the kernels, the later ones do not."""
    from playwright.sync_api import sync_playwright

    from tests.browser import conftest as place

    table, starts = [], []
    with copy_of_checkout() as root, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=place.chromium(), args=place.QUIET)
        for start in range(rounds + 1):
            begin = time.perf_counter()
            options = ["--no-browser", "--port", str(place.free_port())]
            lab = place.Lab(
                [sys.executable, "-m", "workbook", *options], root, root / "lab.log",
                PYTHONPATH=str(root), WORKBOOK_INSIDE="1",
            )  # fmt: skip
            try:
                visit = place.Visit.of(browser, lab.address)
                visit.wait_for_picture()
                starts.append((time.perf_counter() - begin) * 1e3)
                if start == rounds:
                    visit.rest()
                    table = on_the_page(visit, presses, rounds)
                visit.page.close()
            finally:
                lab.close()
        browser.close()
    return [
        *table,
        Took("very first start: command to first picture", starts[:1], "15000"),
        Took("later start: command to first picture", [min(starts[1:])], "15000"),
    ]


def on_the_page(visit: Any, presses: int, rounds: int) -> list[Took]:
    """Times from a key press, and frames of a drag."""
    visit.page.evaluate(LISTEN)
    rested = [[press(visit, n) for n in range(presses)] for _ in range(rounds)]
    taps = [[tap(visit, n) for n in range(presses)] for _ in range(rounds)]
    frames = [[float(drag(visit))] for _ in range(rounds)]

    def of(what: str) -> list[float]:
        return best([[came[what] for came in one] for one in rested])

    return [
        Took("page: key press to new lane, from rest", of("frame"), "80 median, 150 worst"),
        Took("   to new lane and new balls", of("frame both")),
        Took("page: key press to new lane, while the last is made sharp", best(taps),
             "80 median, 150 worst"),
        Took("page: last key to sentence with bands", of("bands"), "150"),
        Took("page: last key to sharp lane", of("sharp"), "150"),
        Took("   to sharp lane and sharp balls", of("sharp both")),
        Took("page: pictures in a drag of two seconds [1]", max(frames), "30"),
    ]  # fmt: skip


def key(n: int) -> str:
    """Five steps up, five down and so on: the slider never comes to its end."""
    return "ArrowRight" if n // 5 % 2 == 0 else "ArrowLeft"


def press(visit: Any, n: int) -> dict[str, float]:
    """One step of the pin distance from rest: when picture, sharp picture and bands came [ms]."""
    before = visit.picture
    visit.handle("distance-a").press(key(n))
    visit.page.wait_for_function("came.sharp && came['sharp both'] && came.bands")
    visit.rest(since=before)
    # a first picture that the sharp one overtook is never shown
    return visit.page.evaluate("({frame: came.sharp, 'frame both': came['sharp both'], ...came})")


def tap(visit: Any, n: int) -> float:
    """One step, told to come just when the kernel makes the last picture sharp [ms]."""
    visit.page.wait_for_timeout(70)
    visit.handle("distance-a").press(key(n))
    return visit.page.wait_for_function("came.frame").json_value()


def drag(visit: Any) -> int:
    """Lane pictures while the handle goes 90 pixels to and fro, twice in two seconds."""
    visit.rest()
    mouse, frame = visit.page.mouse, visit.handle("distance-a").bounding_box()
    left, top = frame["x"] + frame["width"] / 2, frame["y"] + frame["height"] / 2
    mouse.move(left, top)
    mouse.down()
    seen, begin = visit.frames, time.perf_counter()
    while (passed := time.perf_counter() - begin) < DRAG_S:
        mouse.move(left - 90 * (1 - abs(2 * passed % 2 - 1)), top)
        visit.page.wait_for_timeout(8)
    seen = visit.frames - seen
    mouse.up()
    return seen


def main(arguments: list[str]) -> int:
    """Print the table."""
    sys.path.insert(0, str(ROOT))
    os.environ.pop("DISPLAY", None)
    table, _ = kernel_part(60)
    table += chapters_part(40)
    if "--kernel" not in arguments:
        table += browser_part(50)
    print(f"[ms], best of {ROUNDS} rounds{'median':>41}{'worst':>9}   target")
    print(*table, sep="\n")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
