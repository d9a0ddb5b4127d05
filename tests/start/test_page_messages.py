"""What a shown page may send: messages as Jupyter writes them, and nothing counted for long."""

import struct

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jupyter_client.session import Session
from jupyter_server.services.kernels.connection.base import (
    deserialize_msg_from_ws_v1,
    serialize_binary_message,
    serialize_msg_to_ws_v1,
)

from workbook.commands.page_messages import MOST_ENDS, PROTOCOL, protocols, well_formed


def packed(*numbers, rest=b""):
    return struct.pack(f"<{len(numbers)}Q", *numbers) + rest


@given(st.lists(st.binary(max_size=40), min_size=4, max_size=MOST_ENDS - 2))
def test_what_jupyter_itself_writes_passes(parts):
    message = serialize_msg_to_ws_v1(parts, "shell")
    assert well_formed(message)
    assert deserialize_msg_from_ws_v1(message) == ("shell", parts)


def test_what_the_older_protocol_writes_does_not():
    message = Session().msg("comm_msg", {}) | {"buffers": [b"picture"]}
    assert not well_formed(serialize_binary_message(message))
    assert not well_formed("{}")


@pytest.mark.parametrize(
    "message",
    [
        b"",
        b"\x02",
        packed(2**64 - 1),
        packed(MOST_ENDS + 1, *[8 * (MOST_ENDS + 2)] * (MOST_ENDS + 1)),
        packed(3, 32, 40, rest=b"8 bytes."),
        packed(3, 32, 40, 36, rest=b"8 bytes."),
        packed(3, 0, 36, 40, rest=b"8 bytes."),
        packed(3, 32, 36, 99, rest=b"8 bytes."),
    ],
    ids=["empty", "short", "endless", "many", "an end missing", "backwards", "head", "outside"],
)
def test_other_bytes_do_not(message):
    assert not well_formed(message)


@given(st.lists(st.integers(0, 90), max_size=9), st.binary(max_size=40))
def test_what_passes_can_be_read_and_holds_as_much_as_it_is_long(ends, rest):
    message = packed(len(ends), *ends, rest=rest)
    if well_formed(message):
        channel, parts = deserialize_msg_from_ws_v1(message)
        assert 8 * (len(ends) + 1) + len(channel) + sum(map(len, parts)) == len(message)


@pytest.mark.parametrize(
    ("offered", "kind"),
    [(PROTOCOL, "taken"), (f"other, {PROTOCOL}", "taken"), ("", "refused"), ("v1", "refused"),
     (f"x{PROTOCOL}", "refused"), (PROTOCOL.upper(), "refused")],
)  # fmt: skip
def test_one_protocol_alone_is_spoken(offered, kind):
    assert (PROTOCOL in protocols(offered)) == (kind == "taken")
