"""Plant faults on purpose, one at a time, and show which test goes red.

    python tests/faults/plant.py                 all of `faults.toml` (some minutes)
    python tests/faults/plant.py ring mirrored   those with one of these words in their name
    python tests/faults/plant.py --write         all, and keep the table in tests/README.md

Each fault is planted in a copy of the checkout, never in the checkout itself. It ends with 1 if a
fault survives, if its old text is not in its file exactly once, or if a test that went red is red
without the fault too.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
COPIED = ("workbook", "tests", "notebooks", "exercises", "pyproject.toml")
LOOKED_AT = [f"tests/{name}" for name in ("model", "published", "reference", "compare", "refusals")]
# these read the source or compare two runs of the same code: red or green, they tell no physics
NOT_PHYSICS = [f"tests/model/test_{name}.py" for name in ("constants", "floors", "plain_python")]
PYTEST = (
    sys.executable, "-m", "pytest", "-x", "-q", "--tb=no", "-rfE", "-p", "no:cacheprovider",
    "-m", "not slow",
)  # fmt: skip
RED = re.compile(r"^(?:FAILED|ERROR) (tests/\S+::.*?)(?: - |$)", re.MULTILINE)
LONGEST_S = 600
README = ROOT / "tests" / "README.md"
BEGIN, END = "<!-- planted faults -->", "<!-- end of planted faults -->"
SURVIVED = "**SURVIVED**"


@dataclass(frozen=True)
class Fault:
    """A slip: in `file`, `new` stands for `old`. The tests `first` are tried before all."""

    name: str
    file: str
    old: str
    new: str
    first: tuple[str, ...] = ()

    def stale(self, tree: Path) -> str:
        """Why the fault cannot be planted, or ""."""
        found = (tree / self.file).read_text(encoding="utf-8").count(self.old)
        if found != 1:
            return f"old text found {found} times"
        files = [name.partition("::")[0] for name in self.first]
        gone = [name for name in files if not (tree / "tests" / name).is_file()]
        return f"no test file {gone[0]}" if gone else ""

    def plant(self, tree: Path) -> None:
        file = tree / self.file
        text = file.read_text(encoding="utf-8")
        file.write_text(text.replace(self.old, self.new), encoding="utf-8")


def read_faults() -> list[Fault]:
    rows = tomllib.loads(Path(__file__).with_name("faults.toml").read_text(encoding="utf-8"))
    return [Fault(**{**row, "first": tuple(row.get("first", ()))}) for row in rows["fault"]]


class Workshop:
    """A frozen copy of the checkout, and the place where fresh copies of it are spoiled."""

    def __init__(self, folder: Path):
        self.folder, self.frozen, self.tree = folder, folder / "frozen", folder / "tree"
        for name in COPIED:
            source, target = ROOT / name, self.frozen / name
            if source.is_dir():
                skipped = shutil.ignore_patterns("__pycache__", ".ipynb_checkpoints")
                shutil.copytree(source, target, ignore=skipped)
            else:
                shutil.copy2(source, target)

    def fresh(self) -> Path:
        """A clean tree, always at the same place: kernels that did not change stay compiled."""
        if self.tree.exists():
            shutil.rmtree(self.tree)
        shutil.copytree(self.frozen, self.tree)
        return self.tree

    def red(self, *tests: str) -> tuple[int, list[str], str]:
        """Run tests in the tree: pytest's code, the tests that are red, the last line."""
        env = {key: v for key, v in os.environ.items() if key != "WORKBOOK_PLAIN"} | {
            "PYTHONDONTWRITEBYTECODE": "1",
            "PYTHONPATH": str(self.tree),
            "WORKBOOK_KERNELS": str(self.folder / "kernels"),
            "NUMBA_CACHE_DIR": str(self.folder / "kernels"),  # those of the tests
        }
        command = [*PYTEST, *(f"--ignore={name}" for name in NOT_PHYSICS), *tests]
        try:
            done = subprocess.run(
                command, cwd=self.tree, env=env, capture_output=True, text=True, timeout=LONGEST_S
            )
        except subprocess.TimeoutExpired:
            return -1, [], f"not through after {LONGEST_S} s"
        found = RED.findall(done.stdout)
        lines = (done.stdout + done.stderr).strip().splitlines()
        return done.returncode, found, lines[-1] if lines else ""

    def caught_by(self, fault: Fault) -> str:
        """The first test that goes red with the fault, or what else became of it."""
        stale = fault.stale(self.frozen)
        if stale:
            return f"**STALE**: {stale}"
        self.fresh()
        fault.plant(self.tree)
        for tests in ([f"tests/{name}" for name in fault.first], LOOKED_AT):
            code, found, last = self.red(*tests) if tests else (0, [], "")
            if found:
                return found[0]
            if code != 0:
                return f"**NOT RUN**: {last}"
        return SURVIVED

    def red_without_fault(self, tests: list[str]) -> list[str]:
        """Those of the tests that are red in a clean tree."""
        self.fresh()
        code, found, last = self.red("--maxfail=1000", *tests)
        return found if found or code == 0 else [last]


@contextmanager
def workshop() -> Iterator[Workshop]:
    with tempfile.TemporaryDirectory(prefix="planted-") as folder:
        yield Workshop(Path(folder))


def as_table(caught: dict[Fault, str]) -> str:
    rows = ["| fault | file | caught by |", "|---|---|---|"]
    for fault, test in caught.items():
        where = test if test.startswith("**") else f"`{test.removeprefix('tests/')}`"
        rows.append(f"| {fault.name} | `{fault.file.removeprefix('workbook/')}` | {where} |")
    return "\n".join(rows)


def write(table: str) -> None:
    text = README.read_text(encoding="utf-8")
    before, _, rest = text.partition(BEGIN)
    _, _, after = rest.partition(END)
    README.write_text(f"{before}{BEGIN}\n{table}\n{END}{after}", encoding="utf-8")


def chosen(names: list[str]) -> list[Fault]:
    faults = read_faults()
    if not names:
        return faults
    wanted = [f for f in faults if any(name.lower() in f.name.lower() for name in names)]
    if not wanted:
        sys.exit(f"no fault has {' or '.join(names)} in its name; they are:\n" + "\n".join(
            f"  {fault.name}" for fault in faults))  # fmt: skip
    return wanted


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("names", nargs="*", help="words of the names of the faults; all if none")
    parser.add_argument("--write", action="store_true", help="keep the table in tests/README.md")
    given = parser.parse_args()
    if given.write and given.names:
        parser.error("--write keeps the table of all faults: leave the names out")
    caught: dict[Fault, str] = {}
    with workshop() as place:
        for fault in chosen(given.names):
            begun = time.monotonic()
            caught[fault] = place.caught_by(fault)
            seconds = time.monotonic() - begun
            print(f"{seconds:4.0f} s  {fault.name}: {caught[fault]}", file=sys.stderr, flush=True)
        tests = sorted({test for test in caught.values() if not test.startswith("**")})
        red = place.red_without_fault(tests) if tests else []
    for fault, test in caught.items():
        if test in red:
            caught[fault] = f"**RED WITHOUT IT TOO**: {test}"
    table = as_table(caught)
    print(table)
    if given.write:
        write(table)
    missed = [fault for fault, test in caught.items() if test.startswith("**")]
    print(f"{len(caught) - len(missed)} of {len(caught)} faults caught", file=sys.stderr)
    return 1 if missed or red else 0


if __name__ == "__main__":
    sys.exit(main())
