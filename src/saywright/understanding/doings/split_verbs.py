"""Verbs said around their object: "take the bowl off" means what "take off the bowl" means."""

from __future__ import annotations

from saywright.understanding.around import Around
from saywright.understanding.bench_words import NEUTRAL, PARTICLES, PLAIN, WORKSHOP
from saywright.understanding.doings.move_verbs import plain_forms
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.tokens import BREAK
from saywright.understanding.wordforms import is_past

_NOT_SPLIT = frozenset({"STAGE", "PHOTO", "FILLER", "MAKE_THAT"})  # "put it back together" moves no part
_NO_VERBS = NEUTRAL | PLAIN
_PRONOUNS = frozenset({"it", "that", "them", "this", "these", "those"})
_OBJECTS = _PRONOUNS | {"the", "both", "all"}
_PLAIN = plain_forms()
_CLAUSE_ENDS = frozenset({BREAK, "and", "is", "am", "but", "no"})
_WAYS = frozenset((text,) for text in PARTICLES - {"through"})
_BEFORE_WAY = frozenset({("back",), ("all",), ("both",)})
_IDLE_PARTICLES = frozenset({"out", "off", "up", "down"})
_OWN_PARTICLES = PARTICLES - {"back"}
_ARTICLES = frozenset({"the", "a", "an", "my"})
_SPLIT_REACH = 6  # tokens between a verb and its particle


def join_split_verbs(texts: tuple[str, ...], lexicon: Lexicon) -> tuple[dict[int, Meaning], tuple[str, ...]]:
    """ "take the bowl off": the verb gets the meaning of "take off", the particle is blanked."""
    joined: dict[int, Meaning] = {}
    words = list(texts)
    for at, text in enumerate(texts):
        if text in lexicon.doings:
            _blank_colours(words, texts, at, lexicon)
        apart = text in lexicon.splittable or text in _PLAIN
        verb = _verb_here(texts, at, lexicon) if apart else ""
        if not verb:
            continue
        for to in range(at + 2, min(at + 2 + _SPLIT_REACH, len(texts))):
            if texts[to - 1] in _CLAUSE_ENDS or "RESTORE" in lexicon.names(texts, to).tags:
                break  # "put the screw back where it was" fits nothing
            if (
                to > at + 1
                and is_past(texts[to - 1])
                and lexicon.table.get(texts[to - 1 : to + 1], NOTHING).acts
            ):
                break  # "cleaned, blown out": the particle of the other verb
            if texts[to] not in PARTICLES or not words[to] or _fills(texts, at, to):
                continue
            if (
                _laid_aside(texts, to, lexicon)
                or _is_washed(texts, to, lexicon)
                or _in_a_while(texts, to, lexicon)
                or _rolled(texts, at, to, lexicon)
                or texts[to : to + 2] == ("back", "together")
            ):
                break  # "put these back together": a stage
            if to > at + 1 and _in_name(texts, to, lexicon):
                continue  # "split it, pop off is fourteen": the sheet's own word
            length, meaning = _verb_with_particle(verb, texts, to, lexicon)
            if length:
                joined[at] = meaning
                for blank in range(to, to + length):
                    words[blank] = ""
                break
    return joined, tuple(words)


def _verb_here(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> str:
    """The form, with which particles are known, of the verb at *at*; "" where it stands apart from none."""
    text = texts[at]
    plain = _PLAIN.get(text, "") if _OBJECTS.intersection(texts[at + 1 : at + 2]) else ""
    if plain and (texts[at - 1 : at] == ("to",) or not _object_ends(texts, at + 1, lexicon)):
        plain = ""  # "had to drift it out": as the particle tells
    if not plain and text not in lexicon.splittable:
        return ""
    if _NOT_SPLIT & lexicon.names(texts, at).tags or texts[at + 1 : at + 2] == ("at",):
        return ""  # "look at that crust all over the bottom"
    named = _in_name(texts, at, lexicon) and not (plain and texts[at + 1] in _PRONOUNS)
    if named or _is_ahead(texts, at, lexicon) or _is_no_verb(texts, at, lexicon):
        return ""  # "slide pins back in", "going to need two seals on order"
    return plain or text


def _object_ends(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where a particle stands right behind the object at *at*: "hook that out", "press the bush in"."""
    end = at + 1
    if texts[at] not in _PRONOUNS or texts[end : end + 1] not in _WAYS:
        found = lexicon.match(texts, end) if end < len(texts) and texts[end] else None
        if found is None or not (found[1].parts or found[1].aliases):
            return False
        end += found[0]
    return texts[end : end + 1] in _WAYS


def _blank_colours(words: list[str], texts: tuple[str, ...], at: int, lexicon: Lexicon) -> None:
    """ "polish that out" takes nothing out: such particles of the action at *at* are blanked."""
    for particle in (_polishes_out(texts, at), _colours(texts, at, lexicon)):
        if particle is not None and (texts[at], texts[particle]) not in lexicon.table:
            words[particle] = ""


def _in_a_while(texts: tuple[str, ...], to: int, lexicon: Lexicon) -> bool:
    """ "I'll give it a going over in a minute": when."""
    return texts[to + 1 : to + 2] == ("a",) and "FILLER" in lexicon.names(texts, to).tags


def _laid_aside(texts: tuple[str, ...], to: int, lexicon: Lexicon) -> bool:
    """ "put a gasket on the parts list", "the cover in the bath", "back in tray": no place on the job."""
    if texts[to + 1 : to + 2] != ("the",):
        bare = tuple(texts[to + 1 : to + 3])
        return bare[:1] != () and bare[0] in WORKSHOP and bare[1:] in {(), (BREAK,), ("and",)}
    place = texts[to + 2 : to + 3]
    if texts[to + 3 : to + 4] == ("list",) or place == ("list",):
        return True
    names = lexicon.names(texts, to + 2)
    return not WORKSHOP.isdisjoint(place) and not (names.parts or names.aliases)


def _is_washed(texts: tuple[str, ...], to: int, lexicon: Lexicon) -> bool:
    """ "put it in the parts washer": what is done to it there, and nothing is fitted."""
    found = lexicon.match(texts, to)
    return found is not None and found[0] > 2 and bool(found[1].acts)


def _rolled(texts: tuple[str, ...], at: int, to: int, lexicon: Lexicon) -> bool:
    """ "rolled the rod on the surface plate": to see or to make it straight; no part is fitted there."""
    if not texts[at].startswith("roll") or texts[to : to + 1] != ("on",):
        return False
    if texts[to + 1 : to + 2] not in (("the",), ("a",), ("some",)) or len(texts) < to + 3:
        return False
    names = lexicon.names(texts, to + 2)
    return not (names.parts or names.aliases)


def _in_name(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """True where the word at *at* belongs to the name of a part, or is one that a particle stands behind."""
    alone = lexicon.table.get((texts[at],), NOTHING)
    way = at + 1
    while alone.parts and texts[way : way + 1] in _BEFORE_WAY:
        way += 1
    if alone.parts and texts[way : way + 1] in {("in",), ("on",), ("off",), ("out",)}:
        return True  # "slide in, spring in", "slides all back in"
    for start in range(max(0, at - 2), at + 1):
        found = lexicon.match(texts, start) if texts[start] else None
        if found is None or start + found[0] <= at:
            continue
        if found[1].parts or found[1].characteristics:
            return True
        behind = lexicon.names(texts, start + found[0]) if found[1].positions else NOTHING
        if behind.parts or behind.aliases:
            return True  # "driven rear bush pressed in"
    return False


def _is_no_verb(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """ "the slide hammer on it": a noun; "slides freely": how it is."""
    found = lexicon.match(texts, at)
    state = found is not None and found[0] > 1 and bool(found[1].conditions)
    whole = lexicon.table.get(texts[at : at + 2], NOTHING)
    particle = texts[at + 1] if at + 1 < len(texts) else ""
    if particle in _OWN_PARTICLES and (whole.acts or whole.tags & {"MOVE_OFF", "MOVE_ON"}):
        return True  # "cable hooked up, cap on": it has its particle
    some = texts[at + 1 : at + 2] == ("of",)  # "drop of oil on the spindle"
    return state or some or (at > 0 and texts[at - 1] in _ARTICLES) or _has_its_object(texts, at, lexicon)


def _has_its_object(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """ "new gasket fitted, both carbs on": what was fitted stands before the verb."""
    folded = texts[at + 1 : at + 2] == ("back",) and is_past(texts[at])  # "tab knocked back, nut off"
    if not folded and texts[at] not in {"fitted", "refitted", "installed", "removed", "hung"}:
        return False
    found = ((start, lexicon.match(texts, start)) for start in range(max(0, at - 3), at) if texts[start])
    return any(m is not None and start + m[0] == at and (m[1].parts or m[1].aliases) for start, m in found)


def _is_ahead(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    """ "going to": no verb of movement."""
    found = lexicon.match(texts, at)
    return found is not None and found[0] > 1 and bool(found[1].tags & {"NEED", "FUTURE"})


def _colours(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int | None:
    """ "swap that solenoid out": the particle behind the object of a doing moves nothing by itself."""
    if texts[at + 1 : at + 2] not in (("the",), ("that",), ("this",), ("both",), ("those",)):
        return None
    noun = at + 2
    found = lexicon.match(texts, noun) if noun < len(texts) and texts[noun] else None
    if found is None or not (found[1].parts or found[1].aliases):
        return None
    behind = noun + found[0]
    return behind if texts[behind : behind + 1] in (("out",), ("up",), ("down",)) else None


def _polishes_out(texts: tuple[str, ...], at: int) -> int | None:
    """ "polish that out": the particle behind an action and a pronoun only colours the action."""
    rest = texts[at + 1 : at + 3]
    return at + 2 if len(rest) == 2 and rest[0] in _PRONOUNS and rest[1] in _IDLE_PARTICLES else None


def _fills(texts: tuple[str, ...], at: int, to: int) -> bool:
    """ "put twelve mil of oil in the left leg": an amount goes in somewhere; no part is fitted."""
    return texts[at + 1] in CLASSES and texts[to] in {"in", "on"} and texts[to + 1 : to + 2] == ("the",)


def _verb_with_particle(verb: str, texts: tuple[str, ...], to: int, lexicon: Lexicon) -> tuple[int, Meaning]:
    for length in (3, 2, 1):
        particle = texts[to : to + length]
        if len(particle) < length or (
            to + length < len(texts)
            and length == 1
            and lexicon.table.get(texts[to + 1 : to + 2], NOTHING).parts
        ):
            continue
        meaning = lexicon.table.get((verb, *particle))
        if meaning is not None and (meaning.acts or meaning.tags & {"MOVE_OFF", "MOVE_ON"}):
            return length, meaning
    return 0, NOTHING


def split_kind(meaning: Meaning) -> str:
    """The kind of tag that a verb joined with its particle gets."""
    if meaning.acts:
        return "ACT"
    return "OFF" if "MOVE_OFF" in meaning.tags else "ON"


def leads_one(around: Around, at: int) -> bool:
    """ "all four in, the stripped one's swapped" without the comma: one of them, by its state, is next."""
    if around.text(at) != "the" or at + 2 >= len(around.texts):
        return False
    found = around.lexicon.match(around.texts, at + 1) if around.texts[at + 1] not in {"", BREAK} else None
    told = found is not None and bool(found[1].conditions or found[1].positions)
    return told and found is not None and around.text(at + 1 + found[0]) in {"one", "ones"}


def of_unknown_verb(around: Around, at: int, following: int) -> bool:
    """A bare "off" or "out" behind a verb that nobody knows and its pronoun."""
    if around.texts[at:following] not in {("out",), ("off",)} or len(around.out) < 3:
        return False
    begins, verb, it = around.out[-3:]
    meant = around.texts[begins.end - 1] in {"me", "us", "to", "will"}
    known = verb.tags or around.texts[verb.start] in _NO_VERBS
    return it.kind == "PRON" and verb.kind == "WORD" and not known and meant
