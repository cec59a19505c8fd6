"""Where a state is by its last word: "grease on the shoe", "no oil on these"; oil that only goes on. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import FLUIDS, LUBRICANTS
from saywright.understanding.meanings import NOTHING
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import words_of

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

ON: Final = frozenset({"on", "of"})
_LEADS: Final = frozenset({"MOD", "PART", "ALIAS", "ONE"})
_LITTLE: Final = words_of("drop spot dab smear squirt lick splash dribble touch bit blob drips drops spots")
_OILS: Final = frozenset({"oil", "grease"})
_LED: Final = 5  # tokens of "there is a bit of"
_STUFFS: Final = FLUIDS | LUBRICANTS
_LEFT: Final = words_of("on and then down round along into")


def states_on(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> Sequence[Tag]:
    """*tags* with the "on" of a state's name before its part, and no part in a little oil that goes on."""
    out: list[Tag] = []
    for at, one in enumerate(tags):
        if out and one.start < out[-1].end:
            continue  # "the" of "on the"
        behind = tags[at + 1] if at + 1 < len(tags) else None
        long = one.kind == "COND" and one.end - one.start > 1 and texts[one.end - 1] == "on"
        if long and behind is not None and behind.kind in _LEADS:
            link = lexicon.match(tuple(texts), one.end - 1)
            size, meaning = link if link is not None else (1, NOTHING)
            size = size if size > 1 and texts[one.end] == "the" else 1
            out.append(replace(one, end=one.end - 1))
            out.append(Tag("LINK", one.end - 1, one.end - 1 + size, meaning))
        elif one.kind == "WORD" and _is_found_on(one, texts, lexicon):
            out.append(replace(one, kind="COND", meaning=lexicon.table[(texts[one.start] + "y",)]))
        elif one.kind == "PART" and _is_put_on(one, texts):
            out.append(Tag("WORD", one.start, one.end, NOTHING))
        else:
            out.append(one)
    return tuple(out)


def _is_put_on(one: Tag, texts: Sequence[str]) -> bool:
    """ "A drop of oil on the lazy one", "then a spot of grease and it's free"."""
    start = one.start
    if start < 2 or texts[start - 1] != "of" or texts[start - 2] not in _LITTLE:
        return False
    return texts[one.end - 1] in _STUFFS and (*texts[one.end : one.end + 1], "then")[0] in _LEFT


def _is_found_on(one: Tag, texts: Sequence[str], lexicon: Lexicon) -> bool:
    """ "No oil on these", "there's a bit of oil on the trailing one": oily, where the sheet has the state."""
    start = one.start
    if texts[start] not in _OILS or texts[one.end : one.end + 1] not in (["on"], ("on",)):
        return False
    led = tuple(texts[max(0, start - _LED) : start])
    found = led[-1:] == ("no",) or any(led[at : at + 2] == ("there", "is") for at in range(len(led)))
    return found and bool(lexicon.table.get((texts[start] + "y",), NOTHING).conditions)
