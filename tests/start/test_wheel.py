"""Source package and wheel are built, and the wheel passes the fast tests in an empty environment.

pip asks whatever index this computer is set up for.
"""

import shutil
import subprocess
import zipfile

import pytest

from tests.start.from_scratch import copy_of_checkout, empty_environment, run

pytestmark = pytest.mark.slow
# What looks at the checkout around the library, at its set-up or into a browser stays out.
OUT = ("tests/start", "tests/browser", "tests/faults", "tests/test_notebooks.py")


@pytest.fixture(scope="module")
def built(tmp_path_factory):
    """The folder with the source package, and the wheel that was built from what it holds."""
    folder = tmp_path_factory.mktemp("build")
    checkout = copy_of_checkout(folder / "checkout")
    python = empty_environment(folder / "builder")
    run(python, "-m", "pip", "install", "-q", "hatchling", cwd=folder)
    run(python, "-m", "hatchling", "build", "-t", "sdist", "-d", folder / "dist", cwd=checkout)
    (packed,) = (folder / "dist").glob("*.tar.gz")
    shutil.unpack_archive(packed, folder / "sources")
    (sources,) = (folder / "sources").iterdir()
    run(python, "-m", "hatchling", "build", "-t", "wheel", "-d", folder / "dist", cwd=sources)
    return folder / "dist"


@pytest.fixture(scope="module")
def installed(built, tmp_path_factory):
    """The interpreter of an environment that has the wheel, and nothing of the checkout."""
    folder = tmp_path_factory.mktemp("installed")
    python = empty_environment(folder / "environment")
    (wheel,) = built.glob("*.whl")
    run(python, "-m", "pip", "install", "-q", "--no-compile", f"{wheel}[test]", cwd=folder)
    return python


def test_the_wheel_carries_pages_exercises_and_the_projector(built):
    (wheel,) = built.glob("*.whl")
    names = set(zipfile.ZipFile(wheel).namelist())
    assert {
        "workbook/_content/notebooks/00_start_here.ipynb",
        "workbook/_content/notebooks/lanes/house.csv",
        "workbook/_content/exercises/README.md",
        "workbook/py.typed",
        "workbook/start/projector/voila/templates/projector/index.html.j2",
        "workbook/start/projector/voila/templates/projector/static/projector.css",
    } <= names
    assert not [name for name in names if name.startswith("tests/") or "__pycache__" in name]


def test_the_installed_package_copies_its_pages_and_knows_its_chapters(installed, tmp_path):
    done = subprocess.run(
        [installed, "-m", "workbook", "present", "99"],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    copy = tmp_path / "bowling-layout-workbook"
    assert done.returncode == 1
    assert f"Copying the notebooks to {copy}." in done.stderr
    assert "There is no chapter 99; there are 00_start_here, 01_two_layouts" in done.stderr
    assert (copy / "notebooks/00_start_here.ipynb").is_file()


def test_the_installed_package_passes_the_fast_tests(installed, tmp_path):
    folder = copy_of_checkout(tmp_path / "tests only", "tests")
    (folder / "workbook").rename(folder / "out of the way")
    where = run(installed, "-c", "import workbook; print(workbook.__file__)", cwd=folder)
    assert str(installed.parents[1]) in where
    left_out = [f"--ignore={path}" for path in OUT]
    run(installed, "-m", "pytest", "-q", "-x", "-m", "not slow", "-p", "no:cacheprovider", "tests",
        *left_out, cwd=folder)  # fmt: skip
