"""Serve the notebooks in a quiet JupyterLab that stays on this machine and needs no network."""

import os
import secrets
import subprocess
import sys
from pathlib import Path

from workbook.start.places import FIRST_NOTEBOOK, private_state

CONFIG = Path(__file__).parent / "config"
EXTENSIONS = Path(__file__).parent / "labextensions"
PORT = 8888
FIRST_PAGE = f"/lab/tree/{FIRST_NOTEBOOK}"


def serve(root: Path, port: int, browser: bool) -> int:
    """Open Lab on the folder `root` and return when it is stopped.

    If `port` is taken, the next free one is used; the printed address names it.
    """
    # Compiled while Lab starts, so that the first page need not wait for it.
    subprocess.Popen([sys.executable, "-m", "workbook.warm"], cwd=root)
    # Jupyter reads these on import.
    os.environ.update(private_state(root), JUPYTER_CONFIG_PATH=str(CONFIG))
    from jupyterlab.labapp import LabApp
    from traitlets.config import Config

    token = secrets.token_hex(24)
    settings = _settings(root, port, browser, token)
    server = LabApp.initialize_server(argv=[], config=Config(settings))

    def announce() -> None:
        if server.port != port:
            print(f"Port {port} is taken; using {server.port}.")
        address = f"http://127.0.0.1:{server.port}{FIRST_PAGE}?token={token}"
        print(f"The workbook is open at {address}\nStop it with Ctrl-C.", flush=True)

    # Queued behind the server's own binding, so the address answers once it is printed.
    server.io_loop.add_callback(announce)
    server.start()
    return 0


def _settings(root: Path, port: int, browser: bool, token: str) -> dict[str, dict]:
    return {
        "ServerApp": {
            "ip": "127.0.0.1",
            "port": port,
            "root_dir": str(root),
            "open_browser": browser,
            "allow_root": hasattr(os, "geteuid") and os.geteuid() == 0,
            "answer_yes": True,  # one Ctrl-C is enough
            "log_level": "ERROR",
            "terminals_enabled": False,
        },
        "IdentityProvider": {"token": token},
        "LabApp": {
            "log_level": "ERROR",
            "default_url": FIRST_PAGE,
            "news_url": None,
            "check_for_updates_class": "jupyterlab.handlers.announcements.NeverCheckForUpdate",
            "extension_manager": "readonly",
            "extra_labextensions_path": [str(EXTENSIONS)],
        },
        "KernelManager": kernel_settings(),
    }


def kernel_settings() -> dict[str, str]:
    """Encrypt what passes between server and kernels, where this Jupyter can."""
    import zmq
    from jupyter_client.manager import KernelManager

    able = zmq.has("curve") and "transport_encryption" in KernelManager.class_trait_names()
    return {"transport_encryption": "auto"} if able else {}
