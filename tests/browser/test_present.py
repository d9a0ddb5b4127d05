"""`present` in a real browser: what is seen, and that the page's address lets nobody run code."""

import os
import socket
import sys
import time
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from tests.browser.conftest import PATIENCE_MS, Lab, Visit, free_port
from tests.browser.test_start_page import ROUNDING_OF_A_SCROLLBAR
from workbook.commands.page_messages import INVALID, PROTOCOL
from workbook.start import environment, places

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(os.name != "posix", reason="ends the page with POSIX signals"),
]
ATTACK = Path(__file__).with_name("attack.js").read_text(encoding="utf-8")
PROTOCOLS = ("", PROTOCOL)  # Jupyter's older one has no name
# What is no message, and whether the page's server says so. Voila's own would count to the number
# in the first bytes: without end, and keeping each.
BABBLE = """async ({ id, protocol, bytes }) => {
  const socket = new WebSocket(`ws://${location.host}/api/kernels/${id}/channels`, [protocol]);
  socket.onopen = () => socket.send(new Uint8Array(bytes));
  return (await new Promise((done) => { socket.onclose = done; })).code;
}"""
SMALLEST_PX = 18
SCREENS = [(1024, 768), (1920, 1080), (820, 1180)]
# the words in letters that are too small; a formula's spoken twin is not seen
SMALL = """(least) => [...document.querySelectorAll("#rendered_cells *")].filter((it) =>
  it.checkVisibility() && !it.closest("mjx-container")
  && [...it.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim())
  && parseFloat(getComputedStyle(it).fontSize) < least).map((it) => it.textContent.trim())"""


def serve(tmp_path_factory, *words):
    """The command as it is typed, in a process of its own."""
    log = tmp_path_factory.mktemp("present") / "said.log"
    command = [sys.executable, "-m", "workbook", "present", *words,
               "--no-browser", "--port", str(free_port())]  # fmt: skip
    served = Lab(command, places.PACKAGE.parent, log, **{environment.INSIDE: "1"})
    served.said = log.read_text()
    return served


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    served = serve(tmp_path_factory, "1")
    yield served
    served.close()


@pytest.fixture(scope="module")
def shared(tmp_path_factory):
    served = serve(tmp_path_factory, "00_start_here", "--share")
    yield served
    served.close()


@pytest.fixture(scope="module")
def seen(browser, served):
    visit = Visit.of(browser, served.address)
    visit.wait_for_picture()
    visit.rest()  # in a fresh checkout the kernel still compiles when the first picture is there
    yield visit
    visit.page.close()


def origin(served):
    return "http://" + urlsplit(served.address).netloc


def kernel_of(page):
    return page.evaluate(
        "JSON.parse(document.getElementById('jupyter-config-data').textContent).kernelId"
    )


def attack(page, kernel, tmp_path, protocol):
    """Try to make a file by code in the kernel; what the kernel said, and whether it was made."""
    mark = tmp_path / "made by a stranger"
    code = f"open({str(mark)!r}, 'w').close()"
    said = page.evaluate(ATTACK, {"id": kernel, "code": code, "protocol": protocol})
    return set(said), mark.exists()


def test_text_cautions_and_the_panel_are_shown_and_no_code(seen):
    text = seen.page.locator("#rendered_cells").inner_text()
    assert "01 Two layouts" in text and "qualified pro-shop operator" in text
    assert "import" not in text and seen.page.locator(".jp-InputArea-editor").count() == 0
    handles = seen.page.locator(".workbook-panel .noUi-handle:visible")
    names = handles.evaluate_all("all => all.map((it) => it.getAttribute('aria-label'))")
    assert len(names) == len(set(names)) > 3 and all(names)


def test_a_slider_moves_a_picture(seen):
    before, numbers = seen.picture, seen.text("numbers")
    seen.handle("distance-a").press("ArrowRight")
    seen.wait_for_picture(since=before)
    assert seen.text("numbers") != numbers and seen.text("status") == ""


@pytest.mark.parametrize("size", SCREENS, ids=lambda size: f"{size[0]} x {size[1]}")
def test_letters_are_large_and_nothing_sticks_out(seen, size):
    page = seen.page
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.wait_for_function("(wide) => innerWidth === wide", arg=size[0])
    assert page.evaluate(SMALL, SMALLEST_PX) == []
    wide, room = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert wide <= room
    wide, room = page.locator(".workbook-panel").evaluate("it => [it.scrollWidth, it.clientWidth]")
    assert wide <= room + ROUNDING_OF_A_SCROLLBAR
    cut = page.locator(".workbook-first .widget-label").evaluate_all(
        "all => all.filter(it => it.scrollWidth > it.clientWidth).map(it => it.textContent)"
    )
    assert cut == []


def test_a_script_on_the_page_cannot_run_code(seen, tmp_path):
    said, made = attack(seen.page, kernel_of(seen.page), tmp_path, PROTOCOL)
    assert not made
    assert "kernel_info_reply" in said, "the kernel heard the script, and refused the rest"
    assert not said & {"execute_reply", "execute_input", "complete_reply", "debug_reply"}


def test_a_listener_of_the_older_protocol_is_refused(seen, tmp_path):
    """It would get pictures in a form that Voila's server cannot read, and stops at."""
    assert attack(seen.page, kernel_of(seen.page), tmp_path, "") == ({"refused"}, False)


def test_babble_closes_its_own_socket_and_nobody_else_notices(seen):
    older = [0, 0, 0, 2, 0, 0, 0, 12, 0, 0, 0, 14, *b"{}picture"]
    said = {"id": kernel_of(seen.page), "protocol": PROTOCOL, "bytes": older}
    assert seen.page.evaluate(BABBLE, said) == INVALID
    before = seen.picture
    seen.handle("distance-a").press("ArrowRight")
    seen.wait_for_picture(since=before)


@pytest.mark.parametrize("protocol", PROTOCOLS)
def test_the_same_script_runs_code_where_that_is_allowed(browser, lab, tmp_path, protocol):
    """The test above can fail: Lab's address, with its token, is a licence to run code."""
    page = browser.new_page()
    try:
        page.goto(lab.address)
        token = lab.address.partition("token=")[2]
        kernel = page.request.post(
            origin(lab) + "/api/kernels", headers={"Authorization": f"token {token}"}
        ).json()["id"]
        _said, made = attack(page, kernel, tmp_path, protocol)
        assert made
    finally:
        page.close()


@pytest.mark.parametrize("protocol", PROTOCOLS)
def test_without_the_token_nothing_is_reached(browser, served, seen, tmp_path, protocol):
    kernel = kernel_of(seen.page)
    stranger = browser.new_page()
    try:
        stranger.goto(origin(served))
        assert "login" in stranger.url and stranger.locator(".workbook-panel").count() == 0
        wrong = {"Authorization": "token " + "0" * 48}
        for headers in ({}, wrong):
            answer = stranger.request.get(f"{origin(served)}/api/kernels/{kernel}", headers=headers)
            assert answer.status == 403
        assert attack(stranger, kernel, tmp_path, protocol) == ({"refused"}, False)
    finally:
        stranger.close()


@pytest.mark.parametrize(
    ("method", "path"),
    [("POST", "/api/kernels"), ("POST", "/api/kernels/{kernel}/restart"), ("POST", "/api/sessions"),
     ("POST", "/api/terminals"), ("GET", "/api/contents"), ("GET", "/voila/api/contents/"),
     ("PUT", "/api/contents/x.ipynb"), ("GET", "/voila/execution/{kernel}"),
     ("GET", "/voila/render/02_read_the_ball.ipynb"), ("GET", "/02_read_the_ball.ipynb"),
     ("GET", "/voila/files/01_two_layouts.ipynb"), ("GET", "/voila/files/pictures/two_layouts.png"),
     ("GET", "/voila/files/..%2fpyproject.toml"), ("GET", "/lab"), ("GET", "/tree")],
)  # fmt: skip
def test_with_the_token_there_is_no_way_in_but_the_page(served, seen, method, path):
    token = served.address.partition("token=")[2]
    answer = seen.page.request.fetch(
        origin(served) + path.format(kernel=kernel_of(seen.page)), method=method,
        headers={"Authorization": f"token {token}"},
    )  # fmt: skip
    assert answer.status in (403, 404, 405)


def answers_at(address, port):
    with socket.socket() as stranger:
        return stranger.connect_ex((address, port)) == 0


@pytest.mark.skipif(sys.platform != "linux", reason="all of 127/8 is this machine on Linux alone")
def test_other_machines_see_a_shared_page_alone(served, shared):
    assert not answers_at("127.0.0.2", urlsplit(served.address).port)
    assert answers_at("127.0.0.2", urlsplit(shared.address).port)
    assert "Shared" not in served.said
    assert "anyone on a network" in shared.said and "not encrypted" in shared.said


def test_a_shared_page_leaves_files_alone(browser, shared):
    token, port = shared.address.partition("token=")[2], urlsplit(shared.address).port
    visit = Visit.of(browser, f"http://127.0.0.1:{port}/?token={token}")
    try:
        visit.wait_for_picture()
        visit.page.get_by_role("button", name="Save and load").click()
        visit.page.locator(".workbook-save-a").click()
        visit.page.get_by_text("files stay closed while this page is shared.").wait_for()
    finally:
        visit.page.close()


def test_a_page_that_is_left_takes_its_kernel_with_it(browser, served):
    visit = Visit.of(browser, served.address)
    visit.wait_for_picture()
    token, kernel = served.address.partition("token=")[2], kernel_of(visit.page)
    asked = visit.page.context.request

    def state():
        address = f"{origin(served)}/api/kernels/{kernel}"
        return asked.get(address, headers={"Authorization": f"token {token}"}).status

    assert state() == 200
    visit.page.goto("about:blank")
    begin = time.monotonic()
    while state() == 200 and time.monotonic() - begin < PATIENCE_MS / 1000:
        time.sleep(0.1)
    assert state() == 404
    visit.page.close()


def test_nothing_is_asked_of_other_machines(seen):
    """Last, so that it knows what all tests above have caused."""
    assert seen.strangers() == []
