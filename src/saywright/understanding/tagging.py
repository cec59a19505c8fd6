"""Tokens → tags: each stretch of words gets the one tag it has here, with what it means.

The longest phrase of the lexicon wins; a measure wins over talk of the same length. Where
a phrase has several meanings, its neighbours decide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from saywright.understanding.counts import count_parts
from saywright.understanding.lexicon import Lexicon, Meaning
from saywright.understanding.measures import Measure, find_measures
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK, Token

_NOTHING = Meaning()
_MODS = frozenset({"DET", "BOTH", "ALL", "OTHER", "NEW", "OLD", "ORD", "LAST"})
_AUX = frozenset({"NEG", "SLIGHT", "MODERATE", "SEVERE", "NEED", "DONE", "DECLINE", "COP"})
_LINKS = frozenset({"OF", "PREP", "AND", "OR", "READS"})
_MARKS = frozenset(
    {
        "STAGE", "STAGE_NOT", "AFTER", "BEFORE_WORK", "RESTORE", "SAME", "PHOTO", "PHOTO_NOT", "MAKE_THAT", "SCRATCH", "SCRATCH_MANY",
        "GO_BACK", "SEATED", "COUNTING", "LOST_COUNT", "TOOL", "LIMIT", "OTHER_JOB", "PRICE", "CLOCK", "WHATIF", "QUESTION",
        "COMMAND", "SERIAL", "PART_NUMBER", "STAMP", "TAG", "ENDS", "VAGUE", "LEAVE", "NOT_MOVED", "SUBORDINATE", "FUTURE", "BUT",
    }
)  # fmt: skip
_SPLIT_VERBS = frozenset(
    "take takes taking took taken put puts putting pull pulls pulling pulled lift lifts lifting lifted blow blew blown blowing swap swapped swapping "
    "wind wound winding screw screwed screwing get got getting drop dropped pop popped popping slide slid push pushed drift drifted tap tapped clean cleaned "
    "cleaning wipe wiped wiping draw drew wash washed washing rinse rinsed send sent dress dressed fit fitted bolt bolted set drive drove hook hooked tease teased "
    "prise prised pry pried knock knocked press pressed work worked let sort sorted soak soaked flush flushed".split()
)
_PARTICLES = frozenset({"off", "out", "in", "on", "back", "up", "down", "over", "through"})
_NOT_SPLIT = frozenset({"STAGE", "PHOTO", "FILLER", "MAKE_THAT"})  # "put it back together" moves no part
_SPLIT_REACH = 6  # tokens between a verb and its particle


def tag(tokens: Sequence[Token], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The tags of *tokens*, left to right, without gaps."""
    texts = tuple(token.text for token in tokens)
    measures = {measure.start: measure for measure in find_measures(texts, lexicon.units)}
    joined, texts = _join_split_verbs(texts, lexicon)
    out: list[Tag] = []
    at = 0
    while at < len(texts):
        found = _next(texts, at, measures, lexicon, out)
        if at in joined and found.kind != "MEASURE":
            found = replace(
                found, kind=_split_kind(joined[at]), meaning=joined[at], end=max(found.end, at + 1)
            )
        out.append(found)
        at = found.end
    return count_parts(out, texts, lexicon)


def _next(
    texts: tuple[str, ...], at: int, measures: dict[int, Measure], lexicon: Lexicon, before: list[Tag]
) -> Tag:
    if texts[at] == BREAK:
        return Tag("BREAK", at, at + 1, _NOTHING)
    if texts[at] == "?":
        return Tag("MARK", at, at + 1, Meaning(tags=frozenset({"QUESTION"})))
    if not texts[at]:
        return Tag("WORD", at, at + 1, Meaning(tags=frozenset({"FILLER"})))
    measure = measures.get(at)
    match = lexicon.match(texts, at)
    while match and (
        _cuts_measure(at, match, measures) or ("QUESTION" in match[1].tags and not _opens(before))
    ):
        match = _shorter(texts, at, match[0], lexicon)
    if measure and (match is None or not _phrase_wins(match, measure)):
        return Tag("MEASURE", at, measure.end, _NOTHING, measure)
    if match is None:
        return Tag("WORD", at, at + 1, _NOTHING)
    length, meaning = match
    kind = _kind(texts, at, length, meaning, lexicon, measures, before)
    return Tag(kind, at, at + length, meaning)


def _shorter(texts: tuple[str, ...], at: int, length: int, lexicon: Lexicon) -> tuple[int, Meaning] | None:
    for shorter in range(length - 1, 0, -1):
        meaning = lexicon.table.get(texts[at : at + shorter])
        if meaning is not None:
            return shorter, meaning
    return None


def _opens(before: list[Tag]) -> bool:
    """True where nothing but fillers and breaks stands before: a question begins its clause."""
    for tag_ in reversed(before):
        if tag_.kind == "BREAK":
            return True
        if "FILLER" not in tag_.tags and not (tag_.kind == "LINK" and "AND" in tag_.tags):
            return False
    return True


def _cuts_measure(at: int, match: tuple[int, Meaning], measures: dict[int, Measure]) -> bool:
    """True where the phrase ends inside a longer number: "number one" of "number one twenty eight"."""
    end = at + match[0]
    for inside in range(at + 1, end):
        measure = measures.get(inside)
        if (
            measure is not None
            and measure.end > end
            and len(measure.readings) > 0
            and measure.readings[0].words > end - inside
        ):
            return True
    return False


def _phrase_wins(match: tuple[int, Meaning], measure: Measure) -> bool:
    length, meaning = match
    span = measure.end - measure.start
    if length > span:
        return True
    if length < span:
        return False
    return bool(meaning.parts or meaning.characteristics or meaning.tags & {"CLOCK", "FILLER", "ORD"})


def _kind(
    texts: tuple[str, ...],
    at: int,
    length: int,
    meaning: Meaning,
    lexicon: Lexicon,
    measures: dict[int, Measure],
    before: list[Tag],
) -> str:
    following = at + length
    if meaning.parts:
        return "CHAR" if meaning.characteristics and _part_in_reach(meaning, before) else "PART"
    if meaning.characteristics and not (
        meaning.conditions and _says_condition(texts, following, before, measures)
    ):
        return "CHAR" if not _is_turn_movement(meaning, texts, at, length) else "WORD"
    if meaning.acts and "READS" in meaning.tags and following in measures:
        return "LINK"
    if meaning.acts and meaning.conditions:
        return "ACT" if _says_action(texts, following, before, lexicon, measures) else "COND"
    if meaning.conditions:
        if meaning.tags & {"SEVERE", "SLIGHT", "MODERATE"} and _names(lexicon, texts, following).conditions:
            return "AUX"
        return "COND"
    if meaning.acts:
        return "ACT"
    if meaning.positions and not meaning.tags - {"POS"}:
        return "MOD" if _position_fits(texts, at, following, lexicon, measures, before) else "WORD"
    if meaning.aliases:
        return "PART" if _alias_fits(texts, at, following, lexicon, measures, before) else "WORD"
    return _talk_kind(meaning.tags, texts, at, following, lexicon, measures, before)


def _names(lexicon: Lexicon, texts: tuple[str, ...], at: int) -> Meaning:
    """What the longest phrase at *at* means; nothing at the end."""
    if at >= len(texts) or not texts[at] or texts[at] == BREAK:
        return _NOTHING
    match = lexicon.match(texts, at)
    return match[1] if match else _NOTHING


def _part_in_reach(meaning: Meaning, before: list[Tag]) -> bool:
    """A name that is a part and a characteristic is the latter right behind a part that has it."""
    owners = {component for component, _ in meaning.characteristics}
    for tag_ in reversed(before):
        if tag_.kind == "PART":
            return bool(owners & set(tag_.meaning.parts or tag_.meaning.aliases))
        if tag_.kind not in {"WORD", "AUX", "MOD"}:
            return False
    return False


def _is_turn_movement(meaning: Meaning, texts: tuple[str, ...], at: int, length: int) -> bool:
    return (
        texts[at : at + length] == ("turns",)
        and at > 0
        and texts[at - 1] == "it"
        and bool(meaning.characteristics)
    )


def _says_condition(
    texts: tuple[str, ...], following: int, before: list[Tag], measures: dict[int, Measure]
) -> bool:
    """ "play", "wear": a state unless a number follows."""
    if following in measures or (following + 1 in measures and texts[following] in {"is", "of", "at", "was"}):
        return False
    return not (before and before[-1].kind == "MEASURE")


def _says_action(
    texts: tuple[str, ...], following: int, before: list[Tag], lexicon: Lexicon, measures: dict[int, Measure]
) -> bool:
    """ "clean": an action before its object or after "needs a"; else a state."""
    last = next((t for t in reversed(before) if "FILLER" not in t.tags), None)
    if last is not None and last.kind == "AUX":
        if last.tags & {"NEED", "DECLINE"} and not last.tags & {"COP", "NEG"}:
            return True
        if last.tags & {"COP", "NEG", "SLIGHT", "SEVERE", "MODERATE"}:
            return False
    if following < len(texts) and texts[following] in {
        "it",
        "that",
        "them",
        "this",
        "the",
        "these",
        "those",
        "both",
        "all",
        "up",
        "out",
    }:
        return True
    return last is None and bool(_names(lexicon, texts, following).parts)


def _position_fits(
    texts: tuple[str, ...],
    at: int,
    following: int,
    lexicon: Lexicon,
    measures: dict[int, Measure],
    before: list[Tag],
) -> bool:
    """ "right" at the start is a filler unless something follows that has a right one."""
    if texts[at] != "right" or following - at > 1:
        return True
    if before and before[-1].kind in {"MOD", "PART", "LINK"}:
        return True
    after = texts[following] if following < len(texts) else ""
    names = _names(lexicon, texts, following)
    return (
        after in {"one", "ones", "is", "hand", "side"}
        or bool(names.parts or names.aliases or names.conditions)
        or following in measures
    )


def _alias_fits(
    texts: tuple[str, ...],
    at: int,
    following: int,
    lexicon: Lexicon,
    measures: dict[int, Measure],
    before: list[Tag],
) -> bool:
    """A part of a name stands for the part where a noun would stand."""
    last = before[-1] if before else None
    if last is None or last.kind in {"MOD", "LINK", "BREAK", "AUX", "ACT", "OFF", "ON", "MEASURE", "COND"}:
        return True
    after = texts[following] if following < len(texts) else ""
    return (
        after in {"is", "are", "was", "were", "has", "reads", "out", "off", "in", "on"}
        or following in measures
    )


def _talk_kind(
    tags: frozenset[str],
    texts: tuple[str, ...],
    at: int,
    following: int,
    lexicon: Lexicon,
    measures: dict[int, Measure],
    before: list[Tag],
) -> str:
    if "FILLER" in tags:
        return "WORD"
    if tags & {"MOVE_OFF", "MOVE_ON", "MOVE_LOOSE_ON"}:
        kind = _move_kind(tags, texts, at, following, lexicon, measures, before)
        if kind:
            return kind
    if tags & _MARKS and not (tags & {"WHATIF", "FUTURE"} and tags & _AUX):
        return "MARK"
    if "PRON" in tags:
        names = _names(lexicon, texts, following)
        points = texts[at] in {"this", "that", "these", "those", "them"} and following - at == 1
        return "MOD" if points and (names.parts or names.aliases or names.positions) else "PRON"
    if "ONE" in tags:
        return "ONE" if before and before[-1].kind == "MOD" else "WORD"
    if tags & _MODS and tags & _AUX:
        names = _names(lexicon, texts, following)
        plain = bool(names.conditions or names.acts or names.tags & {"MOVE_ON", "MOVE_OFF"}) and not (
            names.parts or names.aliases
        )
        return "AUX" if plain else "MOD"
    if tags & _MODS:
        return "MOD"
    if tags & _LINKS and tags & _AUX:
        names = _names(lexicon, texts, following)
        return "AUX" if names.acts or (names.tags & _AUX and not names.parts) or tags & {"COP"} else "LINK"
    if tags & _AUX:
        return "AUX"
    if tags & _LINKS:
        return "LINK"
    return "WORD"


def _move_kind(
    tags: frozenset[str],
    texts: tuple[str, ...],
    at: int,
    following: int,
    lexicon: Lexicon,
    measures: dict[int, Measure],
    before: list[Tag],
) -> str:
    """OFF or ON; "" where the word is a preposition or belongs to something else."""
    last = before[-1] if before else None
    after = texts[following] if following < len(texts) else BREAK
    if "MOVE_OFF" in tags:
        bare = texts[at:following] in {("out",), ("off",)}
        if bare and last is not None and (last.kind == "MEASURE" or last.kind in {"COND", "ACT", "CHAR"}):
            return ""
        if bare and after in {"of", "the"} and not (last is not None and last.kind == "PART"):
            return ""
        return "OFF" if not (bare and after == "of" and following + 1 < len(texts)) else ""
    if "MOVE_ON" in tags:
        return "ON"
    if (
        last is None
        or last.kind not in {"PART", "ONE", "AUX", "MOD", "PRON"}
        or _names(lexicon, texts, following).parts
    ):
        return ""
    if last.kind == "AUX" and not last.tags & {"COP", "DONE"}:
        return ""
    free = after == BREAK or after in {"and", "now", "then", "with", "too", "next", "first", "again"}
    return "ON" if free or following in measures else ""


def _join_split_verbs(texts: tuple[str, ...], lexicon: Lexicon) -> tuple[dict[int, Meaning], tuple[str, ...]]:
    """ "take the bowl off": the verb gets the meaning of "take off", the particle is blanked."""
    joined: dict[int, Meaning] = {}
    words = list(texts)
    for at, text in enumerate(texts):
        if text not in _SPLIT_VERBS or _NOT_SPLIT & _names(lexicon, texts, at).tags:
            continue
        for to in range(at + 2, min(at + 2 + _SPLIT_REACH, len(texts))):
            if texts[to - 1] in {BREAK, "and", "is", "but"}:
                break
            if texts[to] not in _PARTICLES or not words[to]:
                continue
            length, meaning = _verb_with_particle(text, texts, to, lexicon)
            if length:
                joined[at] = meaning
                for blank in range(to, to + length):
                    words[blank] = ""
                break
    return joined, tuple(words)


def _verb_with_particle(verb: str, texts: tuple[str, ...], to: int, lexicon: Lexicon) -> tuple[int, Meaning]:
    for length in (3, 2, 1):
        particle = texts[to : to + length]
        if len(particle) < length or (
            to + length < len(texts)
            and length == 1
            and lexicon.table.get(texts[to + 1 : to + 2], _NOTHING).parts
        ):
            continue
        meaning = lexicon.table.get((verb, *particle))
        if meaning is not None and (meaning.acts or meaning.tags & {"MOVE_OFF", "MOVE_ON"}):
            return length, meaning
    return 0, _NOTHING


def _split_kind(meaning: Meaning) -> str:
    if meaning.acts:
        return "ACT"
    return "OFF" if "MOVE_OFF" in meaning.tags else "ON"
