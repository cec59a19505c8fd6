"""Participles whose ending was not heard: "has been grease", "i have polish the shaft", "pins are grease"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from saywright.understanding.bench_words import IS
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import Act, Meaning
from saywright.understanding.tags import Tag

_HAVE = frozenset({"have", "has", "had"})
_PARTICLES = frozenset({("up",), ("out",), ("off",), ("down",)})
_WE = frozenset({"i", "we"})
_AUXILIARIES = _HAVE | IS | {"been"}
_HOW_IT_IS = frozenset(
    {"flush", "true", "level", "square", "open", "free", "dry", "clean", "loose", "set", "scrap"}
)
_ENDS = frozenset({"and", "now", "too", "but", "then"})


def participles(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> Sequence[Tag]:
    """The same tags, such words as what was done."""
    if "once" in texts:
        tags = _wants(tags, texts, lexicon)
    helped = not _AUXILIARIES.isdisjoint(texts)
    out: list[Tag] | None = None
    for at, tag in enumerate(tags):
        if tag.kind not in {"WORD", "ACT"} or tag.tags:
            continue
        if not ((helped and _done(tags, at, texts)) or _done_to_it(tags, at, texts)):
            continue
        known = {act.id for act in tag.meaning.acts}
        forms = pasts(tuple(texts[tag.start : tag.end]), lexicon)
        act = next((past for past in forms if not known or past.id in known), None)
        if act is not None:
            out = list(tags) if out is None else out
            out[at] = replace(tag, kind="ACT", meaning=Meaning(acts=(act,)))
        elif not known and tag.end - tag.start == 1 and texts[tag.start - 1] in IS:
            found = _found_so(texts[tag.start], lexicon)
            if found is not None:
                out = list(tags) if out is None else out
                out[at] = replace(tag, kind="COND", meaning=found)
    return tags if out is None else out


def _done(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """True where what stands before tells that something was done."""
    tag = tags[at]
    helps = texts[tag.start - 1] if tag.start else ""
    if helps == "been":
        return True
    if helps in _HAVE:
        return tag.start > 1 and texts[tag.start - 2] in _WE
    if helps not in IS or at < 2 or texts[tag.start] in _HOW_IT_IS:
        return False
    if tags[at - 2].kind != "PART" and not tags[at - 2].meaning.positions:
        return False
    after = tags[at + 1] if at + 1 < len(tags) else None
    return after is None or after.kind in {"BREAK", "COND"} or texts[after.start] in _ENDS


def _done_to_it(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "slide pins grease and back in", "rod polish with fine emery", "pins grease caliper on"."""
    tag, after = tags[at], tags[at + 1 : at + 3]
    if at and tags[at - 1].kind == "ONE" and tag.kind == "ACT" and not after:
        return (
            tag.meaning.acts[0].form == "base" and "is" in texts[: tags[at - 1].start]
        )  # "… the old one grease up"
    if not at or tags[at - 1].kind != "PART" or len(after) < 2 or tag.end - tag.start > 1:
        return False
    if tag.kind == "ACT" and tag.meaning.acts[0].form != "base":
        return False
    led = next((t for t in reversed(tags[: at - 1]) if t.kind != "MOD"), None)
    if led is not None and (led.kind in {"AUX", "ACT"} or led.tags & {"PREP", "OF", "WITH", "NEED"}):
        return False
    first, second = after
    moved = second.kind in {"ON", "OFF"} or (second.kind == "ACT" and second.meaning.acts[0].form == "past")
    with_it = "WITH" in first.tags and texts[second.start] not in {"it", "them"}
    return with_it or (moved and ("AND" in first.tags or first.kind == "PART"))


def pasts(words: tuple[str, ...], lexicon: Lexicon) -> Iterator[Act]:
    """What is done by the word with its ending."""
    at = 0 if words[1:] in _PARTICLES else len(words) - 1  # "grease up"
    verb = words[at]
    for form in (verb + "d", verb + "ed", verb + verb[-1:] + "ed"):
        known = lexicon.table.get((*words[:at], form, *words[at + 1 :]))
        if known is not None and known.acts and known.acts[0].form == "past":
            yield known.acts[0]


def _found_so(verb: str, lexicon: Lexicon) -> Meaning | None:
    """ "oil line is block": the state of the word with its ending; None where it has none."""
    for form in (verb + "d", verb + "ed", verb + verb[-1:] + "ed"):
        known = lexicon.table.get((form,))
        if known is not None and known.conditions:
            return known
    return None


def _wants(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> Sequence[Tag]:
    """ "that once washing out": "wants", heard as "once" between what is spoken of and what is to be done."""
    wants = lexicon.table.get(("wants",))
    out = list(tags)
    for at in range(1, len(tags) - 1):
        before, tag, after = tags[at - 1], tags[at], tags[at + 1]
        ends = (
            at + 2 == len(tags)
            or tags[at + 2].kind in {"BREAK", "LINK"}
            or texts[tags[at + 2].start] in _ENDS
        )
        doing = after.kind == "ACT" and after.meaning.acts[0].form == "ing"
        if (
            texts[tag.start : tag.end] == ("once",)
            and before.kind in {"PRON", "PART"}
            and doing
            and ends
            and wants
        ):
            out[at] = replace(tag, kind="AUX", meaning=wants)
    return out
