"""Whether a doing is proposed, done or declined: by its verb form, its helping words, its place."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from saywright.understanding.bench_words import PREPOSITIONS
from saywright.understanding.doings.narrated import is_narrated
from saywright.understanding.doings.turned_down import is_turned_down
from saywright.understanding.facts import Fact
from saywright.understanding.statements import Status
from saywright.understanding.tokens import BREAK, words_of

_AHEAD = frozenset(
    ["go", "goes", "going", "will", "want", "wants", "need", "needs", "gets", "get", "can", "let"]
)
_NOT_THOUGHT = frozenset(("not", verb) for verb in ("think", "reckon", "believe", "feel"))
_NEEDS = frozenset({"need", "needs", "want", "wants", "requires"})
_ANEW = frozenset({"is", "are", "was", "so", "but", "and"})  # "I do not think it is right so it needs …"
_WILL = frozenset({"will", "must", "should", "can", "may"})
_AS_A_RULE = frozenset({"always", "invariably", "routinely"})
_AWAITED = frozenset({"once", "until", "till"})
_HAVE = frozenset({"has", "have"})
_DROP = frozenset({"drop", "chuck", "pop", "stick", "bung", "shove", "dunk"})  # "drop the body in the dip"
_DENIES = frozenset({"not", "never"})
_GOES_IN = _DROP | frozenset({"put", "putting", "leave", "leaving", "go", "going", "throw"})
_CLAUSE_BEGINS = frozenset({BREAK, "and", "but", "so", "because", "then"})
_BINS = frozenset({"bin", "skip", "scrap"})
_WENT = frozenset({"went", "been", "put", "gone", "is", "are", "dropped", "chucked", "popped", "was", "were"})
_CAN = frozenset({"can", "will", "should", "may", "would", "not"})
_GET = frozenset({"get", "gets"})
_PAYS = ("pay", "paying", "want", "wanting", "having", "bothered", "worth")
_ON_AGAIN = frozenset({("and", "back"), ("and", "in"), ("and", "on")})
_BE_SO = frozenset({"is", "are", "turns", "moves", "spins", "runs", "slides"})
_WHO = frozenset({"it", "they", "that", "we", "i", "you"})
_INSTEAD = frozenset({("instead", "of"), ("rather", "than")})
_DONE_THEN = frozenset([("that", "is", "done"), ("it", "is", "done"), ("they", "are", "done")])
_RAN = frozenset({"ran", "used", "passed", "rubbed"})
_ALONG = frozenset({"a", "an", "the", "some", "my"})  # "ran a file along it"
_SOME_TIME = frozenset({"a", "an", "its", "their", "the", "good", "long", "quick"})
_LASTING = frozenset({"soak", "steep", "drain", "dry", "cool"})  # needs no hand
_DECIDED = frozenset({"reuse", "replace", "scrap"})  # "we use that one again": what is to be
_LEFT = frozenset({"it", "them", "that", "those", "these", "both", "the"})
_NOT_DONE_TO = words_of("need needs want wants wanted have has going will would tried not got")
_COMES = frozenset({"the", "a", "next", "my", "our", "for", "all", "what"})
_OBJECT = 4  # tokens of what is done to: "it", "the left slide"
_UNDONE = frozenset({"not", "never", "nobody", "he", "she", "they", "somebody", "whoever"})
_DID_REACH = 6  # tokens of "we took the time to"
_ENDED = frozenset([("ended", "up"), ("am", "done"), ("are", "done"), ("done", "with")])
_I_SEE = tuple(("and", "i", "can", verb) for verb in ("see", "feel", "hear"))
_SEE_REACH = 6  # tokens from the verb to what came of it
_NOW_REACH = 4  # tokens from "it is" to "now"
_REACH = 8  # tokens before "in the dip" that tell whether it is there yet


def status_of(fact: Fact, form: str, texts: Sequence[str], *, order: bool) -> Status:
    """The status of the doing *fact* with a verb in *form*; *order* where a part has to be had for it."""
    status = action_status(form, fact.aux)
    if status == "declined":
        instead = form == "base" and tuple(texts[fact.phrase.start : fact.phrase.start + 2]) == ("no", "just")
        return "proposed" if instead else status  # "a new one? no, just soak it"
    head = fact.phrase.head
    start = head.start if head is not None else fact.phrase.start
    if status == "proposed" and (
        _not_thought(texts[max(0, start - _REACH) : start]) or _turned_down(texts[fact.phrase.end :])
    ):
        return "declined"
    if texts[start] == "leave" or texts[max(0, start - 2) : start] in _INSTEAD:
        return "declined"  # "the rear one I'd leave", "lapped it instead of replacing it"
    if (form == "base" and _was_purpose(texts, start)) or _was_done(fact, form, texts, start):
        return "done"
    if (form == "past" and _is_passive(fact, texts, start)) or _is_what_comes(form, texts, fact.phrase.end):
        return "proposed"  # "they all get changed", "they'll both be changed", "are always renewed"
    at_place = texts[start] in PREPOSITIONS or texts[start : start + 2] == ("out", "of")  # "out of the bath"
    if form == "base" and (at_place or "on" in texts[max(0, start - 1) : start]):
        return _by_place(texts, start, order=order)
    squirt = form == "base" and "NEED" not in fact.aux and "of" in texts[start : fact.phrase.end]
    bare = form == "base" and not order and not fact.aux
    over = texts[fact.phrase.end : fact.phrase.end + 1] == ("done",) or _is_behind(texts, start)
    so_now = bare and (over or _is_so_now(texts[fact.phrase.end :]) or _is_told(fact, texts, start))
    if squirt or so_now:
        return "done"  # "a squirt of cleaner through it", "clean it up and it's free now"
    under_way = (form == "ing" and not _is_over(texts, start)) or "being" in texts[max(0, start - 1) : start]
    return "proposed" if order and under_way and status == "done" else status


def _is_behind(texts: Sequence[str], start: int) -> bool:
    """ "Came out after a soak", "clear after its clean": what was over by then."""
    before = tuple(t for t in texts[max(0, start - 3) : start] if t not in _SOME_TIME)
    return before[-1:] == ("after",)


def _is_over(texts: Sequence[str], start: int) -> bool:
    """ "I finished changing it", "ended up replacing both", "spent an hour renewing them"."""
    before = texts[max(0, start - _REACH) : start]
    last = before[-1:] in {("finished",), ("been",)} or tuple(before[-2:]) in _ENDED
    return (last or "spent" in before) and not {"i", "we"}.isdisjoint(before) and "not" not in before


def _is_passive(fact: Fact, texts: Sequence[str], start: int) -> bool:
    """ "they all get changed", "they'll both be changed", "are always renewed"."""
    get = not _GET.isdisjoint(texts[max(0, start - 2) : start])
    ahead = (
        not _WILL.isdisjoint(texts[max(0, fact.phrase.start - 3) : start])
        and "be" in texts[start - 1 : start]
    )
    ahead = ahead or _is_awaited(texts[max(0, fact.phrase.start - _REACH) : start])
    ruled = not _AS_A_RULE.isdisjoint(texts[max(0, start - 2) : start])
    return get or ahead or (ruled and "DONE" not in fact.aux)


def _was_done(fact: Fact, form: str, texts: Sequence[str], start: int) -> bool:
    """ "it's been straighten": its ending was not heard; "had to file the ends off"."""
    after = texts[fact.phrase.end :]
    if "NEED" in fact.aux and _is_done_then(after):
        return True  # "it only needed cleaning and that's done"
    been = form == "base" and texts[max(0, fact.phrase.end - 2) : fact.phrase.end - 1] == ("been",)
    been = been or (form == "base" and _goes_on_moved(fact, texts))
    return been or _did_so(texts[max(0, start - _DID_REACH) : start + 1])


def _did_so(before: Sequence[str]) -> bool:
    """ "had to clean", "managed to lap", "took the time to hone", "I did wash": all is done."""
    said = set(pairwise(before))
    if ("had", "to") in set(pairwise(before[-4:])):
        return True
    took_time = ("time", "to") in said and "took" in before
    if (took_time or ("managed", "to") in said) and _UNDONE.isdisjoint(before):
        return True
    return before[-2:-1] == ("did",) and before[-3:-2] in {("i",), ("we",)}


def _is_done_then(after: Sequence[str]) -> bool:
    """ "… and that's done", "… so I did"; not "… when that's done"."""
    joined = (i + 1 for i, text in enumerate(after) if text in {"and", "so", BREAK})
    return any(after[i : i + 2] == ("i", "did") or after[i : i + 3] in _DONE_THEN for i in joined)


def _was_purpose(texts: Sequence[str], start: int) -> bool:
    """ "ran a file along it to deburr it", "I just left it to soak": what was done to that end."""
    if texts[start - 1 : start] != ("to",) or texts[start - 2 : start - 1] == ("order",):
        return False
    begin = next((i + 1 for i in range(start - 1, -1, -1) if texts[i] in _CLAUSE_BEGINS), 0)
    clause = texts[begin : start - 1]
    if not _NOT_DONE_TO.isdisjoint(clause):
        return False
    at = next((i for i, text in enumerate(clause) if text in _RAN or text == "left"), None)
    if at is None:
        return False
    by_me = at > 0 and clause[at - 1] in {"i", "we", "just", "have", "had"}
    by_me = by_me or (at == 0 and clause[1:2] in {("it",), ("them",), ("those",), ("that",)})
    if clause[at] == "left":
        return by_me and texts[start] in _LASTING and not _LEFT.isdisjoint(clause[at + 1 : at + 2])
    return (by_me or at == 0) and not _ALONG.isdisjoint(clause[at + 1 : at + 2])


def _is_what_comes(form: str, texts: Sequence[str], end: int) -> bool:
    """ "soaking it is the only hope", "measuring the slides is the next job": not done yet."""
    if form != "ing":
        return False
    at = next((i for i in range(end, min(len(texts), end + _OBJECT)) if texts[i] in {"is", "are"}), None)
    return at is not None and BREAK not in texts[end:at] and not _COMES.isdisjoint(texts[at + 1 : at + 2])


def _is_so_now(after: Sequence[str]) -> bool:
    """ "… and it's free now", "… they're clear now": what came of it."""
    see = next((i for i in range(min(len(after), _SEE_REACH)) if after[i : i + 4] in _I_SEE), None)
    if see is not None:
        return True  # "blow the jet through and I can see daylight"
    at = next((i for i, text in enumerate(after) if text == "now"), 0)
    before = after[max(0, at - _NOW_REACH) : at]
    if at and after[at - 1] == "and":  # "I bend it a hair and now we have twenty one"
        return not _WHO.isdisjoint(after[at + 1 : at + 2])
    return bool(at) and not _BE_SO.isdisjoint(before) and not {"it", "they", "that"}.isdisjoint(before)


def _is_told(fact: Fact, texts: Sequence[str], start: int) -> bool:
    """ "I clean it and grease its pins": told as it is done; not "we use that one again"."""
    decided = any(act.id in _DECIDED for act in fact.phrase.meaning.acts)
    return not decided and is_narrated(texts, start, fact.phrase.end)


def _is_awaited(before: Sequence[str]) -> bool:
    """ "once it has been", "when I have": what has to be done first."""
    at = next((i for i in range(len(before) - 1, -1, -1) if before[i] in _AWAITED), None)
    if at is None or _HAVE.isdisjoint(before[at:]) or not _ANEW.isdisjoint(before[at:]):
        return False
    return not _CAN.isdisjoint(before[:at])


def _goes_on_moved(fact: Fact, texts: Sequence[str]) -> bool:
    """ "strainer wash out and back on": it is on again, so the ending of the verb was not heard."""
    named = fact.subjects and fact.subjects[-1].end == fact.phrase.start and fact.subjects[-1].components
    return bool(named) and not fact.aux and tuple(texts[fact.phrase.end : fact.phrase.end + 2]) in _ON_AGAIN


def _not_thought(before: Sequence[str]) -> bool:
    """ "I do not think the stem needs replacing"."""
    at = next((i for i, pair in enumerate(pairwise(before)) if pair in _NOT_THOUGHT), len(before))
    between = set(before[at + 2 :])
    return "worth" in between or (bool(between & _NEEDS) and not between & _ANEW)


def _turned_down(after: Sequence[str]) -> bool:
    """ "I'd replace it but the customer said no", "… but he won't pay"."""
    if is_turned_down(after):
        return True
    if "but" not in after:
        return False
    behind = after[after.index("but") + 1 :]
    pairs = set(pairwise(behind))
    return ("said", "no") in pairs or ("says", "no") in pairs or any((("not", v) in pairs) for v in _PAYS)


def _by_place(texts: Sequence[str], start: int, *, order: bool) -> Status:
    """ "goes in the dip", "it's been through the wash", "on order": whether it is there yet."""
    before = set(texts[max(0, start - _REACH) : start])
    if order and "list" in texts[start : start + 4]:
        return "proposed"
    if not before.isdisjoint(_DENIES) and _is_kept_out(texts[:start]):
        return "declined"
    bath = (
        texts[start] == "into"
        and texts[min(start + 2, len(texts) - 1)] not in _BINS
        and _WENT.isdisjoint(texts[max(0, start - 2) : start])
    )
    bath = bath or (texts[start] == "out" and bool(before & {"when", "once", "until", "till"}))
    if (
        texts[start] == "for"
        or bath
        or before & (_AHEAD | _DROP)
        or (order and before & {"put", "putting", "stick"})
    ):
        return "proposed"
    if order and texts[start : start + 3] == ("on", "the", "order"):
        return "done" if before & {"is", "are", "been"} else "proposed"
    return "done"


def _is_kept_out(before: Sequence[str]) -> bool:
    """ "do not put it in the washer", "it is not going in the dip"; not "it is not clean, in the dip"."""
    begin = next((i for i in range(len(before), 0, -1) if before[i - 1] in _CLAUSE_BEGINS), 0)
    return any(one in _DENIES and verb in _GOES_IN for one, verb in pairwise(before[begin:]))


def action_status(form: str, aux: frozenset[str]) -> Status:
    """Whether an action is proposed, done or declined, by its verb form and helping words."""
    if aux & {"DECLINE", "NEG"} and not (aux <= {"COP", "DONE"}):
        return "declined"
    if "GIVEN" in aux:
        return "done"
    return "proposed" if "NEED" in aux or form in {"base", "noun"} else "done"
