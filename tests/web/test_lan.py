"""How far the desk answers: addresses, QR codes, certificates."""

from __future__ import annotations

import http.client
import ipaddress
import re
import socket
import ssl
import subprocess
import threading
import urllib.error
import urllib.request
from contextlib import contextmanager
from datetime import UTC, datetime

import cv2
import numpy as np
import pytest
import uvicorn

from saywright.errors import DeviceError, InputError, RefusedError
from saywright.people import Role
from saywright.store.memory import MemoryStore
from saywright.web import lan
from saywright.web.app import serve, where_it_is
from saywright.web.lan import (
    Reach,
    address_of,
    addresses,
    check_reach,
    open_to_network,
    plain_host,
    qr_svg,
    qr_text,
    told_at_start,
)


@pytest.fixture
def store():
    """A store in memory."""
    made = MemoryStore()
    yield made
    made.close()


@pytest.fixture(scope="module")
def certificate(tmp_path_factory):
    """A certificate of its own making, and its key."""
    folder = tmp_path_factory.mktemp("tls")
    made, key = folder / "bench.pem", folder / "bench.key"
    subject = ["-subj", "/CN=bench", "-addext", "subjectAltName=IP:127.0.0.1"]
    command = [
        "openssl",
        "req",
        "-x509",
        "-newkey",
        "ec",
        "-pkeyopt",
        "ec_paramgen_curve:prime256v1",
        "-nodes",
    ]
    try:
        subprocess.run(
            [*command, *subject, "-days", "2", "-keyout", str(key), "-out", str(made)],
            check=True,
            capture_output=True,
        )
    except FileNotFoundError:
        pytest.skip("no openssl here to make a certificate with")
    return made, key


def test_a_network_needs_somebody_who_can_sign_in(store, cheap):
    """Refused with the command to give; with a person it goes; on this machine only it goes as it is."""
    with pytest.raises(RefusedError, match="saywright people add") as caught:
        check_reach(Reach(lan=True), store.people)
    assert "--lan" == caught.value.where
    with pytest.raises(RefusedError):
        serve(store, lambda: datetime.now(UTC), port=0, reach=Reach(lan=True))
    check_reach(Reach(), store.people)
    store.people.add("Tess", Role.VIEWER, "low tide at seven", by="Kit")
    check_reach(Reach(lan=True), store.people)
    store.people.remove("Tess", by="Kit")
    with pytest.raises(RefusedError):
        check_reach(Reach(lan=True), store.people)


def test_a_certificate_that_is_none_is_told(store, tmp_path, certificate):
    """A file that is missing, is no certificate, or has another's key: one line that names it."""
    made, key = certificate
    bad = tmp_path / "bad.pem"
    bad.write_text("harbour")
    for reach in (
        Reach(certificate=tmp_path / "none.pem", key=key),
        Reach(certificate=bad, key=key),
        Reach(certificate=made, key=bad),
        Reach(certificate=made),
    ):
        with pytest.raises(InputError, match="cannot be used") as caught:
            check_reach(reach, store.people)
        assert str(reach.certificate) == caught.value.where
    with pytest.raises(InputError, match="--certificate too"):
        check_reach(Reach(key=key), store.people)
    check_reach(Reach(certificate=made, key=key), store.people)


def test_the_addresses_are_this_machines():
    """Each can be listened on here, and none is loopback or link-local."""
    for address in addresses():
        parsed = ipaddress.ip_address(address)
        assert [False, False] == [parsed.is_loopback, parsed.is_link_local]
        family = socket.AF_INET6 if parsed.version == 6 else socket.AF_INET
        with socket.create_server((address, 0), family=family):
            pass


def test_nothing_is_asked_of_a_network_to_know_them(monkeypatch):
    """A machine whose name means nothing and that has no interface has no address, and no error."""

    def nothing(*_, **__):
        raise OSError("nothing there")

    monkeypatch.setattr(lan.socket, "getaddrinfo", nothing)
    monkeypatch.setattr(lan.socket, "if_nameindex", list)
    assert () == addresses()
    assert "on no network yet" in told_at_start(8712, Reach(lan=True))


@pytest.mark.parametrize(
    ("text", "host"),
    [
        ("192.0.2.7", "192.0.2.7"),
        ("::ffff:192.0.2.7", "192.0.2.7"),
        ("[2001:DB8::1]", "2001:db8::1"),
        ("fe80::1%eth0", "fe80::1"),
        ("bench.local", ""),
        ("192.0.2.7.evil.example", ""),
        ("", ""),
        ("0x7f.1", ""),
        ("3221225991", ""),
    ],
)
def test_an_address_has_one_form(text, host):
    """Names and odd spellings of numbers are none."""
    assert host == plain_host(text)


def test_an_address_to_type():
    """IPv6 in brackets, as RFC 3986 (section 3.2.2) has it."""
    assert "http://192.0.2.7:8712/" == address_of("192.0.2.7", 8712, "http")
    assert "https://[2001:db8::1]:1/" == address_of("2001:db8::1", 1, "https")


def test_the_terminal_tells_address_code_and_that_all_can_be_read(monkeypatch):
    """Every address, the QR code of the first, and the warning unless there is a certificate."""
    monkeypatch.setattr(lan, "addresses", lambda: ("192.0.2.7", "2001:db8::1"))
    text = told_at_start(8712, Reach(lan=True))
    assert "http://192.0.2.7:8712/ or http://[2001:db8::1]:8712/" in text
    assert qr_text("http://192.0.2.7:8712/") in text
    assert "Not encrypted" in text
    safe = told_at_start(8712, Reach(lan=True, certificate=lan.Path("bench.pem")))
    assert "https://192.0.2.7:8712/" in safe
    assert "Not encrypted" not in safe


def pixels(code):
    """The QR code of block characters as grey pixels, 255 for a block that is drawn."""
    rows = []
    for line in code.strip("\n").split("\n"):
        rows.append([255 * (c in "█▀") for c in line])
        rows.append([255 * (c in "█▄") for c in line])
    width = max(len(row) for row in rows)
    grid = np.array([row + [0] * (width - len(row)) for row in rows], dtype=np.uint8)
    return np.kron(grid, np.ones((8, 8), dtype=np.uint8))


def test_a_reader_reads_the_code_of_the_terminal():
    """OpenCV's reader of QR codes gives the address back."""
    address = "http://192.0.2.7:8712/phone/AbCdEfGhIjKlMnOpQrStUv"
    assert address == cv2.QRCodeDetector().detectAndDecode(pixels(qr_text(address)))[0]


def test_the_code_as_svg_is_the_same_code():
    """Black on white, whole modules, no script and nothing from elsewhere."""
    svg = qr_svg("http://192.0.2.7:8712/").decode()
    assert svg.startswith("<?xml")
    assert "<path" in svg
    assert "#000" in svg
    assert "#fff" in svg
    assert "script" not in svg
    assert ["http://www.w3.org/2000/svg"] == [part for part in svg.split('"') if "//" in part]


def test_the_network_socket_takes_both_kinds_of_address():
    """IPv4 on every address, IPv6 too where the machine has it."""
    with open_to_network(0) as listening:
        port = listening.getsockname()[1]
        with socket.create_connection(("127.0.0.1", port), timeout=5):
            pass
    assert "on this network" in where_it_is_on_network(port) or not addresses()


def where_it_is_on_network(port):
    """What is told of a desk on the network."""
    return told_at_start(port, Reach(lan=True))


def test_a_taken_port_is_told(taken_port):
    """One line that says what to do."""
    with pytest.raises(DeviceError, match="--port"):
        open_to_network(70_000)
    with pytest.raises(DeviceError, match="--port"), open_to_network(taken_port):
        pass


def test_loopback_is_told_as_before():
    """The address and that it is this machine only."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        port = listening.getsockname()[1]
        told = f"The desk is at http://127.0.0.1:{port}/ on this machine only. Ctrl-C ends it."
        assert told == where_it_is(listening, "127.0.0.1", Reach())


def test_the_board_is_told_with_its_whole_address(monkeypatch):
    """An address to type, not a path to put behind another; on a network behind each of its addresses."""
    with socket.create_server(("127.0.0.1", 0)) as listening:
        port = listening.getsockname()[1]
        board, desk = where_it_is(listening, "127.0.0.1", Reach(), ("board", "desk")).splitlines()
    assert f"The board is at http://127.0.0.1:{port}/board" == board
    assert f"The desk is at http://127.0.0.1:{port}/ on this machine only. Ctrl-C ends it." == desk
    monkeypatch.setattr(lan, "addresses", lambda: ("192.0.2.7", "192.0.2.8"))
    told = told_at_start(8712, Reach(lan=True), ("board", "desk"))
    assert told.startswith("The board is at http://192.0.2.7:8712/board or http://192.0.2.8:8712/board\n")


@contextmanager
def served(store, reach, monkeypatch):
    """A desk that serves in a thread; what it announced."""
    servers, told, heard = [], threading.Event(), []
    run = uvicorn.Server.run
    monkeypatch.setattr(uvicorn.Server, "run", lambda self, **more: (servers.append(self), run(self, **more)))

    def announce(text):
        heard.append(text)
        told.set()

    arguments = {"port": 0, "reach": reach, "announce": announce}
    thread = threading.Thread(target=serve, args=(store, lambda: datetime.now(UTC)), kwargs=arguments)
    thread.start()
    try:
        assert told.wait(20)
        yield heard[0]
    finally:
        for server in servers:
            server.should_exit = True
        thread.join(20)
    assert not thread.is_alive()


@pytest.mark.slow
def test_another_machine_finds_the_desk_under_its_address(store, cheap, monkeypatch):
    """Asked for by each address of this machine it answers, by a stranger's name it does not."""
    store.people.add("Tess", Role.TECHNICIAN, "low tide at seven", by="Kit")
    if not addresses():
        pytest.skip("this machine is on no network")
    with served(store, Reach(lan=True), monkeypatch) as told:
        for address in re.findall(r"http://\S+/", told):
            with urllib.request.urlopen(f"{address}sign-in", timeout=20) as answer:
                assert b"not encrypted" in answer.read()
            wanted = urllib.request.Request(f"{address}sign-in", headers={"host": "bench.evil.example"})
            with pytest.raises(urllib.error.HTTPError) as caught:
                urllib.request.urlopen(wanted, timeout=20)
            caught.value.close()
            assert 403 == caught.value.code


@pytest.mark.slow
def test_with_a_certificate_all_is_encrypted(store, cheap, certificate, monkeypatch):
    """The served page comes over TLS 1.2 or later; without TLS the port answers nothing."""
    made, key = certificate
    store.people.add("Tess", Role.TECHNICIAN, "low tide at seven", by="Kit")
    monkeypatch.setattr(lan, "addresses", lambda: ("127.0.0.1",))
    with served(store, Reach(lan=True, certificate=made, key=key), monkeypatch) as told:
        address = told.split(" at ")[1].split()[0]
        context = ssl.create_default_context(cafile=made)
        with urllib.request.urlopen(f"{address}sign-in", timeout=20, context=context) as answer:
            assert b"Sign in" in answer.read()
            assert "Secure" in answer.headers["set-cookie"]
        with pytest.raises((urllib.error.URLError, ConnectionError, http.client.HTTPException)):
            urllib.request.urlopen(address.replace("https", "http"), timeout=20)
