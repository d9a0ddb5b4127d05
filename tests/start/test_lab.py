"""One real Lab on a free port, asked from outside."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import urllib.error
import urllib.request

import pytest

from workbook.start import environment, places

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(os.name != "posix", reason="ends Lab with POSIX signals"),
]
NO_PROXY = urllib.request.build_opener(urllib.request.ProxyHandler({}))


class Lab:
    """A running ``python -m workbook --no-browser`` and what it printed."""

    def __init__(self, port):
        self.process = subprocess.Popen(
            [sys.executable, "-m", "workbook", "--no-browser", "--port", str(port)],
            cwd=places.PACKAGE.parent,
            env=os.environ | {environment.INSIDE: "1"},
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            text=True,
        )
        self.printed = ""
        while "Ctrl-C" not in self.printed:
            line = self.process.stdout.readline()
            if not line:
                raise AssertionError(f"Lab ended early, after printing {self.printed!r}")
            self.printed += line
        found = re.search(r"http://127\.0\.0\.1:(\d+)(/\S*)\?token=(\w+)", self.printed)
        self.port, self.page, self.token = int(found[1]), found[2], found[3]

    def get(self, path, token=None):
        """Return status and text of the answer to GET `path`."""
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}{path}")
        if token:
            request.add_header("Authorization", f"token {token}")
        try:
            with NO_PROXY.open(request, timeout=30) as answer:
                return answer.status, answer.read().decode()
        except urllib.error.HTTPError as error:
            return error.code, error.read().decode()

    def end(self, signum):
        """Send one signal and return the exit status."""
        self.process.send_signal(signum)
        return self.process.wait(timeout=30)

    def close(self):
        """Leave nothing behind if a test failed."""
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        self.process.stdout.close()


@pytest.fixture(scope="module")
def taken_port():
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


@pytest.fixture(scope="module")
def lab(taken_port):
    lab = Lab(taken_port)
    yield lab
    lab.close()


def test_a_taken_port_makes_way_and_says_so(lab, taken_port):
    assert lab.port != taken_port
    assert f"Port {taken_port} is taken; using {lab.port}." in lab.printed


def test_the_address_is_the_first_page(lab):
    assert lab.page == "/lab/tree/notebooks/00_start_here.ipynb"
    status, text = lab.get(lab.page, lab.token)
    assert status == 200
    assert "jupyter-config-data" in text


@pytest.mark.parametrize("path", ["/api/contents", "/api/kernels", "/lab/api/settings"])
def test_the_token_is_asked_for(lab, path):
    assert lab.get(path)[0] == 403
    assert lab.get(path, "0" * len(lab.token))[0] == 403
    assert lab.get(path, lab.token)[0] == 200


def test_other_machines_cannot_connect(lab):
    # On Linux all of 127/8 is this machine, so a server on every address would answer here.
    with socket.socket() as stranger:
        assert stranger.connect_ex(("127.0.0.2", lab.port)) != 0


def test_the_notebooks_are_served(lab):
    names = {
        entry["name"] for entry in json.loads(lab.get("/api/contents", lab.token)[1])["content"]
    }
    assert "notebooks" in names


def test_it_fetches_no_news_and_looks_for_no_updates(lab):
    overridden = "/lab/api/settings/@jupyterlab/apputils-extension:notification"
    schema = json.loads(lab.get(overridden, lab.token)[1])["schema"]["properties"]
    assert schema["fetchNews"]["default"] == "false"
    assert schema["checkForUpdates"]["default"] is False
    page = json.loads(
        re.search(
            r'id="jupyter-config-data"[^>]*>\s*(\{.*?\})\s*</script>',
            lab.get(lab.page, lab.token)[1],
            re.S,
        )[1]
    )
    assert page["news"] == {"disabled": True}
    assert page["extensionManager"]["can_install"] is False


@pytest.mark.parametrize("path", ["/voila/", "/voila/render/notebooks/00_start_here.ipynb"])
def test_voila_does_not_run_inside_lab(lab, path):
    assert lab.get(path, lab.token)[0] == 404


def test_terminals_are_off(lab):
    assert lab.get("/api/terminals", lab.token)[0] == 404


def test_sigterm_ends_it_cleanly(lab):
    assert lab.end(signal.SIGTERM) == 0


def test_one_ctrl_c_ends_it_cleanly(taken_port):
    lab = Lab(taken_port)
    try:
        assert lab.end(signal.SIGINT) == 0
    finally:
        lab.close()
