"""Commands said at the bench: what they do to the record, and what is answered."""

from __future__ import annotations

import pytest

from saywright.bench import Bench
from saywright.flags import FlagKind
from saywright.hearing.words import Utterance, typed
from saywright.sheets.load import load_sheet
from saywright.store.memory import MemoryStore
from saywright.web.trace import trace

from .conftest import Clock, spoken

HEIGHT = "float height is eighteen point four two"


@pytest.fixture
def bench(store: MemoryStore, clock: Clock) -> Bench:
    """A new job on the carburetor that ships."""
    return Bench.open(store, load_sheet("outboard-float-carburetor"), clock=clock)


def live(bench: Bench) -> list[str]:
    """The values that hold."""
    return [r.value for r in bench.record().readings if r.superseded_by is None]


class TestUndo:
    """What was said last is taken back, in an event of its own."""

    def test_nothing_is_erased(self, bench: Bench) -> None:
        """The item stays in the record, and says by which words it was taken back."""
        bench.say(HEIGHT)
        bench.say("undo that")
        record = bench.record()
        assert ["s1"] == [r.id for r in record.readings]
        assert record.readings[0].superseded_by == record.remarks[-1].id
        assert ("undo that", "withdraws s1") == (record.remarks[-1].heard, record.remarks[-1].reason)

    def test_what_was_replaced_holds_again_and_asks(self, bench: Bench) -> None:
        """Undoing a correction brings the first value back; a person has to stand for it."""
        bench.say(HEIGHT)
        bench.say("no make that eighteen point six")
        bench.say("undo")
        assert ["18.42"] == live(bench)
        assert FlagKind.HOLDS_AGAIN in {f.kind for f in bench.record().readings[0].flags}
        assert "Undone: float height: 18.6\u00a0mm" in bench.answer("undo")
        assert "This holds again: float height: 18.42\u00a0mm" in bench.answer("undo")

    def test_the_trace_tells_it(self, bench: Bench) -> None:
        """Where an item came from shows that it was replaced, and that it holds again."""
        for line in (HEIGHT, "no make that eighteen point six", "undo that"):
            bench.say(line)
        steps = trace(bench.events(), bench.record().readings[0], bench.sheet)
        assert [
            "taken back by the words “eighteen point six”",
            "holds again by the words “undo that”",
        ] == [step.what for step in steps[-2:]]

    def test_what_a_person_took_out_stays_out(self, bench: Bench) -> None:
        """An undo does not bring back what was withdrawn at the desk."""
        bench.say(HEIGHT)
        bench.say("main jet one twenty eight")
        bench.withdraw("s1", why="misheard", actor="Ada")
        bench.say("undo")
        bench.say("undo")
        assert [] == live(bench)
        assert "There is nothing to undo." == bench.answer("undo")

    def test_a_job_read_again_goes_on_the_same(self, bench: Bench, store: MemoryStore) -> None:
        """Undo reaches back over a restart, and the record is what one sitting gives."""
        lines = [HEIGHT, "main jet one twenty eight", "undo", "no make that eighteen point five", "undo"]
        for line in lines:
            bench = Bench.resume(store, bench.job_id, clock=Clock())
            bench.say(line)
        other = Bench.open(store, bench.sheet, clock=Clock())
        for line in lines:
            other.say(line)
        assert other.record().readings == bench.record().readings
        assert ["18.42"] == live(bench)


class TestPause:
    """While paused, what is heard is kept and not read."""

    def test_kept_as_remarks(self, bench: Bench) -> None:
        """Nothing said is lost, and nothing of it is a reading."""
        bench.say_all(lines("pause listening", HEIGHT, "undo", "resume", "main jet one twenty eight"))
        assert ["128"] == live(bench)
        assert [HEIGHT, "undo"] == [r.heard for r in bench.record().remarks]

    def test_told(self, bench: Bench) -> None:
        """The bench knows that it is paused, also after a restart."""
        bench.say_all(lines("stop listening"))
        assert bench.paused()
        bench.say_all(lines("carry on listening"))
        assert not bench.paused()

    def test_what_a_person_types_at_the_desk_is_read(self, bench: Bench) -> None:
        """The pause is for the microphone, not for the keyboard."""
        bench.say_all(lines("pause listening"))
        bench.say(HEIGHT)
        assert ["18.42"] == live(bench)

    def test_one_who_is_heard_is_not_at_the_desk(self, bench: Bench) -> None:
        """Words of a recording are not read while paused."""
        bench.say_all([spoken(0, 1, "pause listening"), spoken(2, 4, HEIGHT)])
        assert [] == live(bench)


def lines(*texts: str) -> list[Utterance]:
    """The utterances of a text, a line each."""
    return [typed(text, line=number) for number, text in enumerate(texts, start=1)]


class TestAnswers:
    """What is answered, in plain sentences."""

    def test_left_begins_with_what_is_in_hand(self, bench: Bench) -> None:
        """The part that was only named comes before those that the sheet has first."""
        bench.say("now the pilot jet")
        assert bench.answer("left").startswith("Still to say as found: pilot jet size, ")
        assert bench.answer("left").rstrip(".").endswith("more")
        assert "pilot_jet" == bench.to_do()[0]["component"]

    def test_left_tells_what_else_stops_the_signature(self, bench: Bench) -> None:
        """A picture that was announced and is not there is left to do as well."""
        bench.say("photo of the float")
        assert bench.answer("left").endswith(" 1 picture announced and not taken.")

    def test_what_is_missing_comes_with_its_sentence(self, bench: Bench) -> None:
        """The board gets part, characteristic, stage and sentence."""
        bench.say("now the float")
        first = bench.to_do()[0]
        assert {
            "component": "float",
            "which": None,
            "characteristic": "height",
            "stage": "as_found",
            "sentence": "Float height is required as found and was not said.",
        } == first

    def test_next_is_one_thing(self, bench: Bench) -> None:
        """Before it goes back together, the next value; then the next part to fit."""
        bench.say("now the float")
        assert "Next: float height, as found." == bench.answer("next")
        for line in ("bowl screws out", "bowl off", "going back together", "new bowl gasket on"):
            bench.say(line)
        assert bench.answer("next").startswith("Next: float bowl, 1 to go back")

    def test_read_back(self, bench: Bench) -> None:
        """All that the last utterance gave, with what it asks; talk since does not count."""
        assert "Nothing is on record yet." == bench.answer("read_back")
        bench.say("main jet one twenty eight, float height about eighteen")
        bench.say("lovely day")
        told = bench.answer("read_back")
        assert told.startswith("Main jet size: 128, as found.")
        assert "It asks: said as approximate" in told

    def test_a_note_is_read_back(self, bench: Bench) -> None:
        """A note is a remark, word for word, and nothing else."""
        bench.say("note the main jet was one twenty eight last time")
        assert [] == live(bench)
        assert "Note: the main jet was one twenty eight last time." == bench.answer("read_back")
        assert "Noted." == bench.answer("note")

    def test_an_utterance_shows_its_answer(self, bench: Bench) -> None:
        """What is shown below a command as it is heard is its answer, each undo its own."""
        said = lines(HEIGHT, "undo", "main jet one twenty eight", "undo", "undo", "pause")
        bench.say_all(said)
        assert ["Undone: float height: 18.42\u00a0mm, as found."] == bench.told(said[1])
        assert ["Undone: main jet size: 128, as found."] == bench.told(said[3])
        assert ["There is nothing to undo."] == bench.told(said[4])
        assert ["Listening is paused. Say resume to go on."] == bench.told(said[5])
