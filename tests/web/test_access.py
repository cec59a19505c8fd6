"""Who may do what, over every route there is."""

from __future__ import annotations

import re
from concurrent.futures import ThreadPoolExecutor

import pytest
from starlette.routing import Mount

from saywright.people import RIGHTS, Role
from saywright.web import access, api
from saywright.web.access import OPEN, RULES
from saywright.web.app import ROUTES
from saywright.web.session import COOKIE

PEOPLE = {"Tess": Role.TECHNICIAN, "Rune": Role.REVIEWER, "Vera": Role.VIEWER}
EVER = frozenset({"/jobs/{job}/stream"})  # answers without end


def every_route():
    """Method and path of each route of the app; fails on a kind of route that is not known here."""
    found = []
    for route in [*ROUTES, *api.ROUTER.routes]:
        if isinstance(route, Mount):
            found.append(f"GET {route.path}/{{path:path}}")
            continue
        found += [f"{method} {route.path}" for method in sorted(route.methods) if method != "HEAD"]
    return [*found, "GET /openapi.json"]


def filled(path):
    """A path with every parameter filled in."""
    known = {
        "job": "20260314-1",
        "item": "s1",
        "photo": "p1",
        "size": "small",
        "name": "asks",
        "format": "json",
    }
    return re.sub(r"\{(\w+)[^}]*\}", lambda found: known.get(found[1], "none"), path)


def test_every_route_has_a_rule_and_every_rule_a_route():
    """A new route stands in `access.RULES`, or nobody gets it; a rule for what is gone goes too."""
    assert sorted(RULES) == sorted(every_route())


def test_the_app_has_no_other_routes(staff):
    """What the app answers is what the lists above hold."""
    own = {getattr(route, "path", None) for route in staff.app.app.app.routes}
    listed = {rule.partition(" ")[2] for rule in RULES}
    assert {path for path in own if path and path != "/static"} <= listed


def test_what_needs_no_sign_in_shows_nothing_of_a_job(staff):
    """The sign-in page, styles and the phone's page: no word of a record is in them."""
    client = staff.browser()
    for rule in (rule for rule, right in RULES.items() if right is OPEN):
        method, _, path = rule.partition(" ")
        answer = client.request(method, filled(path))
        assert "harbour launch" not in answer.text, rule
        assert "Ada" not in answer.text, rule


def test_few_routes_need_no_sign_in():
    """What is open to strangers is written out here too, so that nobody lengthens it by chance."""
    assert [
        "GET /favicon.ico",
        "GET /phone/{code}",
        "GET /sign-in",
        "GET /static/{path:path}",
        "POST /phone/{code}/photos",
        "POST /sign-in",
        "POST /sign-out",
    ] == sorted(rule for rule, right in RULES.items() if right is OPEN)


def test_a_stranger_gets_nothing(staff):
    """Without a sign-in: a page sends to the sign-in, all else is 401, and nothing is recorded."""
    before, client = len(staff.events()), staff.browser()
    for rule in (rule for rule, right in RULES.items() if right is not OPEN):
        method, _, path = rule.partition(" ")
        answer = client.request(method, filled(path))
        if method == "GET":
            assert 303 == answer.status_code, rule
            assert answer.headers["location"].startswith("/sign-in?next=%2F"), rule
        else:
            assert 401 == answer.status_code, rule
        told = client.request(method, filled(path), headers={"accept": "*/*"})
        assert (401, "nobody is signed in here") == (told.status_code, told.json()["what"]), rule
        assert "www-authenticate" in told.headers, rule
    assert before == len(staff.events())


@pytest.mark.parametrize("name", PEOPLE)
def test_each_role_over_every_route(staff, name):
    """The answer is 403 exactly where the role lacks the right; a refusal records nothing."""
    client, before = staff.signed_in(name), len(staff.events())
    refused, expected = [], []
    for rule, right in RULES.items():
        method, _, path = rule.partition(" ")
        if right is None or path in EVER:
            continue
        allowed = right in RIGHTS[PEOPLE[name]]
        if allowed and method == "POST":
            continue  # let through, then stopped by the missing token: also 403, so told apart below
        answer = client.request(method, filled(path))
        refused += [rule] if answer.status_code == 403 else []
        expected += [] if allowed else [rule]
    assert expected == refused
    assert before == len(staff.events())


@pytest.mark.parametrize("name", PEOPLE)
def test_a_change_is_stopped_by_the_role_or_by_the_missing_token(staff, name):
    """Who may is asked for the token of a form; who may not is told so, as page or as JSON."""
    client, before = staff.signed_in(name), len(staff.events())
    for rule, right in RULES.items():
        method, _, path = rule.partition(" ")
        if method != "POST" or right is None:
            continue
        answer = client.post(filled(path))
        may = right in RIGHTS[PEOPLE[name]]
        assert may == ("may not" not in answer.text), rule
        assert answer.status_code in ((403, 422) if may else (403,)), rule
    assert before == len(staff.events())


def test_the_stream_ends_when_its_reader_is_let_in_no_more(staff, monkeypatch):
    """An answer without end is asked again and again whether its reader may still have it."""
    import asyncio

    monkeypatch.setattr(access, "RECHECK_S", 0.0)
    client = staff.signed_in("Vera")
    cookie = client.cookies[COOKIE]

    async def watch():
        sent, read = [], asyncio.Event()

        async def receive():
            if not read.is_set():
                read.set()
                return {"type": "http.request", "body": b"", "more_body": False}
            await asyncio.sleep(60)
            return {"type": "http.disconnect"}

        async def send(message):
            sent.append(message)
            if message["type"] == "http.response.body" and len(sent) == 2:
                staff.store.people.remove("Vera", by="Kit")
                staff.state.streams.notify("20260314-1")
                staff.state.streams.tell("20260314-1", {"type": "partial", "text": "secret"})

        scope = {
            "type": "http",
            "asgi": {"version": "3.0", "spec_version": "2.3"},
            "method": "GET",
            "path": "/jobs/20260314-1/stream",
            "raw_path": b"/jobs/20260314-1/stream",
            "query_string": b"",
            "headers": [(b"host", b"192.0.2.7:8643"), (b"cookie", f"{COOKIE}={cookie}".encode())],
            "server": ("192.0.2.7", 8643),
            "client": ("192.0.2.40", 50_000),
            "scheme": "http",
        }
        async with asyncio.timeout(5):
            await staff.app(scope, receive, send)
        return sent

    with ThreadPoolExecutor(1) as pool:  # a browser that other tests drive keeps an event loop in this one
        sent = pool.submit(asyncio.run, watch()).result()
    assert 200 == sent[0]["status"]
    assert {"type": "http.response.body", "body": b"", "more_body": False} == sent[-1]
    assert b"secret" not in b"".join(message.get("body", b"") for message in sent)


def test_a_role_changes_from_one_click_to_the_next(staff):
    """What the store says counts, not what it said at sign-in."""
    client = staff.signed_in("Rune")
    assert 303 == staff.post(client, "/items/s1/accept").status_code
    staff.store.people.set_role("Rune", Role.VIEWER, by="Kit")
    before = len(staff.events())
    answer = staff.post(client, "/items/s3/accept")
    assert (403, True) == (answer.status_code, "viewer may not change a record" in answer.text)
    staff.store.people.remove("Rune", by="Kit")
    assert 303 == client.get("/").status_code
    assert before == len(staff.events())


def test_changes_are_kept_under_the_name_that_signed_in(staff):
    """The event has the person's name, and no form gives another."""
    client = staff.signed_in("Tess")
    assert 303 == staff.post(client, "/items/s1/accept", {"name": "Somebody"}).status_code
    assert "Tess" == staff.events()[-1].actor
    answer = client.post("/who", data={"token": staff_token(client), "name": "Somebody"})
    assert (409, True) == (answer.status_code, "Sign out" in answer.text)


def staff_token(client):
    """The token of this browser."""
    return client.get("/api/session").json()["token"]


def test_a_program_signs_in_too(staff):
    """The API gives the person's name and token, and refuses as JSON what the role may not."""
    client = staff.signed_in("Vera")
    who = client.get("/api/session").json()
    assert "Vera" == who["actor"]
    answer = client.post(
        "/api/jobs/20260314-1/items/s1/accept", json={"seen": 1}, headers={"x-desk-token": who["token"]}
    )
    assert (403, "a viewer may not change a record") == (answer.status_code, answer.json()["what"])


def test_without_people_on_this_machine_all_is_as_it_was(visit):
    """No sign-in, no rule; a name given at the desk counts."""
    assert 200 == visit.client.get("/").status_code
    assert 303 == visit.post("/items/s1/accept").status_code
    assert "Ada" == visit.bench().events()[-1].actor
    assert 303 == visit.client.get("/sign-in").status_code


def test_the_first_person_closes_the_desk(visit, cheap):
    """Once somebody is named, even this machine's browser signs in; without people it is open again."""
    visit.store.people.add("Tess", Role.TECHNICIAN, "low tide at seven", by="Kit")
    assert 401 == visit.client.get("/").status_code
    visit.store.people.remove("Tess", by="Kit")
    assert 200 == visit.client.get("/").status_code


def test_on_a_network_nobody_left_means_nobody_let_in(staff):
    """A desk on a network does not open when the last person is removed."""
    client = staff.signed_in("Tess")
    for name in PEOPLE:
        staff.store.people.remove(name, by="Kit")
    assert 303 == client.get("/").status_code
    assert 303 == staff.browser().get("/").status_code
