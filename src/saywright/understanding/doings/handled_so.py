""" "Hold it up against the new one", "give it a twist", "push the boot out of the way": only handled. Pure.

Where a part is put to look at it, how it is held, that it is let back: it is neither off nor on by that.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import SWITCHED
from saywright.understanding.doings.only_worked import begin_of, object_at, starts
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Calls, Tokens
from saywright.understanding.tokens import BREAK, text_at, words_of

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

Rule = Callable[[Tokens, list[str], "Discourse", "Lexicon"], Tokens]


_GIVES: Final = words_of("give gave giving given")
_GIVEN: Final = words_of("twist rattle pinch bend squeeze knock flick shake")
_HOLDS: Final = words_of("hold held holding keep keeping kept")
_HELD: Final = words_of("pushed pressed pulled held pinned")
_WAYS: Final = words_of("in back down up over open shut")
_MOVES: Final = words_of(
    "push pushed pull pulled move moved swing swung bend bent fold folded tie tied hook hooked slide slid "
    "shove lift lifted turn turned tip tipped flip flipped roll rolled stand stood put"
)
_ASIDE: Final = (
    ("out", "of", "the", "way"), ("out", "of", "my", "way"), ("to", "one", "side"), ("aside",),
    ("upside", "down"), ("on", "its", "side"),
)  # fmt: skip
_PUTS: Final = words_of("put putting lay laid laying set hold held holding stick stuck place placed compare")
_HANDS: Final = words_of("hand hands palm fingers")
_HOLDERS: Final = words_of("jaws blocks glass centres centers chuck marble rag bag tin cloth envelope")
_BESIDE: Final = (
    ("next", "to"), ("up", "against"), ("against",), ("alongside",), ("beside",), ("up", "next", "to"),
    ("up", "to"),
)  # fmt: skip
_NEW: Final = (("the", "new", "one"), ("a", "new", "one"), ("the", "new", "ones"), ("a", "new", "un"))
_TRIES: Final = words_of("pinch stretch twist flex rattle")
_PRESSES: Final = words_of("pressure vacuum suction blue load tension")
_COMES: Final = words_of("come go spring slide")
_ITSELF: Final = (("on", "its", "own"), ("by", "itself"), ("slowly",), ("gently",), ("again",))
_TOPS: Final = words_of("cap lid top")
_POTS: Final = words_of("pen marker tin jar can bottle paraffin thinners tub biro flask")
_SOON: Final = 2  # tokens from what is pressed to its value
_ENDS: Final = frozenset({"", BREAK, "and", "for", "so"})


def _given(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Give it a twist": it is not bent by that; "give it a rattle": nor loose."""
    for at, text in enumerate(texts):
        end = object_at(texts, at + 1, lexicon)[0] if text in _GIVES else 0
        if not end or text_at(texts, end) != "a":
            continue
        noun = end + 1 + (starts(texts, end + 1, (("bit", "of", "a"), ("good",), ("quick",), ("little",))))
        if text_at(texts, noun) in _GIVEN and text_at(texts, noun + 1) != "with":
            return (*tokens[: begin_of(texts, at)], *tokens[at + 1 : end], *tokens[noun + 1 :])
    return tokens


def _held_so(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Hold it back with my thumb", "keep the plunger pushed in"."""
    for at, text in enumerate(texts):
        end = object_at(texts, at + 1, lexicon)[0] if text in _HOLDS else 0
        way = end + (text_at(texts, end) in _HELD)
        if end and text_at(texts, way) in _WAYS and text_at(texts, way + 1) in _ENDS | {"with", "while"}:
            return (*tokens[: begin_of(texts, at)], *tokens[at + 1 : end], *tokens[way + 1 :])
    return tokens


def _aside(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Push the boot out of the way", "turn the bowl upside down"."""
    for at, text in enumerate(texts):
        end = object_at(texts, at + 1, lexicon)[0] if text in _MOVES | _HOLDS else 0
        size = starts(texts, end, _ASIDE) if end else 0
        if size:
            return (*tokens[: begin_of(texts, at)], *tokens[at + 1 : end], *tokens[end + size :])
    return tokens


def _put_to_look(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Put it in my hand", "hold it up against the new one", "lay it out on the bench"."""
    for at, text in enumerate(texts):
        end = object_at(texts, at + 1, lexicon)[0] if text in _PUTS else 0
        if not end:
            continue
        beside = starts(texts, end, _BESIDE)
        new = starts(texts, end + beside, _NEW) if beside else 0
        to = end + beside + new if new else _where_end(texts, end)
        if to:
            return (*tokens[: begin_of(texts, at)], *tokens[at + 1 : end], *tokens[to:])
        if texts[end : end + 2] == ["out", "on"]:
            return (*tokens[:end], *tokens[end + 1 :])
    return tokens


def _where_end(texts: list[str], at: int) -> int:
    """The end of "in my hand", "on the vee blocks" at *at*; 0 where it is none."""
    if text_at(texts, at) not in {"in", "on", "between", "into", "onto"}:
        return 0
    own = text_at(texts, at + 1) in {"my", "your", "his"}
    if own and text_at(texts, at + 2) in _HANDS:
        return at + 3
    near = range(at + 1, min(at + 4, len(texts)))
    return next((i + 1 for i in near if texts[i] in _HOLDERS and text_at(texts, i + 1) in _ENDS), 0)


def _tried_so(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Pinch the hose", "stretch it a bit": an order at the head, and nothing found."""
    at = next((i for i, text in enumerate(texts) if text in _TRIES), -1)
    begin = begin_of(texts, at) if at >= 0 else -1
    if begin < 0 or text_at(texts, begin - 1) not in {"", BREAK, "and", "then", "now"}:
        return tokens
    end = object_at(texts, at + 1, lexicon)[0]
    return (*tokens[:begin], *tokens[at + 1 :]) if end and texts[at + 1] in {"the", "it", "that"} else tokens


def _pressed_on(tokens: Tokens, texts: list[str], _: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Put some pressure on the needle"; not where it is read: "put pressure on it, four bar"."""
    at = next((i for i in range(1, len(texts) - 2) if texts[i] in _PRESSES), 0)
    end = object_at(texts, at + 2, lexicon)[0] if at and texts[at + 1] in {"on", "to"} else 0
    if not end or not CLASSES.keys().isdisjoint(texts[end : end + _SOON]):
        return tokens
    verb = next((i for i in range(max(0, at - 4), at) if texts[i] in {"put", "putting", "get", "got"}), -1)
    some = {*texts[verb + 1 : at]} <= {"some", "a", "bit", "of", "little", "the", "more"}
    return (*tokens[: begin_of(texts, verb)], *tokens[at + 2 :]) if some and verb >= 0 else tokens


def _let_back(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Let the rod back", "let it come back on its own"."""
    for at, text in enumerate(texts):
        end, parts = object_at(texts, at + 1, lexicon) if text in {"let", "letting"} else (0, frozenset())
        if not end or (state.off and (not parts or any(state.off.get(part) for part in parts))):
            continue
        way = end + (text_at(texts, end) in _COMES)
        if text_at(texts, way) not in {"back", "up", "down"}:
            continue
        to = way + 1 + starts(texts, way + 1, _ITSELF)
        if text_at(texts, to) in _ENDS:
            return (*tokens[: begin_of(texts, at)], *tokens[at + 1 : end], *tokens[to:])
    return tokens


def _slack_taken(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Take up the slack in the cable": how it is held then."""
    at = next((i for i in range(2, len(texts) - 1) if texts[i] in {"slack", "play"}), 0)
    taken = at and tuple(texts[max(0, at - 3) : at]) in {("take", "up", "the"), ("took", "up", "the")}
    if not taken or texts[at + 1] not in {"in", "on", "of"}:
        return tokens
    return (*tokens[: begin_of(texts, at - 3)], *tokens[at + 2 :])


def _cap_of_a_pen(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Put the cap back on the marker": no cap of the job."""
    pot = next((i for i in range(4, len(texts)) if texts[i] in _POTS), 0)
    way = next((i for i in range(max(0, pot - 3), pot) if texts[i] in {"on", "off"}), 0)
    noun = way - 1 - (text_at(texts, way - 1) == "back")
    if (
        not way
        or noun < 2
        or texts[noun] not in _TOPS
        or texts[noun - 2] not in {"put", "take", "took", "get"}
    ):
        return tokens
    return (*tokens[: begin_of(texts, noun - 2)], *tokens[pot + 1 + (text_at(texts, pot + 1) == BREAK) :])


def _switched_on(tokens: Tokens, texts: list[str], _: Discourse, __: Lexicon) -> Tokens:
    """ "Switch the pump on": it is not fitted by that."""
    for at in range(len(texts) - 3):
        if texts[at] not in {"switch", "switched", "turn", "turned"} or texts[at + 1] != "the":
            continue
        runs = texts[at + 2] in SWITCHED | {"pump", "compressor", "fan", "machine"}
        if runs and texts[at + 3] in {"on", "off"} and text_at(texts, at + 4) in _ENDS:
            return (*tokens[: begin_of(texts, at)], *tokens[at + 1 : at + 3], *tokens[at + 4 :])
    return tokens


RULES: Final[Calls[Rule]] = Calls(
    (_put_to_look, _PUTS),
    (_given, _GIVES),
    (_held_so, _HOLDS),
    (_aside, {"way", "side", "aside", "upside"}),
    (_tried_so, _TRIES),
    (_pressed_on, _PRESSES),
    (_let_back, {"let", "letting"}),
    (_slack_taken, {"slack", "play"}),
    (_cap_of_a_pen, _POTS),
    (_switched_on, {"switch", "switched", "turn", "turned"}),
)


def handled_so(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without such handling; the part stays named."""
    return RULES.put(tokens, lambda rule, said: rule(said, [token.text for token in said], state, lexicon))
