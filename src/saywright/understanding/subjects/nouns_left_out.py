""" "New upper spring, old lower": two of one name told apart by place and age, the name said once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.sheets.model import Sheet
from saywright.understanding.phrases import Phrase
from saywright.understanding.tags import AGES, Tag
from saywright.understanding.wordforms import is_past


def nouns_put_in(found: Sequence[Phrase], texts: Sequence[str], sheet: Sheet) -> Sequence[Phrase]:
    """The same phrases, the second of two with the name that was said with the first."""
    if {"new", "old"}.isdisjoint(texts) or not any(map(_may_be, found)):
        return found
    out: list[Phrase] = []
    for at, phrase in enumerate(found):
        named = next((i for i in range(len(out) - 1, -1, -1) if out[i].kind == "subject"), -1)
        if named < 0 or not _may_be(phrase) or not (out[named].meaning.parts or out[named].meaning.aliases):
            out.append(phrase)
            continue
        cut = _cut(phrase, out[named])
        said = phrase.lead[cut[0] : cut[1]]
        places = {p for tag in (*phrase.lead[: cut[1]], *out[named].lead) for p in tag.meaning.positions}
        rest = phrase.lead[cut[1] :]
        alone = cut[1] and (_begins(rest) or (not rest and phrase.head is None and _ends(found, at, texts)))
        if not alone or not _are_places(out[named], places, sheet):
            out.append(phrase)
            continue
        if cut[0]:
            out[named] = replace(
                out[named], end=said[0].start, lead=(*out[named].lead, *phrase.lead[: cut[0]])
            )
        out.append(replace(out[named], start=said[0].start, end=said[-1].end, lead=said, aux=()))
        if rest:
            out.append(replace(phrase, start=rest[0].start, lead=rest))
    return out


def _may_be(phrase: Phrase) -> bool:
    """Words before a noun, or without one, that tell a place and an age."""
    return len(phrase.lead) > 1 and any(map(_ages, phrase.lead)) and any(map(_places, phrase.lead))


def _cut(phrase: Phrase, named: Phrase) -> tuple[int, int]:
    """How many words of the lead are said of *named* still, and where the second ends; (0, 0): none."""
    kinds = "".join("a" if _ages(tag) else "p" if _places(tag) else "-" for tag in phrase.lead)
    known = (any(map(_ages, named.lead)), any(map(_places, named.lead)))
    beside = named.end == phrase.start
    if known == (True, True) and kinds.startswith("ap"):
        return 0, 2
    if known == (False, True) and beside and kinds.startswith("apa"):
        return 1, 3  # "upper spring new lower old"
    if known == (True, False) and beside and kinds.startswith("pap"):
        return 1, 3  # "new bearing inner old outer"
    return 0, 0


def _ages(tag: Tag) -> bool:
    return not AGES.isdisjoint(tag.tags)


def _places(tag: Tag) -> bool:
    return len(tag.meaning.positions) == 1


def _begins(rest: Sequence[Tag]) -> bool:
    """True where the next noun phrase begins: "… old outer, new seal"."""
    return bool(rest) and (_ages(rest[0]) or "DET" in rest[0].tags)


def _ends(found: Sequence[Phrase], at: int, texts: Sequence[str]) -> bool:
    """False where a noun that is not known stands behind."""
    after = found[at + 1] if at + 1 < len(found) else None
    return after is None or after.kind != "word" or bool(after.tags) or is_past(texts[after.start])


def _are_places(named: Phrase, said: set[str], sheet: Sheet) -> bool:
    """True for two places of a part that is called so."""
    parts = map(sheet.get, named.meaning.parts or named.meaning.aliases)
    return len(said) > 1 and any(part is not None and part.has_places(said) for part in parts)
