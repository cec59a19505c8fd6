"""The statement grammar, held to the examples in its comments; and who may read the grammar files."""

from __future__ import annotations

import re
from importlib.resources import files
from pathlib import Path

import pytest

import saywright.understanding
from saywright.understanding.phrases import phrases
from saywright.understanding.tagging import tag
from saywright.understanding.tokens import tokenise

KINDS = {"moving": {"off", "on"}}


def examples() -> list[tuple[str, str]]:
    """Rule and example speech, from the comments above each rule."""
    found, waiting = [], []
    text = (files("saywright.understanding") / "grammar" / "statements.lark").read_text(encoding="utf-8")
    for line in text.splitlines():
        if line.startswith("// example:"):
            waiting.append(line.partition(":")[2].strip())
        elif rule := re.match(r"(\w+):", line):
            found += [(rule[1], example) for example in waiting]
            waiting = []
    return found


def test_every_rule_has_an_example():
    """No rule of the grammar stands without speech that it is for."""
    assert {"subject", "finding", "doing", "moving", "lead", "aux", "loose"} == {
        rule for rule, _ in examples()
    }


@pytest.mark.parametrize(("rule", "example"), [e for e in examples() if e[0] != "loose"])
def test_an_example_is_one_phrase_of_its_rule(rule, example, lexicon):
    """The example of a rule is read as one phrase of that rule, from the first word to the last."""
    tokens = tokenise(example.split())
    found = phrases(tag(tokens, lexicon))
    assert [(0, len(tokens))] == [(p.start, p.end) for p in found]
    assert found[0].kind in KINDS.get(rule, {rule})


def test_loose_tags_stay_in_their_order(lexicon):
    """What fits no phrase is a phrase by itself, in the order said."""
    tokens = tokenise(["the", "float", "height", "is", "eighteen", "point", "four"])
    assert ["lead", "char", "aux", "measure"] == [p.kind for p in phrases(tag(tokens, lexicon))]


def test_only_those_who_make_tables_read_the_grammars():
    """The packaged grammars are read by the lexicon and the two parsers, and by nobody else."""
    folder = Path(saywright.understanding.__file__).parent
    readers = {
        path.stem
        for path in folder.rglob("*.py")
        if "import grammar_text" in (text := path.read_text(encoding="utf-8"))
        or "grammar_text import" in text
    }
    assert {"lexicon", "phrases", "tree"} == readers
