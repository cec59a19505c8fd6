"""Rules, hearsay and memories: "card says three mil", "you bin them at two point eight", "he runs ten".

It reaches from its words to the end of the clause; a clause that tells of the part in hand begins anew.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from saywright.quantity import parse_value
from saywright.sheets.model import Sheet
from saywright.understanding.aside.guessed import THINKS, is_guessed
from saywright.understanding.aside.own_clauses import own_begin, tells_of_it
from saywright.understanding.aside.somebodys import CUES, is_somebodys
from saywright.understanding.aside.would_be import would_happen
from saywright.understanding.bench_words import SOURCES, WORKSHOP
from saywright.understanding.facts import Fact
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.quantities.plausible import is_plausible
from saywright.understanding.tokens import BREAK

_QUOTES: Final = frozenset(
    ["says", "say", "said", "wants", "want", "allows", "allow", "gives", "give", "quotes", "quote", "reckons",
     "reckon", "asks", "ask", "calls", "states", "recommends", "recommend", "specifies", "tells", "permits"]
)  # fmt: skip
_RECALLS: Final = frozenset({"remember", "recall", "whose", "reminds"})
_OUGHT: Final = frozenset({"should", "ought"})
_OTHERS: Final = frozenset(
    ["neighbour", "neighbor", "mate", "brother", "cousin", "dad", "father", "uncle", "friend", "bloke",
     "chap", "fella", "lad", "boss", "gaffer", "farmer", "lads",
     "customer", "customers", "owner", "owners"]
)  # fmt: skip
_MEN: Final = _OTHERS | {"man", "guy", "mechanic", "fitter", "idiot", "fool", "fellow", "girl", "woman"}
_OWNERS_HERE: Final = frozenset({"customer", "customers", "owner", "owners"})
_NO_JOB: Final = (WORKSHOP - {"mill", "press", "lathe"}) | {"request", "advice", "orders", "word", "yard"}
_JOB_CARDS: Final = frozenset({"card", "cards", "sheet", "sheets", "notes", "paperwork", "papers"})
_HAVE: Final = frozenset({"has", "had", "have", "runs", "ran", "got", "bought"})
_DOES_HIS: Final = frozenset(
    {"does", "sets", "torques", "runs", "keeps", "tightens", "nips", "fits", "winds"}
)
_MARKED: Final = frozenset({"marked", "stamped", "rated", "labelled", "labeled", "nominally"})
_CUES: Final = (
    _QUOTES
    | _RECALLS
    | _OUGHT
    | _OTHERS
    | _MARKED
    | {"we", "they", "his", "her", "their"}
    | {"because", "since", "otherwise", "cos", "or", "how"}
    | {"when", "you", "he", "she", "used", "never", "not", "going", "according", "my"}
    | {"man", "guy", "mechanic", "fitter", "idiot", "fool", "fellow"}
    | THINKS
    | CUES
)
_READ_HERE: Final = frozenset({"get", "got", "make", "measure", "measured", "read", "have", "see", "find"})
_WE: Final = frozenset({"we", "they", "you", "i"})
_IT: Final = frozenset({"it", "them", "these", "those", "that"})
_WHEN_NEW_OR_DONE: Final = {
    ("it", "left"), ("they", "left"), ("was", "new"), ("were", "new"), ("was", "made"), ("were", "made"),
    *(("you", verb) for verb in ("throw", "bin", "chuck", "change", "scrap", "replace", "worry", "renew")),
}  # fmt: skip
_GOING_BY: Final = {("going", "by"), ("according", "to")}
_OWNERS: Final = frozenset({"my", "his", "her", "their"})
_OLDER: Final = {("old", "one"), ("last", "one"), ("other", "one")}
_ENDS: Final = frozenset({BREAK, "but", "so", "though", "because"})
_ANEW: Final = frozenset(
    {"i", "we", "it", "this", "that", "these", "they", "mine", "ours", "here", "the", "there"}
)
_OWN: Final = frozenset({"is", "was", "got", "have", "get", "make", "makes", "measures", "reads", "read"})
_I: Final = frozenset({"i", "we"})
_HELPS: Final = frozenset(
    {"can", "could", "will", "would", "may", "might", "just", "still", "even", "really", "do"}
)
_TRIES: Final = frozenset({"try", "use", "let", "leave", "go", "run", "put", "start", "get", "heat", "force"})
_DOES: Final = frozenset(
    ["burn", "bend", "crack", "split", "strip", "break", "chip", "dent", "tear", "snap", "score", "scratch",
     "stretch", "melt", "twist", "crush", "squash", "round"]
)  # fmt: skip
# What one sees is there: "you can feel the ridge".
_PERCEIVED: Final = frozenset(
    ["see", "feel", "hear", "tell", "smell", "know", "think", "make", "get", "read", "spot", "catch",
     "believe", "look", "mean", "say", "rock", "move", "put", "shake", "wobble", "are", "were", "not",
     "imagine", "call"]
)  # fmt: skip
_COMPARES: Final = frozenset({"what", "than", "whatever"})
_OF_PERSONS: Final = frozenset({"is", "was", "makes", "made", "and", "gets", "got", "read", "reads"})


def hearsay(fact: Fact, texts: Sequence[str], sheet: Sheet) -> str:
    """Why *fact* only tells of a rule, of what others say or of another time; "" where it does not."""
    if fact.kind == "photo" or _CUES.isdisjoint(texts):
        return ""
    start = fact.phrase.head.start if fact.phrase.head is not None else fact.phrase.start
    clause = max(_clause(texts, start), own_begin(texts, start) or 0)
    before = texts[clause:start]
    measured = fact.kind == "value"
    if (measured and _read_after_all(before)) or ("telling", "you") in pairwise(before):
        return ""  # "no, I'm telling you a lie, it's three point four"
    quoted = _ought(before, fact) or (fact.kind in {"value", "finding"} and quotes(before))
    quoted = quoted or (fact.kind == "doing" and _told_by_book(fact, texts, start))
    quoted = quoted or (
        fact.kind in {"off", "on"} and quotes(before)
    )  # "manual wants the nut taken off first"
    quoted = quoted or (measured and _quoted_behind(texts[fact.phrase.end :]))
    quoted = quoted or (measured and _says_there(before, texts[fact.phrase.end :]))
    quoted = quoted or (
        measured and _marked(before, texts[fact.phrase.end :]) and not _is_stamped(fact, sheet)
    )
    quoted = quoted or (measured and is_guessed(texts[_clause(texts, start) : start], sheet))
    if quoted:
        return "quoted limit"
    if (fact.kind == "doing" and _of_another(before)) or _on_theirs(texts):
        return "another job or time"
    told = texts[start : fact.end]
    theirs = _of_theirs(before) or (fact.kind != "value" and is_somebodys(before, told))
    if theirs or _recalled(before) or _of_older(before) or (measured and _of_a_person(before)):
        return "another job or time"
    if would_happen(fact, texts, start) or ("is", "how") in pairwise(before):
        return "what would happen"
    verb = start if fact.kind == "doing" else start - 3 if measured and texts[start - 3 : start - 2] else 0
    if verb > 0 and texts[verb] not in _OWN and _is_done_at(texts, verb):
        return "quoted limit"
    warning = fact.kind == "finding" and _is_warning(before, texts[start])
    return "what one does" if warning or _what_one_does([*before, texts[start]], fact) else ""


def _read_after_all(before: Sequence[str]) -> bool:
    """ "should be four thou it's actually six": the speaker's own number behind the one that is quoted."""
    quoted = next((i for i, text in enumerate(before) if text in CLASSES), len(before))
    pairs = pairwise(before[quoted + 1 :])
    return any(who in _ANEW and verb in _OWN for who, verb in pairs)


def _clause(texts: Sequence[str], start: int) -> int:
    """Where the clause of the token *start* begins."""
    at = start
    while at and not _begins_clause(texts, at):
        at -= 1
    return at


def _begins_clause(texts: Sequence[str], at: int) -> bool:
    if texts[at - 1] in _ENDS:
        return True
    return texts[at - 1] == "and" and texts[at] in _ANEW


def _ought(before: Sequence[str], fact: Fact) -> bool:
    """ "should prime in under ten", "it should spin freely": how it ought to be."""
    at = next((i for i, text in enumerate(before) if text in _OUGHT), None)
    if at is None:
        return False
    if fact.kind not in {"value", "finding"}:  # "should be flush", not "should be cleaned"
        return fact.kind == "doing" and fact.phrase.meaning.acts[0].form == "base" and before[-1] == "be"
    return not (at and before[at - 1] in _I) and tuple(before[at + 1 : at + 2]) != ("have",)


def quotes(before: Sequence[str]) -> bool:
    """ "card says", "the sheet wants", "the maker allows"."""
    pairs = pairwise(before)
    return any(source in SOURCES and verb in _QUOTES for source, verb in pairs)


def _quoted_behind(behind: Sequence[str]) -> bool:
    """ "half a litre, the book reckons", "three thou, says the card", "eleven, going by the plate"."""
    behind = behind[1:] if behind[:1] == ("is",) else behind
    if behind[:1] == ("when",) and _WHEN_NEW_OR_DONE & set(pairwise(behind[1:4])):
        return True  # "a ten when it left the factory", "two is when you throw it away"
    end = next((i for i, text in enumerate(behind) if text in _ENDS), len(behind))
    said = [text for text in behind[:end] if text not in {"the", "a", "it", "max"}]
    if not CLASSES.keys().isdisjoint(said):
        return False  # "five thou, the book says six"
    if not _COMPARES.isdisjoint(said):
        return False  # "past what the card allows", "over what it says in the book"
    pairs = list(pairwise(said))
    told = any(
        (one in SOURCES and other in _QUOTES) or (one in _QUOTES and other in SOURCES) for one, other in pairs
    )
    return told or any(pair in _GOING_BY and SOURCES & set(said) for pair in pairs)


def _says_there(before: Sequence[str], behind: Sequence[str]) -> bool:
    """ "it says thirteen point seven on the sheet": where it is written."""
    where = tuple(behind[:3])
    written = where[:1] in {("on",), ("in",)} and not SOURCES.isdisjoint(where[1:])
    return written and ("it", "says") in pairwise(before)


def _marked(before: Sequence[str], behind: Sequence[str]) -> bool:
    """ "it's marked six, I get five point eight": what it ought to be, where what it is is told behind."""
    if "rated" in before[-2:-1] and before[-1] in {"at", "to", "for"}:
        return True  # "it's rated to ninety bar"
    if _MARKED.isdisjoint(before[-1:]):
        return False
    read = (at + 2 for at, (who, verb) in enumerate(pairwise(behind)) if who in _I and verb in _READ_HERE)
    return any(not CLASSES.keys().isdisjoint(behind[at : at + 2]) for at in read)


def _of_older(before: Sequence[str]) -> bool:
    """ "my old one was ten": not the one on the bench."""
    return any(text in _OWNERS and tuple(before[at + 1 : at + 3]) in _OLDER for at, text in enumerate(before))


def _recalled(before: Sequence[str]) -> bool:
    """ "i remember a horse box whose linings were down to half", "he used to run ten thou"."""
    for at, text in enumerate(before):
        behind = before[at + 1 : at + 2]
        if text in _RECALLS and tuple(behind) not in {("to",), ("now",), ("the",)}:
            return True
        if text == "used" and tuple(behind) == ("to",) and at and before[at - 1] not in {"is", "are", "was"}:
            return True
    return False


def _what_one_does(said: Sequence[str], fact: Fact) -> bool:
    """ "you work it in and out", "you bin them at two point eight"; not "you can see the crack"."""
    measured, moves = fact.kind == "value", fact.kind in {"off", "on"}
    if moves and said[-1] in {"is", "are"}:
        return False  # "… so you don't catch it, there, the horn's off"
    at = next((i for i, text in enumerate(said) if text == "you"), None)
    if at is None or (fact.kind == "finding" and tells_of_it(said[at:])):
        return False
    if measured and any(one in _I and two in _OWN for one, two in pairwise(said[at:])):
        return False  # "you push that, I make that eighty five"
    verb = at + 1
    while verb < len(said) and (said[verb] in _HELPS or said[verb : verb + 2] == ["never", "know"]):
        verb += 1  # "you never know"; "you never see them worn" tells nothing of this one
    if verb >= len(said) or (said[verb] in _PERCEIVED and not moves):
        return False
    if said[verb] in {"have", "had"} and not {"could", "would"} & set(said[at + 1 : verb]):
        return False  # "you've a crack there"
    if said[verb] in {"need", "see", "know"} or (said[verb] == "want" and not measured):
        return False
    return not (at and said[at - 1] in {"as", "like", "thank", "if", "what", "tell", "told", "show", "give"})


def _is_stamped(fact: Fact, sheet: Sheet) -> bool:
    """ "Stamped one twenty, I get one thirty": a size that is read off a part; both are told of."""
    measure = fact.phrase.measure
    if measure is None or measure.unit_said is not None:
        return False
    sizes = [c for part in sheet.component for c in part.characteristic if c.allowed]
    return any(is_plausible(c, parse_value(r.value)) for c in sizes for r in measure.readings)


def _is_done_at(texts: Sequence[str], start: int) -> bool:
    """ "we change it at two", "they scrap them at one point five": the limit."""
    led = texts[max(0, start - 1) : start]
    at = tuple(texts[start + 2 : start + 3]) == ("at",) and not _IT.isdisjoint(texts[start + 1 : start + 2])
    return bool(led) and led[0] in _WE and at and not CLASSES.keys().isdisjoint(texts[start + 3 : start + 4])


def _is_warning(before: Sequence[str], state: str) -> bool:
    """ "never try to burn the oil off", "do not bend it": what nobody ought to do."""
    said = [*before, state]
    opens = said[:1] == ["never"] or said[:2] == ["do", "not"]
    verb = next((text for text in said[1:] if text not in {"not", "ever", "you"}), "")
    return opens and verb in _TRIES | _DOES


def _of_theirs(before: Sequence[str]) -> bool:
    """ "the neighbour has one just like it with a bore of …": another one than this here."""
    if any(verb in _DOES_HIS and his in _OWNERS - {"my"} for verb, his in pairwise(before)):
        return True  # "Dave next door does his carrier bolts to ninety"
    pairs = zip(before, before[1:], before[2:], strict=False)
    return any(who in _OTHERS and verb in _HAVE and one in {"one", "his", "hers"} for who, verb, one in pairs)


def _told_by_book(fact: Fact, texts: Sequence[str], start: int) -> bool:
    """ "the book says renew them every year": a rule; what the job card says is to be done."""
    if any(s.end == start - 1 for s in fact.subjects):
        return False  # "throttle plate wants cleaning"
    return start > 1 and texts[start - 1] in _QUOTES and texts[start - 2] in SOURCES - _JOB_CARDS


def _of_another(before: Sequence[str]) -> bool:
    """ "a bloke I worked with honed every one he saw": not here."""
    said = [text for text in before if text not in {"and", "so", "well"}]
    return len(said) > 1 and said[0] in {"a", "an", "some"} and not _MEN.isdisjoint(said[1:3])


def _on_theirs(texts: Sequence[str]) -> bool:
    """ "on the neighbour's trailer they were replaced": another job."""
    said = [text for text in texts[:6] if text not in {"and", "so", "well"}]
    if said[:1] not in (["on"], ["in"], ["at"]) or len(said) < 4:
        return False
    there = said[4:5] and said[4] not in _NO_JOB
    return bool(there) and said[2] in _OTHERS - _OWNERS_HERE and said[3] == "is" and _I.isdisjoint(said)


def _of_a_person(before: Sequence[str]) -> bool:
    """ "he runs half a mil": a person's, none that was measured here."""
    at = next((i for i in range(len(before) - 1, -1, -1) if before[i] in {"he", "she"}), None)
    if at is None or at + 1 >= len(before):
        return False
    return before[at + 1] not in _OF_PERSONS and before[at + 1].endswith("s")
