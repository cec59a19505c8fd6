"""Sheet and bench talk → one table of names, each with all that it may mean.

Built once a sheet; looked up by the longest name that begins at a token.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from saywright.sheets.model import Component, Sheet
from saywright.understanding.bench_words import PARTICLES
from saywright.understanding.doings.move_verbs import add_move_verbs
from saywright.understanding.grammar_text import talk_phrases
from saywright.understanding.meanings import NOTHING, Meaning, Name
from saywright.understanding.naming.place_synonyms import other_words
from saywright.understanding.naming.position_names import add_positions, add_short_positions
from saywright.understanding.naming.predicates import Predicate, predicate_forms
from saywright.understanding.naming.read_names import add_read_names, verbs_read, words_of_read
from saywright.understanding.naming.sheet_names import (
    Table,
    add_other_forms,
    add_sheet_names,
    component_names,
)
from saywright.understanding.naming.spellings import add_spellings, spelled_on_sheet
from saywright.understanding.numbers.words import HOMOPHONES
from saywright.understanding.sides.numbered_positions import (
    Called,
    add_stations,
    as_counted,
    called_on,
    count_stations,
    numbering_words,
)
from saywright.understanding.sides.row_order import row_of
from saywright.understanding.sides.station_heads import station_heads
from saywright.understanding.sounds.consonants import sound_key
from saywright.understanding.sounds.in_pieces import sounds_of_names
from saywright.understanding.subjects.machine_ends import machine_ends
from saywright.understanding.tokens import BREAK, spoken_form
from saywright.understanding.values.named_places import Places, spoken_places
from saywright.units import spoken_units

# Ends of forms that may be no words.
_MADE_UP = ("e", "es", "y", "age", "ion", "ment", "ness", "ages", "ions")
_SHORTEST_GLUED = 5  # letters; shorter ones are words of their own


@dataclass(slots=True)
class _Step:
    """Where the names are that begin with the same words."""

    name: tuple[int, Meaning] | None = None  # how long these words are, and their meaning where they are one
    longer: dict[str, _Step] = field(default_factory=dict)  # by the next word


@dataclass(frozen=True, slots=True)
class Lexicon:
    """A sheet ready to be heard about."""

    sheet: Sheet  # with numbers in place of positions that only number the parts
    table: Mapping[Name, Meaning]
    steps: Mapping[str, _Step]  # first word → the names of the table that begin with it
    units: Mapping[str, tuple[str, ...]]  # spoken unit → codes
    mendable: Mapping[str, tuple[Name, ...]]  # word → names of two words or more that hold it
    sounds: dict[str, tuple[str, ...]]  # sound key, one sound lost or none → words of names
    sounding: tuple[tuple[str, str], ...]  # one-word names of parts with their sound keys
    predicates: Mapping[str, tuple[Predicate, ...]]  # first word → states told by what is said of a part
    words: frozenset[str]  # every word of a name on the sheet
    positions: frozenset[str]  # the words of all positions
    other_places: Mapping[str, str]  # everyday words for them that the sheet does not use
    spelled: Mapping[str, str]  # words that the sheet spells otherwise → its spelling: "centre" → "center"
    positions_with_s: frozenset[str]  # the same with an s, which may be an "is"
    heads: Mapping[str, tuple[str, ...]]  # word before the last of a name → components called so
    glued: Mapping[str, tuple[str, str]]  # "layshaft" → ("lay", "shaft"), for two words of a name
    owners_with_s: frozenset[str]  # "manifolds", which may be "manifold's": fitted once, and begins names
    splittable: frozenset[str]  # verbs that may stand apart from their particle
    doings: frozenset[str]  # words that are an action by themselves
    places: Places  # on a part, at which a value can be read
    part_words: tuple[str, ...]  # one-word names of parts, short ones too
    states: tuple[str, ...]  # one-word names of conditions, as written
    faults: tuple[str, ...]  # the same, with their other forms
    deeds: tuple[str, ...]  # one-word names of actions, as written
    read_words: tuple[str, ...]  # one-word names of characteristics
    tool_words: frozenset[str]  # every word of a tool's name
    # What was looked up once: word → "unknown", "half", "plain" or "", and word with a question → its answer.
    heard: dict[str, str]
    tried_as: dict[str, tuple[tuple[float, str], ...]]  # word → what it sounds like, the likest first
    plain: set[str]  # words looked up that are never mended
    like_digits: frozenset[str]  # first words of a characteristic's name that sound like a digit: "free"
    before_point: frozenset[str]  # "boiling" of a boiling point, behind which "point" is no decimal point
    stations: int  # how many there are, by the parts numbered alike; 0 where there are none
    station_words: frozenset[str]  # what one of them is called: "stage" of "stage one"
    station_heads: Mapping[str, str]  # "delivery" → "valve", where a station's number behind it means that
    machine_ends: frozenset[str]  # "pump" of "pump end", after which the parts there are called
    row: tuple[str, ...]  # named places, three or more, by which most parts are told apart
    called: Called  # names of the positions that only number the parts
    numbered: frozenset[str]  # every word of the names of parts that are told by number
    verbs_read: frozenset[str]  # what is read, told by its own verb: "holds", "flows"
    measured: frozenset[str]  # words before the last of what is read: "free" of the free length

    def names(self, tokens: tuple[str, ...], at: int) -> Meaning:
        """What the longest name at *at* means; an empty meaning where there is none."""
        if at >= len(tokens) or not tokens[at] or tokens[at] == BREAK:
            return NOTHING
        found = self.match(tokens, at)
        return found[1] if found else NOTHING

    def match(self, tokens: tuple[str, ...], start: int) -> tuple[int, Meaning] | None:
        """Length and meaning of the longest name that begins at *start*."""
        step = self.steps.get(tokens[start])
        if step is None:
            return None
        found, end, size = step.name, start + 1, len(tokens)
        while step.longer and end < size and (step := step.longer.get(tokens[end])) is not None:
            found, end = step.name or found, end + 1
        return found


def _table(sheet: Sheet) -> Table:
    """Every name of *sheet* and of bench talk with all that it may mean."""
    table: Table = {}
    add_sheet_names(table, sheet)
    add_positions(table, sheet)
    _add_talk(table, talk_phrases())
    _add_talk(table, {"INSTRUMENT": [name for instrument in sheet.instrument for name in instrument.names]})
    add_other_forms(table, sheet)
    add_read_names(table, sheet)
    add_short_positions(table, sheet)
    add_move_verbs(table)
    add_stations(table, sheet)
    return table


def build_lexicon(sheet: Sheet) -> Lexicon:
    """The lexicon of *sheet*."""
    called, station_words, sheet = called_on(sheet), numbering_words(sheet), as_counted(sheet)
    table = _table(sheet)
    positions = frozenset(w for c in sheet.component for p in c.positions for w in p.split())
    words = frozenset(word for name, meaning in table.items() if _of_sheet(meaning) for word in name)
    spelled = spelled_on_sheet(words | positions, positions, table)
    add_spellings(table, spelled)
    return Lexicon(
        sheet=sheet,
        table=table,
        steps=_steps(table),
        units=_units(sheet),
        mendable=_mendable(sheet),
        sounds=sounds_of_names(sheet),
        sounding=tuple((n[0], sound_key(n[0])) for n, m in table.items() if len(n) == 1 and m.parts),
        predicates=predicate_forms(sheet, table),
        words=words,
        positions=positions,
        other_places=other_words(positions),
        spelled=spelled,
        positions_with_s=frozenset(word + "s" for word in positions),
        heads=_heads(sheet),
        glued=_glued(sheet),
        owners_with_s=_owners_with_s(sheet, table),
        splittable=frozenset(name[0] for name, meaning in table.items() if _splits(name, meaning)),
        doings=frozenset(name[0] for name, meaning in table.items() if len(name) == 1 and meaning.acts),
        places=spoken_places(sheet, table),
        part_words=tuple(n[0] for n, m in table.items() if len(n) == 1 and (m.parts or m.aliases)),
        states=_single(name for condition in sheet.condition for name in condition.names),
        faults=_faults(sheet, table),
        deeds=_single(name for action in sheet.action for name in action.names),
        read_words=_single(name for _, read in sheet.characteristics() for name in read.names),
        tool_words=frozenset(w for n, m in table.items() if m.tags & {"TOOL", "INSTRUMENT"} for w in n),
        heard={},
        tried_as={},
        plain=set(),
        station_words=station_words,
        station_heads=station_heads(sheet, table),
        machine_ends=machine_ends(sheet),
        called=called,
        row=row_of(sheet),
        stations=count_stations(sheet),
        verbs_read=verbs_read(sheet),
        like_digits=frozenset(HOMOPHONES) & _read_heads(sheet),
        before_point=_before_point(sheet),
        numbered=frozenset(w for c in sheet.component for w in _words_of_numbered(c)),
        measured=words_of_read(sheet),
    )


def _single(names: Iterable[str]) -> tuple[str, ...]:
    """The names of one word."""
    return tuple(dict.fromkeys(name[0] for name in map(spoken_form, names) if len(name) == 1))


def _faults(sheet: Sheet, table: Table) -> tuple[str, ...]:
    """One-word names of conditions, with those of their other forms that are surely words."""
    written = _single(name for condition in sheet.condition for name in condition.names)
    forms = (n[0] for n, m in table.items() if len(n) == 1 and m.conditions and not (m.parts or m.tags))
    return tuple(dict.fromkeys((*written, *(form for form in forms if not form.endswith(_MADE_UP)))))


def _add_talk(table: Table, talk: Mapping[str, Sequence[str]]) -> None:
    for tag, phrases in talk.items():
        for text in phrases:
            name = tuple(text.lower().split())
            meaning = table.get(name, NOTHING)
            table[name] = replace(meaning, tags=meaning.tags | {tag})


def _steps(table: Table) -> dict[str, _Step]:
    """The names of *table* as a tree of their words."""
    root: dict[str, _Step] = {}
    for name, meaning in table.items():
        step = root.setdefault(name[0], _Step())
        for word in name[1:]:
            step = step.longer.setdefault(word, _Step())
        step.name = len(name), meaning
    return root


def _of_sheet(meaning: Meaning) -> bool:
    return bool(
        meaning.parts or meaning.aliases or meaning.characteristics or meaning.conditions or meaning.acts
    )


def _splits(name: Name, meaning: Meaning) -> bool:
    """True for "take off", "blow out": a verb and a particle that its object may stand between."""
    if len(name) < 2 or name[1] not in PARTICLES or name[0] in PARTICLES:
        return False
    moves = bool(meaning.acts or meaning.tags & {"MOVE_OFF", "MOVE_ON"})
    return moves and name[0] not in {"is", "are", "all", "right"}


def _units(sheet: Sheet) -> dict[str, tuple[str, ...]]:
    units = dict(spoken_units())
    for more in sheet.unit:
        for name in more.names:
            key = " ".join(spoken_form(name))
            units[key] = tuple(dict.fromkeys((more.code, *units.get(key, ()))))
    if any("second" in p.split() for c in sheet.component for p in c.positions):
        units.pop("second", None)  # "top twelve second fourteen": the second ring
    return units


def _words_of_numbered(component: Component) -> Iterable[str]:
    numbered = component.count > 1 and not component.positions
    return (word for name, _ in component_names(component) for word in name) if numbered else ()


def _before_point(sheet: Sheet) -> frozenset[str]:
    names = (spoken_form(name) for _, c in sheet.characteristics() for name in c.names)
    return frozenset(name[-2] for name in names if len(name) > 1 and name[-1] == "point")


def _read_heads(sheet: Sheet) -> set[str]:
    """First words of the names of what is read, where more follow."""
    names = [
        spoken_form(name) for _, characteristic in sheet.characteristics() for name in characteristic.names
    ]
    return {name[0] for name in names if len(name) > 1}


def _heads(sheet: Sheet) -> dict[str, tuple[str, ...]]:
    """Words that tell parts of one kind apart: "high" of the high speed screw."""
    found: dict[str, tuple[str, ...]] = {}
    for component in sheet.component:
        for word in dict.fromkeys(word for name, _ in component_names(component) for word in name[:-1]):
            found[word] = (*found.get(word, ()), component.id)
    return found


def _names(sheet: Sheet) -> list[Name]:
    """The names of all parts and of what is read on them."""
    names = [name for component in sheet.component for name, _ in component_names(component)]
    for _, characteristic in sheet.characteristics():
        names.extend(map(spoken_form, characteristic.names))
    return names


def _glued(sheet: Sheet) -> dict[str, tuple[str, str]]:
    names = _names(sheet)
    return {a + b: (a, b) for name in names for a, b in pairwise(name) if len(a) + len(b) > _SHORTEST_GLUED}


def _owners_with_s(sheet: Sheet, table: Table) -> frozenset[str]:
    begins = {name[0] for name, meaning in table.items() if len(name) > 1 and meaning.parts}
    once = {spoken_form(name) for c in sheet.component if len(c.whiches) < 2 for name in c.names}
    return frozenset(name[0] + "s" for name in once if len(name) == 1 and name[0] in begins)


def _mendable(sheet: Sheet) -> dict[str, tuple[Name, ...]]:
    by_word: dict[str, tuple[Name, ...]] = {}
    for name in dict.fromkeys(_names(sheet)):
        for word in dict.fromkeys(name) if len(name) > 1 else ():
            by_word[word] = (*by_word.get(word, ()), name)
    return by_word
