"""All that a phrase may mean on a sheet and in bench talk."""

from __future__ import annotations

from saywright.understanding.fixed import fixed

Name = tuple[str, ...]  # words, as `tokens` cuts them
CharacteristicKey = tuple[str, str]  # component id, characteristic id


@fixed
class Act:
    """A form of an action's name."""

    id: str
    form: str  # "base", "past" or "ing"


@fixed
class Meaning:
    """All that one phrase may mean."""

    parts: tuple[str, ...] = ()  # component ids by a full name
    aliases: tuple[str, ...] = ()  # component ids by a part of a name
    many: bool = False  # plural form of a component's name
    characteristics: tuple[CharacteristicKey, ...] = ()
    conditions: tuple[str, ...] = ()
    acts: tuple[Act, ...] = ()
    positions: tuple[str, ...] = ()
    tags: frozenset[str] = frozenset()  # tags of bench talk


NOTHING = Meaning()
