"""A change of mind over lines: "main jet's blocked" … "no, it's clear", "hang on, it isn't"."""

from __future__ import annotations

from collections.abc import Sequence

from saywright.flags import FlagKind
from saywright.understanding.bench_words import IS
from saywright.understanding.facts import Fact, Told
from saywright.understanding.second_thoughts.after_all import says_after_all
from saywright.understanding.second_thoughts.corrected_copies import AboutAPart, own_fields
from saywright.understanding.second_thoughts.did_meanwhile import did_something
from saywright.understanding.second_thoughts.moved_after_all import not_moved
from saywright.understanding.second_thoughts.words import (
    BEGIN,
    IT,
    ONLY,
    PAUSES,
    made_excuse,
    only_turns,
    read_turn,
    turns,
)
from saywright.understanding.statements import (
    ActionNote,
    ConditionNote,
    Correction,
    Movement,
    Reading,
    Remark,
    Statement,
    Unclear,
)
from saywright.understanding.tokens import tokenise, word_texts
from saywright.understanding.working import Working

_REACH = 3  # utterances of mere talk that a change of mind reaches back over
_DO = frozenset({"do", "does", "did", "will", "would"})
_HAVE = frozenset({"has", "have"})
_TOO = frozenset({"too", "also", "both", "well"})  # "as well"
_ANEW = IT | ONLY | {"i", "we", "the", "there", "he"}  # begins what is said behind a short denial
_DOUBT = frozenset({"actually", "hang", "hold", "wait", "no", "nope"})
_PLACED = frozenset({"on", "at", "in", "where", "round", "inside", "outside", "end", "side", "now"})
_LEADS_DOING = IS | {"i", "we", "will", "would", "am", "going", "to", "better", "might", "as", "well"}


def just_said(work: Working) -> list[Statement]:
    """What still holds of the last utterance, over such as only change a mind; [] where it told nothing."""
    for group in reversed(work.before.recent[-_REACH:]):
        holding: list[Statement] = [
            s for s in group if s.id not in work.gone and not isinstance(s, Remark | Correction)
        ]
        if holding or not all(type(s) is Remark and _is_turn(s) for s in group):
            return holding
    return []


def turned_before(work: Working) -> bool:
    """ "no that's wrong" … "twelve point six": the last utterance only took back the one before it."""
    last = work.before.recent[-1] if work.before.recent else ()
    return bool(last) and type(last[0]) is Remark and all(type(s) is Remark and _is_turn(s) for s in last)


def left_open_before(work: Working, fact: Fact) -> bool:
    """ "eleven, no, hang on" … "twelve": the last value was left open, and *fact* is of no other part."""
    last = work.before.recent[-1] if work.before.recent else ()
    read = [s for s in last if type(s) is Reading and s.id not in work.gone]
    if not read or all(f.kind != FlagKind.CORRECTION_UNCLEAR for f in read[-1].flags):
        return False
    parts = {c for s in fact.subjects if not s.pronoun for c in s.components}
    which = {w for s in fact.subjects for w in s.which}
    return parts <= {read[-1].component} and which <= {read[-1].which}


def _is_turn(remark: Remark) -> bool:
    words = remark.heard.split()
    begins = word_texts(words[0]) if words else ()
    if begins and begins[0] not in BEGIN:
        return False  # most talk does not even begin like it
    texts = tuple(token.text for token in tokenise(words))
    return only_turns(texts) or (not remark.reason and made_excuse(texts))


def opens_with_doubt(work: Working, begin: int) -> bool:
    """ "actually, I'll replace it", "hang on, I'll …": weaker than a no."""
    at, _ = read_turn(work.texts, 0, begin)
    return not _DOUBT.isdisjoint(work.texts[:at]) and _LEADS_DOING.issuperset(work.texts[at:begin])


def turned_at_head(work: Working, fact: Fact) -> bool:
    """ "no, it's clear", "sorry, the seat's out": a change of mind opens the talk, or was all of the last."""
    begin = min([fact.phrase.start, *(s.start for s in fact.subjects)])
    return turns(work.texts, 0, begin) or (turned_before(work) and begin <= 1)


def paused_at_head(work: Working, fact: Fact) -> bool:
    """ "hang on, it's free"."""
    at, _ = read_turn(work.texts, 0, fact.phrase.start)
    return at > 0 and (IT | IS).issuperset(work.texts[at : fact.phrase.start])


def restate(
    work: Working, fact: Fact, before: Sequence[Statement], made: Sequence[Statement], *, marked: bool
) -> None:
    """What was *made* of *fact* takes the place of what it is told instead of.

    *before* is what was told of it in the same utterance; *marked* where a correction was announced.
    """
    if _adds(work, fact):
        if not _DOUBT.isdisjoint(work.texts[:1]):
            _hold_once(work, fact, made)
        return
    if fact.kind == "finding" and says_after_all(work.texts):
        _after_all(work, fact, made)
        return
    if fact.kind == "finding" and _PLACED.isdisjoint(work.texts) and not did_something(work, fact):
        _deny_at_once(work, fact, made)
    turned = turned_at_head(work, fact)
    if fact.kind == "doing":
        turned = turned or opens_with_doubt(work, min([fact.phrase.start, *(s.start for s in fact.subjects)]))
    moved = marked and fact.kind == "finding"  # "no sorry, it's the trailing one that's pitted"
    if not turned and not moved and not (fact.kind == "finding" and paused_at_head(work, fact)):
        return
    near = [s for s in before if not isinstance(s, Remark | Correction)] or just_said(work)
    for new in made:
        old = [s for s in near if s.id not in work.gone and _gives_way(work, s, new, (turned, moved))]
        if old:
            work.supersede([s.id for s in old], new.id, 0, fact.phrase.end)
            if isinstance(new, ConditionNote):
                _decline(work, [s for s in old if type(s) is ActionNote])
                _deny(work, [s for s in old if type(s) is ConditionNote], new)


def _hold_once(work: Working, fact: Fact, made: Sequence[Statement]) -> None:
    """ "Left disc's scored", "actually they both are": what was said of the left holds once."""
    for old in just_said(work):
        again = [s for s in made if type(s) is type(old) and own_fields(s) == own_fields(old)]
        if again:
            work.supersede([old.id], again[0].id, 0, fact.phrase.end)


def _after_all(work: Working, fact: Fact, made: Sequence[Statement]) -> None:
    """ "The seat isn't pitted after all": of that part what was told last that cannot hold beside it."""
    if did_something(work, fact):
        return  # "loosened it, it's free after all"
    for new in (s for s in made if isinstance(s, ConditionNote)):
        for group in (work.out, *reversed(work.before.recent)):
            if any(_worked_on(s, new) for s in group):
                break  # "nipped it up and it's dry after all": as it is left
            old = [
                s
                for s in group
                if s.id not in work.gone and s is not new and s.stage == new.stage
                if _gives_way(work, s, new, (type(s) is ActionNote, False))
            ]
            if old:
                work.supersede([s.id for s in old], new.id, 0, fact.phrase.end)
                _decline(work, [s for s in old if type(s) is ActionNote])
                break


def _deny_at_once(work: Working, fact: Fact, made: Sequence[Statement]) -> None:
    """ "Pad's cracked", and right behind it "no crack, it's just dirt": what was found there is not so."""
    for new in (s for s in made if isinstance(s, ConditionNote) and not s.present):
        spec = work.sheet.get(new.component) if new.component is not None else None
        one = spec is not None and (new.which is not None or spec.count == 1)
        told = {**own_fields(new), "present": True, "severity": None}
        old = [
            s.id
            for s in just_said(work)
            if isinstance(s, ConditionNote) and {**own_fields(s), "severity": None} == told
            if s.stage == new.stage and s.id not in work.gone
        ]
        if one and old and not any(_worked_on(s, new) for s in work.out):
            work.supersede(old, new.id, 0, fact.phrase.end)


def _worked_on(statement: Statement, new: ConditionNote) -> bool:
    if not isinstance(statement, ActionNote):
        return False
    return statement.status == "done" and statement.component == new.component


def _adds(work: Working, fact: Fact) -> bool:
    """ "actually both are pitted", "no, it's cracked as well": what was said before holds too."""
    several = any(s.selector or s.many for s in fact.subjects)
    texts = work.texts
    if several or _TOO.isdisjoint(texts):
        return several
    return any(t in _TOO and (t != "well" or texts[at - 1] == "as") for at, t in enumerate(texts))


def _gives_way(work: Working, old: Statement, new: Statement, how: tuple[bool, bool]) -> bool:
    """True where *old* cannot hold beside *new*, said with a change of mind or as a correction."""
    turned, moved = how
    if not isinstance(old, AboutAPart) or not isinstance(new, AboutAPart):
        return False
    same = old.component == new.component and (old.which == new.which or None in (old.which, new.which))
    match old, new:
        case ConditionNote(), ConditionNote():
            alike = old.condition == new.condition
            if not same:
                return (turned or moved) and alike and old.present == new.present
            if alike:
                return old.present != new.present or turned
            other = _is_good(work, old) != _is_good(work, new)
            return old.present and new.present and (turned or other)
        case ActionNote(), ConditionNote():
            return same and turned and old.status == "proposed" and new.present and _is_good(work, new)
        case ActionNote(), ActionNote():
            alike = old.action == new.action
            return turned and (alike != same or old.status != new.status) and (same or alike)
        case Movement(), Movement():
            return turned and (old.movement == new.movement) != same
    return False


def _is_good(work: Working, note: ConditionNote) -> bool:
    spec = work.sheet.get_condition(note.condition)
    return spec is not None and spec.good


def _decline(work: Working, actions: Sequence[ActionNote]) -> None:
    """ "needs replacing" … "no, it's fine"."""
    for old in actions:
        fields = {**own_fields(old), "status": "declined"}
        work.put(work.make(ActionNote, 0, len(work.texts), flags=old.flags, stage=old.stage, **fields))


def _deny(work: Working, found: Sequence[ConditionNote], new: ConditionNote) -> None:
    """ "The seat's pitted" … "no it isn't, it's fine": it is fine, and it is not pitted."""
    if "not" not in work.texts:
        return
    at, _ = read_turn(work.texts, 0, len(work.texts))
    end, verb = _short_denial(work.texts, at)
    for old in found if at and verb in IS else ():
        if old.present and old.condition != new.condition:
            fields = {**own_fields(old), "present": False, "severity": None}
            work.put(work.make(ConditionNote, 0, end, flags=old.flags, stage=old.stage, **fields))


def not_so(work: Working, told: Told) -> None:
    """ "No it isn't", "hang on, it doesn't", "no, not yet": the last thing said is denied or withdrawn."""
    if "not" not in work.texts:
        return
    at, turned = read_turn(work.texts, 0, len(work.texts))
    end, verb = _short_denial(work.texts, at)
    rest = [text for text in work.texts[end:] if text not in PAUSES]
    if not at or not end or (rest and (told.facts or verb in _DO or rest[0] not in _ANEW)):
        return
    near = [s for s in just_said(work) if isinstance(s, AboutAPart | Unclear)]
    if not near:
        return
    last = near[-1]
    if isinstance(last, ConditionNote) and last.present and (verb in IS or verb in _HAVE):
        changed: dict[str, object] = {"present": False, "severity": None}
    elif isinstance(last, ActionNote) and last.status == "proposed" and verb in _DO | IS:
        changed = {"status": "declined"}
    elif turned and (verb in IS | _HAVE | {"yet"}) and not isinstance(last, ConditionNote):
        work.supersede([last.id], None, 0, end)
        not_moved(work, [last])
        return
    else:
        return
    fields = {**own_fields(last), **changed}
    fresh = work.make(type(last), 0, end, flags=last.flags, stage=last.stage, **fields)
    work.put(fresh)
    work.supersede([last.id], fresh.id, 0, end)


def _short_denial(texts: Sequence[str], at: int) -> tuple[int, str]:
    """The token behind "it isn't", "I haven't" or "not yet" at token *at*, and its verb; (0, "") for none."""
    said = texts[at : at + 3]
    if said[:2] == ("not", "yet"):
        return at + 2, "yet"
    person = said[:1] in {("i",), ("we",)} and said[1:2] in {("have",), ("did",)}
    if len(said) < len(("it", "is", "not")) or said[2] != "not" or not (said[0] in IT or person):
        return 0, ""
    return at + 3, "have" if person else said[1]
