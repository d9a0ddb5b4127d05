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

from workbook.commands.page_messages import MOST_PARTS, well_formed


def packed(*numbers, rest=b""):
    return struct.pack(f"<{len(numbers)}Q", *numbers) + rest


@given(st.lists(st.binary(max_size=40), min_size=4, max_size=MOST_PARTS - 2))
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
        packed(MOST_PARTS + 1, *[8 * (MOST_PARTS + 2)] * (MOST_PARTS + 1)),
        packed(3, 32, 40, rest=b"8 bytes."),
        packed(3, 32, 40, 36, rest=b"8 bytes."),
        packed(3, 0, 36, 40, rest=b"8 bytes."),
        packed(3, 32, 36, 99, rest=b"8 bytes."),
    ],
    ids=["empty", "short", "endless", "many", "an end missing", "backwards", "head", "outside"],
)
def test_other_bytes_do_not(message):
    assert not well_formed(message)


@given(st.binary(max_size=200))
def test_any_bytes_are_told_without_an_error(message):
    assert well_formed(message) in (True, False)
