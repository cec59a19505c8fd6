"""Words that say what is to be had without a verb of buying: "a needle to get", "two seals on the list"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.bench_words import TOO
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Meaning
from saywright.understanding.numbers.words import CARDINALS
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK

_SIGNS = frozenset({"get", "buy", "list", "write", "jot"})
_MORE = frozenset({"another", "those", "these"})
ORDERING = _SIGNS | _MORE
_ONE_MORE = frozenset(
    {("another",), ("another", "one"), ("one", "of", "those"), ("one", "of", "these"), ("one", "of", "them")}
)
_NEW_ONE = Meaning(tags=frozenset({"PRON", "NEW"}))
_HAVE = frozenset({"want", "wants", "need", "needs", "get", "gets", "have", "has", "a", "use"})
_GET_ME = frozenset({("get", "me"), ("get", "us"), ("have", "me")})
_KINDS = frozenset({"shopping", "parts", "order", "buying"})  # of lists
_FEW = frozenset({("one",), ("two",), ("three",), ("four",)})
_BETWEEN = frozenset(
    [BREAK, "then", "so", "far", "is", "now", "we", "have", "has", "got", "i", "for", "you", "him", "me"]
)
_DOWN = {("write", "down"), ("jot", "down")}
_NAMED = frozenset({"PART", "ONE"})
_NOT_SO = frozenset({"not", "never", "shall", "should", "whether", "if"})  # "do not put that on the list"


def order_words(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> Sequence[Tag]:
    """The same tags, such words as an order."""
    if not _MORE.isdisjoint(texts):
        tags = _one_more(tags, texts)
    if _SIGNS.isdisjoint(texts):
        return tags
    order = lexicon.table.get(("order",), NOTHING)
    if not order.acts:
        return tags
    meant = Meaning(acts=order.acts[:1])
    tags = _written_down(tags, texts, meant)
    tags = _get_one(_to_get(tags, texts, meant), texts, meant)
    at = next((i for i, text in enumerate(texts) if text == "list"), None)
    return _on_list(tags, texts, at, meant) if at is not None else tags


def _one_more(tags: Sequence[Tag], texts: Sequence[str]) -> Sequence[Tag]:
    """ "so it gets another", "I shall want one of those", "get me another one": a new one."""
    out: list[Tag] = []
    at = 0
    while at < len(tags):
        end = next(
            (at + n for n in (2, 1) if at + n <= len(tags) and _means_one(tags[at : at + n], texts)), 0
        )
        if end and out and _is_wanted(out, texts) and _closes(tags, end, texts):
            out.append(Tag("PRON", tags[at].start, tags[end - 1].end, _NEW_ONE))
            at = end
        else:
            out.append(tags[at])
            at += 1
    return out


def _means_one(some: Sequence[Tag], texts: Sequence[str]) -> bool:
    return bool(some) and texts[some[0].start : some[-1].end] in _ONE_MORE


def _is_wanted(before: Sequence[Tag], texts: Sequence[str]) -> bool:
    """True behind a need that is not denied, and behind "get me"."""
    last = before[-1]
    if last.kind == "AUX":
        return "NEED" in last.tags and not last.tags & {"NEG", "DECLINE"} and texts[last.end - 1] in _HAVE
    return texts[max(0, last.end - 2) : last.end] in _GET_ME


def _closes(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    after = tags[at] if at < len(tags) else None
    if after is None or after.kind == "BREAK" or after.tags & {"FILLER", "AND", "BUT"}:
        return True
    return texts[after.start] in {"too", "for", "please"}


def _get_one(tags: Sequence[Tag], texts: Sequence[str], meant: Meaning) -> Sequence[Tag]:
    """ "seal's torn, get one", "get two": so many of what is in hand."""
    out = list(tags)
    for at, tag in enumerate(tags[:-1]):
        behind, before = tags[at + 1], tags[at - 1].kind if at else "BREAK"
        alone = behind.kind == "MEASURE" and texts[behind.start : behind.end] in _FEW
        ends = at + 2 == len(tags) or tags[at + 2].kind == "BREAK"
        whole = (
            texts[tag.end : tag.end + 1] in {("a",), ("another",)} and "set" in texts[tag.end : tag.end + 4]
        )
        fetched = before in {"COND", "BREAK", "ACT"} or (whole and before == "AUX")
        if texts[tag.start : tag.end] == ("get",) and fetched and ((alone and ends) or whole):
            out[at] = replace(tag, kind="ACT", meaning=meant)
    return out


def _written_down(tags: Sequence[Tag], texts: Sequence[str], meant: Meaning) -> Sequence[Tag]:
    """ "please write down one bottom hose": so many of a part, for the list."""
    out = list(tags)
    for at in range(len(out) - 3):
        begin, end = out[at].start, out[at + 1].end
        if texts[begin:end] not in _DOWN or out[at].kind != "WORD":
            continue
        object_ = next((t for t in out[at + 2 : at + 6] if t.kind not in {"MOD", "MEASURE"}), None)
        counted = texts[end] in CARDINALS or texts[end] in {"a", "an"}
        if counted and object_ is not None and object_.kind == "PART":
            out[at : at + 2] = [Tag("ACT", begin, end, meant)]
            break
    return out


def _to_get(tags: Sequence[Tag], texts: Sequence[str], meant: Meaning) -> Sequence[Tag]:
    """ "a needle and a seat to get": an object and no more stands before, nothing behind."""
    out = list(tags)
    for i in range(1, len(out) - 1):
        to, get = out[i], out[i + 1]
        if texts[to.start : get.end] not in {("to", "get"), ("to", "buy")} or not _is_object(out, i - 1):
            continue
        after = out[i + 2] if i + 2 < len(out) else None
        if after is None or after.kind == "BREAK" or "AND" in after.tags or texts[after.start] == "too":
            needed = frozenset({"NEED"})
            out[i] = replace(to, kind="AUX", meaning=Meaning(tags=needed))
            out[i + 1] = Tag("ACT", get.start, get.end, meant)
    return out


def _is_object(tags: Sequence[Tag], at: int) -> bool:
    """ "a needle", "clamp bolts, six of them"."""
    counted = tags[at].kind == "PRON" and at > 1 and "OF" in tags[at - 1].tags
    return tags[at].kind in _NAMED or counted


def _on_list(tags: Sequence[Tag], texts: Sequence[str], at: int, meant: Meaning) -> Sequence[Tag]:
    """ "on the list then a needle", "two seals on the shopping list"."""
    begin = at - 1 if at and texts[at - 1] in _KINDS else at
    begin = begin - 1 if begin and texts[begin - 1] in {"the", "my", "a"} else begin
    begin = begin - 1 if begin and texts[begin - 1] in {"on", "for"} else begin
    if begin == at:
        return tags
    end = at + 1
    last = next((t for t in reversed(tags) if t.end <= begin and "FILLER" not in t.tags), None)
    if not _NOT_SO.isdisjoint(texts[:begin]) or (last is not None and texts[last.start] == "next"):
        return tags
    opens = last is None or last.kind == "BREAK"
    while opens and end < len(texts) and texts[end] in _BETWEEN:
        end += 1
    rest = next((t for t in tags if t.start >= end), None)
    if opens:
        fits = rest is not None and rest.kind in {"MOD", "PART"}
    else:
        behind = next((t for t in tags if t.start >= end and texts[t.start : t.end] not in TOO), None)
        ends = behind is None or behind.kind == "BREAK" or "AND" in behind.tags
        fits = ends and texts[begin] == "on" and last is not None and last.kind in _NAMED | {"AUX", "WORD"}
    whole = all(t.end <= begin or t.start >= begin for t in tags) and (rest is None or rest.start == end)
    if not fits or not whole:
        return tags
    before = [t for t in tags if t.end <= begin]
    return [*before, Tag("ACT", begin, end, meant), *(t for t in tags if t.start >= end)]
