"""How far the desk answers: this machine only, or its network; its addresses there, and their QR code."""

from __future__ import annotations

import contextlib
import io
import ipaddress
import socket
import ssl
import struct
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import segno

from saywright.errors import DeviceError, InputError, RefusedError
from saywright.store.protocol import People

DEFAULT_PORT = 8712
MAX_PORT = 65_535

_GET_ADDRESS = 0x8915  # SIOCGIFADDR of Linux: the IPv4 address of a network interface
_NAME_BYTES = 40  # of the request's structure; the address stands at 20…24


@dataclass(frozen=True)
class Reach:
    """Who may reach the server, and whether what is sent is encrypted."""

    lan: bool = False
    certificate: Path | None = None  # PEM; None: not encrypted
    key: Path | None = None  # PEM; None: in the same file as the certificate

    @property
    def scheme(self) -> str:
        """How an address begins."""
        return "https" if self.certificate else "http"


def check_reach(reach: Reach, people: People) -> None:
    """RefusedError for a network where nobody could sign in, InputError for a certificate that is none."""
    if reach.lan and not people.defined():
        raise RefusedError(
            "nobody could sign in, so the network is not let in",
            where="--lan",
            to_do="Name a person first: saywright people add NAME --role technician",
        )
    if reach.key and not reach.certificate:
        raise InputError(
            "a key without its certificate", where=str(reach.key), to_do="Give --certificate too"
        )
    if reach.certificate:
        try:
            context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
            context.load_cert_chain(reach.certificate, reach.key, password=lambda: "")
        except (OSError, ssl.SSLError, ValueError) as error:
            raise InputError(
                f"the certificate or its key cannot be used ({_reason(error)})",
                where=str(reach.certificate),
                to_do="Give both as PEM files, the key without a passphrase",
            ) from None


def open_to_network(port: int) -> socket.socket:
    """A socket on every address of this machine, IPv6 too where there is any; DeviceError: a taken port."""
    if not 0 <= port <= MAX_PORT:
        raise DeviceError(f"{port} is no port", where="--port", to_do="Give another with --port")
    try:
        if socket.has_dualstack_ipv6():
            with contextlib.suppress(OSError):
                return socket.create_server(("::", port), family=socket.AF_INET6, dualstack_ipv6=True)
        return socket.create_server(("0.0.0.0", port))
    except OSError as error:
        raise DeviceError(
            f"the port cannot be used ({error.strerror or error})",
            where=str(port),
            to_do="Give another with --port",
        ) from None


def addresses() -> tuple[str, ...]:
    """The addresses of this machine that others on its network reach, IPv4 first; none: ()."""
    found = [*_by_interface(), *_by_name()]
    usable = [a for a in dict.fromkeys(found) if not (a.is_loopback or a.is_link_local or a.is_unspecified)]
    return tuple(str(address) for address in sorted(usable, key=lambda a: a.version))


def _by_interface() -> list[ipaddress.IPv4Address | ipaddress.IPv6Address]:
    """What each network interface has, where the system tells (Linux)."""
    found: list[ipaddress.IPv4Address | ipaddress.IPv6Address] = []
    try:
        import fcntl  # noqa: PLC0415  (not on every system)
    except ImportError:
        return found
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        for _, name in socket.if_nameindex():
            wanted = struct.pack(f"{_NAME_BYTES}s", name.encode()[:15])
            with contextlib.suppress(OSError):
                told = fcntl.ioctl(asking.fileno(), _GET_ADDRESS, wanted)
                found.append(ipaddress.IPv4Address(told[20:24]))
    return found


def _by_name() -> list[ipaddress.IPv4Address | ipaddress.IPv6Address]:
    """What the machine's own name stands for."""
    with contextlib.suppress(OSError, UnicodeError):
        told = socket.getaddrinfo(socket.gethostname(), None)
        return [ipaddress.ip_address(str(row[4][0]).partition("%")[0]) for row in told]
    return []


def address_of(host: str, port: int, scheme: str) -> str:
    """The address to type: "http://192.0.2.7:8712/"."""
    return f"{scheme}://{f'[{host}]' if ':' in host else host}:{port}/"


def plain_host(text: str) -> str:
    """An address in its one form: no brackets, no zone, no prefix of IPv4 within IPv6; "" for a name."""
    try:
        address = ipaddress.ip_address(text.strip("[]").partition("%")[0])
    except ValueError:
        return ""
    mapped = getattr(address, "ipv4_mapped", None)
    return str(mapped or address)


def pages_at(pages: Sequence[str], addresses: Sequence[str]) -> list[str]:
    """Where each page is: "The board is at http://127.0.0.1:8712/board", the desk at the address itself."""
    paths = {page: "" if page == "desk" else page for page in pages}
    return [
        f"The {page} is at {' or '.join(address + path for address in addresses)}"
        for page, path in paths.items()
    ]


def told_at_start(port: int, reach: Reach, pages: Sequence[str] = ("desk",)) -> str:
    """What the terminal shows: where the pages are, the QR code, and whether others could listen in."""
    found = addresses()
    if not found:
        return f"This machine is on no network yet. Once it is, port {port} answers there. Ctrl-C ends it."
    shown = [address_of(host, port, reach.scheme) for host in found]
    *others, last = pages_at(pages, shown)
    lines = [*others, f"{last} on this network. Ctrl-C ends it.", qr_text(shown[0])]
    if not reach.certificate:
        lines.append(
            "Not encrypted: who listens on this network can read along. --certificate and --key change that."
        )
    return "\n".join(lines)


def qr_text(text: str) -> str:
    """*text* as a QR code (ISO/IEC 18004) of block characters."""
    out = io.StringIO()
    segno.make(text, error="m", micro=False).terminal(out, compact=True)
    return out.getvalue()


def qr_svg(text: str) -> bytes:
    """*text* as a QR code (ISO/IEC 18004), black on white with its quiet zone, as an SVG file."""
    out = io.BytesIO()
    segno.make(text, error="m", micro=False).save(
        out, kind="svg", scale=8, border=4, dark="#000", light="#fff", xmldecl=True, svgns=True, nl=False
    )
    return out.getvalue()


def _reason(error: Exception) -> str:
    return getattr(error, "reason", None) or getattr(error, "strerror", None) or type(error).__name__
