"""The gate: no spelling, method or protocol gets past it, and a sign-in leads nowhere else."""

from __future__ import annotations

import pytest
from starlette.websockets import WebSocketDisconnect

from saywright.people import Right
from saywright.web import access
from saywright.web.access import RULES, needed, safe_place


@pytest.mark.parametrize("method", ["PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "PROPFIND"])
def test_another_method_gets_nothing(staff, method):
    """No method but those of the rules is answered, signed in or not."""
    stranger, known = staff.browser(), staff.signed_in("Tess")
    for path in ("/", "/jobs/20260314-1", "/sign-in", "/phone/none", "/api/jobs"):
        assert 401 == stranger.request(method, path).status_code, path
        assert 404 == known.request(method, path).status_code, path


def test_what_is_not_there_is_told_to_who_signed_in_only(staff):
    """A stranger learns nothing of which pages there are."""
    stranger, known = staff.browser(), staff.signed_in("Tess")
    for path in ("/nowhere", "/api/nowhere", "/jobs", "/jobs/", "/docs", "/redoc"):
        assert 303 == stranger.get(path).status_code, path
        assert 404 == known.get(path).status_code, path


@pytest.mark.parametrize(
    "path",
    [
        "/sign-in%3F/../../jobs/20260314-1",
        "/static/..%2f..%2fjobs%2f20260314-1",
        "/static/%3F/../../jobs/20260314-1",
        "/phone/x%2f..%2f..%2fjobs%2f20260314-1",
        "/phone/none%3F",
        "/sign-in%23/jobs/20260314-1",
        "/%2e/jobs/20260314-1",
        "/jobs/20260314-1%00",
        "/JOBS/20260314-1",
        "/jobs/20260314-1/",
        "//jobs/20260314-1",
        "/jobs;x=1/20260314-1",
    ],
)
def test_no_spelling_of_a_path_gets_past_the_gate(staff, path):
    """What the gate compares is what the router compares."""
    for headers in ({}, {"accept": "*/*"}):
        answer = staff.browser().get(path, headers=headers)
        assert answer.status_code in (303, 401, 404), path
        assert "harbour launch" not in answer.text


def test_nothing_but_http_is_spoken(staff):
    """A websocket is closed at the gate, whatever its path."""
    client = staff.signed_in("Tess")
    with pytest.raises(WebSocketDisconnect), client.websocket_connect("/jobs/20260314-1/stream"):
        pass


def test_where_two_rules_fit_both_are_asked(monkeypatch):
    """No looser rule opens what a stricter one closes."""
    monkeypatch.setitem(RULES, "GET /jobs/{job}/keys", Right.BENCH)
    monkeypatch.setitem(RULES, "GET /jobs/{any}/{other}", Right.READ)
    access._patterns.cache_clear()
    assert {Right.BENCH, Right.READ} == needed("GET", "/jobs/j1/keys")
    assert {Right.BENCH, Right.READ} == needed("HEAD", "/jobs/j1/keys")
    access._patterns.cache_clear()


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("/jobs/j1?show=asks", "/jobs/j1?show=asks"),
        ("/", "/"),
        ("", "/"),
        ("//evil.example", "/"),
        ("/\\evil.example", "/"),
        ("/\tevil", "/"),
        ("https://evil.example/", "/"),
        ("javascript:alert(1)", "/"),
        ("/" + "x" * 600, "/"),
        ("/a\r\nset-cookie: x=1", "/"),
    ],
)
def test_a_sign_in_leads_to_a_page_of_the_desk(text, place):
    """Never to another address, whatever the link that was followed says."""
    assert place == safe_place(text)
