""" "Main in, pilot in, same ones that came out": told behind a row, how old all are that went in."""

from __future__ import annotations

from saywright.understanding.tokens import BREAK, Token

_BEHIND = frozenset({"in", "on", "back", "home", "up", "fitted", "refitted", BREAK})
_LEAD = frozenset({"the", "all", "both", "with", "just", "exactly"})
_EVERY = frozenset({"all", "both"})
KEPT = frozenset({"same", "old", "original", "originals"})
_ONES = frozenset({"ones", "one", "two", "pair", "set", "lot", "parts", "three", "four", "six"})
_WHICH = frozenset({"that", "as", "which", "what", "i", "we", "they"})
_CAME = frozenset({"came", "come", "were", "was", "had", "took", "pulled", "has", "have"})
_THERE = frozenset({"out", "off", "in", "on", "it", "there", "of", "before", "fitted", "with"})
_ENDS = frozenset({"", BREAK, "and", "then", "so", "but"})
Span = tuple[int, int]  # tokens [start, end)


def take_same(tokens: tuple[Token, ...]) -> tuple[tuple[Token, ...], Span | None]:
    """The tokens with breaks for those that say that the same ones went back, and where they stood."""
    texts = tuple([token.text for token in tokens])
    if KEPT.isdisjoint(texts):
        return tokens, None
    for at in range(1, len(texts)):
        end = _end(texts, at) if texts[at] in KEPT else at
        begin = at
        while texts[begin - 1] in _LEAD and begin > 1:
            begin -= 1
        every = not _EVERY.isdisjoint(texts[begin:at])  # "pilot in, main, all the old ones"
        if every and end == at and texts[at + 1 : at + 2] == ("ones",) and at + 2 == len(texts):
            end = at + 2
        if (
            end > at
            and (every or texts[begin - 1] in _BEHIND)
            and any(text in _BEHIND for text in texts[:begin])
        ):
            taken = tuple(Token(BREAK, t.word) if begin <= i < end else t for i, t in enumerate(tokens))
            return taken, (begin, end)
    return tokens, None


def _end(texts: tuple[str, ...], at: int) -> int:
    """The token behind "same ones" and what tells where they were; *at* where these are no such words."""
    end = at + 1
    if texts[at] != "originals":
        if end >= len(texts) or texts[end] not in _ONES:
            return at
        end += 1
    related = end
    if end < len(texts) and texts[end] in _WHICH:
        related += 1
        related += related < len(texts) and texts[related] in {"i", "we", "he"}
        if related < len(texts) and texts[related] in _CAME:
            related += 1
            while related < len(texts) and texts[related] in _THERE:
                related += 1
        elif texts[end : end + 2] != ("as", "before"):
            related = end
        else:
            related += 1
    told = related > end or texts[at] in {"same", "originals"}
    return related if told and (related == len(texts) or texts[related] in _ENDS) else at
