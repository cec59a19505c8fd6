"""People at the bench and the desk: names, roles, what each may do. No passphrase is held here."""

from __future__ import annotations

import itertools
import re
import unicodedata
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Literal

from saywright.errors import InputError

MAX_NAME = 80  # characters
MIN_PASSPHRASE = 8  # characters; a PIN of eight digits will do, since tries are slowed down
MAX_PASSPHRASE = 200

PROGRAM = "saywright"  # the actor of what the program did by itself

Change = Literal["added", "role", "passphrase", "removed"]

_SPACE = re.compile(r"\s+")


class Role(StrEnum):
    """What a person is there for."""

    TECHNICIAN = "technician"
    REVIEWER = "reviewer"
    VIEWER = "viewer"


class Right(StrEnum):
    """What a request may need."""

    READ = "read"  # see jobs, records, pictures, clips, previews of the report
    CHANGE = "change"  # correct, accept, add, withdraw, add pictures, make a report
    SIGN = "sign"  # stand for a record
    BENCH = "bench"  # work the board: the microphone and the data key


_ALL = frozenset(Right)

RIGHTS: dict[Role, frozenset[Right]] = {
    Role.TECHNICIAN: _ALL,
    Role.REVIEWER: _ALL - {Right.BENCH},
    Role.VIEWER: frozenset({Right.READ}),
}

# What a right lets a person do, as the end of "a viewer may not …".
TOLD: dict[Right, str] = {
    Right.READ: "read jobs",
    Right.CHANGE: "change a record",
    Right.SIGN: "sign a record",
    Right.BENCH: "work the microphone or the data key",
}


@dataclass(frozen=True, slots=True)
class Person:
    """One person, as the store knows them."""

    name: str  # as shown and as kept in events
    role: Role
    active: bool  # False: was removed; the name stays in the events

    def may(self, right: Right) -> bool:
        """True where the person is active and the role has the right."""
        return self.active and right in RIGHTS[self.role]


@dataclass(frozen=True, slots=True)
class PersonChange:
    """One change of who may use the desk. Passphrases are not in it."""

    at: datetime  # UTC
    actor: str  # who made it
    name: str  # of the person, as shown
    change: Change
    role: Role  # after it


def clean_name(text: str) -> str:
    """The name as it is kept; InputError for one that is empty, too long or holds control characters."""
    name = _SPACE.sub(" ", unicodedata.normalize("NFC", text)).strip()
    if not name:
        raise InputError("no name was given", where="Name", to_do="Give the person's name")
    if len(name) > MAX_NAME:
        raise InputError(f"more than {MAX_NAME} characters", where="Name", to_do="Shorten it")
    if any(unicodedata.category(char) in ("Cc", "Cf", "Cs") for char in name):
        raise InputError("holds characters that cannot be seen", where="Name", to_do="Type it again")
    if name_key(name) == PROGRAM:
        raise InputError("is the name of what no person did", where="Name", to_do="Give the person's own")
    return name


def name_key(name: str) -> str:
    """What makes a name the same as another: neither case nor the form of its letters."""
    return unicodedata.normalize("NFKC", _SPACE.sub(" ", name).strip().casefold())


def check_passphrase(text: str, name: str) -> None:
    """InputError for a passphrase that is too short, too long or easily tried."""
    if len(text) < MIN_PASSPHRASE:
        raise _weak(
            f"the passphrase has {len(text)} characters; it takes {MIN_PASSPHRASE} or more",
            "Give a longer one: three or four words, or a PIN of eight digits",
        )
    if len(text) > MAX_PASSPHRASE:
        raise _weak(f"the passphrase has more than {MAX_PASSPHRASE} characters", "Give a shorter one")
    plain = name_key(text)
    steps = {ord(b) - ord(a) for a, b in itertools.pairwise(plain)}
    if len(set(plain)) < 4 or (len(steps) == 1 and steps <= {1, -1}) or plain == name_key(name):
        raise _weak("the passphrase is one of the first that anybody would try", "Give another")


def _weak(what: str, to_do: str) -> InputError:
    return InputError(what, where="Passphrase", to_do=to_do)
