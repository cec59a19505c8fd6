"""Other forms of a word, by the rules of spelling."""

from __future__ import annotations

import pytest

from saywright.understanding.wordforms import (
    act_nouns,
    fault_forms,
    is_past,
    past_forms,
    plural,
    singular,
    verb_forms,
)


@pytest.mark.parametrize(
    ("one", "many"),
    [("jet", "jets"), ("bush", "bushes"), ("assembly", "assemblies"), ("key", "keys"), ("box", "boxes")],
)
def test_plural_and_back(one, many):
    """A regular plural is made and undone."""
    assert (many, one) == (plural(one), singular(many))


@pytest.mark.parametrize("word", ["brass", "chassis", "status", "gas"])
def test_no_plural_is_left_alone(word):
    """A word that only ends in s is its own singular."""
    assert word == singular(word)


@pytest.mark.parametrize(
    ("base", "forms"),
    [
        ("clean", ("cleans", "cleaned", "cleaning")),
        ("replace", ("replaces", "replaced", "replacing")),
        ("lap", ("laps", "lapped", "lapping")),
        ("dry", ("dries", "dried", "drying")),
        ("cleaned", ()),
    ],
)
def test_verb_forms(base, forms):
    """-s, -ed and -ing of a base form; nothing for what is a form already."""
    assert forms == verb_forms(base)


def test_nouns_beside_a_participle():
    """ "scored" also answers to "scoring" and "score"; a block is not "blocked"."""
    assert {"scoring", "score"} <= set(past_forms("scored"))
    assert "block" not in past_forms("blocked")


@pytest.mark.parametrize(
    ("word", "past"), [("worn", True), ("cleaned", True), ("red", False), ("clean", False)]
)
def test_past(word, past):
    """Regular and irregular past forms are told from other words."""
    assert past is is_past(word)


@pytest.mark.parametrize(
    ("name", "form"),
    [
        ("separated", "separation"),
        ("corroded", "corrosion"),
        ("misaligned", "misalignment"),
        ("hazed", "hazy"),
        ("crumbling", "crumbled"),
        ("leaking", "leakage"),
        ("slack", "slackness"),
        ("sticky", "stickiness"),
        ("dent", "dented"),
        ("grit", "gritty"),
    ],
)
def test_forms_of_a_fault(name, form):
    """A fault may be said as an adjective, a noun or a verb."""
    assert form in fault_forms(name)


@pytest.mark.parametrize(("verb", "noun"), [("adjust", "adjustment"), ("lubricate", "lubrication")])
def test_nouns_of_doing(verb, noun):
    """A doing may be said as a noun."""
    assert noun in act_nouns(verb)
