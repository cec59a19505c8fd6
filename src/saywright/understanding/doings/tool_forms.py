"""Ways to tell what was done with a tool: ran it over, gave it a rub with it, a bit of it on that. Pure."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import PLACES_ON_IT
from saywright.understanding.doings.roundabout import POINTS, ended, put_words
from saywright.understanding.fixed import fixed
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.steps import Tokens
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.lexicon import Lexicon

ALONG: Final = frozenset({"over", "through", "along", "round", "around", "across", "down", "up", "on", "to"})
LITTLE: Final = frozenset(
    ["bit", "little", "touch", "dab", "drop", "squirt", "spot", "lick", "smear", "drink", "splash", "wipe",
     "film", "dot", "some", "plenty", "blast", "puff", "shot"]
)  # fmt: skip
LIGHT: Final = frozenset(
    ["rub", "flick", "lick", "touch", "wipe", "scrub", "brush", "buff", "polish", "clean", "tickle", "kiss",
     "stroke", "strokes", "pass", "passes", "go", "blast", "minutes", "minute", "seconds", "scrape", "twirl",
     "dab", "spray", "squirt", "dress", "lap", "once", "going"]
)  # fmt: skip
_LAID: Final = frozenset({"on", "down", "up"})  # where a tool may lie, too
_COVERS: Final = frozenset({"rag", "cloth"})  # may as well be laid over it
_RAN: Final = dict.fromkeys(("ran", "put", "took", "passed", "used", "had", "stuck", "got"), 0) | {"run": 1}
_WENT: Final = frozenset({"been", "went", "gone"})
_RUBBED: Final = frozenset({"rubbed", "sprayed", "hit", "tickled", "attacked", "doused", "brushed", "wiped"})
_BEHIND_LIGHT: Final = frozenset({"over", "down", "round", "up", "off", "out", "through"})
_HOW: Final = frozenset(CLASSES) | frozenset(
    ["a", "an", "quick", "good", "bit", "of", "little", "light", "gentle", "couple", "few", "another",
     "proper", "nice", "just", "some", "the", "more", "thorough", "bloody", "half"]
)  # fmt: skip
_WANTS: Final = frozenset({"needs", "need", "wants", "want"})
_AHEAD: Final = _WANTS | frozenset({"will", "would", "must", "should", "let", "going"})
# Behind what is told without a verb: it is thought of, or yet to come.
_THOUGHT: Final = frozenset(
    ["will", "would", "should", "could", "might", "may", "can", "must", "ought", "shall", "does", "do",
     "when", "once", "if", "later", "tomorrow", "tonight", "afterwards", "needed", "first", "next"]
)  # fmt: skip
_ROUND: Final = frozenset({"round", "around", "through", "in"})  # where a stone may lie or be stuck
_CLAUSES: Final = frozenset({BREAK, "and", "then", "so", "but", "just"})
_OBJECTS: Final = POINTS | {"the", "both", "all", "each", "every", "its", "everything", "their"}
_PERSONS: Final = frozenset({"i", "we", "you"})
_FOUND: Final = _AHEAD | frozenset({"there", "full", "covered", "found", "all", "with"})
_WHEELS: Final = frozenset({"wheel", "mop"})
_GAVE: Final = {"gave": 0, "given": 0, "giving": 1, "give": 1}
_GAVE_REACH: Final = 6  # tokens of "gave the left back plate a"
_VERB_REACH: Final = 5  # tokens of "rubbed the left back plate"


@fixed
class Used:
    """A tool as it is named in a line, and what is done with it."""

    texts: Sequence[str]
    clause: int  # the first token of its clause
    start: int  # of "a bit of emery"
    at: int  # of "emery"
    end: int
    verbs: tuple[str, str, str]  # what was done, is to be done, wants doing
    little: bool
    oil: bool

    @property
    def before(self) -> str:
        """The word before it."""
        return text_at(self.texts, self.start - 1) if self.start > self.clause else ""

    @property
    def behind(self) -> str:
        """The word behind it."""
        return text_at(self.texts, self.end)

    @property
    def bare(self) -> str:
        """What was or is to be done, where no verb tells: "two minutes with the hone then" is to be done.

        "" where that is only thought of: "a rub with emery won't shift it", "quick go with the hone later".
        """
        rest = self.texts[self.end :]
        rest = rest[: rest.index(BREAK)] if BREAK in rest else rest
        return "" if not _THOUGHT.isdisjoint(rest) else self.verbs[rest[-1:] == ("then",)]


ToolForm = Callable[[Tokens, Used, "Lexicon"], Tokens]


def _put(tokens: Tokens, start: int, end: int, verb: str, *behind: str) -> Tokens:
    return put_words(tokens, start, end, *verb.split(), *behind)


def _done_to(tokens: Tokens, used: Used, span: tuple[int, int], verb: str, lexicon: Lexicon) -> Tokens:
    """*tokens* with *verb* in the place of *span*, and what it was done to behind it: else "it"."""
    (begin, end), texts = span, used.texts
    what = text_at(texts, end)
    if "to" in texts[end:]:
        return tokens  # "ran a file along it to deburr it": that is told
    if what == "the" and text_at(texts, end + 1) in PLACES_ON_IT and ended(texts, end + 2):
        return _put(tokens, begin, end + 2, verb, "it")
    if what in _OBJECTS or lexicon.names(tuple(texts), end).parts:
        return _put(tokens, begin, end, verb)
    return _put(tokens, begin, end, verb, "it") if ended(texts, end) else tokens


def _through(tokens: Tokens, used: Used, _: Lexicon) -> Tokens:
    """ "It's been through the wire wheel", "five minutes on the wire wheel"."""
    texts, at = used.texts, used.start - 1
    if used.before not in {"through", "on"} or texts[used.end - 1] not in _WHEELS or at - 1 < used.clause:
        return tokens
    if texts[at - 1] in _WENT and at - 1 > used.clause:
        perfect = text_at(texts, at - 2) in {"has", "have", "is", "are"}
        return _put(tokens, at - 1, used.end, ("been " if perfect else "got ") + used.verbs[0])
    begin = at - 1
    while texts[at - 1] in {"minutes", "minute"} and begin > used.clause and texts[begin - 1] in _HOW:
        begin -= 1
    if begin < at - 1 and begin == used.clause and ended(texts, used.end) and used.bare:
        return _put(tokens, begin, used.end, used.bare, "it")
    return tokens


def _ran(tokens: Tokens, used: Used, lexicon: Lexicon) -> Tokens:
    """ "Ran a wire brush over it", "I'll run the hone through both"; "put a rag over it" covers it."""
    texts, verb = used.texts, used.start - 1
    if used.before not in _RAN or used.behind not in ALONG:
        return tokens
    if used.oil:  # "put a bit of oil on it" may be told anybody
        after = text_at(texts, verb - 1) == "and" and _was_done(texts[used.clause : verb - 1], lexicon)
        laid = used.before == "put" and (after or text_at(texts, verb - 1) in {"i", "we", "have"})
    else:
        covers = texts[used.end - 1] in _COVERS and used.before != "ran"
        laid = not covers and (used.behind not in _LAID or used.before == "used")
    if not laid:
        return tokens
    ahead = not _AHEAD.isdisjoint(texts[max(0, verb - 3) : verb])
    form = used.verbs[1] if ahead or _RAN[used.before] else used.verbs[0]
    return _done_to(tokens, used, (verb, used.end + 1), form, lexicon)


def _rubbed(tokens: Tokens, used: Used, lexicon: Lexicon) -> Tokens:
    """ "Rubbed it with emery", "went over it with a stone"; not "hit the burrs with a file"."""
    texts, at = used.texts, used.start - 1
    if used.before != "with" or used.oil:
        return tokens
    reach = range(at - 1, max(used.clause, at - _VERB_REACH) - 1, -1)
    verb = next((i for i in reach if texts[i] in _RUBBED | _WENT), -1)
    if verb < 0:
        return tokens
    begin = verb + 1
    if texts[verb] in _WENT:
        begin += 1
        if texts[verb + 1] not in ALONG | {"at"}:
            return tokens
    thing = begin + (text_at(texts, begin) == "the")
    known = lexicon.names(tuple(texts), thing)
    if text_at(texts, thing) not in _OBJECTS and not (known.parts or known.positions):
        return tokens
    first = verb - (text_at(texts, verb - 1) in {"has", "have"})
    return _put((*tokens[:at], *tokens[used.end :]), first, begin, used.verbs[0])


def _quick_rub(tokens: Tokens, used: Used, _: Lexicon) -> Tokens:
    """ "Quick rub with a bit of emery", "gave it a rub with it", "it wants a rub with it"."""
    texts, at = used.texts, used.start - 1
    noun = at - 1 - (text_at(texts, at - 1) in _BEHIND_LIGHT)
    if used.before != "with" or used.oil or noun < used.clause or texts[noun] not in LIGHT:
        return tokens
    begin = noun
    while begin > used.clause and texts[begin - 1] in _HOW:
        begin -= 1
    return as_noun(tokens, used, begin)


def as_noun(tokens: Tokens, used: Used, begin: int) -> Tokens:
    """What is done by a noun from *begin* to the end of the tool: given, wanted, had, or by itself."""
    texts = used.texts
    reach = range(begin - 2, max(used.clause - 1, begin - _GAVE_REACH - 1), -1)
    gave = next((i for i in reach if texts[i] in _GAVE), -1)
    if gave >= 0:
        given = (*tokens[:begin], *tokens[used.end :])
        whom = text_at(texts, gave + 1) in {"me", "us", "him"}
        return tokens if whom else _put(given, gave, gave + 1, used.verbs[_GAVE[texts[gave]]])
    before = text_at(texts, begin - 1) if begin > used.clause else ""
    if before in _WANTS:
        ours = text_at(texts, begin - 2) in _PERSONS or not ended(texts, used.end)
        return tokens if ours else _put(tokens, begin, used.end, used.verbs[2])
    if before == "had" and begin - 1 > used.clause and ended(texts, used.end):
        return _put(tokens, begin - 1, used.end, "been " + used.verbs[0])
    if used.start > begin and (not before or before in _CLAUSES) and ended(texts, used.end) and used.bare:
        return _put(tokens, begin, used.end, used.bare, "it")
    return tokens


def _given(tokens: Tokens, used: Used, _: Lexicon) -> Tokens:
    """ "Gave both a drop of oil", "it's had a drop of oil", "it wants the wire wheel"."""
    if used.before in _WANTS and used.oil:
        return tokens
    return as_noun(tokens, used, used.start)


def _laid_on(tokens: Tokens, used: Used, lexicon: Lexicon) -> Tokens:
    """ "Bit of emery on it", "cotton bud round the seat": it was done; not "wire brush that"."""
    verb = not used.little and bool(lexicon.names(tuple(used.texts), used.at).acts)
    opens = (not used.before or used.before in _CLAUSES) and used.behind in ALONG
    tool = used.texts[used.end - 1]
    if not opens or used.oil or verb or tool in _COVERS or (tool == "stone" and used.behind in _ROUND):
        return tokens  # "stone round the cable" is a pebble
    if not used.little and used.behind in _LAID:
        return tokens
    return _done_to(tokens, used, (used.start, used.end + 1), used.bare, lexicon) if used.bare else tokens


def _and_some(tokens: Tokens, used: Used, lexicon: Lexicon) -> Tokens:
    """ "Washed it out and a bit of grease", "… then a shot of carb cleaner": done as well."""
    texts = used.texts
    if not used.little or used.before not in {"and", "then"} or not ended(texts, used.end):
        return tokens
    if not _FOUND.isdisjoint(texts[: used.start]) or not _was_done(texts[used.clause : used.start], lexicon):
        return tokens
    return _put(tokens, used.start, used.end, used.verbs[0], "it")


def _was_done(said: Sequence[str], lexicon: Lexicon) -> bool:
    """True where all that is told there was done."""
    acts = [act for at in range(len(said)) for act in lexicon.names(tuple(said), at).acts]
    return bool(acts) and all(act.form == "past" for act in acts)


FORMS: Final[tuple[ToolForm, ...]] = (_through, _ran, _rubbed, _quick_rub, _given, _laid_on, _and_some)
