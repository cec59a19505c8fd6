"""What is to be bought → orders, one for each item of a list; and whether a list goes on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from saywright.understanding.doings.bad_ones import the_bad_one
from saywright.understanding.phrases import Phrase
from saywright.understanding.quantities.measures import find_measures
from saywright.understanding.statements import ActionNote, Remark, Statement
from saywright.understanding.subjects.ellipsis import single_components
from saywright.understanding.subjects.noun_phrases import (
    Subject,
    subject_of_components,
    subject_of_lead,
    subject_of_phrase,
)
from saywright.understanding.subjects.part_picks import all_have
from saywright.understanding.subjects.parts import Part, resolve
from saywright.understanding.working import Working

OWNER_WANTS = frozenset({"wants", "needs"})  # behind what the things of a list are for

_TALK = frozenset({Remark})
_THAT_SIDE = frozenset((prep, "that", noun) for prep in ("for", "on") for noun in ("side", "end"))
_TAILS = (
    ("on", "there"), ("on", "that"), ("on", "the", "list"), ("on", "the", "order"), ("to", "the", "list"),
    ("to", "order"), ("on", "order"), ("as", "well"), ("and", "all"), ("too",), ("also",), ("please",),
    ("only",), ("to", "get"),
    ("order", "all", "that"), ("order", "all", "those"), ("order", "all", "of", "that"),
    ("order", "that", "lot"), ("order", "the", "lot"), ("order", "them", "all"), ("only",),
    ("that", "is", "the", "list"), ("that", "is", "the", "order"),
)  # fmt: skip


@dataclass(slots=True)
class BuyList:
    """What is to be bought, as it was said."""

    items: list[Subject]
    start: int  # tokens of the words that open it and of its items
    end: int
    strangers: list[tuple[int, int]]  # tokens of nouns among them that the sheet does not know
    settled: bool = False
    changed: bool = False  # "no, make it both": in the place of one of the list before
    renews: bool = False  # "the back wants pads and a hose": they are to be renewed there


def goes_on_buying(work: Working) -> bool:
    """True where a list was told right before, or before an aside: "eighty quid that lot", "not the left"."""
    for group in reversed(work.before.recent[-2:]):
        for said in group:
            if type(said) not in _TALK and not (type(said) is ActionNote and said.status == "declined"):
                return ActionNote in map(type, group) and is_buying(group, work)
    return False


def is_buying(group: Sequence[Statement], work: Working) -> bool:
    """True for orders, and perhaps what is declined beside them."""
    said = [s for s in group if type(s) is not Remark]
    acts = [s for s in said if type(s) is ActionNote]
    if not acts:
        return False
    order = _order_of(work)
    bought = [s for s in acts if s.status == "proposed" and s.action == order]
    parts = {s.component for s in bought}  # "I'd put a new shaft in, so a shaft and a felt to order"
    rest = [s for s in acts if s not in bought and s.status != "declined"]
    same = all(s.status == "proposed" and s.action == "replace" and s.component in parts for s in rest)
    return bool(bought) and same and len(acts) == len(said)


def _order_of(work: Working) -> str | None:
    """The action of the sheet that stands for buying."""
    known = next((a.id for a in work.sheet.action if a.id == "order"), None)
    return known or next((a.id for a in work.sheet.action if a.order), None)


def list_owner(found: Sequence[Phrase], begin: int, opener: Sequence[str]) -> Subject | None:
    """ "left caliper" of "left caliper wants two seals and a boot": what the things are for; else None."""
    head = [p for p in found if p.end <= begin and p.kind != "break" and "FILLER" not in p.tags]
    if len(head) != 1 or head[0].end != begin or OWNER_WANTS.isdisjoint(opener[:1]):
        return None
    said = subject_of_phrase(head[0]) if head[0].kind == "subject" else None
    if head[0].kind == "lead":
        return subject_of_lead(head[0])
    return said if said is not None and (said.components or said.which) else None


def on_side_of(owner: Subject, item: Subject, work: Working) -> Subject:
    """ "a lower pin" for the left caliper: the left lower one, where the sheet has it."""
    which = tuple(dict.fromkeys((*owner.which, *item.which)))
    there = tuple(c for c in item.components if all_have(work.sheet, (c,), which))
    fits = len(owner.which) == 1 and bool(there)
    return replace(item, which=which, components=there) if fits else item


def past_tail(texts: Sequence[str], end: int) -> int:
    """The token behind "as well", "on there", "to order" at the end of a list."""
    for tail in _TAILS:
        if tuple(texts[end : end + len(tail)]) == tail:
            return past_tail(texts, end + len(tail))
    return past_size(texts, end)


def settle_list(listed: BuyList | None, work: Working, told_at: int | None = None) -> None:
    """Put out the orders of the list; where something is told at token *told_at*, only what is before that.

    "A hose, left only, no need to change the other": the other hose.
    """
    if listed is None or listed.settled or (told_at is not None and told_at < listed.end):
        return
    listed.settled = True
    if _order_of(work) is None:
        return
    at = listed.start
    for start, end in (*listed.strangers, (listed.end, listed.end)):
        work.covered.append((at, start))
        at = end
    every = [one for some in listed.items for one in single_components(some, work.sheet)]
    for item in [the_bad_one(one, work) for one in every]:
        here = work.hand is not None and work.texts[item.end : item.end + 3] in _THAT_SIDE
        side = work.hand.side if here and work.hand is not None else None
        hand = replace(work.hand, side=side, turned_to=side) if work.hand is not None else None
        part = resolve(item, work.sheet, hand, work.now, off=work.off, seen=work.seen)
        if part is None:
            continue
        work.named(part.component, part.single)
        made = put_order(work, item, part, renews=listed.renews)
        if listed.changed:
            _take_place(made, listed, work)


def put_order(work: Working, item: Subject, part: Part, *, renews: bool = False) -> ActionNote:
    """Put out that *part*, said as *item*, is to be bought, or to be renewed."""
    renew = next((a.id for a in work.sheet.action if a.id == "replace"), None) if renews else None
    made = work.make(
        ActionNote,
        item.start,
        item.end,
        flags=part.flags,
        stage=work.stage,
        component=part.component,
        which=part.single,
        action=renew or _order_of(work) or "",
        status="proposed",
        quantity=part.count or _some_there(item, part, work),
    )
    work.put(made)
    return made


def _some_there(item: Subject, part: Part, work: Working) -> int | None:
    """ "the back wants pads": as many as there are at the back."""
    component = work.sheet.get(part.component)
    if component is None or part.single is not None or not item.many or not item.which:
        return None
    said = {word for which in item.which for word in which.split()}
    there = sum(said <= set(position.split()) for position in component.positions)
    return there if there > 1 else None


def _take_place(made: ActionNote, listed: BuyList, work: Working) -> None:
    """ "No, make it both": the order of the same part before no longer holds."""
    same = (made.component, made.action, made.status)
    notes = (s for s in work.newest() if isinstance(s, ActionNote) and s is not made)
    old = next((s for s in notes if (s.component, s.action, s.status) == same), None)
    if old is not None:
        work.supersede([old.id], made.id, listed.start, listed.end)


def past_size(texts: Sequence[str], end: int) -> int:
    """The token behind "in a fifty six", the size of the item that ends at token *end*."""
    size = find_measures(texts[end + 2 : end + 6], {}) if tuple(texts[end : end + 2]) == ("in", "a") else ()
    return end + 2 + size[0].end if size and size[0].start == 0 else end


def at_place(item: Subject, which: tuple[str, ...], said: Subject | None, work: Working) -> Subject:
    """The item at the place said behind it, where it has such a place: "a slide for the left"."""
    parts = [work.sheet.get(c) for c in item.components]
    known = bool(which) and any(p is not None and p.has_places(which) for p in parts)
    item = replace(item, which=which) if known and not item.which else item
    if said is None:
        return item
    return replace(
        item,
        selector=item.selector or said.selector,
        count=item.count or said.count,
        end=max(item.end, said.end),
    )


def by_alias(phrase: Phrase, work: Working) -> Subject | None:
    """ "both bushes, seal, spring": a short name that stands among the items of a list."""
    if phrase.kind != "word" or phrase.end - phrase.start != 1:
        return None
    known = work.lexicon.table.get((work.texts[phrase.start],))
    components = (known.parts or known.aliases) if known is not None else ()
    named = subject_of_components(components, phrase.start, phrase.end)
    return replace(named, alias=True) if components else None


def for_number(items: Sequence[Subject], texts: Sequence[str], at: int) -> bool:
    """ "a valve for one and two": the number at *at* tells for which station the last of *items* is."""
    if not items or not at:
        return False
    last = items[-1]
    numbered = bool(last.which) and last.which[-1].isdigit()
    return texts[at - 1] == "for" or (texts[at - 1] == "and" and last.end == at - 1 and numbered)


def on_it(phrase: Phrase, texts: Sequence[str]) -> bool:
    """ "a band with the lining on it"."""
    around = texts[phrase.start - 1 : phrase.end + 1]
    return any(pair in {("on", "it"), ("in", "it")} for pair in pairwise(around)) and len(around) < 4
