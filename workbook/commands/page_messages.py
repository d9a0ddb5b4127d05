"""Messages that a shown page may send: of one protocol, and of the shape they claim.

Voila reads whatever its kernels say as messages of the newer protocol. On a socket of the older one
a picture's first bytes are then taken for a count of parts, and the server counts to it, for hours
and without end of memory. Jupyter counts the same way in what a page sends.
"""

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection
from tornado.web import HTTPError

PROTOCOL = "v1.kernel.websocket.jupyter.org"
LONGEST = 2**20  # bytes of a message; a moved slider takes some hundred
FEWEST_ENDS, MOST_ENDS = 6, 64  # of channel, header, parent, metadata, content; and of buffers
PLACE = 8  # bytes of a number in a message's head: the count of the ends, then the ends of parts
MOST_SOCKETS = 8  # of one kernel; a page has one
INVALID = 1007  # RFC 6455 section 7.4.1: data not consistent with the type of the message


class PageMessages(ZMQChannelsWebsocketConnection):
    """The way from a page to its kernel, closed to what Jupyter would count without end."""

    async def prepare(self) -> None:
        """Refuse a socket of the older protocol before it is open."""
        offered = self.websocket_handler.request.headers.get("Sec-WebSocket-Protocol", "")
        if PROTOCOL not in protocols(offered):
            raise HTTPError(400, reason="Unknown protocol")
        mine = [one for one in self._open_sockets if one.kernel_id == self.kernel_id]
        if len(mine) >= MOST_SOCKETS:
            raise HTTPError(429, reason="Too many connections")
        await super().prepare()

    def handle_incoming_message(self, incoming_msg: str) -> None:  # or bytes, as a rule
        """Hand a message on, or close the socket that sent something else."""
        if not well_formed(incoming_msg):
            self.websocket_handler.close(INVALID, "not a message")
            return
        super().handle_incoming_message(incoming_msg)


def protocols(offered: str) -> list[str]:
    """The protocols that a page offers, as RFC 6455 section 4.2.1 lists them."""
    return [one.strip() for one in offered.split(",")]


def well_formed(message: str | bytes) -> bool:
    """Whether the ends of its parts that a message names are few, in order and inside it."""
    if isinstance(message, str):
        return False
    count = int.from_bytes(message[:PLACE], "little")
    if not FEWEST_ENDS <= count <= MOST_ENDS:
        return False
    ends = [
        int.from_bytes(message[PLACE * (i + 1) : PLACE * (i + 2)], "little") for i in range(count)
    ]
    return ends[0] == PLACE * (count + 1) and ends == sorted(ends) and ends[-1] == len(message)
