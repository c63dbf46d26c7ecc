"""Names and addresses: which are this machine alone, and which a browser may call us by."""

from __future__ import annotations

import ipaddress
from collections.abc import Iterable
from urllib.parse import urlsplit


def is_loopback(host: str) -> bool:
    """Whether an address or name is reached from this machine alone."""
    if host.casefold() == "localhost":
        return True
    address = _address(host)
    return address is not None and address.is_loopback


def host_names(host: str, machine: str, given: Iterable[str] = ()) -> frozenset[str]:
    """The names, beside addresses, by which a browser may call a server bound to `host`.

    A page elsewhere can point a name of its own at this machine (DNS rebinding) and would then be
    taken for our page; so only known names are answered.
    """
    own = () if is_loopback(host) else (machine, f"{machine}.local")
    return frozenset(name.casefold().rstrip(".") for name in ("localhost", *own, *given))


def host_is_known(header: str, names: Iterable[str], *, loopback: bool) -> bool:
    """Whether a Host header is one of the names, or an address: with loopback a local one.

    An address cannot be pointed elsewhere, and a tunnel may come in at any port.
    """
    host = _host_of(header)
    address = _address(host)
    if address is not None:
        return address.is_loopback or not loopback
    return host.rstrip(".") in names


def same_origin(origin: str, host: str) -> bool:
    """Whether an Origin header is the page of the server that the Host header names."""
    try:
        parts = urlsplit(origin)
    except ValueError:
        return False
    return parts.scheme in ("http", "https") and parts.netloc.casefold() == host.casefold()


def _host_of(header: str) -> str:
    try:
        return (urlsplit(f"//{header}").hostname or "").casefold()
    except ValueError:
        return ""


def _address(host: str) -> ipaddress.IPv4Address | ipaddress.IPv6Address | None:
    try:
        return ipaddress.ip_address(host)
    except ValueError:
        return None
