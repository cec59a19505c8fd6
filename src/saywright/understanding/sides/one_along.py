""" "Next one along", "move along one", "and then the last one": the words that go along a row. Pure."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from saywright.understanding.tokens import BREAK

_NEXT, _LAST = "next", "last"  # one: the one behind the one in hand, the last there is
_LEADS = frozenset(
    [BREAK, "right", "okay", "so", "and", "well", "now", "then", "on", "onto", "to", "the", "over", "move",
     "moving", "go", "going", "we", "i", "us", "let", "will"]
)  # fmt: skip
_STEPS = (
    ("along", "one"), ("one", "along"), ("along", "to", "the", "next", "one"), ("along", "to", "the", "next")
)  # fmt: skip
_BEHIND = frozenset({"along", "up", "now", "then", BREAK})
_TELLS_ON = frozenset(
    [BREAK, "and", "but", "that", "it", "this", "he", "is", "has", "same", "oh", "well", "i", "so"]
)  # fmt: skip
_LONG_AGO = frozenset({"did", "had", "was"})


def along(texts: Sequence[str], is_noun: Callable[[int], bool]) -> tuple[int, bool]:
    """Index behind such words at the head, 0 where there are none, and whether they tell the last."""
    at = next((at for at, text in enumerate(texts) if text not in _LEADS), len(texts))
    end = next((at + len(said) for said in _STEPS if tuple(texts[at : at + len(said)]) == said), 0)
    said = "".join(texts[at : at + 1])
    if (
        not end
        and said in {_NEXT, _LAST}
        and (texts[at + 1 : at + 2] in (("one",), ["one"]) or is_noun(at + 1))
    ):
        end = at + 2
    while end and end < len(texts) and texts[end] in _BEHIND:
        end += 1
    return end, said == _LAST


def goes_on(texts: Sequence[str], end: int) -> bool:
    """ "… and it's the same again", "… that's cracked": more is told of the part in hand."""
    return not _TELLS_ON.isdisjoint(texts[end : end + 1]) and _LONG_AGO.isdisjoint(texts[end + 1 : end + 2])
