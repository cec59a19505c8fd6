"""Name and passphrase → the person, with tries slowed down: to sign in, and again to sign a record."""

from __future__ import annotations

import ipaddress
import math

from starlette.requests import Request

from saywright.errors import InputError
from saywright.people import Person, name_key
from saywright.web.attempts import Patience
from saywright.web.errors import SignInError, WaitError
from saywright.web.lan import plain_host
from saywright.web.session import person_of
from saywright.web.state import desk_of

MAX_SENT = 1000  # characters of a passphrase that are looked at

# A name is slowed down soon, but never for long, or a stranger could keep somebody out for a day.
BY_NAME = Patience(free=3, longest_s=60.0, forget_s=3600.0)
BY_ADDRESS = Patience(free=10, longest_s=900.0, forget_s=3600.0)


def proven(request: Request, name: str, passphrase: str) -> Person:
    """The person whose passphrase this is; InputError where it is not, WaitError after too many tries.

    A name that nobody has is met in the same words after the same time.
    """
    desk = desk_of(request)
    attempts, key, address = desk.sessions.attempts, name_key(name), _address(request)
    tried = (("name", key, BY_NAME), ("address", address, BY_ADDRESS))
    wait_s = attempts.take(tried, desk.sessions.now_s())
    if wait_s > 0:
        seconds = math.ceil(wait_s)
        request.state.wait_s = seconds
        raise WaitError(
            "too many tries did not fit",
            to_do=f"Wait {seconds} second{'s' if seconds != 1 else ''}, then try again",
        )
    person = desk.store.people.check(name, passphrase) if len(passphrase) <= MAX_SENT else None
    if person is None:
        raise InputError("the name or the passphrase is not right", to_do="Type both again")
    attempts.clear("name", key)
    attempts.take_back("address", address)
    return person


def proven_again(request: Request, passphrase: str) -> Person:
    """Who is signed in, proved once more, since a desk may be left open; InputError, WaitError as above."""
    person = person_of(request)
    if person is None:
        raise SignInError("nobody is signed in here", to_do="Sign in first")
    try:
        return proven(request, person.name, passphrase)
    except InputError:
        raise InputError(
            "the passphrase is not right, so nothing was signed", to_do="Go back and type it again"
        ) from None


def _address(request: Request) -> str:
    """Where the request comes from; of IPv6 the first 64 bits, since one machine may use all below them."""
    host = plain_host(request.client.host if request.client else "")
    if ":" in host:
        return str(ipaddress.ip_network(f"{host}/64", strict=False).network_address)
    return host
