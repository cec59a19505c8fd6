"""Values told in whole sentences: "on the other I get four", "I set it to four", "four is what I have". Pure.

They are put as what is read there: "the other one is four", "it is set to four", "I get four".
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import Form, put_by_words
from saywright.understanding.numbers.tokens import is_number_word, scan
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from collections.abc import Sequence

    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LEADS: Final = frozenset({"and", "so", "then", "now", "but", "okay", "right", BREAK})
_WHO: Final = frozenset({"i", "we"})
_READ: Final = frozenset(
    {"have", "get", "got", "read", "measure", "measured", "make", "made", "see", "found"}
)
_READING: Final = frozenset({"getting", "reading", "seeing", "measuring"})
_SHOWS: Final = frozenset(
    ["is", "was", "reads", "says", "shows", "gives", "makes", "measures", "showed", "gave", "measured"]
)  # fmt: skip
_IDLE: Final = frozenset({"now", "just", "still", "then", "really", "actually", "only"})
_SET: Final = frozenset(
    ["set", "setting", "put", "putting", "bring", "brought", "bringing", "take", "took", "taken", "taking",
     "turn", "turned", "turning", "leave", "left", "leaving"]
)  # fmt: skip
_PUTS: Final = frozenset({"puts", "brings", "leaves", "takes"})
_HELPS: Final = frozenset({"have", "am", "are", "had", *_IDLE})
_OBJECTS: Final = frozenset(
    ["it", "this", "that", "them", "these", "the", "both", "all", "of", "one", "ones", "other", "two"]
)  # fmt: skip
_ON: Final = frozenset({"on", "for"})
_NO_VALUE: Final = frozenset({"side", "end", "hand", "part", "piece"})  # "put it to one side"
_ALL: Final = (("both", "of", "them"), ("them", "both"), ("all", "of", "them"), ("them", "all"))
_TOLD: Final = frozenset({"figure", "value", "reading", "measurement", "number"})
_GROUPS: Final = frozenset({"hundred", "thousand", "half", "quarter", "thou", "tenth"})
_UNIT_LINKS: Final = frozenset({"newton", "a"})
_ENDS: Final = frozenset({"", BREAK, "now", "and", "but", "so", "then", "again", "exactly", "which"})
_FURTHEST: Final = 6  # tokens of a named object


def _value_end(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """The token behind the value at *at* with its unit; *at* where there is none."""
    begins = is_number_word(texts, at) or text_at(texts, at) == "point"
    begins = begins or (text_at(texts, at) == "a" and text_at(texts, at + 1) in _GROUPS)
    ends = scan(texts, at).ends if begins else ()
    end = ends[-1] if ends else at
    if text_at(texts, end) in _NO_VALUE:
        return at
    while text_at(texts, end) in lexicon.units or text_at(texts, end) in _UNIT_LINKS:
        end += 1
    return end


def _begin(texts: Sequence[str]) -> int:
    return next((i for i, text in enumerate(texts) if text not in _LEADS), len(texts))


def _reads(texts: Sequence[str], at: int) -> int:
    """The token behind "I get", "it still shows", "my gauge says", "that comes to" at *at*; 0 for none."""
    who = text_at(texts, at)
    if who in _WHO:
        verb = at + 1
        while text_at(texts, verb) in _IDLE:
            verb += 1
        if text_at(texts, verb) in {"am", "are"} and text_at(texts, verb + 1) in _READING:
            return verb + 2
        verb += text_at(texts, verb) == "have" and text_at(texts, verb + 1) in {"got", "measured", "read"}
        return verb + 1 if text_at(texts, verb) in _READ else 0
    verb = at + 1 if who in {"it", "that", "there"} else at + 2 if who in {"the", "my"} else 0
    if verb == at + 2 and text_at(texts, at + 1) not in {"gauge", "mike", "micrometer", "vernier", "clock"}:
        return 0
    while verb and text_at(texts, verb) in _IDLE:
        verb += 1
    if verb and text_at(texts, verb) in {"came", "comes"} and text_at(texts, verb + 1) in {"to", "out", "in"}:
        return verb + 2 + (text_at(texts, verb + 2) == "at")
    return verb + 1 + (text_at(texts, verb + 1) in {"me", "us"}) if text_at(texts, verb) in _SHOWS else 0


def _noun_end(texts: Sequence[str], at: int, lexicon: Lexicon) -> int:
    """The token behind "the other one", "the left float", "both of them" at *at*; *at* where none is."""
    for said in _ALL:
        if tuple(texts[at : at + len(said)]) == said:
            return at + len(said)
    end = at + 1
    while text_at(texts, end) in lexicon.positions or text_at(texts, end) == "other":
        end += 1
    if text_at(texts, at) != "the" or end == at + 1:
        return at
    if text_at(texts, end) == "one":
        return end + 1
    words = tuple(texts)
    while end < len(texts) and end < at + _FURTHEST and lexicon.names(words, end).parts:
        end += 1
    return end


def _on_one(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "It is four on the other", "that makes four for the left float": the other one is four."""
    begin = _begin(texts)
    value = _reads(texts, begin)
    on = _value_end(texts, value, lexicon) if value else 0
    if on <= value or text_at(texts, on) not in _ON or _noun_end(texts, on + 1, lexicon) != len(texts):
        return tokens
    said = (*tokens[on + 1 :], *((Token("one", tokens[on].word),) if texts[-1] == "other" else ()))
    return (*tokens[:begin], *said, Token("is", tokens[on].word), *tokens[value:on])


def _make_it(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I make them both four", "I made the left one four", "the left one I make four": it is four."""
    at = next((i for i, text in enumerate(texts) if text in _WHO), len(texts))
    begin, verb = _begin(texts), at + 1 + (text_at(texts, at + 1) in _IDLE)
    if text_at(texts, verb) not in {"make", "made", "measure", "measured"}:
        return tokens
    ahead = at > begin and _noun_end(texts, begin, lexicon) == at
    end = verb + 1 if ahead else _noun_end(texts, verb + 1, lexicon)
    value = end + (text_at(texts, end) == "at")
    if not ahead and (end == verb + 1 or at != begin):
        return tokens
    if (
        text_at(texts, _value_end(texts, value, lexicon)) not in _ENDS
        or _value_end(texts, value, lexicon) == value
    ):
        return tokens
    said = tokens[begin:at] if ahead else tokens[verb + 1 : end]
    return (*tokens[:begin], *said, Token("is", tokens[verb].word), *tokens[value:])


def _for_one(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "For the left I have four", "on the other I get five": on the left it is four."""
    out, done = list(tokens), False
    for at in range(len(texts) - 4, -1, -1):
        if texts[at] not in _ON or texts[at + 1] != "the":
            continue
        end = at + 2
        while text_at(texts, end) in lexicon.positions or text_at(texts, end) == "other":
            end += 1
        if end == at + 2:
            continue
        who = end + (text_at(texts, end) == "one")
        value = _reads(texts, who)
        behind = (
            _value_end(texts, value, lexicon) if value and text_at(texts, who) not in {"the", "my"} else 0
        )
        if behind <= value or text_at(texts, behind) not in _ENDS:
            continue  # "on the right that is two shoes"
        out[who:value] = [Token(word, tokens[who].word) for word in ("it", "is")]
        out[at] = Token("on", tokens[at].word)
        done = True
    return tuple(out) if done else tokens


def _set_to(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "I have set both of them to fourteen", "brought it up to fourteen": they are set to it."""
    begin = _begin(texts)
    that = text_at(texts, begin) == "that" and text_at(texts, begin + 1) in _PUTS
    verb = begin + (text_at(texts, begin) in _WHO or that)
    while text_at(texts, verb) in _HELPS:
        verb += 1
    end = verb + 1
    pure = {"set", "setting"} if text_at(texts, verb) != "left" else {"left"}
    while text_at(texts, end) in _OBJECTS or text_at(texts, end) in lexicon.positions:
        end += 1
    named = text_at(texts, verb) in pure
    while named and end < len(texts) - 2 and end - verb < _FURTHEST:
        known = lexicon.names(tuple(texts), end)
        if not (known.parts or known.characteristics):
            break
        end += 1
    to = end + (text_at(texts, end) in {"up", "down", "back"})
    value = to + 1
    if (
        not (that or text_at(texts, verb) in _SET)
        or end == verb + 1
        or text_at(texts, to) not in {"to", "at"}
    ):
        return tokens
    pointed = end == verb + 2 and texts[verb + 1] in {"it", "them"} and to > end
    if pointed or (text_at(texts, verb) == "left" and verb == begin):
        return tokens  # "took it up to four", "left one at four"
    behind = _value_end(texts, value, lexicon)
    if behind == value or text_at(texts, behind) not in _ENDS:
        return tokens
    said = (Token(word, tokens[to].word) for word in ("is", "set", "to"))
    return (*tokens[:begin], *tokens[verb + 1 : end], *said, *tokens[value:])


def _is_left_at(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Both are left at fourteen": they are set to it, and no left one is meant."""
    at = next((i for i, text in enumerate(texts) if text == "left" and text_at(texts, i + 1) == "at"), 0)
    verb = text_at(texts, at - 1)
    if (
        not at
        or verb not in {"is", "are", "was", "were", "been"}
        or _value_end(texts, at + 2, lexicon) == at + 2
    ):
        return tokens
    return (*tokens[:at], *(Token(word, tokens[at].word) for word in ("set", "to")), *tokens[at + 2 :])


def _what(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Four is what I have on it", "what I get is four": I get four."""
    at = texts.index("what")
    value = at if at == _begin(texts) else _begin(texts)
    reads = _reads(texts, at + 1)
    if not reads:
        return tokens
    said = (Token(word, tokens[at].word) for word in ("i", "get"))
    if value == at:
        end = _value_end(texts, reads + 1, lexicon) if text_at(texts, reads) in {"is", "was"} else 0
        return (*tokens[:at], *said, *tokens[reads + 1 :]) if end > reads + 1 else tokens
    end = _value_end(texts, value, lexicon)
    if end == value or end + 1 != at or texts[end] not in {"is", "was"}:
        return tokens
    return (*tokens[:value], *said, *tokens[value:end], *tokens[reads:])


def _the_figure(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The figure is four": it is four."""
    at = _begin(texts)
    told = text_at(texts, at) in {"the", "my"} and text_at(texts, at + 1) in _TOLD
    verb = at + 2
    if (
        not told
        or text_at(texts, verb) not in {"is", "was"}
        or _value_end(texts, verb + 1, lexicon) == verb + 1
    ):
        return tokens
    return (*tokens[:at], Token("it", tokens[at].word), *tokens[verb:])


def _in_short(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "We get four", "I now get four", "it made four": I get four, it is four."""
    at = _begin(texts)
    value = _reads(texts, at)
    plain = texts[at : at + 2] in (["i", "get"], ["i", "have"], ["i", "read"]) or texts[at + 1 : at + 2] == [
        "is"
    ]
    plain = plain or texts[at + 1 : at + 2] == ["was"]
    if not value or plain or text_at(texts, at) in {"the", "my", "there"}:
        return tokens
    if _value_end(texts, value, lexicon) == value:
        return tokens
    said = ("i", "get") if texts[at] in _WHO else (texts[at], "was" if texts[value - 1] == "was" else "reads")
    return (*tokens[:at], *(Token(word, tokens[at].word) for word in said), *tokens[value:])


_FORMS: Final[Calls[Form]] = Calls(
    (_what, {"what"}),
    (_make_it, {"make", "made", "measure", "measured"}),
    (_on_one, _ON),
    (_for_one, _ON),
    (_set_to, _SET | _PUTS),
    (_is_left_at, {"left"}),
    (_the_figure, _TOLD),
    (_in_short, {"we", "made", "showed", "gave", "came", "now", "still"}),
)


@called_by(_FORMS.words)
def read_in_full(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with a value told in a whole sentence put as what is read there."""
    return put_by_words(tokens, _FORMS, lexicon)
