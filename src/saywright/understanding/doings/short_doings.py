"""Doings said with the plainest verb: "do all four", "the rear one I'd leave"."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.conditions.back_to_faults import has_fault
from saywright.understanding.facts import Fact
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING, Act, Meaning
from saywright.understanding.statements import ActionNote, Movement
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK
from saywright.understanding.working import Working

_VERBS = frozenset({"do", "leave"})
_OILS = frozenset({"oil", "grease"})
SHORTLY = _VERBS | _OILS | {"one"}
_LITTLE = frozenset({"drop", "spot", "dab", "bit", "touch", "smear", "lick", "squirt"})
_GIVES = frozenset({"needs", "need", "wants", "want", "gave", "give", "given"})
_GETS = frozenset({"getting", "gets", "get", "needs", "wants", "need", "want", "have", "having"})
_FILLER = Meaning(tags=frozenset({"FILLER"}))
_GIVEN = 6  # tokens from the verb to "of": "gave the throttle shaft a drop of oil"
_ENDS = frozenset({BREAK, "and", "but", "then", "too", "while", "though", "as"})
_STAYS = frozenset({"alone", "be"}) | _ENDS


def short_doings(tags: Sequence[Tag], texts: Sequence[str], lexicon: Lexicon) -> Sequence[Tag]:
    """The same tags, such a verb as what it stands for: something is renewed, or is not."""
    tags = _given_oil(tuple(tags), texts, lexicon) if not _OILS.isdisjoint(texts) else tags
    one_too = _one_too(texts)
    if _VERBS.isdisjoint(texts) and one_too is None:
        return tags
    replaced = lexicon.table.get(("replace",), NOTHING)
    if not replaced.acts:
        return tags
    out = list(tags)
    if one_too is not None:
        one = Tag("ACT", one_too, one_too + 1, Meaning(acts=replaced.acts[:1]))
        rest = next(t for t in out if t.start <= one_too < t.end)
        too = (Tag("WORD", one.end, rest.end, _FILLER),) if rest.end > one.end else ()
        at = out.index(rest)
        out[at : at + 1] = (one, *too)
    for i, tag in enumerate(out):
        word = tuple(texts[tag.start : tag.end])
        if tag.kind != "WORD" or word not in _SHORT or not _begins(out, i, texts):
            continue
        if _SHORT[word](out, i, texts):
            out[i] = replace(tag, kind="ACT", meaning=Meaning(acts=replaced.acts[:1]))
    return tuple(out)


def _one_too(texts: Sequence[str]) -> int | None:
    """ "it's getting one too", "the right one gets one as well": where the new one stands that it gets."""
    if "one" not in texts:
        return None
    at = next((i for i in range(1, len(texts) - 1) if texts[i] == "one" and texts[i - 1] in _GETS), None)
    behind = tuple(texts[at + 1 : at + 3]) if at is not None else ()
    return at if behind[:1] in {("too",), ("also",)} or behind == ("as", "well") else None


def _given_oil(tags: tuple[Tag, ...], texts: Sequence[str], lexicon: Lexicon) -> tuple[Tag, ...]:
    """ "needs a drop of oil", "gave it a dab of grease": it is lubricated; not "a drop of oil on it"."""
    acts = lexicon.table.get(("lubricate",), NOTHING).acts
    of = next((i for i in range(2, len(texts) - 1) if texts[i] == "of" and texts[i + 1] in _OILS), 0)
    if not (of and acts and texts[of - 1] in _LITTLE) or _GIVES.isdisjoint(texts[max(0, of - _GIVEN) : of]):
        return tags
    doing = Tag("ACT", of - 1, of + 2, Meaning(acts=(Act(acts[0].id, "noun"),)))
    before = tuple(replace(t, end=min(t.end, of - 1)) for t in tags if t.start < of - 1)
    return (*before, doing, *(t for t in tags if t.start >= of + 2))


def _is_done(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "do all four", "I would do the seal", "bearing's rough so we'll do that"."""
    end = _object_end(tags, at)
    said = tags[at + 1 : end]
    if end < len(tags) and texts[tags[end].start : tags[end].end] in {("anyway",), ("both",)}:
        end += 1  # "do both of them anyway"
    if _text(tags, end, texts) in _ENDS:
        would = at > 0 and texts[tags[at - 1].end - 1] == "would" and bool(said)
        if _picks(said) or (would and said[-1].kind == "PART" and "DET" in said[0].tags):
            return True
    pointed = at + 1 < len(tags) and tags[at + 1].kind == "PRON" and _text(tags, at + 2, texts) in _ENDS
    return pointed and any(tag.kind == "COND" for tag in tags[:at])


def _is_left(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """ "leave the rear one", "the rear one I'd leave", "I'd leave, it's only a mark"."""
    end = _object_end(tags, at)
    behind = _text(tags, end, texts)
    if behind in _STAYS and end > at + 1:
        return True
    if end > at + 1 and behind in {"where", "as"}:  # "leave the cover where it is"
        rest = tuple(texts[tags[end].start : tags[end].start + 3])
        return rest[1:] in {("it", "is"), ("they", "are"), ("he", "is")}
    it_is = behind == "it" and tuple(texts[tags[end].end : tags[end].end + 1]) == ("is",)
    return (behind in _STAYS or it_is) and _has_object(tags, at)


def _text(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> str:
    """The first word of the tag at *at*; a break behind the last."""
    return texts[tags[at].start] if at < len(tags) else BREAK


def _begins(tags: Sequence[Tag], at: int, texts: Sequence[str]) -> bool:
    """True where a clause begins, or somebody is going to: "so do both", "I'd leave"."""
    if at == 0:
        return True
    before = tags[at - 1]
    if before.kind == "AUX" and "NEED" in before.tags and not before.tags & {"NEG", "DECLINE"}:
        return True
    return (
        before.kind in {"BREAK", "COND"}
        or "FILLER" in before.tags
        or texts[before.start] in {"and", "but", "just"}
    )


def _object_end(tags: Sequence[Tag], at: int) -> int:
    """Index of the tag behind the object of the verb at *at*."""
    at += 1
    while at < len(tags) and tags[at].kind in {"MOD", "PART", "ONE"}:
        at += 1
    return at


def _picks(found: Sequence[Tag]) -> bool:
    return any(tag.tags & {"BOTH", "ALL"} for tag in found)


def _has_object(tags: Sequence[Tag], at: int) -> bool:
    """ "the rear one I'd leave": what is left stands before."""
    return at > 1 and tags[at - 1].kind == "AUX" and tags[at - 2].kind in {"PART", "ONE"}


_SHORT: Final[dict[tuple[str, ...], Callable[[Sequence[Tag], int, Sequence[str]], bool]]] = {
    ("do",): _is_done,
    ("leave",): _is_left,
}


def meant_by_it(work: Working, fact: Fact, act: str) -> str | None:
    """The action that "do both" means: the one proposed last for the part, or a new one for what has a fault.

    "leave the rear one" declines nothing where no fault and no action of such a part is on record.
    """
    verb = work.texts[fact.phrase.head.start] if fact.phrase.head is not None else ""
    if verb == "one":
        return act if _new_ones_told(work) else None
    if verb not in _VERBS:
        return act
    if verb == "leave" and work.stage == "as_left":
        return None  # "rear came out at eighteen four, I'm leaving it": as it is set
    named = {c for s in fact.subjects for c in s.components}
    named = named or ({work.hand.component} if work.hand is not None else set())
    last = next((s for s in work.newest() if isinstance(s, ActionNote) and s.component in named), None)
    if verb == "do" and last is not None:
        return last.action if last.status == "proposed" else None
    return act if last is not None or has_fault(work, fact.subjects) else None


def _new_ones_told(work: Working) -> bool:
    """True where a new part was proposed or fitted a moment ago: the one that another one gets, too."""
    orders = {action.id for action in work.sheet.action if action.order}
    return any(
        (isinstance(s, ActionNote) and s.action in orders) or (isinstance(s, Movement) and s.part == "new")
        for s in work.newest()
    )
