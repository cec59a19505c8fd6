""" "Circlip, piston and here come the cups", "get that out of there": what comes off in short words. Pure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.steps import Tokens
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_JOINS: Final = frozenset({BREAK, "and", "then", "the", "next"})
_OPENS: Final = _JOINS | {"so", "now", "right", "okay", "its", "his"}
_ONES: Final = frozenset({"one", "ones"})
_CLIPS: Final = frozenset({"circlip", "circlips", "snap", "ring", "retaining", "clip"})  # on no sheet
_LED: Final = frozenset({BREAK, "right", "okay", "so", "and", "then", "now"})
_IT: Final = frozenset({"it", "that", "this"})
_COMES: Final = (("here", "come"), ("here", "comes"))


def row_that_comes(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """What comes out by itself, or at the end of a row, while things come apart."""
    if state.stage != "as_found":
        return tokens
    return _last_comes(_got_out(tokens, state, lexicon), lexicon)


def _got_out(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Get that out of there" as "pull that out of there", said alone while things come apart."""
    texts = [token.text for token in tokens]
    at = next((i for i, text in enumerate(texts) if text not in _LED), len(texts))
    if texts[at : at + 1] != ["get"] or text_at(texts, at + 1) not in _IT:
        return tokens
    part = lexicon.sheet.get(state.hand.component) if state.hand is not None else None
    on = part is not None and state.off.get(part.id, 0) < part.count
    if texts[at + 2 :] != ["out", "of", "there"] or not on:
        return tokens
    return (*tokens[:at], replace(tokens[at], text="pull"), *tokens[at + 1 :])


def _last_comes(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """ "Circlip, piston and here come the cups": each came out, while things come apart."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i in range(1, len(texts) - 2) if texts[i : i + 2] in _COMES), 0)
    if not at:
        return tokens
    row, last = _names(texts[:at], lexicon), _names(texts[at + 2 :], lexicon)
    if not row or last is None:
        return tokens
    noun = () if last and last[-1][1] > last[-1][0] else row[-1]
    behind = tokens[at + 2 :] if not noun else (*tokens[at + 2 :], *tokens[noun[0] : noun[1]])
    out: list[Token] = []
    for begin, end in row:
        start = begin
        while start and (texts[start - 1] in lexicon.positions or texts[start - 1] in lexicon.other_places):
            start -= 1
        out += [*tokens[start:end], *(Token(word, tokens[end - 1].word) for word in ("out", BREAK))]
    return (*out, *behind, Token("out", tokens[-1].word))


def _names(texts: tuple[str, ...], lexicon: Lexicon) -> list[tuple[int, int]] | None:
    """The names of parts that *texts* consist of; None where more is said."""
    found: list[tuple[int, int]] = []
    at = 0
    while at < len(texts):
        named = lexicon.match(texts, at) if texts[at] != BREAK else None
        if named is not None and (named[1].parts or named[1].aliases):
            found.append((at, at + named[0]))
            at += named[0]
        elif texts[at] in _OPENS | _CLIPS | lexicon.positions | _ONES or texts[at] in lexicon.other_places:
            at += 1
        else:
            return None
    return found
