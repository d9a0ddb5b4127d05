"""`--show-checks` prints every check value beside what the library gives."""

import shutil
from pathlib import Path

import pytest

from tests.published import facts, table

HERE = Path(__file__).parent
DESELECTED = pytest.StashKey[bool]()


def pytest_addoption(parser):
    parser.addoption("--show-checks", action="store_true", help="print the table of check values")


def _shows(config):
    return config.getoption("--show-checks", default=False)


def pytest_report_teststatus(report, config):
    if _shows(config) and report.passed:  # the table stands in for the dots
        return "passed" if report.when == "call" else "", "", ""
    return None


def pytest_terminal_summary(terminalreporter, config):
    if _shows(config):
        width = shutil.get_terminal_size().columns
        terminalreporter.write_line(table.text(facts.CHECKS, width))


def pytest_deselected(items):
    if any(HERE in item.path.parents for item in items):
        items[0].config.stash[DESELECTED] = True


def pytest_collection_modifyitems(items):
    """What looks at the checks of all other tests comes last."""
    items.sort(key=lambda item: "recorded" in getattr(item, "fixturenames", ()))


@pytest.fixture
def recorded(request):
    """Ids of the rows that the tests of this session have compared."""
    files = {item.path for item in request.session.items}
    if request.config.stash.get(DESELECTED, False) or not files.issuperset(HERE.glob("test_*.py")):
        pytest.skip("only some of the published checks were asked for")
    return {check.row.id for check in facts.CHECKS}
