"""The board as it hangs over the bench, seen in a real browser."""

from __future__ import annotations

import io

import numpy as np
import pytest
from PIL import Image

from saywright.hearing import feed
from saywright.hearing.words import typed

from .hung import STATES, WAIT_MS, wait_for

# 24 inches across on 16 to 9 are 53.1 cm of width: 1920 px stand on 36.2 px a centimetre.
SIX_CM_PX = 6 * 1920 / 53.1


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
        ("bowl flatness is zero point two five", "Out of limits, 0.15 mm over", "does_not_conform"),
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
