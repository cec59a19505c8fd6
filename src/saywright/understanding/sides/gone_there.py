"""Who goes to a place is there: "over the drawbar I go, front right", "shuffle to the one behind it". Pure.

What is gone round, over or under on the way is whatever lies there. The place is named, or told by where it
lies from the one worked on (`relations`); at the head of a clause that place alone is gone to as well, where
something new is told behind it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import AWAY, NO_NAME
from saywright.understanding.sides.place_meant import side_in_hand
from saywright.understanding.sides.relations import NOUNS, RELATIONS, Places
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, words_of
from saywright.understanding.wordforms import verb_forms

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon


def _forms(text: str) -> frozenset[str]:
    return frozenset(
        form for word in text.split(" ") for form in (word, *verb_forms(word)) if form[-1:] != "s"
    )


# How a person gets from one place to another.
_MOTIONS: Final = _forms(
    "crawl shuffle hop climb scoot duck wander trundle stroll shift nip skip jump dodge wriggle squeeze limp "
    "lean reach roll slide step walk move head swing waddle scramble slither hobble trot scuttle clamber "
    "squirm scurry toddle amble plod dive wheel drop stay keep"
) | words_of("go going went come coming came swung slid dive get getting got crept creep creeping")
_WAYS: Final = words_of(
    "over across round around under along past behind through onto to up down back on in into by underneath "
    "beneath out"
)
# Of verbs that may as well be done to what stands there: "nip the rear left nut up", "roll it over".
_PLAINLY: Final = _forms("crawl shuffle climb scoot wander trundle stroll head walk") | words_of(
    "go going went come coming came getting got get crept creep creeping"
)
_ONTO: Final = _WAYS - words_of("up down back out on in")
# Ways that tell by themselves that somebody goes there.
_LEADS: Final = words_of(
    "right okay so now then and well yeah yep i we am are is will shall let us me us just gonna next again "
    "straight all my self myself"
)
_CARRIED: Final = words_of(
    "creeper stool jack trolley board mat stand stands kit tools tray bucket box chair crate cushion kneeler "
    "lamp light torch"
)
_CARRY: Final = _forms("drag haul carry bring pull push take") | words_of(
    "took brought"
)  # "the stool over to"
_THE: Final = words_of("the my this that")
_WHERE: Final = words_of("to at on onto by")
_NOT_NOW: Final = words_of(
    "not never later tomorrow after before when if would could should had did was were who where why he she "
    "they you minute always usually until till mistake accident wrong"
)
_TAIL: Final = words_of("now first next then again please")
_CLAUSES: Final = words_of("and so done finished sorted") | {BREAK}
_BEGINS: Final = words_of("i we new old the it its this that there and same all her his my so yay right okay")
_AT_THE: Final = frozenset({("at", "the"), ("on", "the"), ("across", "the")})
_TURN: Final = ("on", "to", "the")
_BACK_ONES: Final = frozenset((noun,) for noun in (*NOUNS, "axle"))
_LONGEST_WAY: Final = 12  # tokens
CALLED: Final = _MOTIONS | RELATIONS | _CARRY


@called_by(CALLED)
def gone_there(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "on to the rear left" where somebody goes there, or it is told by where it lies."""
    held = side_in_hand(state.hand, lexicon.sheet)
    if held is None or len(tokens) < 2 or not _has_side(held, lexicon):
        return tokens
    texts = tuple([token.text for token in tokens])
    places = Places(texts, held, state, lexicon)
    begin = 0
    while begin < len(texts):
        at, moved = _way_end(texts, begin, places)
        found = places.at(at) if at < len(texts) else None
        found = found or (_named(texts, at, lexicon) if moved else None)
        if found is not None and (moved or begin == 0 or _is_noun(texts, at)):
            return _put(tokens, lexicon, begin, (at, *found), moved=moved)
        begin = next((i + 1 for i in range(begin, len(texts)) if texts[i] in _CLAUSES), len(texts))
    return tokens


def _has_side(held: str, lexicon: Lexicon) -> bool:
    return not held.isdigit() and any(held in c.stations for c in lexicon.sheet.component)


def _way_end(texts: tuple[str, ...], begin: int, places: Places) -> tuple[int, bool]:
    """Index behind the words at *begin* that tell the way to a place, and whether somebody goes there."""
    at, moved, way, onto = begin, False, False, False
    lexicon = places.lexicon
    while at < len(texts) and at - begin < _LONGEST_WAY:
        text = texts[at]
        if text in _MOTIONS and not _is_part(texts, at, lexicon):
            moved = True
            onto = onto or text in _PLAINLY
            at += 1
            at += 2 if texts[at : at + 1] != () and _is_carried(texts, at) else 0
        elif text in _CARRY and at + 2 < len(texts) and _is_carried(texts, at + 1):
            moved = onto = True
            at += 3
        elif _is_place_ahead(texts, at) and places.at(at) is not None:
            break
        elif text in _WAYS:
            end = _object_end(texts, at + 1, lexicon)
            way = way or text in {"over", "round", "around", "across"}
            onto = onto or text in _ONTO or texts[at + 1 : at + 2] == ("at",)
            at = end or at + 1
        elif text in _LEADS:
            at += 1
        else:
            break
    while at > begin and texts[at - 1] == "right":
        at -= 1  # "over right front", which is its place
    return at, (moved and onto) or (way and at > begin)


def _is_place_ahead(texts: tuple[str, ...], at: int) -> bool:
    """ "Back wheel same side", "next one back": a place, and no way to one."""
    return texts[at] == "next" or (texts[at] == "back" and texts[at + 1 : at + 2] in _BACK_ONES)


def _is_carried(texts: tuple[str, ...], at: int) -> bool:
    return texts[at] in _THE and texts[at + 1 : at + 2] != () and texts[at + 1] in _CARRIED


def _object_end(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """Index behind "the drawbar", "the tow hitch" at *at*, no part and no place; 0 where there is none."""
    if texts[at : at + 1] == () or texts[at] not in _THE or len(texts) < at + 3:
        return 0
    for end in (at + 2, at + 3):
        behind = texts[end] if end < len(texts) else ""
        nouns = texts[at + 1 : end]
        if any(_is_known(noun, lexicon) for noun in nouns):
            return 0
        if behind in _WAYS | _MOTIONS | {"i", "we", BREAK} or behind in lexicon.positions or behind == "the":
            return end
    return 0


def _is_known(noun: str, lexicon: Lexicon) -> bool:
    known = noun in NOUNS or noun in NO_NAME or noun in AWAY or noun in RELATIONS or noun in lexicon.positions
    return known or noun in lexicon.other_places or (noun,) in lexicon.table


def _is_part(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> bool:
    named = lexicon.names(texts, at)
    return bool(named.parts or named.aliases or named.positions)


def _named(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[int, str] | None:
    """Index behind the place that is named at *at*, and that place."""
    begin = at + (texts[at : at + 1] == ("the",))
    end = begin
    while (
        end < len(texts)
        and end - begin < 2
        and lexicon.other_places.get(texts[end], texts[end]) in lexicon.positions
    ):
        end += 1
    words = [lexicon.other_places.get(text, text) for text in texts[begin:end]]
    places = {p for c in lexicon.sheet.component for p in c.stations}
    place = next((p for p in places if sorted(p.split()) == sorted(words)), None)
    if place is None or len(words) < 2:
        return None
    return end + (end < len(texts) and texts[end] in NOUNS), place


def _put(
    tokens: tuple[Token, ...], lexicon: Lexicon, begin: int, found: tuple[int, int, str], *, moved: bool
) -> tuple[Token, ...]:
    """The tokens with the place that was *found* between two of them."""
    at, end, place = found
    texts = tuple([token.text for token in tokens])
    if not _NOT_NOW.isdisjoint(texts[begin : end + 2]):
        return tokens
    while end < len(texts) and texts[end] in _TAIL:
        end += 1
    word = tokens[min(at, len(tokens) - 1)].word
    named = [Token(text, word) for text in place.split()]
    behind = texts[end] if end < len(texts) else ""
    if not _turns(texts, end, lexicon, moved=moved):
        if not _is_noun(texts, at):
            return tokens  # "opposite that four point one": a place on the part
        kept = [Token("the", word)] if texts[at] in {"the", "its", "his"} else []
        if behind == "is" and lexicon.names(texts, end + 1).parts:
            return (*tokens[:at], *kept, *named, *tokens[end + 1 :])  # "the back one's drum"
        return (*tokens[:at], *kept, *named, Token("one", word), *tokens[end:])
    head = [] if begin == 0 or texts[begin - 1] == BREAK else [Token(BREAK, word)]
    tail = [] if behind in {"", BREAK} else [Token(BREAK, word)]
    begin -= begin > 0 and texts[begin - 1] in {"and", "so"}
    return (*tokens[:begin], *head, *(Token(text, word) for text in _TURN), *named, *tail, *tokens[end:])


def _turns(texts: tuple[str, ...], end: int, lexicon: Lexicon, *, moved: bool) -> bool:
    """True where nothing is told of the place itself behind it."""
    behind = texts[end] if end < len(texts) else ""
    if behind in {"", BREAK} or behind in _BEGINS or lexicon.names(texts, end).parts:
        return True
    return moved and behind not in {"is", "has", "was"} and not lexicon.names(texts, end).conditions


def _is_noun(texts: tuple[str, ...], at: int) -> bool:
    """ "the one behind it", "last corner", "its neighbour at the back"; not "opposite", "its neighbour"."""
    return not NOUNS.isdisjoint(texts[at : at + 3]) or texts[at + 2 : at + 4] in _AT_THE
