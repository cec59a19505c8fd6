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
from saywright.understanding.split_verbs import join_split_verbs, split_kind
from saywright.understanding.tags import Tag
from saywright.understanding.tokens import BREAK, Token
from saywright.understanding.wordforms import is_past

_NOTHING = Meaning()
_MODS = frozenset({"DET", "BOTH", "ALL", "OTHER", "NEW", "OLD", "ORD", "LAST"})
_AUX = frozenset({"NEG", "SLIGHT", "MODERATE", "SEVERE", "NEED", "DONE", "DECLINE", "COP"})
_LINKS = frozenset({"OF", "PREP", "AND", "OR", "READS"})
_MARKS = frozenset(
    [
        "HYPO",
        "EVERYTHING",
        "STAGE",
        "STAGE_NOT",
        "AFTER",
        "BEFORE_WORK",
        "RESTORE",
        "SAME",
        "PHOTO",
        "PHOTO_NOT",
        "MAKE_THAT",
        "SCRATCH",
        "SCRATCH_MANY",
        "GO_BACK",
        "SEATED",
        "COUNTING",
        "LOST_COUNT",
        "TOOL",
        "LIMIT",
        "OTHER_JOB",
        "PRICE",
        "CLOCK",
        "WHATIF",
        "QUESTION",
        "COMMAND",
        "SERIAL",
        "PART_NUMBER",
        "STAMP",
        "TAG",
        "ENDS",
        "VAGUE",
        "LEAVE",
        "NOT_MOVED",
        "SUBORDINATE",
        "FUTURE",
        "BUT",
    ]
)
_PLAIN: dict[str, tuple[str, Meaning]] = {
    BREAK: ("BREAK", _NOTHING),
    "?": ("MARK", Meaning(tags=frozenset({"QUESTION"}))),
    "": ("WORD", Meaning(tags=frozenset({"FILLER"}))),  # the particle of a verb that was split
}
_OBJECTS = frozenset(["it", "that", "them", "this", "the", "these", "those", "both", "all", "up", "out"])
_AFTER_MOVE = frozenset(
    {BREAK, "and", "now", "then", "with", "too", "next", "first", "again", "at", "but", "so", "as", "after"}
)
_BE = frozenset({"is", "are"})
_COPULAS = frozenset({"is", "of", "at", "was"})


def tag(tokens: Sequence[Token], lexicon: Lexicon) -> tuple[Tag, ...]:
    """The tags of *tokens*, left to right, without gaps."""
    return Tagger(tokens, lexicon).tag()


class Tagger:
    """Tags one utterance, left to right; what was tagged helps with what comes."""

    def __init__(self, tokens: Sequence[Token], lexicon: Lexicon) -> None:
        words = tuple(token.text for token in tokens)
        self.lexicon = lexicon
        self.measures: dict[int, Measure] = {m.start: m for m in find_measures(words, lexicon.units)}
        self.joined, self.texts = join_split_verbs(words, lexicon)
        self.out: list[Tag] = []

    def tag(self) -> tuple[Tag, ...]:
        """The tags, without gaps."""
        at = 0
        while at < len(self.texts):
            found = self._next(at)
            if at in self.joined and found.kind != "MEASURE":
                meaning = self.joined[at]
                found = replace(found, kind=split_kind(meaning), meaning=meaning, end=max(found.end, at + 1))
            self.out.append(found)
            at = found.end
        return count_parts(self.out, self.texts, self.lexicon)

    def _names(self, at: int) -> Meaning:
        return self.lexicon.names(self.texts, at)

    def _next(self, at: int) -> Tag:
        if self.texts[at] in _PLAIN:
            kind, meaning = _PLAIN[self.texts[at]]
            return Tag(kind, at, at + 1, meaning)
        measure = self.measures.get(at)
        match = self.lexicon.match(self.texts, at)
        while match and (
            self._cuts_measure(at, match) or ("QUESTION" in match[1].tags and not self._opens())
        ):
            match = self._shorter(at, match[0])
        if measure and (match is None or not self._phrase_wins(match, measure)):
            return Tag("MEASURE", at, measure.end, _NOTHING, self._behind_one(measure))
        if match is None:
            return Tag("WORD", at, at + 1, _NOTHING)
        length, meaning = match
        kind = self._kind(at, length, meaning)
        return Tag(kind, at, at + length, meaning)

    def _behind_one(self, measure: Measure) -> Measure:
        """ "lower one fifty": with a position before it, the one may stand for the part; both readings are as good."""
        last = self.out[-1] if self.out else None
        if (
            last is None
            or last.kind != "MOD"
            or not (last.meaning.positions or last.tags & {"OTHER", "LAST"})
        ):
            return measure
        if self.texts[measure.start] != "one" or not measure.behind_first:
            return measure
        both = {r.value: replace(r, cost=0) for r in (*measure.behind_first[:1], *measure.readings[:1])}
        return replace(measure, readings=tuple(both.values()))

    def _shorter(self, at: int, length: int) -> tuple[int, Meaning] | None:
        for shorter in range(length - 1, 0, -1):
            meaning = self.lexicon.table.get(self.texts[at : at + shorter])
            if meaning is not None:
                return shorter, meaning
        return None

    def _opens(self) -> bool:
        """True where nothing but fillers and breaks stands before: a question begins its clause."""
        for tag_ in reversed(self.out):
            if tag_.kind == "BREAK":
                return True
            if "FILLER" not in tag_.tags and not (tag_.kind == "LINK" and "AND" in tag_.tags):
                return False
        return True

    def _cuts_measure(self, at: int, match: tuple[int, Meaning]) -> bool:
        """True where the phrase ends inside a longer number: "number one" of "number one twenty eight"."""
        end = at + match[0]
        for inside in range(at + 1, end):
            measure = self.measures.get(inside)
            if (
                measure is not None
                and measure.end > end
                and len(measure.readings) > 0
                and measure.readings[0].words > end - inside
            ):
                return True
        return False

    def _phrase_wins(self, match: tuple[int, Meaning], measure: Measure) -> bool:
        length, meaning = match
        span = measure.end - measure.start
        if length > span:
            return True
        if length < span:
            return False
        return bool(meaning.parts or meaning.characteristics or meaning.tags & {"CLOCK", "FILLER", "ORD"})

    def _kind(self, at: int, length: int, meaning: Meaning) -> str:
        following = at + length
        if meaning.parts:
            return "CHAR" if meaning.characteristics and self._part_in_reach(meaning) else "PART"
        if meaning.characteristics and not (meaning.conditions and self._says_condition(following)):
            return "CHAR" if not self._is_turn_movement(meaning, at, length) else "WORD"
        if meaning.acts and "READS" in meaning.tags and following in self.measures:
            return "LINK"
        if meaning.acts and meaning.conditions:
            return "ACT" if self._says_action(following) else "COND"
        if meaning.conditions and meaning.aliases and self._alias_fits(at, following):
            last = self.out[-1] if self.out else None
            if last is None or last.kind not in {"AUX", "PART", "PRON", "ONE"}:
                return "PART"
        if meaning.conditions:
            if meaning.tags & {"SEVERE", "SLIGHT", "MODERATE"} and self._names(following).conditions:
                return "AUX"
            return "COND"
        if meaning.acts:
            return "ACT"
        if meaning.positions and not meaning.tags - {"POS"}:
            return "MOD" if self._position_fits(at, following) else "WORD"
        if meaning.aliases:
            return "PART" if self._alias_fits(at, following) else "WORD"
        return self._talk_kind(meaning.tags, at, following)

    def _part_in_reach(self, meaning: Meaning) -> bool:
        """A name that is a part and a characteristic is the latter right behind a part that has it."""
        owners = {component for component, _ in meaning.characteristics}
        for tag_ in reversed(self.out):
            if tag_.kind == "PART":
                return bool(owners & set(tag_.meaning.parts or tag_.meaning.aliases))
            if tag_.kind not in {"WORD", "AUX", "MOD"}:
                return False
        return False

    def _is_turn_movement(self, meaning: Meaning, at: int, length: int) -> bool:
        return (
            self.texts[at : at + length] == ("turns",)
            and at > 0
            and self.texts[at - 1] == "it"
            and bool(meaning.characteristics)
        )

    def _says_condition(self, following: int) -> bool:
        """ "play", "wear": a state unless a number follows."""
        if following in self.measures or (
            following + 1 in self.measures and self.texts[following] in _COPULAS
        ):
            return False
        return not (self.out and self.out[-1].kind == "MEASURE")

    def _says_action(self, following: int) -> bool:
        """ "clean": an action before its object or after "needs a"; else a state."""
        last = next((t for t in reversed(self.out) if "FILLER" not in t.tags), None)
        if last is not None and last.kind == "AUX":
            if last.tags & {"NEED", "DECLINE"} and not last.tags & {"COP", "NEG"}:
                return True
            if last.tags & {"COP", "NEG", "SLIGHT", "SEVERE", "MODERATE"}:
                return False
        if following < len(self.texts) and self.texts[following] in _OBJECTS:
            return True
        return last is None and bool(self._names(following).parts)

    def _position_fits(self, at: int, following: int) -> bool:
        """ "right" at the start is a filler unless something follows that has a right one."""
        if self.texts[at] != "right" or following - at > 1:
            return True
        if self.out and self.out[-1].kind in {"MOD", "PART", "LINK"}:
            return True
        after = self.texts[following] if following < len(self.texts) else ""
        names = self._names(following)
        return (
            after in {"one", "ones", "is", "hand", "side"}
            or bool(names.parts or names.aliases or names.conditions or names.characteristics)
            or following in self.measures
        )

    def _alias_fits(self, at: int, following: int) -> bool:
        """A part of a name stands for the part where a noun would stand."""
        last = self.out[-1] if self.out else None
        if last is not None and last.kind == "WORD" and not last.tags and self._is_modifier(last):
            return False
        if last is None or last.kind in {
            "MOD",
            "LINK",
            "BREAK",
            "AUX",
            "ACT",
            "OFF",
            "ON",
            "MEASURE",
            "COND",
        }:
            return True
        after = self.texts[following] if following < len(self.texts) else ""
        return (
            after in {"is", "are", "was", "were", "has", "reads", "out", "off", "in", "on"}
            or following in self.measures
        )

    def _is_modifier(self, last: Tag) -> bool:
        """ "valve cap": an unknown noun before a short name makes it another part."""
        before = self.out[-2] if len(self.out) > 1 else None
        return (
            before is None
            or before.kind in {"MOD", "LINK", "BREAK", "AUX", "ACT", "OFF", "ON", "MARK"}
            or "FILLER" in before.tags
        )

    def _talk_kind(self, tags: frozenset[str], at: int, following: int) -> str:
        if "FILLER" in tags:
            return "WORD"
        if "PRICE" in tags and self.out and self.out[-1].kind == "MEASURE":
            return "MARK"
        if tags & {"MOVE_OFF", "MOVE_ON", "MOVE_LOOSE_ON"}:
            kind = self._move_kind(tags, at, following)
            if kind:
                return kind
        if (
            "SAME" in tags
            and self.texts[following - 1] == "same"
            and (self._names(following).parts or self._names(following).aliases)
        ):
            return "MOD"
        if tags & _MARKS and not (tags & {"WHATIF", "FUTURE"} and tags & _AUX):
            return "MARK"
        if "PRON" in tags:
            names = self._names(following)
            points = self.texts[at] in {"this", "that", "these", "those", "them"} and following - at == 1
            return "MOD" if points and (names.parts or names.aliases or names.positions) else "PRON"
        if "ONE" in tags:
            return "ONE" if self.out and self.out[-1].kind == "MOD" else "WORD"
        if tags & _MODS and tags & _AUX:
            names = self._names(following)
            plain = bool(names.conditions or names.acts or names.tags & {"MOVE_ON", "MOVE_OFF"}) and not (
                names.parts or names.aliases
            )
            return "AUX" if plain else "MOD"
        if tags & _MODS:
            return "MOD"
        if tags & _LINKS and tags & _AUX:
            names = self._names(following)
            return (
                "AUX" if names.acts or (names.tags & _AUX and not names.parts) or tags & {"COP"} else "LINK"
            )
        if tags & _AUX:
            return "AUX"
        if tags & _LINKS:
            return "LINK"
        return "WORD"

    def _move_kind(self, tags: frozenset[str], at: int, following: int) -> str:
        """OFF or ON; "" where the word is a preposition or belongs to something else."""
        last = self.out[-1] if self.out else None
        after = self.texts[following] if following < len(self.texts) else BREAK
        if "MOVE_OFF" in tags:
            bare = self.texts[at:following] in {("out",), ("off",)}
            if bare and at and is_past(self.texts[at - 1]) and last is not None and last.kind == "WORD":
                return ""
            if bare and last is not None and (last.kind == "MEASURE" or last.kind in {"COND", "ACT", "CHAR"}):
                return ""
            if bare and after in {"of", "the"} and not (last is not None and last.kind == "PART"):
                return ""
            return "OFF" if not (bare and after == "of" and following + 1 < len(self.texts)) else ""
        if "MOVE_ON" in tags:
            if self.texts[at] in _BE and following - at == 2 and not self._free(following):
                return ""
            bare = last is None or last.kind == "WORD"
            return "" if bare and following in self.measures else "ON"
        joins = (
            last is not None
            and "AND" in last.tags
            and len(self.out) > 1
            and self.out[-2].kind in {"ACT", "COND"}
        )
        if last is None or not (joins or last.kind in {"PART", "ONE", "AUX", "MOD", "PRON"}):
            return ""
        new = last.kind == "PART" and any("NEW" in t.tags for t in self.out[-3:])
        if self._names(following).parts and not new:
            return ""
        if last.kind == "AUX" and not last.tags & {"COP", "DONE"}:
            return ""
        if last.kind == "PART" and any("NEW" in t.tags for t in self.out[-3:]):
            return "ON"
        return "ON" if self._free(following) else ""

    def _free(self, following: int) -> bool:
        """True where "in" or "on" has no noun behind it that it could belong to."""
        if following >= len(self.texts) or following in self.measures:
            return True
        names = self._names(following)
        if self.texts[following] in _AFTER_MOVE or names.acts or names.positions:
            return True
        return bool(names.tags & {"READS", "COP", "NEED", "DONE"}) and not names.tags & {"PREP", "DET"}
