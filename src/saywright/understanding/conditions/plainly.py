"""States by other words, as plain ones: "any holes, no", "its free now", "half the beach in it". Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import FLUIDS, LUBRICANTS, PARTICLES
from saywright.understanding.conditions.in_float import OF_FLOAT, in_float
from saywright.understanding.discourse import Discourse
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Calls, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

_NO: Final = frozenset({"no", "nope", "nah", "none"})
_ASKED: Final = frozenset(
    {BREAK, "in", "it", "there", "them", "at", "all", "on", "that", "?", "or", "either"}
)
_NO_ANSWER: Final = frozenset({"more", "worse", "less", "wonder", "doubt", "idea", "way", "matter"})
_ASKED_REACH: Final = 6  # tokens between what is asked for and the answer
_GOES_ON: Final = frozenset({"now", "again", "at", "and", "but", "in", "on", "as", "so", "", BREAK, "too"})
_OPENS: Final = frozenset(["", BREAK, "and", "but", "so", "way", "though", "because", "then", "think", "see"])
_IN: Final = frozenset({"in", "inside"})
_IT: Final = frozenset({"it", "them", "there", "that", "him", "her", "", BREAK})
_NAIL_REACH: Final = 6  # tokens from "no groove" to "catch"
_NO_MATTER: Final = frozenset({BREAK, "but", "and", "doubt", "wonder", "question", "way", "wait"})
_CATCHES: Final = frozenset({"catches", "finds", "feels", "picks", "snags", "drops"})
_NO_NAIL: Final = frozenset(("nothing", whose) for whose in ("my", "the", "a", "your"))
_MARKED: Final = frozenset(
    ["scoring", "scored", "scratch", "scratches", "scratched", "groove", "grooves", "grooved", "mark",
     "marks", "line", "lines", "scuffed", "scuffs", "ridge"]
)  # fmt: skip
_FELT: Final = frozenset({"catch", "feel", "catches"})
_MARKS: Final = frozenset({"one", "something", "mark", "line", "groove", "scratch"})
_NAILS: Final = frozenset({"nail", "fingernail"})
_SNAGS: Final = frozenset({"catches", "catch", "snags", "snag"})
_WHOSE: Final = frozenset({"my", "your", "the", "a"})
_OF: Final = 3  # tokens of "a bit of"
_PIECES: Final = frozenset({"bit", "piece", "lump", "slab", "sheet", "block"})
_FULL: Final = frozenset({("caked", "in"), ("caked", "with"), ("full", "of"), ("packed", "with")})
_NO_DIRT: Final = frozenset(
    ["it", "them", "that", "the", "fuel", "oil", "water", "air", "fluid", "petrol", "gas", "diesel", "holes",
     "grease", "life", "beans", "surprises", "himself", "this", "a", "an", "new", "clean", "fresh", "hot",
     "cold", "hell"]
)  # fmt: skip
_FLUIDS: Final = FLUIDS | LUBRICANTS
_STUFF_WORDS: Final = 3  # tokens of "old tea leaves"
_BEHIND_STUFF: Final = frozenset(
    {BREAK, "and", "but", "so", "in", "on", "can", "look", "i", "it", "you", "that"}
)
_OLD: Final = frozenset({"old", "dead", "dried", "bits", "of", "loose", "burnt"})
_AMOUNTS: Final = CLASSES.keys() | _FLUIDS | frozenset(
    ["mil", "mm", "thou", "inch", "turn", "degree", "litre", "liter", "pint", "cup", "gallon", "tin", "can",
     "tube", "bottle", "bag", "squirt", "teaspoon", "time", "travel", "stroke", "thread", "threads", "life",
     "length", "width", "depth", "chrome", "paint", "lining", "material", "meat", "click", "ring", "hour"]
)  # fmt: skip
_COUNTED: Final = frozenset(CLASSES) | {"and"}
_PUT: Final = frozenset({"new", "goes", "went", "going", "put", "fit", "fitted"})
_CALLS: Final = frozenset({"i", "we", "would", "will", "so", "not", "do", "can", "could"})
_DOES: Final = frozenset({"i", "we", "you", "and", "then", "to", "just", "so", "but", BREAK, "will", "can"})
_SPUN: Final = frozenset({"spin", "roll", "rock", "wiggle", "feel", "flick"})
_ABOUT: Final = frozenset({"it", "them", "that", "this"})


def _words(tokens: Iterable[Token]) -> tuple[str, ...]:
    return tuple([token.text for token in tokens])


def _it_is(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "its free now": heard for "it's", where a state stands behind it and no noun."""
    texts, out = _words(tokens), list[Token]()
    for at, token in enumerate(tokens):
        state = lexicon.match(texts, at + 1) if token.text == "its" and at + 1 < len(texts) else None
        plain = state is not None and bool(state[1].conditions) and not (state[1].parts or state[1].aliases)
        opens = text_at(texts, at - 1) in _OPENS
        if state is not None and plain and opens and text_at(texts, at + 1 + state[0]) in _GOES_ON:
            out += [replace(token, text="it"), replace(token, text="is")]
        else:
            out.append(token)
    return tuple(out)


def _answered(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Any holes? no", "any play in it no": "no holes", "no play in it"."""
    texts = _words(tokens)
    at = texts.index("any")
    end = _fault_end(texts, at + 1, lexicon)
    if not end:
        return tokens
    no = end
    while no < len(texts) and no - end < _ASKED_REACH and texts[no] in _ASKED:
        no += 1
    if text_at(texts, no) not in _NO or text_at(texts, no + 1) in _NO_ANSWER:
        return tokens
    rest = tokens[no + 1 :]
    if texts[no + 1 : no + 3] == ("nor", "can"):
        rest = tokens[no + 4 :]  # "no nor can I"
    return (*tokens[:at], replace(tokens[no], text="no"), *tokens[at + 1 : no], *rest)


def _fault_end(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind the fault that is asked for at *at*; 0 where it is none."""
    if text_at(texts, at) in {"", BREAK}:
        return 0
    found = lexicon.match(texts, at)
    if found is not None and found[1].conditions and not found[1].parts:
        spec = lexicon.sheet.get_condition(found[1].conditions[-1])
        return at + found[0] if spec is not None and not spec.good else 0
    nouns = lexicon.predicates.get(texts[at], ())
    return at + 1 if any(one.noun and len(one.name) == 1 for one in nouns) else 0


def _full_of_it(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Caked in old coffee", "full of tea leaves": dirt by a name that nobody wrote down."""
    texts = _words(tokens)
    at = next((i for i in range(len(texts) - 2) if texts[i : i + 2] in _FULL), -1)
    dirt = lexicon.table.get(("full", "of", "rubbish"))
    if at < 0 or dirt is None or texts[at + 2] in _NO_DIRT or lexicon.names(texts, at).conditions:
        return tokens
    end = at + 2
    while end < len(texts) and end < at + 2 + _STUFF_WORDS and texts[end] not in _BEHIND_STUFF:
        known = texts[end] in CLASSES or lexicon.names(texts, end) != NOTHING
        if known and texts[end] not in _OLD:
            if end == at + 2 or lexicon.names(texts, end).conditions:
                return tokens  # "full of holes", "caked in old varnish"
            break
        end += 1
    if texts[at] != "caked" and not _FLUIDS.isdisjoint(texts[at + 2 : end + 1]):
        return tokens  # "full of brake fluid", "packed with lithium grease"
    return _filthy(tokens, at, end)


def _filthy(tokens: tuple[Token, ...], at: int, end: int) -> tuple[Token, ...]:
    full = [replace(tokens[at], text=word) for word in ("full", "of", "rubbish")]
    return (*tokens[:at], *full, *tokens[end:])


def _by_nail(tokens: tuple[Token, ...], _: Lexicon) -> tuple[Token, ...]:
    """ "No groove you can catch a nail in", "a mark I can feel with my nail": scoring, or none."""
    texts = _words(tokens)
    nail = texts.index("nail")
    if texts[max(0, nail - 2) : nail] in _NO_NAIL:
        return _caught_by_none(tokens, nail)
    felt = next((i for i in range(nail - 1, max(0, nail - 4), -1) if texts[i] in _FELT), 0)
    none = next((i for i in range(felt - 1, -1, -1) if texts[i] in {"nothing", "no"}), len(texts))
    if not _NO_MATTER.isdisjoint(texts[none:felt]):
        return tokens  # "no doubt I can catch a nail", "nothing outside but I can feel it with a nail"
    end = nail + 1 + (text_at(texts, nail + 1) in {"on", "in"})
    scoring = replace(tokens[felt], text="scoring")
    if 0 < felt - none <= _NAIL_REACH:
        return (*tokens[:none], replace(tokens[none], text="no"), scoring, *tokens[end:])
    noun = felt - 3  # "a mark you can feel"
    if noun < 0 or texts[noun + 1] not in {"you", "i"} or texts[noun] not in _MARKS:
        return tokens
    return (*tokens[: noun - (text_at(texts, noun - 1) == "a")], scoring, *tokens[end:])


def _caught_by_none(tokens: tuple[Token, ...], nail: int) -> tuple[Token, ...]:
    """ "Light scoring, nothing my nail catches": how slight it is; alone it is no scoring."""
    texts = _words(tokens)
    end = nail + 1 + (text_at(texts, nail + 1) in _CATCHES)
    end += text_at(texts, end) in {"in", "on", "up"}
    if not _MARKED.isdisjoint(texts[:nail]):
        return (*tokens[: nail - 2], *tokens[end:])
    none, scoring = replace(tokens[nail - 2], text="no"), replace(tokens[nail], text="scoring")
    return (*tokens[: nail - 2], none, scoring, *tokens[end:])


def _nail_catches(tokens: tuple[Token, ...], _: Lexicon) -> tuple[Token, ...]:
    """ "Fingernail catches on the shaft", "my nail doesn't catch on it": scoring on it, or none."""
    texts = _words(tokens)
    nail = next(i for i, text in enumerate(texts) if text in _NAILS)
    none = texts[nail + 1 : nail + 3] == ("does", "not")
    end = nail + 1 + 2 * none
    if text_at(texts, end) not in _SNAGS:
        return tokens
    begin = nail - (nail > 0 and texts[nail - 1] in _WHOSE)
    words = ("no", "scoring") if none else ("scoring",)
    on = (replace(tokens[end + 1], text="on"),) if text_at(texts, end + 1) in {"in", "on"} else ()
    scoring = [replace(tokens[nail], text=word) for word in words]
    return (*tokens[:begin], *scoring, *on, *tokens[end + 1 + len(on) :])


def _like_wood(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Like a bit of slate", "like a piece of old wood": the stuff it is like, as it is named."""
    texts = _words(tokens)
    at = texts.index("like")
    of = texts[at + 1 : at + 4]
    if len(of) < _OF or of[0] != "a" or of[1] not in _PIECES or of[2] != "of":
        return tokens
    end = at + 1 + _OF + (text_at(texts, at + 1 + _OF) == "old")
    told = lexicon.table.get(("like", text_at(texts, end)), NOTHING).conditions
    return (*tokens[: at + 1], *tokens[end:]) if told else tokens


def _not_one(tokens: tuple[Token, ...], _: Lexicon) -> tuple[Token, ...]:
    """ "Not one of them's rusted": none of them is."""
    texts = _words(tokens)
    at = next((i for i in range(len(texts) - 2) if texts[i : i + 3] == ("not", "one", "of")), -1)
    return tokens if at < 0 else (*tokens[:at], replace(tokens[at], text="none"), *tokens[at + 2 :])


def _half_of_it(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "half the beach in it", "half a field in there": full of dirt."""
    texts = _words(tokens)
    dirt = lexicon.table.get(("muck",), NOTHING).conditions
    for at in range(len(texts) - 3):
        if texts[at] != "half" or texts[at + 1] not in {"the", "a"} or not dirt:
            continue
        end = next((i for i in (at + 3, at + 4) if text_at(texts, i) in _IN), 0)
        if not end or text_at(texts, end + 1) not in _IT or (at and texts[at - 1] in _COUNTED):
            continue
        if any(lexicon.names(texts, i) != NOTHING or texts[i] in _AMOUNTS for i in range(at + 2, end)):
            continue
        if text_at(texts, end + 1) in _IT - {"", BREAK} and text_at(texts, end + 2) not in _OPENS:
            continue  # "half the chrome in it is gone"
        muck = [replace(tokens[at + 2], text="muck"), tokens[end]]
        behind = tokens[end + 1 :] or (replace(tokens[end], text="it"),)
        return (*tokens[:at], *muck, *behind)
    return tokens


def _put_in_wet(tokens: tuple[Token, ...], _: Lexicon) -> tuple[Token, ...]:
    """ "new seal in wet with fluid", "new gasket on dry": how it was put in."""
    texts = _words(tokens)
    put = {("in", "wet")} | ({("in", "dry"), ("on", "dry")} if not _PUT.isdisjoint(texts) else set())
    at = next((i for i in range(1, len(texts)) if texts[i - 1 : i + 1] in put), 0)
    if not at:
        return tokens
    end = at + 1
    if text_at(texts, end) == "with" and text_at(texts, end + 1) in LUBRICANTS | {"fluid", "brake", "clean"}:
        end += 2
    return (*tokens[:at], *tokens[end:])


def _called(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "So I call it scored", "I'd call that worn": it is so. "I would not call it worn": it is not."""
    texts = _words(tokens)
    for at in range(len(texts) - 3, 0, -1):
        if texts[at] != "call" or texts[at + 1] not in _ABOUT or not lexicon.names(texts, at + 2).conditions:
            continue
        if not {"i", "we"} & set(texts[:at]):
            continue
        begin = at
        while begin and texts[begin - 1] in _CALLS:
            begin -= 1
        so = ("is", "not") if "not" in texts[begin:at] else ("is",)
        border = [replace(tokens[at], text=BREAK)] if begin else []
        words = [replace(tokens[at], text=word) for word in so]
        tokens = (*tokens[:begin], *border, tokens[at + 1], *words, *tokens[at + 2 :])
    return tokens


def _spun(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Bearing spin it rough as a bear": how it is when it is tried, right behind the part."""
    texts = _words(tokens)
    for at in range(1, len(texts) - 2):
        if texts[at] not in _SPUN or texts[at + 1] not in _ABOUT or texts[at + 2] in PARTICLES:
            continue
        so = lexicon.names(texts, at + 2).conditions or texts[at + 2] in lexicon.predicates
        if so and texts[at - 1] not in _DOES:
            return (*tokens[:at], replace(tokens[at], text="is"), *tokens[at + 2 :])
    return tokens


# Word → what makes the talk plainer where it is said, in this order.
_BY_WORD: Final[tuple[tuple[str, Callable[[tuple[Token, ...], Lexicon], tuple[Token, ...]]], ...]] = (
    *((word, _spun) for word in sorted(_SPUN)),
    ("its", _it_is),
    ("any", _answered),
    ("caked", _full_of_it),
    ("full", _full_of_it),
    ("nail", _by_nail),
    ("nail", _nail_catches),
    ("fingernail", _nail_catches),
    ("like", _like_wood),
    ("one", _not_one),
    ("half", _half_of_it),
    ("wet", _put_in_wet),
    ("dry", _put_in_wet),
    ("call", _called),
)
_RULES: Final = Calls(*((rule, {rule[0]}) for rule in _BY_WORD))
_TRIGGERS: Final = _RULES.words | OF_FLOAT


@called_by(_TRIGGERS)
def states_plainly(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the plain words for states that were told by others."""
    said = {token.text for token in tokens}
    for word, plainer in _RULES.by(said):
        if word in _words(tokens):
            tokens = plainer(tokens, lexicon)
    if not OF_FLOAT.isdisjoint(said):
        tokens = in_float(in_float(tokens, lexicon, state.hand), lexicon, state.hand)  # "left …, right …"
    return tokens
