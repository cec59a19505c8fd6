"""`people`, and what the other commands do once somebody is named."""

from __future__ import annotations

import io
import json

import click
import pytest
from argon2 import PasswordHasher

from saywright.store.passphrase import Hasher

TIDE = "low tide at seven"


@pytest.fixture(autouse=True)
def fast(monkeypatch):
    """Hashes of the least cost that argon2 allows, so that tests are quick."""
    hasher = Hasher(PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
    monkeypatch.setattr("saywright.store.passphrase.HASHER", hasher)


@pytest.fixture
def given(saywright, monkeypatch):
    """Run a command with text on its standard input."""

    def run(text, *args):
        monkeypatch.setattr("sys.stdin", io.StringIO(text))
        return saywright(*args)

    return run


def test_a_person_is_named_changed_and_removed(given, saywright):
    """Add, list, role, passphrase, remove: each tells what holds from then on."""
    assert "asks for no sign-in" in saywright("people", "list").out
    added = given(f"{TIDE}\n", "people", "add", "Ada Holm")
    assert (0, "Ada Holm may sign in as technician\n") == (added.code, added.err)
    given("the slip is wet\n", "people", "add", "Vera", "--role", "viewer")
    assert 0 == saywright("people", "role", "vera", "reviewer").code
    assert 0 == given("gulls on the crane\n", "people", "passphrase", "vera").code
    gone = saywright("people", "remove", "Ada Holm")
    assert "let in no more" in gone.err
    assert "Nobody is left" not in gone.err
    people = json.loads(saywright("people", "list", "--json").out)
    told = ["read jobs", "change a record", "sign a record"]
    assert [
        {"name": "Ada Holm", "role": "technician", "active": False, "may": []},
        {"name": "Vera", "role": "reviewer", "active": True, "may": told},
    ] == people
    assert "removed" in saywright("people", "list").out
    assert "Nobody is left" in saywright("people", "remove", "Vera").err


def test_the_history_tells_who_made_each_change(given, saywright):
    """When, by whom, what; as a table and as JSON. No passphrase is in it."""
    assert "Nothing was changed yet" in saywright("people", "history").out
    given(f"{TIDE}\n", "people", "add", "Ada Holm", "--by", "Kit")
    saywright("people", "role", "Ada Holm", "viewer", "--by", "Bo")
    shown = saywright("people", "history").out
    assert "Kit" in shown
    assert "is viewer from then on" in shown
    assert TIDE not in shown
    kept = json.loads(saywright("people", "history", "--json").out)
    assert [("Kit", "added", "technician"), ("Bo", "role", "viewer")] == [
        (one["by"], one["change"], one["role"]) for one in kept
    ]


@pytest.mark.parametrize(
    ("text", "args", "code", "told"),
    [
        ("", ("add", "Ada"), 2, "no passphrase came"),
        ("short\n", ("add", "Ada"), 2, "8 or more"),
        ("12345678\n", ("add", "Ada"), 2, "first that anybody would try"),
        (f"{TIDE}\n", ("add", "  "), 2, "no name was given"),
        (f"{TIDE}\n", ("add", "Ada", "--role", "captain"), 2, "captain"),
        (f"{TIDE}\n", ("passphrase", "Nobody"), 5, "no such person"),
        ("", ("passphrase", "Nobody"), 5, "no such person"),
        ("", ("role", "Nobody", "viewer"), 5, "no such person"),
        ("", ("remove", "Nobody"), 5, "no such person"),
    ],
)
def test_what_cannot_be_is_one_line(given, text, args, code, told):
    """Nothing typed, a weak passphrase, a bad name or role, nobody of that name."""
    ran = given(text, "people", *args)
    assert (code, 1, True) == (ran.code, ran.err.count("\n"), told in ran.err)


def test_the_passphrase_stands_on_no_command_line(saywright):
    """There is no option for it, and what was typed is not echoed or told."""
    for command in ("add", "passphrase"):
        text = saywright("people", command, "--help").out
        assert [] == [word for word in text.split() if word.startswith(("--pass", "--pin", "--secret"))]


def test_at_a_terminal_it_is_typed_twice_unseen(given, monkeypatch):
    """The prompt hides it and asks again."""
    asked = {}

    def prompt(text, **more):
        asked.update(more, text=text)
        return TIDE

    terminal = io.StringIO()
    terminal.isatty = lambda: True
    monkeypatch.setattr(click, "prompt", prompt)
    monkeypatch.setattr("saywright.cli.people.sys", type("System", (), {"stdin": terminal}))
    assert 0 == given("", "people", "add", "Ada").code
    assert (True, "Once more") == (asked["hide_input"], asked["confirmation_prompt"])


def test_the_network_needs_a_person(saywright):
    """`desk --lan` without anybody: refused with the command that names one."""
    ran = saywright("desk", "--lan", "--port", "8790")
    assert (6, True) == (ran.code, "saywright people add NAME" in ran.err)


def test_a_certificate_must_be_one(saywright, tmp_path):
    """The file that cannot be used is named."""
    (tmp_path / "x.pem").write_text("no")
    ran = saywright("desk", "--port", "8790", "--certificate", "x.pem")
    assert (2, True) == (ran.code, ran.err.startswith("saywright: x.pem: the certificate or its key"))


@pytest.fixture
def ready(saywright, notes):
    """A job whose open items are explained."""
    job = saywright("jobs", "new", "--sheet", "outboard-float-carburetor").out.strip()
    for item in json.loads(saywright("review", "list", job, "--json").out):
        saywright("review", "explain", job, item["id"], "for the test", "--by", "Ada")
    return job


def test_signing_asks_who_it_is_once_people_are_named(given, saywright, ready):
    """The right passphrase signs with name and role; a wrong one, a viewer, a stranger do not."""
    given(f"{TIDE}\n", "people", "add", "Ada")
    given("gulls on the crane\n", "people", "add", "Vera", "--role", "viewer")
    for text, by, told in (
        ("low tide at eight\n", "Ada", "the passphrase is not right"),
        ("gulls on the crane\n", "Vera", "nobody of this name may sign"),
        (f"{TIDE}\n", "Nobody", "nobody of this name may sign"),
    ):
        ran = given(text, "sign", ready, "--by", by)
        assert (6, True) == (ran.code, told in ran.err)
    assert 0 == given(f"{TIDE}\n", "sign", ready, "--by", "ada").code
    record = json.loads(saywright("export", ready, "--format", "json").out)
    assert ("Ada", "technician") == (record["sign_off"]["by"], record["sign_off"]["role"])


def test_without_people_signing_is_as_before(saywright, ready):
    """The name given, no passphrase, no role."""
    assert 0 == saywright("sign", ready, "--by", "Ada Holm").code
    record = json.loads(saywright("export", ready, "--format", "json").out)
    assert ("Ada Holm", None) == (record["sign_off"]["by"], record["sign_off"]["role"])
