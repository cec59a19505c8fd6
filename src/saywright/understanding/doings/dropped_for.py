""" "I could solder it but no it needs replacing", "straightened, no new one", "we don't keep that". Pure.

What is dropped for something else is declined; what nobody keeps is thrown away.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.roundabout import Form, ended, put_by_words, put_words
from saywright.understanding.doings.turned_down import PEOPLE
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WHO: Final = frozenset({"i", "we", "you", "one"})
_IT: Final = frozenset({"it", "that", "them", "those", "these", "this"})
_BUT_NO: Final = (("but", "no"), ("but", "nah"), ("but", "nope"))
_GOES_ON: Final = frozenset(
    {BREAK, "it", "they", "that", "i", "we", "so", "the", "let", "this", "he", "she", "just"}
)
_ALREADY: Final = (
    ("but", "it", "has", "been"),
    ("but", "that", "has", "been"),
    ("but", "they", "have", "been"),
)
_HOW_OFTEN: Final = frozenset({"once", "twice", "already", "before", "three", "times"})
_WANTED: Final = frozenset({"want", "wants", "wanted"})
_SAID_NO: Final = (
    ("i", "said", "no"),
    ("i", "told", "them", "no"),
    ("i", "told", "him", "no"),
    ("i", "say", "no"),
)
_NEW: Final = ("no", "new", "one")
_NO_BOTHER: Final = frozenset({"problem", "problems", "worries", "bother", "trouble", "sweat", "matter"})
_HAD: Final = frozenset(
    [
        "is",
        "are",
        "was",
        "were",
        "been",
        "have",
        "has",
        "had",
        "got",
        "get",
        "found",
        "see",
        "with",
        "sent",
        "brought",
        "bought",
        "order",
        "ordered",
    ]
)  # "they sent no new one"
_NO_ONES: Final = frozenset(
    {"he", "she", "they", "we", "i", "it", "needed", "that", "customer", "owner", "boss"}
)
_OBJECT: Final = 6  # tokens of "a new muffler too"


@called_by({"could", "new", "keep", "keeping"})
def dropped_for(tokens: Tokens, _: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with what is dropped as not to be done."""
    return put_by_words(tokens, _FORMS, lexicon)


def _could_but(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The strainer I could solder but no it needs replacing", "… but it's been soldered twice already"."""
    at = texts.index("could")
    if text_at(texts, at - 1) not in _WHO or text_at(texts, at + 1) in {"", BREAK}:
        return tokens
    verb = lexicon.match(tuple(texts), at + 1)
    if verb is None or not verb[1].acts or verb[1].acts[0].form != "base":
        return tokens
    end = but = at + 1 + verb[0]
    if text_at(texts, but) in _IT:
        end = but = but + 1
    elif at < 2:
        return tokens
    but += text_at(texts, but) == BREAK
    rest = _behind_but(texts, but)
    if not rest:
        return tokens
    will = put_words(tokens[at - 1 : at + 1], 0, 2, "i", "will", "not")
    pause = (Token(BREAK, tokens[but].word),) if rest < len(tokens) else ()
    return (*tokens[: at - 1], *will, *tokens[at + 1 : end], *pause, *tokens[rest:])


def _behind_but(texts: list[str], but: int) -> int:
    """The token behind "but no", "but it has been soldered twice already"; 0 where neither stands there."""
    if tuple(texts[but : but + 2]) in _BUT_NO:
        rest = but + 2
        return rest if ended(texts, rest) or text_at(texts, rest) in _GOES_ON else 0
    if tuple(texts[but : but + 4]) not in _ALREADY:
        return 0
    rest = but + 5
    often = False
    while text_at(texts, rest) in _HOW_OFTEN:
        rest, often = rest + 1, True
    return rest if often and text_at(texts, rest) in {BREAK, "so"} else 0


def _no_new_one(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "Straightened that over the vice no new one he won't pay": it does not need a new one."""
    for at in range(1, len(texts) - 2):
        end = at + len(_NEW)
        if tuple(texts[at:end]) != _NEW or (texts[at - 1] in _HAD or "old" in texts[:at]):
            continue
        if end < len(texts) and texts[end] not in _NO_ONES | {BREAK}:
            continue  # "no new one in stock"
        end += text_at(texts, end) == "needed"
        words = (BREAK, "do", "not", "need", "a", "new", "one")
        rest = (Token(BREAK, tokens[at].word), *tokens[end:]) if end < len(texts) else ()
        return (*put_words(tokens[:end], at, end, *words), *rest)
    return tokens


def _wanted_no(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "They wanted a new muffler too, I said no, just soak it": it does not need a new one."""
    for at in range(len(texts) - 3):
        if texts[at] not in PEOPLE or texts[at + 1] not in _WANTED or texts[at + 2 : at + 4] != ["a", "new"]:
            continue
        ends = range(at + 4, min(at + 4 + _OBJECT, len(texts)))
        said = next((i for i in ends if any(tuple(texts[i : i + len(no)]) == no for no in _SAID_NO)), 0)
        if not said:
            continue
        thing = said - (texts[said - 1] == BREAK)
        thing -= text_at(texts, thing - 1) == "too"
        end = said + next(len(no) for no in _SAID_NO if tuple(texts[said : said + len(no)]) == no)
        if text_at(texts, end) in _NO_BOTHER:
            continue  # "I said no problem"
        plain = put_words(tokens[:thing], at, at + 2, "we", "do", "not", "need")
        rest = tokens[end + (text_at(texts, end) == BREAK) :]
        return (*plain, Token(BREAK, tokens[said].word), *rest) if rest else plain
    return tokens


def _not_kept(tokens: Tokens, texts: list[str], _: Lexicon) -> Tokens:
    """ "It's torn and we don't keep that", "not keeping those": they go in the bin."""
    for at in range(1, len(texts) - 1):
        if texts[at] not in {"keep", "keeping"} or texts[at - 1] != "not" or texts[at + 1] not in _IT:
            continue
        begin = at - 1
        while begin and texts[begin - 1] in {"i", "we", "do", "am", "are", "will"}:
            begin -= 1
        end = at + 2 + (text_at(texts, at + 2) in {"one", "ones"})
        if texts[begin] == "will":
            continue  # "pumped it up and it won't keep it"
        if ended(texts, end) and (not begin or texts[begin - 1] in {BREAK, "and", "so", "but"}):
            return put_words(tokens, begin, end, "bin", texts[at + 1])
    return tokens


_FORMS: Final[Calls[Form]] = Calls(
    (_could_but, {"could"}),
    (_no_new_one, {"new"}),
    (_wanted_no, {"new"}),
    (_not_kept, {"keep", "keeping"}),
)
