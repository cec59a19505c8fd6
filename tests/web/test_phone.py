"""Pictures from a phone: the code, what it opens, what it does not."""

from __future__ import annotations

import errno
import re

import pytest

from saywright.people import Role
from saywright.record.events import PhotoAdded
from saywright.web import changes
from saywright.web.guard import MAX_PHONE_BYTES
from saywright.web.phone import MAX_FILES
from saywright.web.tickets import LIFE_S, MAX_PICTURES, MAX_TICKETS, Tickets

JOB_PAGE = "/jobs/20260314-1"
SVG = "<svg"


@pytest.fixture
def opened(staff):
    """A code opened by Rune: her browser, the page of the code, and the code's address."""
    client = staff.signed_in("Rune")
    answer = staff.post(client, "/phone")
    assert 303 == answer.status_code, answer.text
    page = answer.headers["location"]
    code = re.search(r"<code>http://192\.0\.2\.7:8643(/phone/[\w-]{22})</code>", client.get(page).text)[1]
    return client, page, code


def send(client, code, *files):
    """Pictures as a phone's browser sends them: (name, bytes) each."""
    return client.post(
        f"{code}/photos", files=[("files", (name, data, "image/jpeg")) for name, data in files]
    )


def test_a_picture_is_taken_in_under_the_name_of_who_opened_the_code(staff, opened, jpeg):
    """The phone has no sign-in and no cookie; the event names the person, the page tells what came."""
    _, _, code = opened
    phone = staff.browser(came_from="192.0.2.77")
    page = phone.get(code)
    assert (200, True) == (page.status_code, "Carburetor off the harbour launch" in page.text)
    assert "set-cookie" not in page.headers
    answer = send(phone, code, ("shot.jpg", jpeg))
    assert (303, code) == (answer.status_code, answer.headers["location"])
    added = next(event for event in reversed(staff.events()) if isinstance(event.payload, PhotoAdded))
    assert ("Rune", "shot.jpg") == (added.actor, added.payload.name)
    assert "✓ shot.jpg: taken in" in phone.get(code).text
    send(phone, code, ("again.jpg", jpeg))
    assert "✓ again.jpg: was in the job already" in phone.get(code).text


def test_each_picture_has_its_line(staff, opened, jpeg):
    """What is no picture is told with its name, whatever the name says; the others are taken in."""
    client, page, code = opened
    phone = staff.browser()
    before = sum(isinstance(event.payload, PhotoAdded) for event in staff.events())
    script = b"<script>alert(1)</script>"
    send(
        phone,
        code,
        ("virus.jpg", b"MZ\x90"),
        ("<b>.jpg", script),
        ("good.jpg", jpeg),
        ("cut.jpg", jpeg[:900]),
    )
    text = phone.get(code).text
    assert ["✗ virus.jpg", "✗ _b_.jpg", "✓ good.jpg", "✗ cut.jpg"] == re.findall(r"[✓✗] [^:<]+", text)
    assert "not a picture, whatever its name says" in text
    assert before + 1 == sum(isinstance(event.payload, PhotoAdded) for event in staff.events())
    state = client.get(f"{page}/state").json()
    assert (4, 15, [False, False, True, False]) == (
        state["sent"],
        state["minutes"],
        [line["good"] for line in state["lines"]],
    )


def test_the_code_is_shown_as_a_qr_code(opened):
    """An SVG of its own route, for who opened it; nothing inline on the page."""
    client, page, _ = opened
    answer = client.get(f"{page}/code.svg")
    assert ("image/svg+xml", True) == (answer.headers["content-type"], SVG in answer.text)
    assert "<script" not in answer.text
    assert f'src="{page}/code.svg"' in client.get(page).text


def test_the_page_of_a_code_is_its_openers(staff, opened):
    """Another person, even a technician, finds nothing there; nor does another job."""
    _, page, _ = opened
    other = staff.signed_in("Tess")
    for path in (page, f"{page}/code.svg", f"{page}/state"):
        assert 404 == other.get(path).status_code
    assert 404 == staff.post(other, f"/phone/{page.rpartition('/')[2]}/close").status_code


def test_a_viewer_opens_no_code(staff):
    """Adding pictures changes the record."""
    client = staff.signed_in("Vera")
    assert 403 == client.get(f"{JOB_PAGE}/phone").status_code
    assert 403 == staff.post(client, "/phone").status_code


def test_the_code_is_good_for_nothing_else(staff, opened):
    """With it a phone sees no page, no record, no other job; reading it back is no way either."""
    _, page, code = opened
    phone = staff.browser()
    phone.get(code)
    for path in ("/", JOB_PAGE, f"{JOB_PAGE}/photos/p1/small.jpg", page, "/api/jobs", f"{code}/photos"):
        assert phone.get(path, headers={"accept": "*/*"}).status_code in (401, 404)
    for path in (f"{code}/photos/p1", f"{code}/state", f"{code}/../../jobs"):
        assert 401 == phone.post(path).status_code
    assert "HB-2047" not in phone.get(code).text
    assert code.rpartition("/")[2] not in str(staff.state.tickets._open)


def test_the_code_ends_after_a_quarter_of_an_hour(staff, opened, jpeg):
    """To the second; then it says so and takes nothing."""
    _, page, code = opened
    phone, before = staff.browser(), len(staff.events())
    staff.seconds.s += LIFE_S - 1
    assert 200 == phone.get(code).status_code
    assert "1 more minute." in phone.get(code).text
    staff.seconds.s += 1
    for answer in (phone.get(code), send(phone, code, ("late.jpg", jpeg))):
        assert (404, True) == (answer.status_code, "not good any more" in answer.text)
        assert "harbour launch" not in answer.text
    assert 404 == opened[0].get(page).status_code
    assert before == len(staff.events())


def test_a_closed_code_takes_nothing(staff, opened, jpeg):
    """Who opened it closes it, from then on it is like one that never was."""
    client, page, code = opened
    assert 303 == staff.post(client, f"/phone/{page.rpartition('/')[2]}/close").status_code
    assert 404 == send(staff.browser(), code, ("late.jpg", jpeg)).status_code


@pytest.mark.parametrize("end", ["role", "remove"])
def test_the_code_ends_with_the_right_of_who_opened_it(staff, opened, jpeg, end):
    """Who may not add pictures any more brings none by a code either, and never again by this one."""
    _, _, code = opened
    if end == "role":
        staff.store.people.set_role("Rune", Role.VIEWER, by="Kit")
    else:
        staff.store.people.remove("Rune", by="Kit")
        staff.store.people.add("Rune", Role.VIEWER, "the slip is wet", by="Kit")
    assert 404 == send(staff.browser(), code, ("late.jpg", jpeg)).status_code
    staff.store.people.set_role("Rune", Role.TECHNICIAN, by="Kit")
    assert 404 == staff.browser().get(code).status_code


@pytest.mark.parametrize("guess", ["none", "A" * 22, "..", "%2e%2e", "a" * 4000, "%00", "\u00e9", "' OR 1=1"])
def test_a_guessed_code_opens_nothing(staff, opened, guess):
    """Whatever stands in its place."""
    assert staff.browser().get(f"/phone/{guess}").status_code in (303, 404)


def test_a_phone_elsewhere_is_kept_out_by_origin(staff, opened, jpeg):
    """A page of another site cannot send pictures, even if it knew the code."""
    _, _, code = opened
    phone = staff.browser()
    phone.headers["origin"] = "http://evil.example"
    assert 403 == send(phone, code, ("shot.jpg", jpeg)).status_code


def test_nothing_chosen_is_told(staff, opened):
    """An empty form leaves a line on the same page, with the form still there."""
    _, _, code = opened
    answer = staff.browser().post(f"{code}/photos", files=[("files", ("", b"", "application/octet-stream"))])
    assert (422, True, True) == (
        answer.status_code,
        "No picture was chosen" in answer.text,
        "Take a picture" in answer.text,
    )


def test_too_many_at_once_are_refused(staff, opened, jpeg):
    """More files than a request may have: one line, nothing taken in."""
    _, _, code = opened
    before = len(staff.events())
    answer = send(staff.browser(), code, *((f"{n}.jpg", b"x") for n in range(MAX_FILES + 1)))
    assert (400, True) == (answer.status_code, str(MAX_FILES) in answer.text)
    assert before == len(staff.events())


def test_one_code_brings_so_many_pictures(staff, opened, jpeg):
    """A code is bounded in all it brings."""
    _, _, code = opened
    ticket = staff.state.tickets.by_code(code.rpartition("/")[2])
    ticket.sent = MAX_PICTURES
    answer = send(staff.browser(), code, ("one.jpg", jpeg))
    assert (409, True) == (answer.status_code, f"{MAX_PICTURES} pictures at most" in answer.text)


def test_too_large_is_refused_before_it_is_read(staff, opened):
    """By the announced length, with how much may be sent."""
    _, _, code = opened
    headers = {"content-length": str(MAX_PHONE_BYTES + 1)}
    answer = staff.browser().post(f"{code}/photos", content=b"x", headers=headers)
    assert (413, True) == (answer.status_code, f"{MAX_PHONE_BYTES // 1024**2} MB" in answer.text)


@pytest.mark.parametrize("where", ["spool", "copy"])
def test_a_full_disk_is_one_line(staff, opened, jpeg, monkeypatch, where):
    """No room to lay the upload down: what to do is on the phone's page, and nothing is recorded."""

    def full(*_, **__):
        raise OSError(errno.ENOSPC, "No space left on device")

    _, _, code = opened
    before = len(staff.events())
    if where == "spool":
        monkeypatch.setattr("starlette.datastructures.UploadFile.write", full)
    else:
        monkeypatch.setattr(changes.shutil, "copyfileobj", full)
    answer = send(staff.browser(), code, ("one.jpg", jpeg))
    assert (507, True) == (answer.status_code, "There is no room for what was sent" in answer.text)
    assert before == len(staff.events())


def test_on_this_machine_only_no_phone_can_come(visit):
    """The page says why and what to do, and no code is opened."""
    text = visit.client.get(f"{JOB_PAGE}/phone").text
    assert "answers on this machine only" in text
    assert "saywright desk --lan" in text
    assert 409 == visit.post("/phone").status_code


def test_a_machine_without_a_network_says_so(staff, monkeypatch):
    """Seen from its own browser, with no address to show."""
    monkeypatch.setattr("saywright.web.phone.addresses", lambda: ())
    client = staff.signed_in("Tess", address="http://127.0.0.1:8643", came_from="127.0.0.1")
    assert "on no network at the moment" in client.get(f"{JOB_PAGE}/phone").text
    monkeypatch.setattr("saywright.web.phone.addresses", lambda: ("192.0.2.7",))
    page = staff.post(client, "/phone").headers["location"]
    assert "http://192.0.2.7:8643/phone/" in client.get(page).text


def test_codes_are_bounded_and_different():
    """The oldest is closed when too many are open; no two are alike; each is 128 bits in 22 characters."""
    tickets = Tickets(now_s=lambda: 0.0)
    made = [tickets.open("j1", "Ada") for _ in range(MAX_TICKETS + 1)]
    codes = {tickets.code(ticket) for ticket in made}
    assert (MAX_TICKETS + 1, {22}) == (len(codes), {len(code) for code in codes})
    assert made[1] is tickets.by_code(tickets.code(made[1]))
    with pytest.raises(Exception, match="not good any more"):
        tickets.by_code(tickets.code(made[0]))
    assert tickets.code(made[1]) != Tickets().code(made[1])
