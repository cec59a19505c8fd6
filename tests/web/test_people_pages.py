"""Signing in, a phone's pictures and the signature, as a person sees them in Debian's Chromium."""

from __future__ import annotations

import re

import pytest

JOB_PAGE = "/jobs/20260314-1"


@pytest.fixture
def desk(staff, chromium, browser_tools, monkeypatch):
    """A server on loopback that believes to be on a network, and windows that look at it."""
    monkeypatch.setattr("saywright.web.phone.addresses", lambda: ("192.0.2.7",))
    with browser_tools.serving(staff.app, streams=staff.state.streams) as address:

        def window(**more):
            return browser_tools.screen(chromium, address, **more)

        yield window


def sign_in(page, name="Tess", passphrase="low tide at seven"):
    """Fill in the form of the sign-in page by keyboard alone."""
    page.wait_for_selector("#name:focus")
    page.keyboard.type(name)
    page.keyboard.press("Tab")
    page.keyboard.type(passphrase)
    page.keyboard.press("Enter")


SIZES = {"desktop": (1280, 800), "phone": (390, 844)}


@pytest.mark.slow
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("shade", ["light", "dark"])
def test_the_pages_are_good_to_look_at_and_to_use(desk, staff, size, shade, jpeg):
    """Sign-in, a refusal, the code for a phone, the phone, the signature: nothing against WCAG."""
    width, height = SIZES[size]
    name = f"{size}-{shade}"
    with desk(width=width, height=height, dark=shade == "dark") as shown:
        page = shown.page

        def look(what):
            shown.shoot(f"people-{what}-{name}")
            assert [] == shown.violations(), what
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), what

        shown.open(f"{JOB_PAGE}/phone")
        look("sign-in")
        sign_in(page, passphrase="high tide")
        page.wait_for_selector("[role=alert]")
        look("refused")
        page.fill("#passphrase", "low tide at seven")
        page.keyboard.press("Enter")
        page.wait_for_selector("text=Pictures from a phone")
        look("phone-none")
        page.click("text=Open a code")
        page.wait_for_selector(".scan img")
        page.wait_for_function("() => document.querySelector('.scan img').naturalWidth > 0")
        code = re.search(r"/phone/[\w-]{22}", page.inner_text(".address"))[0]
        staff.browser().post(
            f"{code}/photos", files=[("files", ("jet.jpg", jpeg)), ("files", ("note.txt", b"no picture"))]
        )
        page.wait_for_selector("#phone-lines .bad", timeout=10_000)
        look("phone-code")
        shown.open(code)
        look("phone-page")
        shown.open(f"{JOB_PAGE}/sign")
        page.wait_for_selector("#sign-passphrase")
        look("sign")
        # Refusals of the network are told by the browser's console as errors; nothing else may be.
        assert [] == [said for said in shown.complaints if "422 (Unprocessable" not in said]


@pytest.mark.slow
def test_a_picture_goes_from_a_phone_into_the_job(desk, staff, tmp_path, jpeg):
    """Taken with the phone it is sent at once, and the desk that waits shows it without being touched."""
    (tmp_path / "shot.jpg").write_bytes(jpeg)
    (tmp_path / "text.jpg").write_text("no picture")
    with desk() as bench, desk(width=390, height=844) as phone:
        bench.open(f"{JOB_PAGE}/phone")
        sign_in(bench.page, "Rune", "the slip is wet")
        bench.page.click("text=Open a code")
        code = re.search(r"/phone/[\w-]{22}", bench.page.inner_text(".address"))[0]
        phone.open(code)
        assert "Taken in under the name of Rune" in phone.page.inner_text("main")
        assert "environment" == phone.page.get_attribute("#camera", "capture")
        phone.page.set_input_files("#camera", tmp_path / "shot.jpg")
        phone.page.wait_for_selector(".came .good")
        phone.page.wait_for_load_state("load")  # the script of the page that came
        phone.page.set_input_files("#roll", [tmp_path / "shot.jpg", tmp_path / "text.jpg"])
        phone.page.wait_for_selector(".came .bad")
        assert 3 == phone.page.locator(".came li").count()
        bench.page.wait_for_selector("#phone-lines .bad", timeout=10_000)
        assert "3" == bench.page.inner_text("#phone-sent")
        assert [] == phone.page.context.cookies()
        bench.page.click("text=Done, close the code")
        bench.page.wait_for_selector("text=Open a code")
        phone.page.reload()
        assert "not good any more" in phone.page.inner_text("main")
        assert [] == bench.complaints
    assert "Rune" == next(e.actor for e in reversed(staff.events()) if e.payload.kind == "photo_added")


@pytest.mark.slow
def test_without_script_a_phone_sends_too(desk, staff, tmp_path, jpeg):
    """The button does what the script would."""
    (tmp_path / "shot.jpg").write_bytes(jpeg)
    tickets = staff.state.tickets
    code = tickets.code(tickets.open("20260314-1", "Tess"))
    with desk(width=390, height=844, java_script_enabled=False) as phone:
        phone.open(f"/phone/{code}")
        phone.page.set_input_files("#roll", tmp_path / "shot.jpg")
        phone.page.click("text=Send")
        phone.page.wait_for_selector(".came .good")


@pytest.mark.slow
def test_a_record_is_signed_with_name_and_passphrase(desk, staff):
    """What is open is explained; the person signs with the passphrase, and the page names person and role."""
    from saywright.bench import Bench

    bench = Bench.resume(staff.store, staff.job.JOB, clock=staff.clock)
    for item in bench.record().open_items:
        bench.explain(item.id, "for the test", actor="Tess")
    with desk() as shown:
        shown.open(f"{JOB_PAGE}/sign")
        sign_in(shown.page)
        shown.page.fill("#sign-passphrase", "low tide at seven")
        shown.page.keyboard.press("Enter")
        shown.page.wait_for_selector("text=This revision is signed")
        assert "Tess" in shown.page.inner_text("#sign")
        assert [] == shown.complaints
    record = bench.record()
    assert ("Tess", "technician") == (record.sign_off.by, record.sign_off.role)


@pytest.mark.slow
def test_a_viewer_is_offered_nothing_to_change(desk):
    """No form that changes something is shown, and reading works; signing out leads to the sign-in."""
    with desk() as shown:
        shown.open(JOB_PAGE)
        sign_in(shown.page, "Vera", "gulls on the crane")
        shown.page.wait_for_selector("text=may read, not change")
        for path in (JOB_PAGE, f"{JOB_PAGE}/asks", f"{JOB_PAGE}/items/s1", f"{JOB_PAGE}/sign"):
            shown.open(path)
            assert 0 == shown.page.locator("main form[method=post]:visible, .target:visible").count(), path
            assert [] == shown.violations(), path
        shown.shoot("people-viewer-desktop-light")
        shown.page.click("text=Sign out")
        shown.page.wait_for_selector("#name")
        assert [] == shown.complaints


@pytest.mark.slow
def test_pages_say_that_the_sign_in_has_ended(desk, staff):
    """Desk and board keep what they show, and what was typed; both say that it ended and how to go on."""
    with desk() as shown:
        page = shown.page
        shown.open(f"{JOB_PAGE}/add")
        sign_in(page)
        page.fill("input[name=value]", "18.42")
        board = page.context.new_page()
        board.goto(f"{shown.address}{JOB_PAGE}/board")
        board.wait_for_selector("#said-body > *")
        staff.store.people.remove("Tess", by="Kit")
        staff.state.streams.tell(staff.job.JOB, {"type": "partial", "words": ""})
        staff.state.streams.close()  # what the server does to a stream whose reader is let in no more
        page.wait_for_selector("text=Your sign-in has ended")
        assert "18.42" == page.input_value("input[name=value]")
        board.wait_for_selector("#ear[data-state=ended]")
        assert "SIGNED OUT" == board.inner_text("#microphone-word").upper()
        board.click("#microphone")
        board.wait_for_selector("#name:focus")
