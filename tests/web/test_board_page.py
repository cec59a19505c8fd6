"""The board as it hangs over the bench: seen and worked in a real browser."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

import numpy as np
import pytest
from PIL import Image

from saywright.bench import Bench
from saywright.hearing import feed
from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.app import create_app
from saywright.web.board_sitting import BoardSitting
from saywright.web.stream import Streams

# 24 inches across on 16 to 9 are 53.1 cm of width: 1920 px stand on 36.1 px a centimetre.
SIX_CM_PX = 6 * 1920 / 53.1
WAIT_MS = 5000


def clock() -> datetime:
    """The time, UTC."""
    return datetime.now(UTC)


@dataclass
class FakeSession:
    """Listens to nothing; the test tells what it would tell."""

    acts: list[str] = field(default_factory=list)
    paused: bool = True

    def run(self, told):
        """Nothing is heard."""

    def pause(self):
        """Noted."""
        self.acts.append("pause")

    def resume(self):
        """Noted."""
        self.acts.append("resume")

    def stop(self):
        """Noted."""


class LiveSitting(BoardSitting):
    """A sitting that counts as running, without a thread."""

    running = True


@dataclass
class Hung:
    """A board on a port, its job, and what listens."""

    address: str
    bench: Bench
    sitting: LiveSitting
    session: FakeSession
    streams: Streams
    chromium: Any
    window: Any

    @property
    def path(self) -> str:
        """Address of the board's page."""
        return f"/jobs/{self.bench.job_id}/board"

    def screen(self, **more: Any) -> Any:
        """A window at it; `with` closes it."""
        return self.window(self.chromium, self.address, **more)

    def microphone(self, state: str, level_dbfs: float = -20.0) -> None:
        """The microphone comes to a state."""
        self.sitting.told(feed.Microphone(state=state, level_dbfs=level_dbfs))

    def settle(self, words: str) -> None:
        """Words are spoken to their end."""
        self.sitting.told(feed.Partial(words))
        self.bench.say(words)
        self.sitting.told(feed.Settled(typed(words), self.bench.events()[-2].seq))


@pytest.fixture
def hung(chromium, browser_tools) -> Iterator[Hung]:
    """A board over a fresh job of a carburetor."""
    store = MemoryStore()
    streams = Streams(store)
    sheet = load_sheet("outboard-float-carburetor")
    bench = Bench.open(
        streams.store, sheet, clock=clock, title="Carburetor off the harbour launch", serial="HB-2047"
    )
    session = FakeSession()
    sitting = LiveSitting(bench, streams, session)
    app = create_app(streams.store, clock, streams=streams, sitting=sitting)
    with browser_tools.serving(app, streams=streams) as address:
        board = Hung(address, bench, sitting, session, streams, chromium, browser_tools.screen)
        board.microphone("listening")
        yield board
    store.close()


def wait_for(page, selector, text):
    """Until an element says *text*."""
    page.wait_for_function(
        "([selector, text]) => (document.querySelector(selector)?.innerText || '').toLowerCase()"
        ".includes(text.toLowerCase())",
        arg=[selector, text],
        timeout=WAIT_MS,
    )


def ink_height_px(page, selector):
    """Height of what is drawn of an element, in pixels: rows of its picture that differ from the ground."""
    picture = Image.open(io.BytesIO(page.locator(selector).screenshot())).convert("L")
    grey = np.asarray(picture, dtype=np.int16)
    rows = np.flatnonzero((np.abs(grey - grey[0, 0]) > 100).any(axis=1))
    return int(rows[-1] - rows[0] + 1)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_the_value_stands_six_centimetres_high(hung, dark):
    """On a 24-inch screen of 1920 by 1080 the digits are 6 cm high, and part, unit and limits are there."""
    hung.bench.say("float height is eighteen point four two")
    with hung.screen(dark=dark, still=True) as screen:
        screen.open(hung.path)
        wait_for(screen.page, ".digits", "18.42")
        height_px = ink_height_px(screen.page, ".value")
        assert SIX_CM_PX <= height_px <= 1.06 * SIX_CM_PX
        assert "Float" == screen.page.inner_text(".named .part")
        assert "mm" == screen.page.inner_text(".unit")
        assert "In limits\n18.0 to 18.8 mm" == screen.page.inner_text(".plate .words")
        assert "#shape-conforms" == screen.page.get_attribute(".plate use", "href")
        assert [] == screen.complaints


@pytest.mark.parametrize(
    ("said", "words", "shape"),
    [
        ("float height is eighteen point four two", "In limits", "conforms"),
        ("float height is nineteen point five", "Out of limits, 0.7 mm over", "does_not_conform"),
        ("throttle shaft diameter is seven point nine five one", "Too near the limit", "undecided"),
        ("main jet is one thirty two", "Out of limits", "does_not_conform"),
        ("float height is about eighteen point four", "Asks", "asks"),
    ],
)
def test_the_verdict_is_words_and_a_shape(hung, said, words, shape):
    """What is in limits, out of them, too near or asks is told apart without colour."""
    hung.bench.say(said)
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, ".plate", words)
        assert f"#shape-{shape}" == screen.page.get_attribute(".plate use", "href")
        assert shape == screen.page.get_attribute("#said", "data-decision")
        assert [] == screen.complaints


def test_what_is_said_goes_through_three_looks(hung):
    """Words while speaking, an outline while it may change, then the settled value; nothing is reloaded."""
    with hung.screen() as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, "#microphone-word", "listening")
        hung.sitting.told(feed.Partial("float height is"))
        wait_for(page, "#partial", "float height is")
        hung.sitting.told(feed.Provisional(typed("float height is eighteen point four two")))
        wait_for(page, ".plate", "not yet settled")
        assert "no" == page.get_attribute("#said", "data-settled")
        assert "18.42" == page.inner_text(".digits")
        screen.shoot("board-provisional")
        assert [] == screen.violations()
        hung.settle("float height is eighteen point four two")
        page.wait_for_selector("#said[data-settled=yes] .plate.conforms", timeout=WAIT_MS)
        wait_for(page, "#partial", "heard: “float height is eighteen point four two”")
        assert [] == screen.complaints


def test_a_provisional_line_that_comes_to_nothing_is_taken_back(hung):
    """Where the utterance goes on, what was settled last is shown again."""
    hung.bench.say("float height is eighteen point four two")
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, ".digits", "18.42")
        hung.sitting.told(feed.Provisional(typed("float drop is twenty seven")))
        wait_for(screen.page, ".digits", "27")
        hung.sitting.told(feed.Partial("float drop is twenty seven point five"))
        wait_for(screen.page, ".digits", "18.42")
        assert "yes" == screen.page.get_attribute("#said", "data-settled")


STATES = {
    "listening": "Listening",
    "speaking": "Speaking",
    "paused": "Paused",
    "clipped": "Too loud",
    "too_quiet": "Too quiet",
    "unplugged": "Unplugged",
    "closed": "No microphone",
}


def test_the_microphone_cannot_be_mistaken(hung):
    """Each state has a word, a shape and a colour of its own, large."""
    seen = set()
    with hung.screen(still=True) as screen:
        screen.open(hung.path)
        for state, word in STATES.items():
            hung.session.paused = state != "speaking"
            hung.microphone("paused" if state == "speaking" else state)
            wait_for(screen.page, "#microphone-word", word)
            assert f"#shape-{state}" == screen.page.get_attribute("#microphone-shape", "href")
            box = screen.page.locator("#microphone-word").bounding_box()
            assert 60 <= box["height"]
            seen.add(screen.page.locator("#microphone").screenshot())
        assert len(STATES) == len(seen)
        assert [] == screen.complaints


def test_a_server_that_is_gone_is_no_microphone_that_listens(hung):
    """When the program does not answer, the board says so at once."""
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#microphone-word", "listening")
        hung.streams.close()
        wait_for(screen.page, "#microphone-word", "no contact")


def test_knuckles_pause_and_go_on(hung):
    """The microphone's field is a button of the height of a hand; a touch pauses, another goes on."""
    with hung.screen(has_touch=True) as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, "#microphone-word", "listening")
        assert 130 <= page.locator("#microphone").bounding_box()["height"]
        page.tap("#microphone")
        hung.microphone("paused")
        wait_for(page, "#microphone-word", "paused")
        page.tap("#microphone")
        page.wait_for_timeout(200)
        assert ["pause", "resume"] == hung.session.acts
        for name in ("#sound", "#theme", "#full"):
            box = page.locator(name).bounding_box()
            assert 64 <= min(box["width"], box["height"])
        assert [] == screen.complaints


def test_dark_and_sound_are_remembered(hung):
    """Light or dark, and how loud, stay as chosen when the page is loaded again."""
    with hung.screen() as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, "#theme-word", "light")
        page.click("#theme")
        for _ in range(2):
            page.click("#sound")
        page.reload()
        wait_for(page, "#theme-word", "dark")
        wait_for(page, "#sound-word", "sound off")


def test_what_asks_and_what_is_missing(hung):
    """The question with its reasons, and what is still to be measured, the part in hand first."""
    hung.bench.say("main jet out")
    hung.bench.say("float height is about eighteen point four")
    hung.bench.say("pilot jet out")
    with hung.screen() as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, "#asks", "Is the float height 18.4 mm?")
        assert "Said as approximate" in page.inner_text("#asks .why")
        wait_for(page, "#to-do li.in-hand", "pilot jet size")
        acts = page.locator("#to-do .in-hand .act").all_inner_texts()
        assert ["MEASURE", "PUT BACK"] == acts


def test_cautions_at_the_start_and_when_spoken(hung):
    """All of the job before anything is said; the one that is spoken of until it is noted."""
    with hung.screen() as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, ".before", "Compressed air")
        assert 8 == page.locator(".before li").count()
        hung.settle("main jet out")
        hung.settle("blow out the main jet with compressed air")
        wait_for(page, "#beside", "never on skin")
        assert "alert" == page.get_attribute("#beside .warning", "role")
        page.click(".noted")
        wait_for(page, "#beside", "Picture")
        assert [] == screen.complaints


def test_the_picture_just_matched(hung, tmp_path):
    """It is on the board with its part as soon as it has a place."""
    Image.new("RGB", (640, 480), (181, 143, 74)).save(tmp_path / "jet.jpg")
    hung.bench.say("main jet out")
    with hung.screen() as screen:
        screen.open(hung.path)
        hung.bench.add_photos([tmp_path / "jet.jpg"])
        hung.bench.place_photo("p1", component="main_jet")
        wait_for(screen.page, "#beside figcaption", "main jet")
        screen.page.wait_for_function("() => document.querySelector('#beside img')?.naturalWidth > 0")
        assert [] == screen.complaints


def test_a_data_key_lands_on_what_is_in_hand(hung):
    """“18.42” and Enter, as fast as an instrument types, whatever has the focus: kept as the instrument's."""
    hung.bench.say("measuring the float height now")
    with hung.screen() as screen:
        page = screen.page
        screen.open(hung.path)
        wait_for(page, "#partial", "measuring the float height now")
        page.focus("#sound")
        page.keyboard.type("18.42\n")
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
        screen.page.keyboard.type("18,42mm\n")
        wait_for(screen.page, "#asks .why", "18.24 mm said, 18.42 mm sent")
        wait_for(screen.page, ".plate", "asks")


def test_keys_that_are_no_value_get_one_clear_line(hung):
    """Nothing is kept, and the board says what came and what to do."""
    with hung.screen() as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#microphone-word", "listening")
        seq = hung.bench.events()[-1].seq
        screen.page.keyboard.type("ERR 4\n")
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
        for _ in range(2):
            page.click("#sound")
        played = len(page.evaluate("window.played"))
        hung.microphone("paused")
        wait_for(page, "#microphone-word", "paused")
        assert played == len(page.evaluate("window.played"))


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
@pytest.mark.parametrize("state", ["listening", "paused", "clipped", "too_quiet", "unplugged"])
def test_axe_finds_nothing(hung, dark, state):
    """No violation of WCAG 2.2 A and AA that axe-core knows, dark and light, in each state."""
    fill(hung)
    hung.microphone(state)
    with hung.screen(dark=dark, still=True) as screen:
        screen.open(hung.path)
        wait_for(screen.page, "#microphone-word", STATES[state])
        wait_for(screen.page, ".digits", "7.951")
        assert [] == screen.violations()


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
