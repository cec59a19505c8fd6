""" "Cup old one, spring new one, cap on", "clip's new, the hose is the old one, both in": each went in. Pure.

A row of parts, each with how old it is behind it or with the way it went. Read where the whole line is such a
row, of what is off or while the job goes back together: "new cup in, old spring in, cap on".
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final, Literal

from saywright.understanding.bench_words import PART_NOUNS
from saywright.understanding.fixed import fixed
from saywright.understanding.meanings import Meaning
from saywright.understanding.steps import Tokens
from saywright.understanding.subjects.part_picks import are_renewed
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

Age = Literal["old", "new"]
_AGES: Final[dict[str, Age]] = {"new": "new", "old": "old", "original": "old", "own": "old"}
_JOINS: Final = frozenset({BREAK, "and", "then", "now", "next", "so", "first", "right", "okay", "also"})
_LEADS: Final = frozenset({"the", "a", "its", "his", "both", "all", "that", "brand"})
_SAME_ONE: Final = (("same", "one"), ("same", "ones"), ("the", "same", "one"), ("the", "same", "ones"))
_CAME: Final = frozenset(
    {"as", "that", "it", "they", "came", "come", "out", "off", "was", "were", "had", "before"}
)
_ONES: Final = frozenset({"one", "ones"})
_GOES: Final = frozenset({"goes", "go", "went", "gone", "is", "are", "back"})
_PUT: Final = frozenset({"in", "on", "home"})
_ROUND: Final = frozenset(
    {"it", "them", "that", "behind", "over", "top", "of", "on", "under", "beside", "again"}
)
_OF_ALL: Final = frozenset({"both", "all", "got", "them", "three", "the", "lot", "they", "is", "are"})
_FEWEST: Final = 2  # parts of a row


@fixed
class _Member:
    """A part of the row: its name with what leads it, how old it is, and the way it went."""

    words: tuple[str, ...]
    meaning: Meaning
    before: Age | None  # told before the name
    behind: Age | None
    plainly: bool  # told behind it so that it is of no other: "… old one", "… is new"
    way: str
    at: int


def aged_rows(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Spring new, diaphragm new, cover on" as "new spring in, new diaphragm in, cover on"."""
    texts = tuple([token.text for token in tokens])
    end = _stranger_last(texts, lexicon)
    row, all_in = _row(texts[:end], lexicon)
    parts = [c for member in row for c in (*member.meaning.parts, *member.meaning.aliases)]
    goes_on = state.stage == "as_left" or all(
        any(state.off.get(c) for c in (*m.meaning.parts, *m.meaning.aliases)) for m in row
    )
    may_be = _may_be(row, all_in or end < len(texts), lexicon)
    if len(row) < _FEWEST or not goes_on or len(parts) < len(row) or not may_be:
        return tokens
    out: list[Token] = []
    for member in row:
        age = member.before or member.behind
        said = (*((age,) if age else ()), *member.words, member.way or "in", BREAK)
        out += [Token(word, tokens[member.at].word) for word in said]
    return (*out, *tokens[end:]) if end < len(texts) else tuple(out[:-1])


def _stranger_last(texts: tuple[str, ...], lexicon: Lexicon) -> int:
    """ "Spring new, diaphragm new, cover on": where a part that is not on the sheet ends the row."""
    begin = len(texts) - _FEWEST
    told = begin > 0 and texts[-1] in _PUT and texts[begin] in PART_NOUNS and texts[begin - 1] in _AGES
    found = lexicon.match(texts, begin) if told else None
    return begin if told and (found is None or not (found[1].parts or found[1].aliases)) else len(texts)


def _may_be(row: Sequence[_Member], all_in: bool, lexicon: Lexicon) -> bool:
    """True where each is told old or new, or its way; and one of them behind it, by itself."""
    if any((m.before and m.behind) or not (m.before or m.behind or m.way) for m in row):
        return False
    if len({m.meaning.parts or m.meaning.aliases for m in row}) < len(row):
        return False
    behind = [m for m in row if m.behind]
    if any(m.plainly for m in row):
        following = [*(m.plainly for m in row[1:]), True]  # "boot new seal old one": of the boot, of the seal
        return all_in or all(
            m.plainly or m.before or m.way or next_so for m, next_so in zip(row, following, strict=True)
        )
    bare = len(behind) >= _FEWEST and row[0].behind is not None and not any(m.before for m in row)
    return bare and not (
        not all_in
        and not are_renewed(lexicon.sheet, row[0].meaning.parts)
        and all(are_renewed(lexicon.sheet, m.meaning.parts) for m in row[1:])
    )


def _row(texts: tuple[str, ...], lexicon: Lexicon) -> tuple[list[_Member], bool]:
    """The members that *texts* consist of, and whether all are told to be in; none where more is said."""
    row: list[_Member] = []
    at = 0
    while at < len(texts):
        if texts[at] in _JOINS:
            at += 1
        elif row and (way := _all_in(texts, at)):
            return [_with_way(m, way) for m in row], True
        else:
            member, at = _member(texts, at, lexicon)
            if member is None:
                return [], False
            row.append(member)
    return row, False


def _with_way(member: _Member, way: str) -> _Member:
    return _Member(
        member.words,
        member.meaning,
        member.before,
        member.behind,
        member.plainly,
        member.way or way,
        member.at,
    )


def _all_in(texts: tuple[str, ...], at: int) -> str:
    """ "… both in", "… got them all on" at the end."""
    end = at
    while end < len(texts) and texts[end] in _OF_ALL:
        end += 1
    told = not {"both", "all", "lot"}.isdisjoint(texts[at:end])
    return texts[end] if told and end == len(texts) - 1 and texts[end] in _PUT else ""


def _member(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> tuple[_Member | None, int]:
    """The member that begins at *at*, and where it ends."""
    begin, before, lead = at, None, []
    while at < len(texts):
        found = lexicon.match(texts, at)
        if found is not None and (found[1].parts or found[1].aliases):
            break
        if texts[at] in _AGES and before is None:
            before = _AGES[texts[at]]
        elif texts[at] in lexicon.positions or texts[at] in {"both", "all"}:
            lead.append(texts[at])
        elif texts[at] not in _LEADS:
            return None, at
        at += 1
    else:
        return None, at
    end = at + found[0]
    words = (*lead, *texts[at:end])
    behind, plainly, after = _age_behind(texts, end)
    if behind and not plainly and before:  # "new spring old cap on": of the cap
        behind, after = None, end
    way, last = _way(texts, after)
    return _Member(words, found[1], before, behind, plainly, way, begin), last


def _age_behind(texts: tuple[str, ...], at: int) -> tuple[Age | None, bool, int]:
    """How old it is by the words behind its name, whether they tell it plainly, and where they end."""
    same = next((some for some in _SAME_ONE if texts[at : at + len(some)] == some), ())
    if same:
        at += len(same)
        while at < len(texts) and texts[at] in _CAME:
            at += 1
        return "old", True, at
    is_so = text_at(texts, at) in {"is", "are"}
    end = at + is_so
    end += text_at(texts, end) in {"the", "a", "its", BREAK}
    age = _AGES.get(text_at(texts, end))
    if age is None:
        return None, False, at
    ones = text_at(texts, end + 1) in _ONES
    if not ones and (end > at + is_so or (is_so and age == "old")):
        return None, False, at  # "cup the old spring"; "the hose is old"
    return age, is_so or ones, end + 1 + ones


def _way(texts: tuple[str, ...], at: int) -> tuple[str, int]:
    """The way it went, and where that ends: "goes back in", "on top of it"; "" for none."""
    end = at
    while text_at(texts, end) in _GOES:
        end += 1
    put = text_at(texts, end)
    if put not in _PUT:
        return ("back in", end) if text_at(texts, end - 1) == "back" and end > at else ("", at)
    end += 1
    while text_at(texts, end) in _ROUND:
        end += 1
    return "on" if put == "on" else "in", end
