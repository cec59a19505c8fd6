""" "Here comes the impeller", "nut off and down she comes", "jet home": movements, in plain words. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FASTENERS
from saywright.understanding.doings.off_as_well import TOO, off_as_well
from saywright.understanding.meanings import NOTHING
from saywright.understanding.sides.numbered_positions import behind_place
from saywright.understanding.steps import called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_COMES: Final = frozenset({"comes", "come"})
_ARTICLES: Final = frozenset({"the", "its", "both", "all", "that", "old"})
_WAYS: Final = frozenset({"down", "off", "out", "away", "up", "here", "over"})
_IT: Final = frozenset({"she", "it", "he", "they"})
_UNDONE: Final = frozenset({"undone", "out", "off", "slack", "slackened", "loosened", "loose", "removed"})
_LOWERED: Final = frozenset({"bowl", "sump", "pan", "cup", "chamber", "tray", "tank"})  # what hangs under it
_ENDS: Final = frozenset({"", BREAK, "and", "then", "now", "for"})
_HEADS: Final = frozenset(
    ["", BREAK, "and", "then", "so", "the", "off", "out", "undone", "on", "in", "up", "back", "home", "its"]
)
_OPENS: Final = _HEADS - {"the", "on", "in", "up", "back", "home"}
_PUT: Final = frozenset({"in", "on", "home"})
_CHAINED: Final = _OPENS | _PUT  # "ring in, jet home, screw home"
_SIGNS: Final = frozenset({"here", "down", "home", "comes", "back", "for"})
_NAME: Final = 4  # words of a name
_NEAR: Final = 2  # utterances since it was named
_CALL: Final = 3  # words of "down she comes"


@called_by(_SIGNS | TOO)
def comes_away(tokens: tuple[Token, ...], state: Discourse, lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with "out comes", "off" and "in" for such words, by how far the job is."""
    texts = tuple([token.text for token in tokens])
    if not TOO.isdisjoint(texts):
        tokens = off_as_well(tokens, state, lexicon)
        texts = tuple([token.text for token in tokens])
    if "home" in texts or "back" in texts:
        tokens = _gone_home(tokens, texts, state, lexicon)
    if "for" in texts and not _PUT.isdisjoint(texts):
        tokens = _for_its_place(tokens, texts, lexicon)
    if state.stage != "as_found":
        return tokens
    if "comes" in texts[-1:]:
        tokens = _she_comes(tokens, texts, state, lexicon)
    elif "here" in texts:
        tokens = _here_comes(tokens, texts, lexicon)
    elif "down" in texts:
        tokens = _let_down(tokens, texts, state, lexicon)
    return tokens


def _here_comes(tokens: tuple[Token, ...], texts: Sequence[str], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "Nut's off and here comes the first stage impeller": out comes; not "here comes the new one"."""
    for at in range(len(texts) - 3):
        if texts[at] != "here" or texts[at + 1] not in _COMES or texts[at + 2] not in _ARTICLES:
            continue
        begin = behind_place(texts, at + 3, lexicon)
        if _part_ends(texts, begin, lexicon):
            return (*tokens[:at], replace(tokens[at], text="out"), *tokens[at + 1 :])
    return tokens


def _she_comes(
    tokens: tuple[Token, ...], texts: Sequence[str], state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Bowl next" / "nut undone and down she comes": what it held is off; "bowl nut out and off it is"."""
    at = len(texts) - _CALL
    if at < 1 or texts[at] not in _WAYS or texts[at + 1] not in _IT:
        return tokens
    end = at
    while end and texts[end - 1] in {BREAK, "and", "then"}:
        end -= 1
    if _UNDONE.isdisjoint(texts[:end]):
        return tokens
    fastened = [i for i in range(end) if texts[i] in FASTENERS]
    held = _held_by(texts, fastened[-1], state, lexicon) if fastened else None
    named = {c for i in range(end) for c in _parts(texts, i, lexicon)}
    part = lexicon.sheet.get(held) if held is not None else None
    if part is None or part.count > 1 or held in named or state.off.get(part.id):
        return tokens
    words = (BREAK, *part.names[0].lower().split(), "is", "off")
    return (*tokens[:end], *(replace(tokens[at], text=word) for word in words))


def _held_by(texts: Sequence[str], fastener: int, state: Discourse, lexicon: Lexicon) -> str | None:
    """The part that was named just before, or that the fastener's own name tells: "bowl nut"."""
    hand = state.hand
    told = lexicon.table.get(tuple(texts[fastener - 1 : fastener]), NOTHING).parts if fastener else ()
    if len(told) == 1:
        return told[0]
    if hand is None or hand.which is not None or state.utterances - hand.utterance >= _NEAR:
        return None
    part = lexicon.sheet.get(hand.component)
    return None if part is None or part.names[0].split()[-1] in FASTENERS else part.id


def _let_down(
    tokens: tuple[Token, ...], texts: Sequence[str], state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Nut out, bowl down": off; not "bowl down to the last drop", "bowl down and level"."""
    before = state.recent[-1] if state.recent else ()
    undone = any(getattr(s, "movement", "") == "removed" for s in before)
    undone = undone or not (FASTENERS.isdisjoint(texts) or _UNDONE.isdisjoint(texts))
    if not undone and texts[-1] != "down":
        return tokens
    off = {
        at
        for at in range(1, len(texts))
        if texts[at] == "down" and texts[at - 1] in _LOWERED and text_at(texts, at + 1) in _ENDS
        if _clause_of_name(texts, at, lexicon, _OPENS)
    }
    return (
        tuple([replace(t, text="off") if at in off else t for at, t in enumerate(tokens)]) if off else tokens
    )


def _gone_home(
    tokens: tuple[Token, ...], texts: Sequence[str], state: Discourse, lexicon: Lexicon
) -> tuple[Token, ...]:
    """ "Jet home", "gauze back for now": in, of what is off or while the job goes back together."""
    out: list[Token] = []
    at = 0
    while at < len(texts):
        home = texts[at] == "home" and text_at(texts, at - 1) != "back"
        now = tuple(texts[at : at + 3]) == ("back", "for", "now")
        home = home and tuple(texts[at + 1 : at + 3]) != ("and", "dry")
        named = (
            _clause_of_name(texts, at, lexicon, _CHAINED if home else _HEADS) if at and (home or now) else ()
        )
        if named and (state.stage == "as_left" or any(state.off.get(c) for c in named)):
            out += [replace(tokens[at], text=word) for word in (("back", "in") if now else ("in",))]
            at += 3 if now else 1
            continue
        out.append(tokens[at])
        at += 1
    return tuple(out) if len(out) != len(tokens) or "home" in texts else tokens


def _for_its_place(tokens: tuple[Token, ...], texts: Sequence[str], lexicon: Lexicon) -> tuple[Token, ...]:
    """ "New ring pressed in for the first stage": at it."""
    at = texts.index("for")
    end = behind_place(texts, at + 2, lexicon) if text_at(texts, at + 1) == "the" else 0
    told = end > at + 2 and text_at(texts, end) in _ENDS | {"one", "but", "with"}
    if not told or text_at(texts, at - 1) not in _PUT or len(texts) != len(tokens):
        return tokens
    return (*tokens[:at], replace(tokens[at], text="at"), *tokens[at + 1 :])


def _clause_of_name(
    texts: Sequence[str], end: int, lexicon: Lexicon, heads: AbstractSet[str]
) -> tuple[str, ...]:
    """The parts that a name means that ends at *end* and begins its clause, behind one of *heads*."""
    for begin in range(max(0, end - _NAME), end):
        found = lexicon.match(tuple(texts[:end]), begin) if texts[begin] not in {"", BREAK} else None
        if found is not None and begin + found[0] == end:
            start = begin
            while start and texts[start - 1] in lexicon.positions:
                start -= 1
            opens = text_at(texts, start - 1) in heads
            return (*found[1].parts, *found[1].aliases) if opens else ()
    return ()


def _part_ends(texts: Sequence[str], begin: int, lexicon: Lexicon) -> bool:
    """True where a part is named at *begin*, and no more is said of where it goes."""
    found = lexicon.match(tuple(texts), begin) if text_at(texts, begin) not in {"", BREAK} else None
    if found is None or not (found[1].parts or found[1].aliases):
        return False
    return text_at(texts, begin + found[0]) in _ENDS - {"for"} | {"with", "at", "look", "so", "but"}


def _parts(texts: Sequence[str], at: int, lexicon: Lexicon) -> tuple[str, ...]:
    found = lexicon.names(tuple(texts), at)
    return (*found.parts, *found.aliases)
