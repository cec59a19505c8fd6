"""A value after something was done about the last one: "free play fifteen" / "wound the rod out, it's six".

It is of what was read then, and how it was left; so is "it's up to seventy one since".
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from saywright.quantity import parse_value
from saywright.sheets.model import Characteristic
from saywright.understanding.facts import Fact, Told
from saywright.understanding.statements import ActionNote, Reading
from saywright.understanding.subjects.noun_phrases import Subject, subject_of_components
from saywright.understanding.tokens import BREAK
from saywright.understanding.values.altered import READS
from saywright.understanding.values.fitting import best_choice
from saywright.understanding.wordforms import is_past
from saywright.understanding.working import Working

_SETS: Final = frozenset(
    ["wound", "turned", "brought", "took", "taken", "screwed", "let", "nudged", "moved", "shifted", "tweaked",
     "adjusted", "backed", "eased", "set", "reset", "dropped", "raised", "lowered", "slackened", "tightened",
     "loosened", "shimmed", "bent", "balanced", "bled", "stretched", "shortened", "lengthened", "clicked",
     "opened", "closed", "tapped", "nipped", "got", "gave", "filed", "pulled"]
)  # fmt: skip
_GIVEN: Final = frozenset(
    ["tweak", "nudge", "turn", "turns", "click", "clicks", "tap", "twist", "bend", "flat", "pull", "adjusted"]
)  # fmt: skip
_WHO: Final = frozenset(
    ["i", "we", "have", "so", "then", "and", "right", "okay", "just", "now", "with", "well", "had", "she",
     "he", "been"]
)  # fmt: skip
_IT_TO: Final = frozenset({("it", "to"), ("them", "to"), ("that", "to")})
_LINKS: Final = frozenset({"is", "are", "to", "at", "has", "got", "gives", "reads", "on", "makes"})
_TURNED: Final = frozenset({"wound", "turned", "screwed", "backed", "eased", "nudged", "clicked"})
_SINCE: Final = frozenset({"since", "now", "after"})
_TO: Final = frozenset({"up", "down", "in", "out", "off", "back"})
# What was looked at so was not set: "turned it over and it's two", "took it off and it's four".
_NOT_SET: Final = frozenset(
    ["over", "round", "around", "off", "apart", "away", "wipe", "wiped", "cleaned", "clean", "measure",
     "another", "other", "again", "photo", "picture", "gauge", "look", "clock", "dial", "if", "should",
     "would", "could", "might", "need", "needs", "want", "wants", "book", "manual", "new", "side", "half",
     "can", "may", "limit", "worn", "wears", "drops", "falls", "goes", "sags", "when", "while", "window",
     "seat", "seats", "seated", "bottom", "bottomed", "bottoms", "count", "counted", "counting", "home",
     "till", "until", "light", "vernier", "calipers", "callipers", "jaws", "micrometer", "mic", "feelers",
     "feeler", "probe", "tester", "meter", "stopwatch", "watch", "square", "straightedge", "bench", "vice",
     "go", "more", "minute", "minutes", "hour", "hours", "seconds", "oclock", "percent", "degrees"]
) | READS  # fmt: skip
# It is let fall and lifted to read it too: "dropped it and it's five".
_LET_FALL: Final = frozenset({"dropped", "raised", "lowered"})
_A_BIT: Final = frozenset({"bit", "touch", "hair", "tad", "little", "notch", "shade", "fraction", "whisker"})
# What may stand behind the value; a noun makes it a number of that: "down to ten jobs".
_BEHIND: Final = frozenset(
    ["", BREAK, "and", "since", "now", "then", "so", "which", "that", "there", "after", "is", "as", "at",
     "or", "spot", "dead", "exactly", "good", "better", "to", "for", "but", "i", "we", "with", "just", "all",
     "each", "both", "this", "today", "again", "right", "nice", "too", "well", "on", "in", "out", "off",
     "near", "much", "by", "plus", "a", "it", "not"]
)  # fmt: skip
_ARTICLES: Final = frozenset({"the", "a", "an", "my", "our", "your", "his"})
# What was done so was set, whatever it is.
_SURELY: Final = frozenset(
    [
        "adjusted",
        "tightened",
        "slackened",
        "shimmed",
        "balanced",
        "reset",
        "shortened",
        "lengthened",
        "bled",
        "nipped",
        "topped",
        "filled",
    ]
)
_ALTERING: Final = frozenset({"adjust", "set", "tighten", "straighten", "hone", "skim", "lap"})
_CUES: Final = _SETS | _SURELY | _SINCE | {"down", "up", "back"}
_REACH: Final = 3  # utterances back in which it was read


def mark_set_now(told: Told, work: Working) -> None:
    """Give the one value of *told* to what was read last, where it was set since."""
    if work.stage != "as_found":
        return
    values = [fact for fact in told.facts if fact.kind == "value"]
    if len(values) != 1 or (_CUES.isdisjoint(work.texts) and not _done_since(work)):
        return
    before = _read_before(work)
    if before is None or values[0].changes or not _is_of_it(values[0], before, told):
        return
    fact, spec = values[0], work.sheet.find(before.component, before.characteristic)
    moved = any(fact.kind in {"off", "on", "same"} for fact in told.facts)
    if spec is None or (moved and not (_is_setting(spec) and _TURNED.intersection(work.texts))):
        return
    if not _is_another_value(fact, before, work) or _is_of_something_else(fact, work):
        return
    altered = not moved and any(done.component == before.component for done in _done_since(work))
    if not altered and not _is_set(fact, spec, before, work):
        return
    fact.changes = True
    fact.characteristics = ((before.component, before.characteristic),)
    fact.subjects = [_subject(fact, before)]


def _done_since(work: Working) -> list[ActionNote]:
    """What was done, since the last value, that alters one: "adjusted that", "bent the tang a touch"."""
    done: list[ActionNote] = []
    for group in reversed(work.before.recent[-_REACH:]):
        for told in reversed(group):
            if type(told) is Reading:
                return done
            if type(told) is ActionNote and told.action in _ALTERING and told.status == "done":
                done.append(told)
    return []


def _read_before(work: Working) -> Reading | None:
    """The last reading, where it was told just now of what is in hand."""
    near = [s for group in work.before.recent[-_REACH:] for s in group if s.id not in work.gone]
    last = next((s for s in reversed(near) if isinstance(s, Reading)), None)
    held = work.hand.component if work.hand is not None else None
    return last if last is not None and last.component == held and last.stage == "as_found" else None


def _is_of_it(fact: Fact, before: Reading, told: Told) -> bool:
    """True where no other part, side or measure is told of."""
    if fact.characteristics and (before.component, before.characteristic) not in fact.characteristics:
        return False
    named = {c for s in told.subjects for c in s.components}
    placed = {w for s in told.subjects for w in s.which}
    return named <= {before.component} and placed <= {before.which} and fact.phrase.measure is not None


def _is_another_value(fact: Fact, before: Reading, work: Working) -> bool:
    measure = fact.phrase.measure
    key = (before.component, before.characteristic)
    found = best_choice(measure, [key], work.sheet) if measure is not None else None
    return found is not None and found[0].fits and parse_value(found[0].value) != parse_value(before.value)


def _is_of_something_else(fact: Fact, work: Working) -> bool:
    """ "Down to ten more minutes", "closed the vernier and it's …", "up to twenty five, the heating"."""
    head, behind = work.texts[: fact.phrase.start], work.texts[fact.phrase.end :]
    led = head[:-2] if head[-2:] == ("off", "to") else head  # "backed it off to four"
    if not (_NOT_SET.isdisjoint(led) and _NOT_SET.isdisjoint(behind)) or "not" in head:
        return True
    return (bool(behind) and behind[0] not in _BEHIND) or _tells_of_another(behind, work)


def _is_set(fact: Fact, spec: Characteristic, before: Reading, work: Working) -> bool:
    """ "Nudged the link and they're …", "brought them in to …", "down to three", "up to seventy since"."""
    texts, start = work.texts, fact.phrase.start
    head = texts[:start]
    behind = texts[fact.phrase.end :]
    if not head:
        return False
    settable = spec.restore or "as_left" in spec.when or _is_setting(spec)
    at = next((i for i, text in enumerate(head) if text not in _WHO), len(head))
    did = head[at : at + 1]
    own = (did and did[0] in _SETS | _SURELY) or not any(
        _tells_of_another(head[i:], work) for i, text in enumerate(head) if text in _ARTICLES
    )
    led_to = head[-1] == "to" and not _TO.isdisjoint(head)
    if own and led_to and settable and _is_that_way(fact, before, head):
        return True
    if did and did[0] in _LET_FALL and not _is_let_fall_to(head, spec):
        return False
    if behind in {("since",), ("since", "then")}:
        return True
    if not did or did[0] not in _SETS | _SURELY or not is_past(did[0]):
        return False
    surely = did[0] in _SURELY or head[-2:] in _IT_TO or "now" in (*head, *behind[:1])
    if not settable and (spec.when or not surely):
        return False
    if did[0] in {"gave", "got"} and _GIVEN.isdisjoint(head) and head[-1] != "to":
        return False
    return head[-1] in _LINKS and start - at > 1


def _is_let_fall_to(head: Sequence[str], spec: Characteristic) -> bool:
    """ "Dropped it to fourteen", "raised it a touch and …"; not where it is the drop that is read."""
    dropped = any("drop" in name for name in spec.names)
    return not dropped and (head[-1] == "to" or not _A_BIT.isdisjoint(head))


def _tells_of_another(behind: Sequence[str], work: Working) -> bool:
    """ "Up to twenty five, the heating", "changed the probe": another thing that the sheet does not know."""
    rest = [text for text in behind if text != BREAK]
    return len(rest) > 1 and rest[0] in _ARTICLES and not work.lexicon.names(tuple(rest), 1).parts


def _is_setting(spec: Characteristic) -> bool:
    """Turns and clicks are set, whatever the sheet asks for."""
    return spec.unit == "turn" or any("click" in name for name in spec.names)


def _is_that_way(fact: Fact, before: Reading, head: Sequence[str]) -> bool:
    """True where "down to" leads to less and "up to" to more; "in to" and "out to" lead anywhere."""
    measure = fact.phrase.measure
    assert measure is not None  # a value fact is made from a measure
    less = parse_value(measure.readings[0].value) < parse_value(before.value)
    return (
        head[-2:-1] in {("down",), ("in",), ("out",), ("off",), ("back",)}
        if less
        else head[-2:-1] != ("down",)
    )


def _subject(fact: Fact, before: Reading) -> Subject:
    """What was read, each of it where "each" or "both" is said."""
    said = subject_of_components((before.component,), fact.phrase.start, fact.phrase.end)
    every = next((s.selector for s in fact.subjects if s.selector in {"both", "all"}), None)
    if every is not None:
        return replace(said, selector=every)
    return replace(said, which=(before.which,) if before.which is not None else ())
