"""A word that has no sense where it stands, tried as the words that it sounds like: "relief valve doubt".

Taken is the one with which the words around it, that told nothing, tell something whole of a part that is
named among them. What is told so asks.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.bench_words import (
    AWAY,
    FASTENERS,
    HELPER,
    HOLDERS,
    NEUTRAL,
    PART_NOUNS,
    PARTICLES,
    PLAIN,
    STUFFS,
    TRANSITIVE,
)
from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES, DENOMINATORS
from saywright.understanding.sounds.phones import alike, syllables
from saywright.understanding.sounds.state_sounds import BE, ORDINARY, STATE_LINKS
from saywright.understanding.statements import Remark, Statement
from saywright.understanding.tags import MOVES
from saywright.understanding.tokens import BREAK, Token
from saywright.understanding.wordforms import is_past, plural, singular, verb_forms
from saywright.understanding.working import Working

# Heard → how something moved: too short to be told by their sounds, and said in every other breath.
_MOVED: Final = {
    heard: said
    for said, all_heard in (
        ("out", "doubt oat outta route hour ought art shout"),
        ("off", "often oft cough"),
        ("on", "own ann anne aunt"),
        ("in", "inn ing im hen ink"),
        ("back", "black bag bake beck"),
        ("new", "nude news mew newt"),
        ("old", "gold ode bold mould mold"),
    )
    for heard in all_heard.split()
}
_LONGEST: Final = 16  # tokens of what is tried
_HEARD_RIGHT: Final = frozenset({"old", "new", "warn", "clocked", "state", "morning", "meant", "used"})
_MOST: Final = 6  # words that one is tried as
_SHORTEST: Final = 3  # letters
_ALIKE: Final = 0.76
_SHORT_ALIKE: Final = 0.82  # of a word of four letters at most
_SHORT: Final = 4
_VERB_ALIKE: Final = 0.88  # of a verb: most of them may be said of a part
_SURE_ALIKE: Final = 0.9  # of a particle, against what is only like a word
_APART: Final = 0.06  # what tells another thing is less alike by this at least
_SMALL: Final = frozenset(
    ["i", "you", "he", "she", "it", "we", "they", "me", "us", "them", "this", "that", "these", "those",
     "there", "here", "am", "is", "are", "was", "were", "be", "been", "has", "have", "had", "a", "an", "the",
     "some", "and", "but", "so", "then", "though", "too", "also", "again", "just", "please", "not", "no",
     "of", "to", "for", "with", "from", "without", "all", "each", "every"]
)  # fmt: skip
_NEVER: Final = (
    PART_NOUNS | HOLDERS | FASTENERS | NEUTRAL | PLAIN | HELPER | AWAY | STUFFS | TRANSITIVE | PARTICLES
    | ORDINARY | _SMALL | frozenset(CLASSES) | frozenset(DENOMINATORS) | {BREAK}
) - frozenset(_MOVED)  # fmt: skip
_TALK: Final = frozenset({Remark})
_AGES: Final = frozenset({"new", "old"})
_ARTICLES: Final = frozenset(
    ["the", "a", "an", "this", "that", "my", "his", "her", "your", "our", "their", "its", "one", "any", "at",
     "for", "by", "from", "with", "of", "other", "another"]
)  # fmt: skip
_PEOPLE: Final = frozenset({"i", "we", "you", "he", "she", "they", "would", "will", "to", "should", "can"})
_ONES: Final = frozenset({"one", "ones", "two", "three", "four", "other"})
_OF_IT: Final = frozenset({"it", "they", "that", "this", "both", "these", "those"})
_LINKS: Final = frozenset({BREAK, "and", "or", "no", "some", "of", "but"})
_HEADS: Final = frozenset({"", BREAK, "and", "then", "so", "please", "now", "right"})
_OBJECTS: Final = frozenset(
    {"the", "a", "an", "it", "them", "both", "all", "two", "three", "four", "new", "that"}
)
_TAKEN: Final = frozenset({"him", "her", "me", "us", "you", "them", "people", "someone", "anyone"})
_BEHIND_STATE: Final = frozenset(
    ["", BREAK, "and", "on", "in", "at", "but", "all", "round", "so", "where", "near", "now", "too", "though",
     "from", "by", "along", "as", "inside", "outside", "with", "again", "both", "then", "there"]
)  # fmt: skip

Again = Callable[[tuple[Token, ...], frozenset[int]], Working]


def may_try(work: Working) -> bool:
    """True where words were left that tell nothing."""
    return len(work.tokens) <= _LONGEST and Remark in map(type, work.out)


def tried(work: Working, tokens: tuple[Token, ...], mended: frozenset[int], again: Again) -> Working:
    """*work*, or what *again* makes of *tokens* with the one word that makes them whole."""
    left = _left(work)
    found: list[tuple[float, Working]] = []
    for at, token in enumerate(tokens):
        if token.word not in left or at in mended:
            continue
        for like, word in _sounding(token.text, work.lexicon):
            if not (
                _may_stand(tokens, at, word, work.lexicon) and _names_another(tokens, at, word, work.lexicon)
            ):
                continue
            made = again((*tokens[:at], replace(token, text=word), *tokens[at + 1 :]), mended | {at})
            if _is_whole(made, work, token.word):
                found.append((like, made))
    if not found:
        return work
    found.sort(key=lambda one: -one[0])
    best = _told(found[0][1].out)
    if any(like > found[0][0] - _APART and _told(made.out) != best for like, made in found[1:]):
        return work
    return found[0][1]


def _left(work: Working) -> set[int]:
    """The words that remarks were made of."""
    spans = [work.quoted[s.id] for s in work.out if type(s) is Remark and s.id in work.quoted]
    return {word for first, last in spans for word in range(first, last)}


def _is_whole(made: Working, work: Working, word: int) -> bool:
    """True where *made* tells all that *work* does and more, of parts, and leaves no words around *word*."""
    if any(s.kind == "unclear" for s in made.out) or _TALK.issuperset(map(type, made.out)):
        return False
    if any(getattr(s, "component", None) is None for s in made.out if type(s) is not Remark):
        return False
    before, after = _told(work.out), _told(made.out)
    if not set(before) < set(after):
        return False
    left, still = _left(work), _left(made)
    if word in still:
        return False
    begin = end = word
    while begin - 1 in left:
        begin -= 1
    while end + 1 in left:
        end += 1
    return still.isdisjoint(range(begin, end + 1))


def _told(statements: Iterable[Statement]) -> list[str]:
    """What *statements* tell, without their numbers, words and flags."""
    skip = {"id", "heard", "flags", "start_s", "end_s", "supersedes"}
    return [s.model_dump_json(exclude=skip) for s in statements if type(s) is not Remark]


def _may_stand(tokens: Sequence[Token], at: int, word: str, lexicon: Lexicon) -> bool:
    """True where *word* is no noun, or a noun can stand at *at*."""
    before = tokens[at - 1].text if at else ""
    behind = tokens[at + 1].text if at + 1 < len(tokens) else ""
    meant = lexicon.table.get((word,), NOTHING)
    if tokens[at].text in _MOVED:
        return before not in _ARTICLES or before in _ONES or word in _AGES
    if not (meant.conditions or meant.acts):
        return behind not in _TAKEN
    if meant.acts and not is_past(word):
        wanted = before in _PEOPLE or (before in _HEADS and behind in _OBJECTS)
        return wanted and (syllables(word) > 1 or alike(tokens[at].text, word) >= _VERB_ALIKE)
    if before in _ARTICLES or before in _PEOPLE or behind in _TAKEN:
        return bool(meant.acts) and before in _PEOPLE
    if behind in lexicon.units:
        return False
    return behind in _BEHIND_STATE and _is_told_of(tokens, at, lexicon) if meant.conditions else True


def _is_told_of(tokens: Sequence[Token], at: int, lexicon: Lexicon) -> bool:
    """True where how something is can be told at *at*: behind its name, its verb, or a word for how much."""
    before = tokens[at - 1].text if at else BREAK
    if before in {"and", "or"} and at > 1:
        told = lexicon.table.get((tokens[at - 2].text,), NOTHING)
        return bool(told.conditions or told.acts or told.tags & MOVES) or _is_named(
            tokens[at - 2].text, lexicon
        )
    if before in BE and at > 1:
        before = tokens[at - 2].text
        return before in _OF_IT or _is_named(before, lexicon)
    pair = (tokens[at - 2].text if at > 1 else "", before)
    named = _is_named(before, lexicon) or bool(lexicon.table.get(pair, NOTHING).parts)
    return named or before in _LINKS or before in STATE_LINKS or before in BE


def _is_named(text: str, lexicon: Lexicon) -> bool:
    meant = lexicon.table.get((text,), NOTHING)
    return bool(meant.parts or meant.aliases or meant.positions) or text in _ONES


def _names_another(tokens: Sequence[Token], at: int, word: str, lexicon: Lexicon) -> bool:
    """True where a part is named beside the word at *at*, which *word* would not be of."""
    texts = tuple([t.text for t in tokens])
    said = (*texts[:at], word, *texts[at + 1 :])
    start = 0
    while start < len(said):
        found = lexicon.match(said, start) if said[start] != BREAK else None
        end = start + (found[0] if found is not None else 1)
        if found is not None and (found[1].parts or found[1].aliases) and not start <= at < end:
            return True
        start = end
    return False


def _sounding(text: str, lexicon: Lexicon) -> tuple[tuple[float, str], ...]:
    """The words of the sheet and of moving that *text* sounds like, the likest first; looked up once."""
    found = lexicon.tried_as.get(text)
    if found is None:
        found = lexicon.tried_as[text] = _like(text, lexicon)
    return found


def _like(text: str, lexicon: Lexicon) -> tuple[tuple[float, str], ...]:
    if text in _MOVED:
        own = text in lexicon.words or text in lexicon.positions
        return () if own else ((1.0, _MOVED[text]),)
    if len(text) < _SHORTEST or text in _NEVER or not text.isalpha() or text.endswith(("ly", "wise")):
        return ()
    if text in _HEARD_RIGHT or text.removeprefix("re") in lexicon.words:
        return ()
    if (
        (text,) in lexicon.table
        or text in lexicon.words
        or text in lexicon.units
        or text in lexicon.tool_words
    ):
        return ()
    return tuple([(round(like, 3), word) for like, word in _ranked(text, lexicon)])


def _ranked(text: str, lexicon: Lexicon) -> list[tuple[float, str]]:
    least = _SHORT_ALIKE if len(text) <= _SHORT else _ALIKE
    least = max(least, _VERB_ALIKE) if is_past(text) or text.endswith("ing") else least
    forms = {text, plural(text), singular(text), *verb_forms(text)}
    beats = syllables(text)
    known = dict.fromkeys(
        w for w in _vocabulary(lexicon) if w not in forms and w.isalpha() and syllables(w) == beats
    )
    said = _as_said(text)
    ranked = sorted(((max(alike(s, word, least) for s in said), word) for word in known), reverse=True)
    return [(min(like, _SURE_ALIKE), word) for like, word in ranked[:_MOST] if like >= least]


def _as_said(text: str) -> tuple[str, ...]:
    """ "disc's cord", "sees", "warned": with the sound that was swallowed, without the one that was lent."""
    forms = [text]
    if text[0] in "ckpt" and text[1] not in "hn":
        forms.append(f"s{text}")
    if text.endswith("s") and not text.endswith("ss"):
        forms.append(f"{text}d")
    if text.endswith("ned"):
        forms.append(text[:-2])
    return tuple(forms)


def _vocabulary(lexicon: Lexicon) -> Iterator[str]:
    """States, what is done, what is read, the words of names."""
    yield from lexicon.states
    for deed in lexicon.deeds:
        yield deed
        yield from (form for form in verb_forms(deed) if is_past(form))
    yield from lexicon.read_words
    yield from lexicon.part_words
    yield from lexicon.mendable
