"""Which names a browser may call the server by, and which page may ask for something."""

from __future__ import annotations

import pytest

from logbook.serving.door import host_is_known, host_names, is_loopback, same_origin


@pytest.mark.parametrize(
    ("host", "alone"),
    [
        ("127.0.0.1", True),
        ("127.8.8.8", True),
        ("::1", True),
        ("localhost", True),
        ("0.0.0.0", False),  # noqa: S104 - nothing is bound
        ("::", False),
        ("192.168.1.20", False),
        ("growroom", False),
        ("", False),
    ],
)
def test_what_is_reached_from_this_machine_alone(host: str, alone: bool) -> None:
    assert is_loopback(host) is alone


@pytest.mark.parametrize(
    ("header", "known"),
    [
        ("127.0.0.1:8000", True),
        ("localhost:9123", True),  # a tunnel's other end may have another port
        ("LOCALHOST", True),
        ("localhost.:8000", True),
        ("[::1]:8000", True),
        ("192.168.1.20:8000", False),
        ("growroom:8000", False),
        ("elsewhere.example:8000", False),  # pointed at 127.0.0.1 by whoever owns the name
        ("localhost.elsewhere.example", False),
        ("", False),
        ("[", False),
    ],
)
def test_a_server_for_this_machine_answers_to_local_names(header: str, known: bool) -> None:
    names = host_names("127.0.0.1", "growroom")
    assert host_is_known(header, names, loopback=True) is known


@pytest.mark.parametrize(
    ("header", "known"),
    [
        ("192.168.1.20:8000", True),
        ("growroom:8000", True),
        ("GrowRoom.local:8000", True),
        ("book.example", True),
        ("elsewhere.example:8000", False),
    ],
)
def test_a_server_for_the_network_answers_to_its_own_names(header: str, known: bool) -> None:
    names = host_names("0.0.0.0", "growroom", ["Book.example"])  # noqa: S104 - nothing is bound
    assert host_is_known(header, names, loopback=False) is known


@pytest.mark.parametrize(
    ("origin", "same"),
    [
        ("http://localhost:8000", True),
        ("https://localhost:8000", True),
        ("http://localhost:8001", False),
        ("http://elsewhere.example", False),
        ("http://localhost:8000.elsewhere.example", False),
        ("ftp://localhost:8000", False),
        ("null", False),
        ("", False),
        ("http://[", False),
    ],
)
def test_only_the_servers_own_page_is_of_the_same_origin(origin: str, same: bool) -> None:
    assert same_origin(origin, "localhost:8000") is same
