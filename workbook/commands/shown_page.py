"""One notebook served by Voila: a process and a token of its own, and nobody can run code.

Inside Lab's server Voila would share Lab's kernels and token: whoever has the address of a page
could run anything. Here the kernels take messages of widgets alone.
"""

import secrets
import socket
import threading
import webbrowser
from pathlib import Path

from jupyter_core.paths import jupyter_path
from traitlets.config import Config
from voila.app import Voila

from workbook.commands.page_messages import LONGEST, PageMessages
from workbook.commands.room_for_more import RoomForMore
from workbook.start.lab import kernel_settings

EVERYWHERE = "0.0.0.0"
PAGE_GONE_S = 300  # a kernel whose page went away without a word ends after so long
WARNING = """Shared: anyone on a network of this computer who has this address sees the chapter and
moves controls of a copy of their own. They cannot run code or reach files: saving and loading are
off. What is sent is not encrypted. Each of them takes about 300 MB of this computer's memory.
Stop with Ctrl-C when the lesson is over."""


class ShownPage(Voila):
    """Voila that says where it is, and finds its themes beside its own templates."""

    @property
    def data_dir(self) -> str:
        """The folder with the themes; the first on the path has our template only."""
        return next(path for path in jupyter_path("voila") if Path(path, "themes").is_dir())

    def launch_browser(self) -> None:
        """Print the address, which answers by now, and open it if the person wants that."""
        host = outward_address() if self.ip == EVERYWHERE else self.ip
        address = f"http://{host}:{self.port}/?token={self.token}"
        shared = f"{WARNING}\n" if self.ip == EVERYWHERE else ""
        name = Path(self.notebook_path).stem
        print(f"{shared}{name} is shown at {address}\nStop it with Ctrl-C.", flush=True)
        if self.wanted:
            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()


def show(page: Path, ip: str, port: int, browser: bool) -> int:
    """Serve `page` on `ip` and `port`, and return when it is stopped."""
    app = ShownPage(config=Config(_settings(page, ip, port)))
    app.wanted = browser
    app.initialize([str(page)])
    app.start()
    print("Stopped.")
    return 0


def _settings(page: Path, ip: str, port: int) -> dict[str, dict]:
    return {
        "ShownPage": {
            "ip": ip,
            "port": port,
            "port_retries": 0,
            "root_dir": str(page.parent),
            "token": secrets.token_hex(24),
            "open_browser": True,  # calls launch_browser
            "config_file_paths": [],  # nobody's settings open what is closed here
            "log_level": "ERROR",
            "tornado_settings": {
                "ws_ping_timeout": 30_000,  # else Jupyter's is refused, and said
                "websocket_max_message_size": LONGEST,
                # A page that is left asks for its kernel's end, without a mark against forgery.
                # Requests of other sites are refused by their origin all the same.
                "disable_check_xsrf": True,
            },
            "kernel_websocket_connection_class": PageMessages,
        },
        "VoilaConfiguration": {
            "template": "projector",
            "multi_kernel_manager_class": RoomForMore,
            "allow_template_override": "NO",
            "allow_theme_override": "NO",
            "file_allowlist": [],
        },
        # what asks the reader to change code
        "TagRemovePreprocessor": {"enabled": True, "remove_cell_tags": ["keyboard"]},
        "MappingKernelManager": {"cull_idle_timeout": PAGE_GONE_S, "cull_interval": 60},
        "KernelManager": kernel_settings(),
    }


def outward_address() -> str:
    """Return this computer's address in its network, as far as it can tell."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            # Sends nothing: it asks which way a packet would go (an address for documentation).
            probe.connect(("192.0.2.1", 9))
            return probe.getsockname()[0]
        except OSError:
            return socket.gethostname()
