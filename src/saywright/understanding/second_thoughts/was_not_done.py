""" "Greased the axle" / "no I didn't, that was the pin": taken back, in plain words. Pure.

The denial with more behind it takes back what was told last; "that was the pin" tells it of the pin.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.act_forms import past_forms
from saywright.understanding.doings.roundabout import put_words
from saywright.understanding.statements import ActionNote, Remark
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_LEADS: Final = frozenset({"no", "oh", "wait", "actually", "hang", "on", "sorry", "nope", "nah", BREAK})
_DONE: Final = frozenset({"done", "did", "just", "only"})
_WAS: Final = (("that", "was", "the"), ("it", "was", "the"), ("that", "was", "my"))


@called_by({"did", "have"})
def was_not_done(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with "scratch that" for "no I didn't" before what is told instead."""
    texts = [token.text for token in tokens]
    at = 0
    while text_at(texts, at) in _LEADS:
        at += 1
    denied = texts[at : at + 1] in (["i"], ["we"]) and texts[at + 1 : at + 3] in (
        ["did", "not"],
        ["have", "not"],
    )
    end = at + 3
    if not denied or text_at(texts, end) not in {BREAK, "that"} or end + 1 >= len(texts):
        return tokens
    last = [s for s in (state.recent[-1] if state.recent else ()) if not isinstance(s, Remark)]
    done = last[-1] if last and isinstance(last[-1], ActionNote) else None
    if done is None or done.status != "done" or not {"no", "nope", "nah", "wait", "actually"} & {*texts[:at]}:
        return tokens
    end += texts[end] == BREAK
    if text_at(texts, end) in _DONE:
        return tokens  # "no I haven't, done the float": the same, of another
    instead: tuple[str, ...] = ()
    if tuple(texts[end : end + 3]) in _WAS:
        named = lexicon.match(tuple(texts), end + 3) if text_at(texts, end + 3) not in {"", BREAK} else None
        parts = (*named[1].parts, *named[1].aliases) if named is not None else ()
        past = next(iter(past_forms(done.action, lexicon)), ())
        if parts and done.component not in parts and past:
            instead, end = (*past, "the"), end + 3
    return put_words(tokens, 0, end, "scratch", "that", BREAK, *instead)
