"""Who may talk to the desk, and what its answers forbid."""

from __future__ import annotations

import pytest

from saywright.errors import DeviceError, RefusedError
from saywright.web.app import open_socket
from saywright.web.guard import MAX_FORM_BYTES, SECURITY_HEADERS


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:8643", "127.0.0.1.evil.example", "0.0.0.0", "", "[::2]"]
)
def test_a_foreign_host_is_refused(visit, host):
    """A name that a stranger points at loopback gets no page."""
    answer = visit.client.get("/", headers={"host": host})
    assert 403 == answer.status_code
    assert "harbour launch" not in answer.text


@pytest.mark.parametrize(
    "host", ["127.0.0.1:8643", "localhost:8643", "localhost", "[::1]:8643", "LOCALHOST:1"]
)
def test_loopback_names_are_served(visit, host):
    """The desk answers under each name of loopback, at any port."""
    assert 200 == visit.client.get("/", headers={"host": host}).status_code


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "https://127.0.0.1:8643"},
        {"origin": "http://127.0.0.1:9999"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_a_change_from_another_page_is_refused(visit, headers):
    """Even with the right token, a form of another origin changes nothing."""
    before = len(visit.bench().events())
    answer = visit.post("/items/s1/accept", headers=headers)
    assert 403 == answer.status_code
    assert before == len(visit.bench().events())


def test_the_desks_own_origin_is_served(visit):
    """A browser that names the desk's own origin may change things."""
    headers = {"origin": "http://127.0.0.1:8643", "sec-fetch-site": "same-origin"}
    assert 303 == visit.post("/items/s1/accept", headers=headers).status_code


@pytest.mark.parametrize("token", ["", "0" * 64, "é"])
def test_a_form_without_the_sessions_token_is_refused(visit, token):
    """No token, a wrong one or nonsense: nothing changes."""
    before = len(visit.bench().events())
    answer = visit.post("/items/s1/accept", {"token": token})
    assert 403 == answer.status_code
    assert "load the page again" in answer.text
    assert before == len(visit.bench().events())


def test_the_token_of_another_session_is_refused(visit):
    """A token is good only together with the cookie it was made for."""
    other = visit.token()
    visit.client.cookies.clear()
    assert other != visit.token()
    assert 403 == visit.post("/items/s1/accept", {"token": other}).status_code


def test_the_cookie_is_hidden_from_scripts_and_from_other_sites(visit):
    """The session cookie is HttpOnly and SameSite=Strict."""
    cookie = visit.client.get("/").headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie


@pytest.mark.parametrize("path", ["/", "/static/desk.css", "/static/desk.js", "/nowhere", "/jobs/none"])
def test_every_answer_carries_the_headers(visit, path):
    """Pages, files and error pages alike forbid inline script, sniffing and framing."""
    answer = visit.client.get(path)
    for name, value in SECURITY_HEADERS.items():
        assert value == answer.headers[name]


def test_the_policy_has_no_inline_script_or_style(visit):
    """Nothing inline is allowed, and the pages use none."""
    assert "unsafe" not in SECURITY_HEADERS["content-security-policy"]
    page = visit.client.get("/jobs/20260314-1").text
    assert " style=" not in page
    assert "<style" not in page
    assert 1 == page.count("<script")
    assert " onclick=" not in page


def test_a_large_form_is_refused(visit):
    """More than a form may hold gets a page that says how much may be sent."""
    answer = visit.post("/say", {"words": "x" * (MAX_FORM_BYTES + 1)})
    assert 413 == answer.status_code
    assert "256 kB" in answer.text


_PART = b'--x\r\ncontent-disposition: form-data; name="words"\r\n\r\n'


@pytest.mark.parametrize(
    ("path", "kind", "opening"),
    [
        ("/jobs/20260314-1/say", "application/x-www-form-urlencoded", b"words="),
        ("/jobs/20260314-1/say", "multipart/form-data; boundary=x", _PART),
        ("/jobs/20260314-1/board/keys", "multipart/form-data; boundary=x", _PART),
        ("/who", "multipart/form-data; boundary=x", _PART),
        ("/sign-in", "application/json", b'{"name": "'),
        ("/api/jobs/20260314-1/items", "application/json", b'{"fields": {"value": "'),
    ],
)
def test_a_large_body_of_unknown_length_is_refused(visit, path, kind, opening):
    """Bytes are counted as they come, whatever the headers say and whoever reads them."""
    before = len(visit.bench().events())

    def body():
        yield opening
        for _ in range(300):
            yield b"x" * 1024

    answer = visit.client.post(path, content=body(), headers={"content-type": kind})
    assert "transfer-encoding" in answer.request.headers
    assert 413 == answer.status_code
    assert "256 kB" in answer.text
    assert "nosniff" == answer.headers["x-content-type-options"]
    assert before == len(visit.bench().events())


def test_a_long_input_within_the_bounds_of_a_form_is_told(visit):
    """A single input of 100 kB is no broken request: the page says what to do."""
    sent = {"token": (None, visit.token()), "words": (None, "x" * 100_000)}
    answer = visit.client.post("/jobs/20260314-1/say", files=sent)
    assert 422 == answer.status_code
    assert "Shorten it" in answer.text


@pytest.mark.parametrize("length", ["-1", "1e9", "many"])
def test_a_nonsense_length_is_refused(visit, length):
    """A length that is no number is no reason to read on."""
    answer = visit.client.post("/who", content=b"x", headers={"content-length": length})
    assert 413 == answer.status_code


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.168.1.4", "bench.local"])
def test_the_desk_listens_on_loopback_only(host):
    """There is no login, so no address that others reach is served."""
    with pytest.raises(RefusedError, match="only this machine") as caught:
        open_socket(host, 8643)
    assert host == caught.value.where


def test_a_taken_port_is_told(taken_port):
    """A port in use gets one line that says what to do."""
    with pytest.raises(DeviceError, match="--port"):
        open_socket("127.0.0.1", taken_port)


def test_a_port_out_of_range_is_told():
    """A number that is no port gets the same line."""
    with pytest.raises(DeviceError, match="--port"):
        open_socket("127.0.0.1", 70_000)
