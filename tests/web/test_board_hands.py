"""The board worked by keys, data keys and hostile words; its sounds; its looks at every size."""

from __future__ import annotations

import pytest

from saywright.hearing import feed

from .hung import STATES, press_data_key, wait_for


def test_a_data_key_lands_on_what_is_in_hand(hung):
    """“18.42” and Enter, as fast as an instrument types, whatever has the focus: kept as the instrument's."""
    hung.bench.say("measuring the float height now")
    with hung.screen() as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, "#partial", "measuring the float height now")
        page.focus("#sound")
        press_data_key(page, "18.42")
        wait_for(page, ".digits", "18.42")
        wait_for(page, ".by.key", "data key")
        wait_for(page, "#sound-word", "sound")
        reading = hung.bench.record().readings[-1]
        assert ("float", "height", "18.42") == (reading.component, reading.characteristic, reading.value)
        assert "by_instrument" in [one.kind for one in reading.flags]
        assert [] == screen.complaints


def test_an_instrument_and_a_voice_that_disagree_ask(hung):
    """Neither is taken: the board shows the question with both values."""
    hung.bench.say("float height is eighteen point two four")
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, ".digits", "18.24")
        press_data_key(screen.page, "18,42mm")
        wait_for(screen.page, "#asks .why", "18.24 mm said, 18.42 mm sent")
        wait_for(screen.page, ".plate", "asks")


def test_keys_that_are_no_value_get_one_clear_line(hung):
    """Nothing is kept, and the board says what came and what to do."""
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#microphone-word", "listening")
        seq = hung.bench.events()[-1].seq
        press_data_key(screen.page, "ERR 4")
        wait_for(screen.page, "#notice", "“ERR 4” is no value of an instrument. Press the key again")
        assert seq == hung.bench.events()[-1].seq


def test_what_hands_type_is_taken_as_words(hung):
    """Slow keys are shown as they come and understood like speech, not marked as an instrument's."""
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#microphone-word", "listening")
        screen.page.keyboard.type("float height 18.42", delay=70)
        wait_for(screen.page, "#partial", "typing: float height 18.42")
        screen.page.keyboard.press("Enter")
        wait_for(screen.page, ".digits", "18.42")
        assert "by_instrument" not in [one.kind for one in hung.bench.record().readings[-1].flags]


def test_sounds_go_with_what_happens(hung):
    """One for what is understood, another for what asks, another for a pause; none where switched off."""
    note = (
        "window.played = []; HTMLMediaElement.prototype.play = function () {"
        " window.played.push(this.src.split('/').pop()); return Promise.resolve(); };"
    )
    with hung.screen() as screen:
        page = screen.page
        page.add_init_script(note)
        screen.open(hung.path)
        wait_for(page, "#microphone-word", "listening")
        hung.settle("float height is eighteen point four two")
        wait_for(page, ".digits", "18.42")
        hung.settle("float drop is about twenty seven")
        wait_for(page, ".plate", "asks")
        hung.microphone("paused")
        wait_for(page, "#microphone-word", "paused")
        hung.microphone("listening")
        wait_for(page, "#microphone-word", "listening")
        assert ["understood.wav", "asks.wav", "paused.wav", "resumed.wav"] == page.evaluate("window.played")
        page.click("#sound")
        page.click("#sound")
        played = len(page.evaluate("window.played"))
        hung.microphone("paused")
        wait_for(page, "#microphone-word", "paused")
        assert played == len(page.evaluate("window.played"))


def test_how_loud_the_sounds_are(hung):
    """Each touch is another step: normal, loud, off, low; what is played has that loudness."""
    note = (
        "window.loud = []; HTMLMediaElement.prototype.play = function () {"
        " window.loud.push(this.volume); return Promise.resolve(); };"
    )
    with hung.screen() as screen:
        page = screen.page
        page.add_init_script(note)
        screen.open(hung.path)
        wait_for(page, "#microphone-word", "listening")
        hung.settle("float height is eighteen point four two")
        wait_for(page, ".digits", "18.42")
        for word in ("sound loud", "sound off", "sound low"):
            page.click("#sound")
            wait_for(page, "#sound-word", word)
        assert [0.6, 1, 0.25] == [round(loud, 2) for loud in page.evaluate("window.loud")]


def test_it_works_with_the_network_cable_out(hung):
    """Nothing is asked of any other address than the board's own."""
    asked = []
    with hung.screen() as screen:
        screen.page.on("request", lambda request: asked.append(request.url))
        screen.open(hung.path)
        hung.settle("float height is eighteen point four two")
        wait_for(screen.page, ".digits", "18.42")
    assert 5 < len(asked)
    assert [] == [url for url in asked if not url.startswith(f"{hung.address}/")]


def test_a_spoken_command_is_answered_in_words(hung):
    """“What is left” shows the answer below the words heard."""
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#microphone-word", "listening")
        hung.sitting.told(feed.Commanded("left", 1))
        wait_for(screen.page, "#notice", "throttle shaft diameter")


def test_hostile_words_are_shown_as_words(hung):
    """Nothing that was said or typed becomes markup."""
    hung.bench.describe(title="<script>alert(1)</script>", serial="<img src=x onerror=alert(2)>")
    with hung.screen() as screen:
        screen.open(hung.path)
        hung.sitting.told(feed.Partial("<b>bold</b>"))
        wait_for(screen.page, "#partial", "<b>bold</b>")
        assert "<script>alert(1)</script>" == screen.page.inner_text("h1")
        assert [] == screen.complaints


def test_a_job_without_a_board_yet(hung):
    """/board leads to the job that is listened to."""
    with hung.screen() as screen:
        screen.open("/board")
        assert screen.page.url.endswith(hung.path)


def test_reduced_motion_moves_nothing(hung):
    """Where the system asks for less motion, no element is animated."""
    hung.bench.say("main jet out")
    with hung.screen(still=True) as screen:
        screen.open(hung.path)
        hung.settle("float height is eighteen point four two")
        wait_for(screen.page, ".digits", "18.42")
        assert 0 == screen.page.evaluate("document.getAnimations().length")


def fill(board):
    """A job in the middle: an ask, things to do, a caution."""
    for words in (
        "float bowl off",
        "main jet is one thirty two, chewed up, replace it",
        "float height is about eighteen point four",
        "throttle shaft diameter is seven point nine five one",
    ):
        board.bench.say(words)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_axe_finds_nothing(hung, dark):
    """No violation of WCAG 2.2 A and AA that axe-core knows, dark and light, in each state."""
    fill(hung)
    with hung.screen(dark=dark, still=True) as screen:
        screen.open(hung.path)
        wait_for(screen.page, ".digits", "7.951")
        for state in ("listening", "paused", "clipped", "too_quiet", "unplugged"):
            hung.microphone(state)
            wait_for(screen.page, "#microphone-word", STATES[state])
            assert [] == screen.violations(), state


@pytest.mark.parametrize("size", ["1920x1080", "1280x800", "tablet", "phone"])
def test_long_names_push_nothing_aside(hung, browser_tools, size):
    """A title, a serial number and a fault as long as they may be: the board stays within its screen."""
    hung.bench.describe(title="Carburetor " * 18, item="outboard " * 20, serial="F" * 60)
    hung.bench.say("float height is about eighteen point four")
    width, height = browser_tools.SIZES[size]
    with hung.screen(width=width, height=height, still=True) as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, ".digits", "18.4")
        hung.sitting.tell_microphone("closed", note="The microphone cannot be opened. " + "Plug it in. " * 20)
        wait_for(page, "#microphone-hint", "The microphone cannot be opened")
        wait_for(page, "#notice", "Plug it in")
        assert width >= page.evaluate("() => document.documentElement.scrollWidth")
        word = page.locator("#microphone-word").bounding_box()
        foot = page.locator("#ear").bounding_box()
        assert foot["y"] <= word["y"]
        assert word["y"] + word["height"] <= height


def test_an_ask_is_answered_by_voice(hung):
    """The board tells what to say; said, the question is gone, and what was accepted is told and heard."""
    hung.bench.say("float height is about eighteen point four")
    with hung.screen() as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, "#asks-body .answer", "Say “that’s right” or “no, make that …”")
        hung.settle("main jet out")
        wait_for(page, "#asks-body .answer", "Say “that’s right” or “no, the float height is …”")
        hung.settle("no the float height is eighteen point four two")
        wait_for(page, "#asks-body", "Nothing asks")
        hung.settle("float drop is about twenty seven")
        wait_for(page, "#asks-body .question", "Is the float drop 27 mm?")
        hung.settle("that's right")
        wait_for(page, "#notice", "Accepted: float drop: about 27")
        wait_for(page, "#asks-body", "Nothing asks")
        wait_for(page, ".plate", "limits")
        assert [] == screen.complaints
    held = {one.characteristic: one for one in hung.bench.record().readings if one.superseded_by is None}
    assert ("18.42", "27") == (held["height"].value, held["drop"].value)
    assert "technician" == held["drop"].accepted_by


def test_an_ask_is_answered_by_hand(hung):
    """The same words typed do the same."""
    hung.bench.say("float height is about eighteen point four")
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#asks-body .question", "18.4")
        screen.page.keyboard.type("that's right", delay=70)
        screen.page.keyboard.press("Enter")
        wait_for(screen.page, "#notice", "Accepted: float height: about 18.4")
        wait_for(screen.page, "#asks-body", "Nothing asks")


def test_words_that_were_not_understood_have_no_yes(hung):
    """The board says what to do instead."""
    hung.bench.say("it's about eighteen something")
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#asks-body .answer", "Say it anew, the part first, then “drop the question”")
        hung.settle("drop the question")
        wait_for(screen.page, "#notice", "Taken out")
        wait_for(screen.page, "#asks-body", "Nothing asks")


CUT_OFF = """
() => [...document.querySelectorAll(".value, .panel .body, .panel h2, .plate, .microphone .words, .speech")]
  .filter((one) => one.scrollHeight > one.clientHeight + 2 || one.scrollWidth > one.clientWidth + 2)
  .map((one) => `${one.id || one.className}: ${one.innerText}`)
"""


@pytest.mark.parametrize("size", ["1920x1080", "1280x800", "tablet", "phone"])
def test_nothing_in_a_panel_is_cut_off(hung, browser_tools, size):
    """Where no hand can scroll, what asks, what is to do and a caution stand there whole."""
    fill(hung)
    hung.bench.say("strainer seat bore is about eighteen something and blow it out with compressed air")
    hung.bench.say("upper shaft bush bore is about eight point oh something, or eight point one")
    width, height = browser_tools.SIZES[size]
    with hung.screen(width=width, height=height, still=True) as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#asks-body .answer", "say")
        wait_for(screen.page, "#beside .warning", "never on skin")
        assert [] == screen.page.evaluate(CUT_OFF)
        screen.shoot(f"board-full-{size}")


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("size", ["1920x1080", "1280x800", "tablet", "phone"])
def test_screens_of_a_workshop(hung, browser_tools, size, dark):
    """Nothing runs off sideways at any size, the microphone is always in view; screenshots are kept."""
    fill(hung)
    width, height = browser_tools.SIZES[size]
    with hung.screen(width=width, height=height, dark=dark, still=True) as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, ".digits", "7.951")
        wide = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
        assert wide[0] <= wide[1]
        ear = page.locator("#microphone").bounding_box()
        assert ear["y"] + ear["height"] <= height + 1
        value = page.locator(".value").bounding_box()
        assert value["x"] + value["width"] <= width
        assert screen.shoot(f"board-{size}-{'dark' if dark else 'light'}").exists()
        assert [] == screen.complaints


def test_a_fresh_job(hung):
    """Before anything is said the board is ready and shows what to mind; no violation."""
    with hung.screen(still=True) as screen:
        screen.open(hung.path)
        wait_for(screen.page, ".ready", "Ready")
        screen.shoot("board-ready")
        assert [] == screen.violations()
