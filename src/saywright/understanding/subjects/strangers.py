"""Nouns that the sheet does not know, of which or in which something was found."""

from __future__ import annotations

from saywright.understanding.bench_words import (
    AWAY,
    FASTENERS,
    FLUIDS,
    IS,
    NEUTRAL,
    NO_NAME,
    PLACES_ON_IT,
    PLAIN,
)
from saywright.understanding.phrases import Phrase
from saywright.understanding.walk import Walk

_VERB_ENDS = ("s", "ed", "ing")  # "rear drags": no noun
_SHORTEST = 4  # letters of a noun
_DETERMINERS = frozenset({"either", "neither", "each", "any", "every"})  # "no cracks in either pad"
BESIDE_IT = frozenset({("behind",), ("under",), ("above",), ("below",), ("beside",), ("round",), ("around",)})
_ON_AIR = frozenset({"line", "airline", "gun", "hose"})
_OF_THE_SHOP = frozenset(
    ["compressor", "workshop", "bench", "ultrasonic", "garage", "shop", "pillar", "parts", "inspection",
     "extension", "trolley", "wash"]
)  # fmt: skip
_SHOP_THINGS = frozenset(
    ["lamp", "torch", "chuck", "kettle", "stool", "trolley", "magnifier", "loupe", "vernier", "gun"]
)  # fmt: skip
_POINTS = frozenset({"the", "this", "that", "my", "our", "these", "those"})
_CONTENTS = 3  # phrases: "fluid in the bowl"
_PLACE_REACH = 7  # phrases from what was found to the part that its place is of


def _strange_noun(walk: Walk, index: int) -> Phrase | None:
    """ "the case is filthy": a noun with its article that the sheet does not know, and no place on a part."""
    phrase, noun = walk.phrases[index], walk.before(index)
    if noun is None or noun.end != phrase.start:
        return None
    if _is_of_the_bench(walk, index, noun):
        return noun
    if noun.kind != "word" or noun.tags:
        return None
    word = walk.texts[noun.start]
    lead = walk.phrases[index - 2] if index > 1 else None
    many = word.endswith("s") and "COP" in phrase.aux_tags  # "outlet flaps aren't sealing"
    placed = lead is not None and lead.end == noun.start and (many or not word.endswith(_VERB_ENDS))
    placed = placed and lead is not None and any(tag.meaning.positions for tag in lead.lead)
    if _in_run(walk, index, noun):
        return noun
    said_so = "COP" in phrase.aux_tags or placed  # "rear kneel slides freely": of no part that is known
    if not said_so or not word.isalpha() or word in NEUTRAL or word.endswith("ly"):
        return None
    article = lead is not None and lead.kind == "lead" and any("DET" in tag.tags for tag in lead.lead)
    if placed or (article and lead is not None and lead.end == noun.start):
        return noun
    at = index - 2
    while at >= 0 and walk.phrases[at].kind == "word" and _is_noun(walk, walk.phrases[at]):
        at -= 1  # "backing plate's rusty"
    before = walk.phrases[at] if at >= 0 else None
    if _begins_it(walk, at, index) and word not in PLACES_ON_IT:
        return noun  # "the compressor hose is leaking"
    told = before is not None and before.kind == "finding" and before.end == walk.phrases[at + 1].start
    opens = before is None or before.kind == "break" or told  # "case is filthy", "hard grease is fine"
    opens = opens or (at == 0 and before is not None and "PREP" in before.tags)  # "in pillar is clogged"
    return noun if opens and word not in PLACES_ON_IT else None


def _is_of_the_bench(walk: Walk, index: int, noun: Phrase) -> bool:
    """ "that nineteen socket's cracked", "the air line's leaking", "this vice is getting stiff"."""
    phrase = walk.phrases[index]
    said_of = "COP" in phrase.aux_tags or walk.texts[phrase.start] in IS
    if noun.kind == "mark" and noun.tags == {"TOOL"} and said_of:
        return True
    if noun.kind == "word" and noun.tags == {"KNOWN"} and walk.texts[noun.start] == "split":
        return True  # "split pin is missing": of a fastener that no part is called
    return said_of and _is_of_the_shop(walk, index - 1)


def _begins_it(walk: Walk, at: int, index: int) -> bool:
    """True where the article at phrase *at* begins a name of words that nothing here knows."""
    lead = walk.phrases[at] if 0 <= at < index - 2 else None
    if lead is None or lead.kind != "lead" or lead.end != walk.phrases[at + 1].start:
        return False
    return any("DET" in tag.tags for tag in lead.lead)


def _is_of_the_shop(walk: Walk, at: int) -> bool:
    """True where phrase *at* ends the name of what stands in a workshop: "the parts washer"."""
    noun, word = walk.phrases[at], walk.texts[walk.phrases[at].end - 1]
    if noun.kind == "doing":
        return noun.end - noun.start > 1 and walk.texts[noun.start] in _OF_THE_SHOP  # "the ultrasonic bath"
    if noun.kind != "word" or (noun.tags and noun.tags != {"KNOWN"}):
        return False
    if noun.tags:
        return word in _ON_AIR  # "the air line's"
    before = walk.texts[max(0, noun.start - 2) : noun.start]
    bench = not _OF_THE_SHOP.isdisjoint(before[-1:])
    owned = not _POINTS.isdisjoint(before[-1:])
    return bench or (owned and word in AWAY | _SHOP_THINGS)


def _strange_beside_it(walk: Walk, index: int) -> Phrase | None:
    """ "the bracket behind it is cracked": a noun that the sheet does not know, by what is in hand."""
    if index < _CONTENTS or "COP" not in walk.phrases[index].aux_tags:
        return None
    noun, link, it = walk.phrases[index - _CONTENTS : index]
    if walk.texts[it.start : it.end] != ("it",) or walk.texts[link.start : link.end] not in BESIDE_IT:
        return None
    together = noun.end == link.start and link.end == it.start
    before = walk.phrases[index - _CONTENTS - 1] if index > _CONTENTS else None
    opens = before is None or before.kind in {"lead", "break"} or "AND" in before.tags
    known = noun.kind != "word" or noun.tags or walk.texts[noun.start] in PLACES_ON_IT | NO_NAME
    return noun if together and opens and not known and _is_noun(walk, noun) else None


def _in_run(walk: Walk, index: int, noun: Phrase) -> bool:
    """ "disc worn lever bent": a noun that the sheet does not know between two states, each of its own."""
    before, word = walk.phrases[index - 2] if index > 1 else None, walk.texts[noun.start]
    if before is None or before.kind != "finding" or before.end != noun.start or len(word) < _SHORTEST:
        return False
    return word.isalpha() and word not in NO_NAME | PLAIN and not word.endswith((*_VERB_ENDS, "ly"))


def _is_noun(walk: Walk, phrase: Phrase) -> bool:
    """A word that nothing here knows and that may name a thing."""
    word = walk.texts[phrase.start]
    return not phrase.tags and word.isalpha() and word not in NEUTRAL and not word.endswith("ly")


def _strange_place(walk: Walk, index: int) -> Phrase | None:
    """ "sand in the case": the noun that something was found in, where the sheet does not know it."""
    if walk.current or _of_a_part(walk, index):
        return None
    rest = [p for p in walk.phrases[index + 1 : index + 4] if p.kind != "lead"]
    if len(rest) < 2 or walk.texts[rest[0].start] not in {"in", "on", "inside"}:
        return None
    noun, word = rest[1], walk.texts[rest[1].start]
    known = noun.kind != "word" or noun.tags or word in NO_NAME or not word.isalpha()
    return None if known or word in _DETERMINERS else noun


def _of_a_part(walk: Walk, index: int) -> bool:
    """ "marks on the inlet side of the housing": the place is one of a part that is named."""
    behind = walk.phrases[index + 1 : index + 1 + _PLACE_REACH]
    at = next((i for i, p in enumerate(behind) if p.kind == "link" and "OF" in p.tags), len(behind))
    placed = at < len(behind) - 1 and behind[at + 1].kind == "subject"
    return placed and at > 0 and "PLACE" in behind[at - 1].tags


def stranger_at(walk: Walk, index: int) -> Phrase | None:
    """The noun that the sheet does not know of which, or in which, something was found."""
    noun = _strange_noun(walk, index)
    if noun is None and index and walk.texts[walk.phrases[index - 1].start] == "it":
        noun = _strange_beside_it(walk, index)
        return noun or _strange_place(walk, index) or _strange_object(walk, index)
    if noun is None:
        return _strange_place(walk, index) or _strange_object(walk, index)
    on_bench = walk.texts[noun.start] in AWAY or "TOOL" in noun.tags or _is_of_the_shop(walk, index - 1)
    return None if _held_behind(walk, index) and not on_bench else noun


def is_of_no_part(walk: Walk, index: int, stranger: Phrase | None) -> bool:
    """ "that nineteen socket's cracked"; "fluid in the front one is black", where the sheet has no fluid."""
    if stranger is not None and (walk.texts[stranger.start] in AWAY or "TOOL" in stranger.tags):
        return True
    if stranger is not None and _is_of_the_shop(walk, index - 1) and walk.before(index) is stranger:
        return True
    phrase = walk.phrases[index]
    if index < _CONTENTS or phrase.kind != "finding" or "COP" not in phrase.aux_tags:
        return False
    noun, link, place = walk.phrases[index - _CONTENTS : index]
    if walk.texts[link.start : link.end] not in {("in",), ("in", "the")} or place.end != phrase.start:
        return False
    opens = index == _CONTENTS or walk.phrases[index - _CONTENTS - 1].kind not in {"subject", "char", "word"}
    inside = place.kind in {"subject", "lead"} and noun.kind == "word" and noun.end == link.start
    return opens and inside and walk.texts[noun.start] in FLUIDS


def strange_object_of(walk: Walk, index: int) -> Phrase | None:
    """ "races cleaned out": the noun before a doing that opens the talk, where the sheet does not know it."""
    noun, after, phrase = walk.before(index), walk.after(index), walk.phrases[index]
    if noun is not None and _behind_a_row(walk, index, noun):
        return noun
    opens = index == 1 or (index > 1 and walk.phrases[index - 2].kind == "break")
    if noun is None or noun.kind != "word" or noun.tags or noun.end != phrase.start or not opens:
        return None
    word = walk.texts[noun.start]
    plain = not word.isalpha() or word in NO_NAME or word.endswith("ly") or len(word) < _SHORTEST
    known = plain or walk.current or phrase.meaning.acts[0].form != "past"
    return None if known or (after is not None and after.kind in {"subject", "lead"}) else noun


def _behind_a_row(walk: Walk, index: int, noun: Phrase) -> bool:
    """ "new needle, old lever, pin screw nipped up": a fastener that no part of the row is called."""
    done = walk.phrases[index].meaning.acts[0].form == "past" and noun.end == walk.phrases[index].start
    row = len(walk.current) > 1 and not walk.used and any(s.age is not None for s in walk.current)
    return done and row and noun.kind == "word" and walk.texts[noun.start] in FASTENERS


def _held_behind(walk: Walk, index: int) -> bool:
    """ "the seal's weeping on the left hub": what holds the noun is named behind the state."""
    link, behind = walk.after(index), walk.after(index + 1)
    if link is None or behind is None or "AND" in link.tags:
        return False  # "the case is cracked and the seal's gone"
    return (link.kind, behind.kind) == ("link", "subject")


def _strange_object(walk: Walk, index: int) -> Phrase | None:
    """ "broke the bracket": the noun behind a verb, where the sheet does not know it."""
    lead, noun = walk.after(index), walk.after(index + 1)
    if (
        walk.current
        or lead is None
        or noun is None
        or lead.kind != "lead"
        or noun.kind != "word"
        or noun.tags
    ):
        return None
    word = walk.texts[noun.start]
    together = walk.phrases[index].end == lead.start and lead.end == noun.start
    article = any("DET" in tag.tags for tag in lead.lead)
    known = word in NO_NAME or not word.isalpha()
    return noun if together and article and not known else None
