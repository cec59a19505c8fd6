""" "Cap slide needle, they come off", "half the screws are out": told in short, in full words. Pure."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Final

from saywright.understanding.bench_words import CLOSERS
from saywright.understanding.doings.by_other_words import VERBS
from saywright.understanding.doings.roundabout import LINKS, ended
from saywright.understanding.numbers.words import TO_TWELVE
from saywright.understanding.statements import Movement
from saywright.understanding.steps import Tokens, called_by
from saywright.understanding.tokens import BREAK, Token

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_WAYS: Final = frozenset({"off", "out", "in", "on", "back"})
_COMES: Final = frozenset({"come", "came", "go", "went", "drop", "pop", "lift", "slide", "fall"})
_BE: Final = frozenset({"is", "are"})
_ALL: Final = frozenset({"all", "both"})
_OPENERS: Final = LINKS | {BREAK, "the", "its", "next", "first", "there", "is"}
_ARTICLES: Final = frozenset({"the", "its", "his", "their", "my"})
_SIGNS: Final = frozenset(
    {"they", "half", "there", "here", "get", "have", "lifts", "had", "need", "popped", "pops"}
)
_HIS: Final = frozenset({"its", "his", "their"})
_GOES: Final = frozenset({"is", "goes", "comes"})
_GO: Final = frozenset({"go", "goes", "come", "comes"})
_TOO: Final = frozenset({"too", "now", "then"})
_MOVED: Final = frozenset({"is", "are", "out", "off", "come", "came", "back", "in", "on", "undone"})
_NO_HALF: Final = frozenset({"and", "a", "an", "the", "one", "two", "three", "four", "five", "point", "by"})
_BEFORE_WAY: Final = frozenset({"come", "comes", "came", "is", "are", "all", "right"})
_LIFTED: Final = frozenset({"head", "plate", "drum", "lids", "covers", "top", "flange"})
_SPEAKER_WILL: Final = frozenset({("i", "will"), ("we", "will")})
_POPS: Final = frozenset({"popped", "pops"})
_POINTS: Final = frozenset({"it", "they", "that", "he", "she"})
_SPEAKERS: Final = frozenset({"i", "we"})
_PRONOUNS: Final = frozenset({"it", "that", "this", "them", "those", "these", "him", "her"})
_ALONG: Final = frozenset({"as", "while", "with", "there", "next"})
_TWO: Final = 2


@called_by(_SIGNS)
def moves_in_full(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with rows of parts joined before "they come off", "four" for "half the", and the mate."""
    texts = tuple([token.text for token in tokens])
    if "had" in texts or "need" in texts:
        tokens = _came_of_itself(tokens, lexicon)
        texts = tuple([token.text for token in tokens])
    if "half" in texts:
        tokens = _half_of_them(tokens, texts, lexicon)
    if "get" in texts or "have" in texts:
        tokens = _taken_away(tokens, texts, lexicon)
    if not _POPS.isdisjoint(texts):
        tokens = _popped(tokens, texts, lexicon)
    if "lifts" in texts:
        tokens = _lifted(tokens, texts, lexicon)
    if "they" in texts:
        tokens = _row_joined(_turned_about(tokens, texts), lexicon)
    if "there" in texts or "here" in texts:
        tokens = _its_mate(_there_go(tokens, state, lexicon), state, lexicon)
    return tokens


def _came_of_itself(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """ "Had to pick the seal out": picked; "no need, it's dropped out by itself": it did."""
    texts = tuple([token.text for token in tokens])
    if texts[:2] == ("no", "need") and texts[2:3] != () and texts[2] in _POINTS:
        return tokens[2:]
    for at in range(len(texts) - 2):
        had = texts[at] == "had" and texts[at + 1] in {"off", "out"} and "before" not in texts
        if had and texts[at + 2] in _ARTICLES | _ALL:
            return (*tokens[:at], Token("taken", tokens[at].word), *tokens[at + 1 :])  # "I've had off the …"
        if texts[at : at + 2] != ("had", "to") or texts[at + 2] not in lexicon.splittable | VERBS.keys():
            continue
        begin = at - 1 if at and texts[at - 1] in _SPEAKERS else at
        led = begin == 0 or texts[begin - 1] in LINKS | {BREAK}
        moved = not {"off", "out"}.isdisjoint(texts[at + 3 : at + 9])
        if led and moved:
            return (*tokens[:begin], *tokens[at + 2 :])
    return tokens


def _half_of_them(tokens: Tokens, texts: Sequence[str], lexicon: Lexicon) -> Tokens:
    """ "Half the bowl screws are out": as many as that is; not "one and a half the …"."""
    at = texts.index("half")
    begin = at + 1 + (texts[at + 1 : at + 2] == ("of",))
    if (at and texts[at - 1] in _NO_HALF) or texts[begin : begin + 1] not in {("the",), ("them",)}:
        return tokens
    found = lexicon.match(tuple(texts), begin + 1) if begin + 1 < len(texts) and texts[begin + 1] else None
    if found is None or not (found[1].parts or found[1].aliases) or not found[1].many:
        return tokens
    counts = {part.count for part in map(lexicon.sheet.get, (*found[1].parts, *found[1].aliases)) if part}
    end = begin + 1 + found[0]
    number = max(counts, default=0)
    if len(counts) != 1 or number % _TWO or not 0 < number // _TWO <= len(TO_TWELVE):
        return tokens
    if texts[end : end + 1] == () or texts[end] not in _MOVED:
        return tokens
    if texts[end] == "back" and texts[end + 1 : end + 2] not in {(), ("in",), ("on",)}:
        return tokens  # "half the nuts are back ordered"
    return (*tokens[:at], Token(TO_TWELVE[number // _TWO - 1], tokens[at].word), *tokens[begin + 1 :])


def _turned_about(tokens: Tokens, texts: Sequence[str]) -> Tokens:
    """ "Out they both come": "they both come out"."""
    at = texts.index("they") - 1
    come = at + 2 + (texts[at + 2 : at + 3] != () and texts[at + 2] in _ALL)
    if at < 0 or texts[at] not in {"out", "off"} or come >= len(texts) or texts[come] not in _COMES:
        return tokens
    if not ended(texts, come + 1) or (at and texts[at - 1] in _BEFORE_WAY):
        return tokens
    return (*tokens[:at], *tokens[at + 1 : come + 1], tokens[at], *tokens[come + 1 :])


def _taken_away(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Get that off and the needle", "I'll have it right out": taken off."""
    for at in range(len(texts) - 2):
        if texts[at] not in {"get", "have"}:
            continue
        begin = at - 2 if texts[max(0, at - 2) : at] in _SPEAKER_WILL else at
        if (begin == at and texts[at] == "have") or (begin and texts[begin - 1] not in LINKS | {BREAK}):
            continue
        way = _behind_object(texts, at + 1, lexicon)
        if way and texts[way] in {"off", "out"} and (ended(texts, way + 1) or texts[way + 1] in _ALONG):
            return (*tokens[:begin], Token("take", tokens[at].word), *tokens[at + 1 :])
    return tokens


def _behind_object(texts: tuple[str, ...], at: int, lexicon: Lexicon) -> int:
    """The token behind the object that begins at *at*, and behind "right", "both"; 0 without an object."""
    if texts[at] in _PRONOUNS:
        end = at + 1
    else:
        begin = at + (texts[at] in _ARTICLES | _ALL)
        while (
            begin < len(texts)
            and texts[begin] in lexicon.positions
            and not _is_name(texts, begin, len(texts), lexicon)
        ):
            begin += 1
        length = _is_name(texts, begin, len(texts), lexicon)
        end = begin + length if length else 0
    while end and end < len(texts) and texts[end] in {"right", "both", "all", "straight"}:
        end += 1
    return end if end < len(texts) else 0


def _lifted(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Two screws and the cover lifts": off."""
    at = texts.index("lifts")
    closes = at and (texts[at - 1] in CLOSERS or texts[at - 1] in _LIFTED)
    named = any(begin + _is_name(texts, begin, at, lexicon) == at for begin in range(max(0, at - 3), at))
    if not closes or not named or not ended(texts, at + 1):
        return tokens
    return (*tokens[: at + 1], Token("off", tokens[at].word), *tokens[at + 1 :])


def _popped(tokens: Tokens, texts: tuple[str, ...], lexicon: Lexicon) -> Tokens:
    """ "Upper one's popped", "piston pops": out."""
    at = next(i for i, text in enumerate(texts) if text in _POPS)
    end = at - (texts[at - 1] in _BE | {"has", "both"}) if at else 0
    one = end > 1 and texts[end - 1] == "one" and texts[end - 2] in lexicon.positions
    named = any(begin + _is_name(texts, begin, end, lexicon) == end for begin in range(max(0, end - 3), end))
    if not (one or named) or not ended(texts, at + 1):
        return tokens
    return (*tokens[: at + 1], Token("out", tokens[at].word), *tokens[at + 1 :])


def _row_joined(tokens: Tokens, lexicon: Lexicon) -> Tokens:
    """ "Cover gasket diaphragm they come off": "cover and gasket and diaphragm", which came off."""
    texts = tuple([token.text for token in tokens])
    at = texts.index("they")
    end = at - (texts[at - 1] in _WAYS if at else 0)  # "… out they come"
    if not _they_moved(texts, at, turned=end < at):
        return tokens
    end -= end > 0 and texts[end - 1] == BREAK
    row = _row_before(texts, end, lexicon)
    if len(row) < _TWO:
        return tokens
    gaps = [start for start, (_, last) in zip([s for s, _ in row[1:]], row, strict=False) if start == last]
    out: list[Token] = []
    for i, token in enumerate(tokens):
        if i in gaps:
            out.append(Token("and", token.word))
        out.append(token)
    return tuple(out)


def _they_moved(texts: Sequence[str], at: int, *, turned: bool) -> bool:
    """ "… they come off", "… they are all out", "… out they come"."""
    verb = at + 1 + (texts[at + 1 : at + 2] != () and texts[at + 1] in _ALL)
    if verb >= len(texts):
        return False
    if turned:
        return texts[verb] in _COMES
    way = verb + 1 + (texts[verb + 1 : verb + 2] != () and texts[verb + 1] in _ALL)
    return texts[verb] in _COMES | _BE and way < len(texts) and texts[way] in _WAYS


def _row_before(texts: tuple[str, ...], end: int, lexicon: Lexicon) -> list[tuple[int, int]]:
    """The names, one behind the other, of the row that ends before *end* and opens its clause."""
    begin = end
    while begin and texts[begin - 1] != BREAK:
        begin -= 1
    while begin < end and texts[begin] in _OPENERS:
        begin += 1
    row: list[tuple[int, int]] = []
    while begin < end:
        if row and texts[begin] in {"and", "the", "its"}:
            begin += 1
            continue
        start, begin = begin, _placed_name(texts, begin, end, lexicon)
        if not begin:
            return []
        row.append((start, begin))
    return row


def _placed_name(texts: tuple[str, ...], at: int, end: int, lexicon: Lexicon) -> int:
    """The token behind the name that begins at *at*, before which its place may stand; 0 for none."""
    while at < end and texts[at] in lexicon.positions and not _is_name(texts, at, end, lexicon):
        at += 1
    length = _is_name(texts, at, end, lexicon)
    return at + length if length else 0


def _is_name(texts: tuple[str, ...], at: int, end: int, lexicon: Lexicon) -> int:
    """How many tokens before *end* the name of a part has that begins at *at*."""
    found = lexicon.match(texts[:end], at) if at < end and texts[at] else None
    return found[0] if found is not None and (found[1].parts or found[1].aliases) else 0


def _there_go(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "And there go its two shoes", "here come the cups": out, while it comes apart."""
    texts = tuple([token.text for token in tokens])
    at = next((i for i, text in enumerate(texts) if text in {"there", "here"}), 0)
    if state.stage != "as_found" or texts[at + 1 : at + 2] == () or texts[at + 1] not in _GO:
        return tokens
    name = at + 2
    while name < len(texts) and (texts[name] in _ARTICLES | _ALL or texts[name] in TO_TWELVE):
        name += 1
    end = _placed_name(texts, name, len(texts), lexicon)
    if not (_HIS.intersection(texts[at + 2 : name]) or _came_apart(texts, name, end, state, lexicon)):
        return tokens  # "there goes the disc, rang like a bell"
    if (
        not end
        or name == at + 2
        or not ended(texts, end)
        or not (at == 0 or texts[at - 1] in LINKS | {BREAK})
    ):
        return tokens
    return (*tokens[:at], *tokens[at + 2 : end], Token("out", tokens[end - 1].word), *tokens[end:])


def _came_apart(texts: tuple[str, ...], name: int, end: int, state: Discourse, lexicon: Lexicon) -> bool:
    """True where another of the part at *name*, or what it sits in, came off in the breath before."""
    said = state.recent[-1] if state.recent else ()
    off = {s.component for s in said if isinstance(s, Movement) and s.movement == "removed"}
    named = {c for at in range(name, end) for c in lexicon.names(texts, at).parts}
    parts = [part for part in map(lexicon.sheet.get, named) if part is not None]
    return any(not off.isdisjoint({part.id, part.inside}) for part in parts)


def _its_mate(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Left one's out and there's the right": that came out too; behind a movement, alone as well."""
    texts = tuple([token.text for token in tokens])
    for at in range(len(texts) - 3):
        if texts[at] not in {"there", "here"} or texts[at + 1] not in _GOES or texts[at + 2] != "the":
            continue
        which = at + 3
        end = which + 1 + (texts[which + 1 : which + 2] == ("one",))
        told = texts[which] in lexicon.positions or texts[which] == "other"
        if not told or (end < len(texts) and texts[end] not in _TOO | {BREAK}):
            continue
        before = at - (texts[at - 1 : at] == ("and",)) if at else 0
        way = _way_before(texts, before) or _way_told(state, before)
        if way:
            word = tokens[which].word
            one = (Token("one", word), Token("is", word), Token(way, word))
            return (*tokens[:at], *tokens[at + 2 : which + 1], *one, *tokens[end:])
    return tokens


def _way_before(texts: Sequence[str], end: int) -> str:
    """ "Off", "out" right before token *end*."""
    return texts[end - 1] if end and texts[end - 1] in {"off", "out"} else ""


def _way_told(state: Discourse, before: int) -> str:
    """ "Out", where something came off in the breath before and nothing else is said now."""
    said = state.recent[-1] if state.recent and not before else ()
    removed = [s for s in said if getattr(s, "movement", "") == "removed"]
    return "out" if removed and len(removed) == len([s for s in said if s.kind != "remark"]) else ""
