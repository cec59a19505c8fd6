""" "Off with the disc", "draw the rotor", "here the drum comes", "slide up out": off, in plain words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import MACHINES
from saywright.understanding.sides.numbered_positions import behind_place
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_DRAWS: Final = frozenset({"draw", "draws", "drawing"})
_ARTICLES: Final = frozenset({"the", "its", "his", "their", "both", "that", "this", "old"})
_OPENS: Final = frozenset(
    ["", BREAK, "and", "then", "so", "now", "right", "okay", "tap", "there", "first", "i", "we", "next"]
)  # fmt: skip
_ENDS: Final = frozenset(["", BREAK, "and", "then", "now", "with", "first", "too", "so", "but", "next"])
_BY_ITSELF: Final = frozenset(
    ["", BREAK, "and", "by", "off", "out", "away", "now", "look", "too", "with", "then", "nicely", "easily"]
)  # fmt: skip
_COMES: Final = frozenset({"comes", "come"})
_POINTS: Final = frozenset({"here", "there"})
_BE: Final = frozenset({"is", "are", "has", "was"})
_STAND_FOR_IT: Final = frozenset({"lot", "pair", "other", "others", "rest", "last", "first", "one", "two"})
_TAKEN: Final = frozenset(
    ["peel", "peels", "peeled", "lift", "lifts", "lifted", "pull", "pulls", "pulled", "prise", "prised",
     "pry", "pried", "take", "took"]
)  # fmt: skip
_THEM: Final = frozenset({"it", "them", "him", "her", "that", "those"})
_FEWEST: Final = 2  # words before "away"
_NAME: Final = 4  # words of a name


@called_by({"off", "out", "here", "there", "away", *_DRAWS})
def taken_off(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "out comes the disc" and the like, while things come apart."""
    if state.stage != "as_found":
        return tokens
    return _CALLS.put(tokens, lambda form, said: form(said, tuple([t.text for t in said]), lexicon))


def _off_with(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Off with the disc": out it comes; not "cover off with its screws"."""
    for at in range(len(texts) - 3):
        told = texts[at] in {"off", "out"} and texts[at + 1] == "with" and texts[at + 2] in _ARTICLES
        if not told or text_at(texts, at - 1) not in _OPENS:
            continue
        named = any(_name_end(texts, i, lexicon) for i in range(at + 3, len(texts)))
        if not named and texts[at + 3] not in _STAND_FOR_IT and text_at(texts, at + 4) in _ENDS:
            return (*tokens[:at], *tokens[at + 1 :])  # "off with the kettle": not what is in hand
        if _part_ends(texts, at + 3, lexicon):
            pause = (Token(BREAK, tokens[at].word),) if at else ()
            return (*tokens[:at], *pause, tokens[at], Token("comes", tokens[at + 1].word), *tokens[at + 2 :])
    return tokens


def _drawn(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Knock the pin out and draw the shaft": pulled; not "draw the bolt up tight"."""
    for at, text in enumerate(texts[:-2]):
        if text not in _DRAWS or text_at(texts, at - 1) not in _OPENS or texts[at + 1] not in _ARTICLES:
            continue
        if _part_ends(texts, at + 2, lexicon):
            return (*tokens[:at], Token("pull", tokens[at].word), *tokens[at + 1 :])
    return tokens


def _here_it_comes(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "And here the drum comes by itself": here comes the drum."""
    for at in range(len(texts) - 3):
        if texts[at] not in _POINTS or texts[at + 1] not in _ARTICLES:
            continue
        end = _name_end(texts, at + 2, lexicon)
        if end and text_at(texts, end) in _COMES and text_at(texts, end + 1) in _BY_ITSELF:
            away = end + 1 + (text_at(texts, end + 1) in {"off", "out", "away"})
            pause = (Token(BREAK, tokens[end].word),) if away < len(texts) else ()
            out = (Token("out", tokens[at].word), tokens[end])
            return (*tokens[:at], *out, *tokens[at + 1 : end], *pause, *tokens[away:])
    return tokens


def _up_out(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Foot filters up out of the canisters", "slide up out the top": out of there."""
    for at in range(1, len(texts) - 1):
        if texts[at : at + 2] == ("up", "out") and _is_named(texts, at, lexicon):
            return (*tokens[:at], *tokens[at + 1 :])
    return tokens


def _off_the_thing(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Coupling off the rubber's perished": off, and how it is; not "pump off the tractor's leaking"."""
    for at in range(1, len(texts) - 3):
        if texts[at : at + 2] != ("off", "the") or texts[at + 3] not in _BE:
            continue
        named, noun = lexicon.names(texts, at + 2), texts[at + 2]
        if not (named.parts or named.aliases or noun in MACHINES) and _is_named(texts, at, lexicon):
            return (*tokens[: at + 1], Token(BREAK, tokens[at].word), *tokens[at + 1 :])
    return tokens


def _away(tokens: Tokens, texts: tuple[str, ...], _: Lexicon) -> Tokens:
    """ "I peel them away": off; not "push it away from the disc"."""
    at = texts.index("away")
    verb, them = text_at(texts, at - 2), text_at(texts, at - 1)
    if at < _FEWEST or verb not in _TAKEN or them not in _THEM or text_at(texts, at + 1) not in _ENDS:
        return tokens
    return (*tokens[:at], Token("off", tokens[at].word), *tokens[at + 1 :])


def _name_end(texts: tuple[str, ...], begin: int, lexicon: Lexicon) -> int:
    """The token behind the part that is named at *begin*; 0 for none."""
    begin = behind_place(texts, begin, lexicon)
    found = lexicon.match(texts, begin) if text_at(texts, begin) not in {"", BREAK} else None
    named = found is not None and (found[1].parts or found[1].aliases)
    return begin + found[0] if found is not None and named else 0


def _part_ends(texts: tuple[str, ...], begin: int, lexicon: Lexicon) -> bool:
    """True where a part is named at *begin*, and no more is said of where it goes."""
    end = _name_end(texts, begin, lexicon)
    return end > 0 and text_at(texts, end) in _ENDS


def _is_named(texts: Sequence[str], end: int, lexicon: Lexicon) -> bool:
    """True where the name of a part begins its clause and ends at *end*."""
    for begin in range(max(0, end - _NAME), end):
        found = lexicon.match(tuple(texts[:end]), begin) if texts[begin] not in {"", BREAK} else None
        if found is not None and begin + found[0] == end and (found[1].parts or found[1].aliases):
            first = begin
            while first and texts[first - 1] in lexicon.positions:
                first -= 1
            return text_at(texts, first - 1) in _OPENS
    return False


_CALLS: Final = Calls(
    (_off_with, {"with"}),
    (_drawn, _DRAWS),
    (_here_it_comes, _COMES),
    (_up_out, {"up"}),
    (_off_the_thing, {"the"}),
    (_away, {"away"}),
)
