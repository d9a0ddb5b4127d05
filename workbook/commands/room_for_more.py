"""Kernels for the viewers of a shown page, as many as this computer has memory for."""

from typing import Any

import psutil
from jupyter_server.services.kernels.kernelmanager import AsyncMappingKernelManager
from tornado.web import HTTPError

MOST = 40
SPARE_BYTES = 700_000_000  # what has to be free before another kernel of some 300 MB starts


class RoomForMore(AsyncMappingKernelManager):
    """Starts a kernel for each opening of the page, and refuses one too many."""

    async def start_kernel(self, *what: Any, **how: Any) -> str:  # type: ignore[override]
        """Start a kernel.

        Raises
        ------
        HTTPError
            503, if there is no room for another.
        """
        if len(self.list_kernel_ids()) >= MOST or psutil.virtual_memory().available < SPARE_BYTES:
            raise HTTPError(503, reason="No room for another viewer")
        started: str = await super().start_kernel(*what, **how)
        return started
