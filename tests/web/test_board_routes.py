"""The board's addresses: who may do what there, and what comes back."""

from __future__ import annotations

import io
import wave

import pytest
from starlette.testclient import TestClient

from saywright.bench import Bench
from saywright.errors import DeviceError
from saywright.hearing import feed
from saywright.hearing.words import typed
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.app import create_app
from saywright.web.board_sitting import BoardSitting
from saywright.web.sounds import SOUNDS
from saywright.web.stream import Streams

BOARD = "/jobs/20260314-1/board"


class FakeSession:
    """Tells what it was given, then waits to be stopped, or fails."""

    def __init__(self, *lives, fault=None):
        self.lives = lives
        self.fault = fault
        self.acts = []
        self.paused = True

    def run(self, told):
        """Tell everything."""
        for live in self.lives:
            told(live)
        if self.fault is not None:
            raise self.fault

    def pause(self):
        """Noted."""
        self.acts.append("pause")

    def resume(self):
        """Noted."""
        self.acts.append("resume")

    def stop(self):
        """Noted."""
        self.acts.append("stop")


class Running(BoardSitting):
    """A sitting that counts as running."""

    running = True


@pytest.fixture
def bench(visit):
    """A job of a carburetor."""
    store = MemoryStore()
    yield Bench.open(store, load_sheet("outboard-float-carburetor"), clock=visit.clock)
    store.close()


def test_the_page_and_its_state(visit):
    """The page names the job and carries no script of its own; the state is the board as JSON."""
    page = visit.client.get(BOARD)
    assert 200 == page.status_code
    assert "Carburetor off the harbour launch" in page.text
    assert "<script>" not in page.text
    assert "style=" not in page.text
    state = visit.client.get(f"{BOARD}/state").json()
    assert (visit.bench().events()[-1].seq, "as found") == (state["seq"], state["stage"])
    assert "main jet" in {told["part"] for told in state["last"]}


def test_the_current_job(visit):
    """/board leads to the newest job where nothing is listened to."""
    answer = visit.client.get("/board")
    assert (307, BOARD) == (answer.status_code, answer.headers["location"])


def test_no_job_at_all(visit):
    """The page says how to open one."""
    store = MemoryStore()
    with TestClient(create_app(store, visit.clock), base_url="http://127.0.0.1:1") as client:
        answer = client.get("/board")
    store.close()
    assert 200 == answer.status_code
    assert "saywright board --sheet SHEET" in answer.text


@pytest.mark.parametrize("path", ["", "/state"])
def test_a_job_that_is_not_there(visit, path):
    """Not found, as at the desk."""
    assert 404 == visit.client.get(f"/jobs/nowhere/board{path}").status_code


def test_a_value_of_a_data_key(visit):
    """It is kept under the name of whoever sits there."""
    answer = visit.post("/board/keys", {"keys": "3.85", "by": "key"})
    assert (200, {"done": ""}) == (answer.status_code, answer.json())
    record = visit.bench().record()
    assert "3.85" in {one.heard for one in (*record.unclear, *record.readings)}
    assert "Ada" in {event.actor for event in visit.bench().events()}


def test_words_of_hands(visit):
    """Typed words are understood like spoken ones."""
    assert 200 == visit.post("/board/keys", {"keys": "float height 18.5", "by": "hand"}).status_code
    assert "18.5" == visit.bench().record().readings[-1].value


@pytest.mark.parametrize(
    ("fields", "status", "line"),
    [
        ({"keys": "ERR", "by": "key"}, 422, "data key: “ERR” is no value of an instrument"),
        ({"keys": "", "by": "hand"}, 422, "no words were given"),
        ({"keys": "1" * 201, "by": "key"}, 422, "more than 200 characters came at once"),
        ({"keys": "18.42", "by": "key", "token": "0" * 64}, 403, "the form is not from this run of the desk"),
    ],
)
def test_what_cannot_be_taken_is_told_in_one_line(visit, fields, status, line):
    """As JSON, since a script asked; nothing is kept."""
    seq = visit.bench().events()[-1].seq
    answer = visit.post("/board/keys", fields)
    assert status == answer.status_code
    assert line in answer.json()["line"]
    assert seq == visit.bench().events()[-1].seq


@pytest.mark.parametrize(("act", "status"), [("pause", 409), ("shout", 409)])
def test_nothing_listens_to_this_job(visit, act, status):
    """Said so, and what to start."""
    answer = visit.post("/board/microphone", {"act": act})
    assert status == answer.status_code
    assert "nothing listens to this job here" in answer.json()["what"]


def test_pause_and_resume(visit):
    """They reach what listens to this job; anything else is refused."""
    session = FakeSession()
    streams = Streams(visit.store)
    sitting = Running(visit.bench(), streams, session)
    app = create_app(visit.store, visit.clock, streams=streams, sitting=sitting)
    with TestClient(app, base_url=visit.client.base_url) as client:
        visit.client = client
        statuses = [
            visit.post("/board/microphone", {"act": act}).status_code for act in ("pause", "resume", "shout")
        ]
        located = client.get("/board", follow_redirects=False).headers["location"]
    assert ([200, 200, 422], ["pause", "resume"], BOARD) == (statuses, session.acts, located)


@pytest.mark.parametrize("name", SOUNDS)
def test_a_sound(visit, name):
    """A WAV file, whole or the stretch that is asked for."""
    answer = visit.client.get(f"/board/sounds/{name}.wav")
    assert "audio/wav" == answer.headers["content-type"]
    with wave.open(io.BytesIO(answer.content)) as wav:
        assert 0 < wav.getnframes()
    part = visit.client.get(f"/board/sounds/{name}.wav", headers={"range": "bytes=0-3"})
    assert (206, b"RIFF") == (part.status_code, part.content)


def test_no_such_sound(visit):
    """Not found; no path reaches the files."""
    assert 404 == visit.client.get("/board/sounds/bell.wav").status_code
    assert 404 == visit.client.get("/board/sounds/..%2F..%2Fapp.wav").status_code


def test_what_a_sitting_tells(bench):
    """Each kind of thing that a session tells reaches the boards as plain data."""
    streams = Streams(bench._log.store)
    said = typed("float height is eighteen point four two")
    session = FakeSession(
        feed.Microphone("listening", -20.04, "headset"),
        feed.Partial("float height"),
        feed.Provisional(said),
    )
    with BoardSitting(bench, streams, session) as sitting:
        sitting._thread.join(10)
        live = streams.live(bench.job_id)
    assert "float height" == live["partial"]["words"]
    (told,) = live["provisional"]["told"]
    assert ("float", "height", "18.42", "in limits") == (
        told["part"],
        told["name"],
        told["value"],
        told["verdict"],
    )
    assert 1 == len(bench.events())
    assert ("closed", "the sitting has ended; what was said is kept") == (
        live["microphone"]["state"],
        live["microphone"]["note"],
    )
    assert ["stop"] == session.acts


def test_a_command_brings_its_answer(bench):
    """What was asked aloud is answered in words for the board."""
    streams = Streams(bench._log.store)
    BoardSitting(bench, streams, FakeSession()).told(feed.Commanded("left", 1))
    assert "throttle shaft diameter" in streams.live(bench.job_id)["command"]["text"].lower()


def test_levels_are_told_now_and_then_and_states_at_once(bench):
    """A board is not flooded with levels, and no change of state is held back."""
    streams, told = Streams(bench._log.store), []
    streams.tell = lambda _, live: told.append(live["state"])
    sitting = BoardSitting(bench, streams, FakeSession())
    for state in ("listening", "listening", "listening", "paused", "paused", "listening"):
        sitting.told(feed.Microphone(state, -20.0))
    assert ["listening", "paused", "listening"] == told


def test_while_the_program_speaks_it_is_no_pause(bench):
    """A microphone shut for reading back is told apart from a pause that somebody wanted."""
    streams, session, also = Streams(bench._log.store), FakeSession(), []
    sitting = BoardSitting(bench, streams, session, also=also.append)
    for paused, state in ((True, "paused"), (False, "speaking")):
        session.paused = paused
        sitting.told(feed.Microphone("paused", -120.0))
        assert state == streams.live(bench.job_id)["microphone"]["state"]
    assert ["paused", "paused"] == [live.state for live in also]


def test_a_microphone_that_fails_is_told(bench):
    """The board shows the one line; the program goes on."""
    streams = Streams(bench._log.store)
    session = FakeSession(fault=DeviceError("the microphone went away", to_do="Plug it in"))
    with BoardSitting(bench, streams, session) as sitting:
        sitting._thread.join(10)
        assert not sitting.running
        assert "the microphone went away. Plug it in" == streams.live(bench.job_id)["microphone"]["note"]


def test_without_anything_to_listen_with(bench):
    """The board is told why, and nothing is started."""
    streams = Streams(bench._log.store)
    with BoardSitting(bench, streams, None, why_none="no microphone here") as sitting:
        assert not sitting.running
        live = streams.live(bench.job_id)["microphone"]
    assert ("closed", "no microphone here") == (live["state"], live["note"])
