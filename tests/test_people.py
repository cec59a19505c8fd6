"""Names, roles and passphrases: the rules."""

from __future__ import annotations

import pytest

from saywright.errors import InputError
from saywright.people import RIGHTS, TOLD, Person, Right, Role, check_passphrase, clean_name, name_key


@pytest.mark.parametrize(
    ("role", "rights"),
    [
        (Role.TECHNICIAN, {Right.READ, Right.CHANGE, Right.SIGN, Right.BENCH}),
        (Role.REVIEWER, {Right.READ, Right.CHANGE, Right.SIGN}),
        (Role.VIEWER, {Right.READ}),
    ],
)
def test_what_each_role_may_do(role, rights):
    """A technician everything, a reviewer all but the bench, a viewer reads; who was removed nothing."""
    assert rights == {right for right in Right if Person("Ada", role, active=True).may(right)}
    assert [] == [right for right in Right if Person("Ada", role, active=False).may(right)]


def test_every_role_and_right_is_told():
    """No role is without rules and no right without words."""
    assert set(Role) == set(RIGHTS)
    assert set(Right) == set(TOLD)


@pytest.mark.parametrize(("given", "name"), [("  Ada   Holm ", "Ada Holm"), ("Bjo\u0308rn", "Bj\u00f6rn")])
def test_a_name_is_kept_in_one_form(given, name):
    """Spaces are joined and letters composed."""
    assert name == clean_name(given)


@pytest.mark.parametrize("given", ["", "   ", "x" * 81, "Ada\u202e", "A\x00da", "saywright", " Saywright"])
def test_a_name_that_would_mislead_is_refused(given):
    """Nothing, too much, characters that nobody sees, or the program's own name."""
    with pytest.raises(InputError, match="Name"):
        clean_name(given)


def test_names_are_the_same_whatever_the_case():
    """Ada is ADA, so nobody can be added beside her."""
    assert name_key("Ada Holm") == name_key(" ADA  holm") != name_key("Ada Hold")


@pytest.mark.parametrize("text", ["harbour slip at low tide", "40718293", "12345679x"])
def test_a_good_passphrase_is_taken(text):
    """Words, or a PIN of eight digits that is no staircase."""
    check_passphrase(text, "Ada")


@pytest.mark.parametrize(
    "text", ["", "1234567", "x" * 201, "11111111", "12121212", "12345678", "87654321", "ada  Holm"]
)
def test_a_weak_passphrase_is_refused(text):
    """Too short, too long, one of the first to be tried, or the name itself."""
    with pytest.raises(InputError, match="Passphrase"):
        check_passphrase(text, "Ada Holm")
