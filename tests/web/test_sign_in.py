"""Signing in, staying signed in, signing out; signing a record with the passphrase again."""

from __future__ import annotations

import re
import sys

import pytest

from saywright.people import Role
from saywright.record.events import Signed
from saywright.web.proof import BY_ADDRESS, BY_NAME
from saywright.web.session import COOKIE, IDLE_S, LONGEST_S, MAX_SESSIONS, MAX_SIGNED

JOB_PAGE = "/jobs/20260314-1"


def token(client, path="/"):
    """The token of this browser's session."""
    return re.search(r'name="token" value="([0-9a-f]{64})"', client.get(path).text)[1]


def test_the_right_passphrase_leads_to_the_page_asked_for(staff):
    """From a page to the sign-in and back, under the name and role that the page shows."""
    client = staff.browser()
    asked = client.get(f"{JOB_PAGE}?show=asks")
    page = client.get(asked.headers["location"])
    place = re.search(r'name="next" value="([^"]*)"', page.text)[1]
    answer = staff.sign_in(client, "tess", "low tide at seven", next=place)
    assert (303, f"{JOB_PAGE}?show=asks") == (answer.status_code, answer.headers["location"])
    shown = client.get(JOB_PAGE).text
    assert "<b>Tess</b>, technician" in shown
    assert 'data-role="technician"' in shown


@pytest.mark.parametrize(
    ("name", "passphrase"),
    [
        ("Tess", "the slip is wet"),
        ("Tess", ""),
        ("Nobody", "low tide at seven"),
        ("", ""),
        ("Tess", "x" * 5000),
    ],
)
def test_anything_else_is_told_in_the_same_words(staff, name, passphrase):
    """A wrong passphrase and a name that nobody has are one answer, and nobody is signed in."""
    client = staff.browser()
    answer = staff.sign_in(client, name, passphrase)
    assert (422, True) == (answer.status_code, "The name or the passphrase is not right" in answer.text)
    assert "low tide" not in answer.text
    assert 303 == client.get("/").status_code


def test_the_cookie_is_new_after_the_sign_in(staff):
    """An id planted in the browser, or had before, is worth nothing after."""
    client = staff.browser()
    client.cookies.set(COOKIE, "planted")
    before = token(client, "/sign-in")
    planted = client.cookies.get(COOKIE, domain="192.0.2.7") or "planted"
    answer = staff.sign_in(client, "Tess", "low tide at seven")
    cookie = answer.headers["set-cookie"]
    assert all(part in cookie for part in ("HttpOnly", "SameSite=strict", "Path=/"))
    assert "Secure" not in cookie
    assert f"{COOKIE}={planted};" not in cookie
    other = staff.browser()
    other.cookies.set(COOKIE, planted)
    assert 303 == other.get("/").status_code
    client.cookies.clear()
    client.cookies.set(COOKIE, cookie.partition("=")[2].partition(";")[0])
    assert before != token(client)


def test_the_cookie_stays_on_encrypted_connections(staff):
    """Over https it is Secure, and the form's own origin is taken."""
    client = staff.browser(address="https://192.0.2.7:8643")
    page = client.get("/sign-in")
    assert "Secure" in page.headers["set-cookie"]
    assert "not encrypted" not in page.text
    assert "not encrypted" in staff.browser().get("/sign-in").text
    form = {"token": token(client, "/sign-in"), "name": "Tess", "passphrase": "low tide at seven"}
    answer = client.post("/sign-in", data=form, headers={"origin": "https://192.0.2.7:8643"})
    assert 303 == answer.status_code
    answer = client.post("/sign-in", data=form, headers={"origin": "http://192.0.2.7:8643"})
    assert 403 == answer.status_code


def test_a_sign_in_needs_its_own_page(staff):
    """Without the token of the session nobody is signed in, whatever the passphrase."""
    form = {"name": "Tess", "passphrase": "low tide at seven", "next": "/"}
    assert 403 == staff.browser().post("/sign-in", data=form).status_code


@pytest.mark.parametrize(("quiet_s", "status"), [(IDLE_S - 1, 200), (IDLE_S + 1, 303)])
def test_an_unused_sign_in_ends(staff, quiet_s, status):
    """After the time told in the documentation, not before."""
    client = staff.signed_in("Vera")
    staff.seconds.s += quiet_s
    assert status == client.get("/").status_code


def test_a_sign_in_in_use_ends_after_a_working_day(staff):
    """However often it is used."""
    client = staff.signed_in("Vera")
    for _ in range(int(LONGEST_S // 3600)):
        assert 200 == client.get("/").status_code
        staff.seconds.s += 3600.0
    staff.seconds.s += 1
    assert 303 == client.get("/").status_code


def test_signing_out_ends_it_for_good(staff):
    """The id is forgotten by the desk, not only by the browser."""
    client = staff.signed_in("Tess")
    cookie = client.cookies[COOKIE]
    assert 403 == client.post("/sign-out").status_code
    answer = client.post("/sign-out", data={"token": token(client)})
    assert (303, "/sign-in") == (answer.status_code, answer.headers["location"])
    client.cookies.clear()
    client.cookies.set(COOKIE, cookie)
    assert 303 == client.get("/").status_code


def test_strangers_do_not_push_out_who_is_signed_in(staff):
    """Any number of browsers without a sign-in end nobody's."""
    client = staff.signed_in("Tess")
    stranger = staff.browser()
    for _ in range(MAX_SESSIONS + 5):
        stranger.cookies.clear()
        stranger.get("/sign-in")
    assert 200 == client.get("/").status_code


def test_sign_ins_of_one_person_are_bounded(staff):
    """The oldest ends when there are too many; those of others stay."""
    other = staff.signed_in("Vera")
    clients = [staff.signed_in("Tess") for _ in range(MAX_SIGNED + 1)]
    assert [303, 200] == [clients[0].get("/").status_code, clients[1].get("/").status_code]
    assert 200 == other.get("/").status_code


def test_guessing_one_name_is_slowed_down(staff):
    """After the free tries the answer is 429 with the seconds to wait, even for the right passphrase."""
    client = staff.browser()
    for number in range(BY_NAME.free):
        assert 422 == staff.sign_in(client, "Tess", f"guess number {number}").status_code
    answer = staff.sign_in(client, "TESS", "low tide at seven")
    assert (429, "1") == (answer.status_code, answer.headers["retry-after"])
    assert "Wait 1 second, then try again" in answer.text
    staff.seconds.s += 1.0
    assert 303 == staff.sign_in(client, "Tess", "low tide at seven").status_code
    assert 422 == staff.sign_in(staff.browser(), "Tess", "a new guess").status_code


def test_guessing_from_one_address_is_slowed_down(staff):
    """Many names from one machine are stopped, another machine is not; IPv6 neighbours count as one."""
    client = staff.browser(came_from="2001:db8::1")
    for number in range(BY_ADDRESS.free):
        assert 422 == staff.sign_in(client, f"name {number}", "guess guess").status_code
    assert 429 == staff.sign_in(client, "Tess", "low tide at seven").status_code
    neighbour = staff.browser(came_from="2001:db8::2")
    assert 429 == staff.sign_in(neighbour, "Tess", "low tide at seven").status_code
    assert 303 == staff.sign_in(staff.browser(), "Tess", "low tide at seven").status_code


def test_a_stranger_cannot_keep_somebody_out_for_long(staff):
    """However many tries were made on a name, its wait is a minute at most."""
    client = staff.browser()
    for number in range(40):
        staff.sign_in(staff.browser(came_from=f"192.0.2.{number + 50}"), "Tess", "guess guess")
        staff.seconds.s += 60.0
    assert 303 == staff.sign_in(client, "Tess", "low tide at seven").status_code


def test_what_a_header_says_of_the_address_counts_for_nothing(staff):
    """A made-up X-Forwarded-For is no way around the wait."""
    client = staff.browser()
    for number in range(BY_ADDRESS.free):
        client.headers["x-forwarded-for"] = f"198.51.100.{number}"
        staff.sign_in(client, f"name {number}", "guess guess")
    client.headers["x-forwarded-for"] = "198.51.100.99"
    assert 429 == staff.sign_in(client, "Tess", "low tide at seven").status_code


@pytest.mark.parametrize("method", ["GET", "HEAD", "POST"])
def test_a_foreign_host_gets_no_sign_in_page(staff, method):
    """A name that a stranger points at this machine is refused before anything else, on a network too."""
    for host in (
        "evil.example",
        "192.0.2.8:8643",
        "192.0.2.7.evil.example",
        "[2001:db8::9]:1",
        "bench.local",
    ):
        assert 403 == staff.browser().request(method, "/sign-in", headers={"host": host}).status_code


@pytest.mark.parametrize("host", ["192.0.2.7:8643", "192.0.2.7", "127.0.0.1:8643", "localhost"])
def test_the_address_the_request_came_in_on_is_served(staff, host):
    """This machine's address on the network, and its loopback."""
    assert 200 == staff.browser().get("/sign-in", headers={"host": host}).status_code


def test_on_this_machine_only_a_network_address_is_no_host(visit):
    """Without --lan the address is refused even where a request should come in on it."""
    assert 403 == visit.client.get("/", headers={"host": "192.0.2.7:8643"}).status_code


def explain_all(staff, client):
    """Give a reason for everything open, so that the record can be signed."""
    from saywright.bench import Bench

    bench = Bench.resume(staff.store, staff.job.JOB, clock=staff.clock)
    for item in bench.record().open_items:
        bench.explain(item.id, "for the test", actor="Tess")


@pytest.mark.parametrize(("name", "passphrase"), [("Tess", "low tide at seven"), ("Rune", "the slip is wet")])
def test_a_record_is_signed_with_the_passphrase(staff, name, passphrase):
    """The event, the sign-off and the page name the person who proved it, and the role."""
    client = staff.signed_in(name)
    explain_all(staff, client)
    assert "PIN or passphrase, again" in client.get(f"{JOB_PAGE}/sign").text
    answer = staff.sign(client, passphrase)
    assert 303 == answer.status_code, answer.text
    event = staff.events()[-1]
    assert isinstance(event.payload, Signed)
    assert (name, staff.store.people.get(name).role.value) == (event.actor, event.payload.role)
    record = client.get("/api/jobs/20260314-1/record").json()
    assert (name, event.payload.role) == (record["sign_off"]["by"], record["sign_off"]["role"])
    assert f"By {name} ({event.payload.role})" in client.get(f"{JOB_PAGE}/preview.html").text


@pytest.mark.parametrize("passphrase", ["", "the slip is wet", "low tide at eight"])
def test_a_record_is_not_signed_without_it(staff, passphrase):
    """None, another person's, or a wrong one: nothing is signed."""
    client = staff.signed_in("Tess")
    explain_all(staff, client)
    before = len(staff.events())
    answer = staff.sign(client, passphrase)
    assert (422, True) == (answer.status_code, "nothing was signed" in answer.text)
    assert before == len(staff.events())


def test_guessing_at_the_signature_is_slowed_down(staff):
    """A desk left open is no way to try passphrases faster than at the sign-in."""
    client = staff.signed_in("Tess")
    explain_all(staff, client)
    for _ in range(BY_NAME.free):
        assert 422 == staff.sign(client, "guess guess").status_code
    answer = staff.sign(client, "low tide at seven")
    assert (429, True) == (answer.status_code, "Wait 1 second" in answer.text)


def test_a_viewer_signs_nothing(staff):
    """The right passphrase does not make up for the role."""
    client = staff.signed_in("Vera")
    explain_all(staff, client)
    answer = staff.sign(client, "gulls on the crane")
    assert (403, True) == (answer.status_code, "viewer may not sign a record" in answer.text)


def test_without_people_a_record_is_signed_by_name(visit):
    """As before: the name that was typed, and no role."""
    bench = visit.bench()
    for item in bench.record().open_items:
        bench.explain(item.id, "for the test", actor="Ada")
    form = {"name": "Ada Holm", "statement": "I stand for it", "seen": visit.record_hash()}
    assert 303 == visit.post("/sign", form).status_code
    event = visit.bench().events()[-1]
    assert ("Ada Holm", None) == (event.actor, event.payload.role)


def test_a_hostile_name_is_only_text(cheap, staff_tools):
    """A person whose name is markup: shown escaped on every page, in the log as it is."""
    hostile = "<img src=x onerror=alert(1)>\"'&{{7*7}}"
    for staff in staff_tools.make_staff(sys.modules["desk_job"], lan=True, hostile=hostile):
        client = staff.browser()
        assert 303 == staff.sign_in(client, hostile, "a name that bites").status_code
        staff.post(client, "/items/s1/accept")
        assert hostile == staff.events()[-1].actor
        for path in ("/", JOB_PAGE, f"{JOB_PAGE}/items/s1", f"{JOB_PAGE}/sign", f"{JOB_PAGE}/phone"):
            text = client.get(path).text
            assert "<img src=x" not in text
            assert "&lt;img src=x onerror=alert(1)&gt;&#34;&#39;&amp;{{7*7}}" in text
        again = staff.sign_in(staff.browser(), hostile, "wrong wrong")
        assert "<img src=x" not in again.text


def test_a_viewers_page_says_what_a_viewer_may(staff):
    """The head of the page tells it, and what changes something is taken off by the style."""
    text = staff.signed_in("Vera").get(JOB_PAGE).text
    assert "viewer: may read, not change" in text
    assert 'data-role="viewer"' in text
    assert Role.VIEWER == staff.store.people.get("Vera").role
