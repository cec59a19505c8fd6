"""Sheet and bench talk → one table of phrases, each with all that it may mean.

Built once a sheet; looked up by the longest phrase that begins at a token.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from saywright.sheets.model import Component, Sheet
from saywright.understanding.bench_words import TOO_COMMON
from saywright.understanding.grammar_text import talk_phrases
from saywright.understanding.sounds import sound_key
from saywright.understanding.tokens import BREAK, spoken_form
from saywright.understanding.wordforms import is_ing, is_past, past_forms, plural, singular, verb_forms
from saywright.units import spoken_units

Phrase = tuple[str, ...]
CharacteristicKey = tuple[str, str]  # component id, characteristic id

# Words too common in bench talk to stand for a part by themselves.


@dataclass(frozen=True, slots=True)
class Act:
    """A form of an action's name."""

    id: str
    form: str  # "base", "past" or "ing"


@dataclass(slots=True)
class Meaning:
    """All that one phrase may mean."""

    parts: tuple[str, ...] = ()  # component ids by a full name
    aliases: tuple[str, ...] = ()  # component ids by a part of a name
    many: bool = False  # plural form of a component's name
    characteristics: tuple[CharacteristicKey, ...] = ()
    conditions: tuple[str, ...] = ()
    acts: tuple[Act, ...] = ()
    positions: tuple[str, ...] = ()
    cautions: tuple[int, ...] = ()
    tags: frozenset[str] = frozenset()  # tags of bench talk


PARTICLES = frozenset({"off", "out", "in", "on", "back", "up", "down", "over", "through", "again", "apart"})
_NOTHING = Meaning()


@dataclass(frozen=True, slots=True)
class Lexicon:
    """A sheet ready to be heard about."""

    sheet: Sheet
    table: Mapping[Phrase, Meaning]
    longest: Mapping[str, int]  # first word → length of the longest phrase that begins with it
    units: Mapping[str, tuple[str, ...]]  # spoken unit → codes
    instruments: Mapping[Phrase, str]
    mendable: Mapping[str, tuple[Phrase, ...]]  # word → names of two words or more that hold it
    sounding: tuple[tuple[str, str], ...] = ()  # one-word names of parts with their sound keys
    words: frozenset[str] = frozenset()  # every word of a name on the sheet
    splittable: frozenset[str] = frozenset()  # verbs that may stand apart from their particle

    def names(self, tokens: tuple[str, ...], at: int) -> Meaning:
        """What the longest phrase at *at* means; an empty meaning where there is none."""
        if at >= len(tokens) or not tokens[at] or tokens[at] == BREAK:
            return _NOTHING
        found = self.match(tokens, at)
        return found[1] if found else _NOTHING

    def match(self, tokens: tuple[str, ...], start: int) -> tuple[int, Meaning] | None:
        """Length and meaning of the longest phrase that begins at *start*."""
        longest = self.longest.get(tokens[start], 0)
        for length in range(min(longest, len(tokens) - start), 0, -1):
            meaning = self.table.get(tokens[start : start + length])
            if meaning is not None:
                return length, meaning
        return None


def build_lexicon(sheet: Sheet) -> Lexicon:
    """The lexicon of *sheet*."""
    table: dict[Phrase, Meaning] = defaultdict(Meaning)
    _add_components(table, sheet)
    _add_characteristics(table, sheet)
    _add_positions(table, sheet)
    _add_conditions(table, sheet)
    _add_actions(table, sheet)
    _add_talk(table)
    _add_condition_forms(table, sheet)
    _add_aliases(table, sheet)
    _add_characteristic_heads(table, sheet)
    longest: dict[str, int] = defaultdict(int)
    for phrase in table:
        longest[phrase[0]] = max(longest[phrase[0]], len(phrase))
    instruments = {spoken_form(name): i.id for i in sheet.instrument for name in i.names}
    return Lexicon(
        sheet=sheet,
        table=dict(table),
        longest=dict(longest),
        units=_units(sheet),
        instruments=instruments,
        mendable=_mendable(sheet),
        sounding=tuple((p[0], sound_key(p[0])) for p, m in table.items() if len(p) == 1 and m.parts),
        words=frozenset(word for phrase, m in table.items() if _is_name(m) for word in phrase),
        splittable=frozenset(phrase[0] for phrase, m in table.items() if _splits(phrase, m)),
    )


def _is_name(meaning: Meaning) -> bool:
    return bool(
        meaning.parts or meaning.aliases or meaning.characteristics or meaning.conditions or meaning.acts
    )


def _splits(phrase: Phrase, meaning: Meaning) -> bool:
    """True for "take off", "blow out": a verb and a particle that its object may stand between."""
    if len(phrase) < 2 or phrase[1] not in PARTICLES or phrase[0] in PARTICLES:
        return False
    return bool(meaning.acts or meaning.tags & {"MOVE_OFF", "MOVE_ON"}) and phrase[0] not in {
        "is",
        "are",
        "all",
        "right",
    }


def _units(sheet: Sheet) -> dict[str, tuple[str, ...]]:
    units = dict(spoken_units())
    for more in sheet.unit:
        for name in more.names:
            key = " ".join(spoken_form(name))
            units[key] = tuple(dict.fromkeys((more.code, *units.get(key, ()))))
    return units


def component_phrases(component: Component) -> list[tuple[Phrase, bool]]:
    """Every full name of a component with its other number; true for a plural form."""
    out: list[tuple[Phrase, bool]] = []
    for name in component.names or (component.id.replace("_", " "),):
        phrase = spoken_form(name)
        if not phrase:
            continue
        last = phrase[-1]
        one = singular(last)
        said_plural = one != last
        out.append((phrase, said_plural))
        other = (*phrase[:-1], one if said_plural else plural(last))
        out.append((other, not said_plural))
    return out


def _add_components(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    for component in sheet.component:
        for phrase, many in component_phrases(component):
            meaning = table[phrase]
            if component.id not in meaning.parts:
                meaning.parts = (*meaning.parts, component.id)
            meaning.many = meaning.many or many


def _add_characteristics(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    for component, characteristic in sheet.characteristics():
        key = (component.id, characteristic.id)
        for name in characteristic.names or (characteristic.label,):
            phrase = spoken_form(name)
            if not phrase:
                continue
            forms = {phrase, (*phrase[:-1], plural(phrase[-1]))}
            for form in forms:
                if table[form].parts and form != phrase:
                    continue
                if key not in table[form].characteristics:
                    table[form].characteristics = (*table[form].characteristics, key)


def _add_positions(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    for component in sheet.component:
        for position in component.positions:
            phrase = spoken_form(position)
            extra = [phrase]
            if position in ("left", "right"):
                extra += [(position, "hand"), (position, "side"), (position, "hand", "side")]
            elif len(phrase) == 1:
                extra += [(*phrase, "side")]
            for form in extra:
                if position not in table[form].positions:
                    table[form].positions = (*table[form].positions, position)


def _add_conditions(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    for condition in sheet.condition:
        for name in condition.names or (condition.label,):
            _add_condition(table, spoken_form(name), condition.id)


def _add_condition_forms(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    """ "scored" also answers to "scoring", unless something else has that name."""
    for condition in sheet.condition:
        for name in condition.names or (condition.label,):
            phrase = spoken_form(name)
            for form in past_forms(phrase[0]) if len(phrase) == 1 else ():
                meaning = table.get((form,))
                if meaning is None or meaning == Meaning():
                    _add_condition(table, (form,), condition.id)


def _add_condition(table: dict[Phrase, Meaning], phrase: Phrase, condition_id: str) -> None:
    if phrase and condition_id not in table[phrase].conditions:
        table[phrase].conditions = (*table[phrase].conditions, condition_id)


def _form(word: str) -> str:
    return "ing" if is_ing(word) else "past" if is_past(word) else "base"


def _add_actions(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    for action in sheet.action:
        for name in action.names or (action.label,):
            phrase = spoken_form(name)
            if phrase:
                _add_act(table, phrase, Act(action.id, _form(phrase[0])))
    for action in sheet.action:
        for name in action.names or (action.label,):
            phrase = spoken_form(name)
            for form in verb_forms(phrase[0]) if phrase else ():
                whole = (form, *phrase[1:])
                if whole not in table:
                    kind = "base" if form.endswith("s") else _form(form)
                    _add_act(table, whole, Act(action.id, kind))


def _add_act(table: dict[Phrase, Meaning], phrase: Phrase, act: Act) -> None:
    if all(known.id != act.id for known in table[phrase].acts):
        table[phrase].acts = (*table[phrase].acts, act)


def _add_talk(table: dict[Phrase, Meaning]) -> None:
    for tag, phrases in talk_phrases().items():
        for text in phrases:
            phrase = tuple(text.split())
            table[phrase].tags = table[phrase].tags | {tag}


def _add_aliases(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    """A part of a name may stand for the whole where nothing else has that name."""
    found: dict[Phrase, list[str]] = defaultdict(list)
    many: dict[Phrase, bool] = {}
    for component in sheet.component:
        for phrase, is_many in component_phrases(component):
            for short in _shortened(phrase):
                if component.id not in found[short]:
                    found[short].append(component.id)
                many[short] = many.get(short, False) or (is_many and short[-1] == phrase[-1])
    for short, ids in found.items():
        meaning = table.get(short)
        if meaning is not None and (meaning.parts or meaning.characteristics or meaning.acts or meaning.tags):
            continue
        table[short].aliases = tuple(ids)
        table[short].many = many[short]


def _add_characteristic_heads(table: dict[Phrase, Meaning], sheet: Sheet) -> None:
    """ "clearance" for "end clearance", where nothing else is called so."""
    found: dict[Phrase, list[CharacteristicKey]] = defaultdict(list)
    for component, characteristic in sheet.characteristics():
        for phrase in map(spoken_form, characteristic.names):
            if len(phrase) > 1 and len(phrase[-1]) > 3:
                found[phrase[-1:]].append((component.id, characteristic.id))
    for head, keys in found.items():
        if head not in table or table[head] == Meaning():
            table[head].characteristics = tuple(dict.fromkeys(keys))


def _shortened(phrase: Phrase) -> Iterable[Phrase]:
    for cut in range(1, len(phrase)):
        tail, head = phrase[cut:], phrase[:cut]
        if not (len(tail) == 1 and (tail[0] in TOO_COMMON or len(tail[0]) < 3)):
            yield tail
        if not (len(head) == 1 and (head[0] in TOO_COMMON or len(head[0]) < 4)):
            yield head


def _mendable(sheet: Sheet) -> dict[str, tuple[Phrase, ...]]:
    names: list[Phrase] = []
    for component in sheet.component:
        names.extend(phrase for phrase, _ in component_phrases(component) if len(phrase) > 1)
    for _, characteristic in sheet.characteristics():
        names.extend(phrase for phrase in map(spoken_form, characteristic.names) if len(phrase) > 1)
    by_word: dict[str, tuple[Phrase, ...]] = {}
    for name in dict.fromkeys(names):
        for word in dict.fromkeys(name):
            by_word[word] = (*by_word.get(word, ()), name)
    return by_word
