"""How a part is tried, and nothing moved: "drew a rag down the rod", "rocked the shaft back and forth". Pure.

What a cloth comes off like tells how the part is: "… and it came off black". A lever that is pulled stays on.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.brought_to_it import RULES as BROUGHT
from saywright.understanding.doings.brought_to_it import brought_to_it
from saywright.understanding.doings.handled_so import RULES as HANDLED
from saywright.understanding.doings.handled_so import handled_so
from saywright.understanding.doings.held_back import RULES as HELD
from saywright.understanding.doings.held_back import held_back
from saywright.understanding.doings.only_worked import RULES as WORKED
from saywright.understanding.doings.only_worked import only_worked
from saywright.understanding.doings.worked_by_it import RULES as BY_IT
from saywright.understanding.doings.worked_by_it import worked_by_it
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, Token, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

_DRAWS: Final = frozenset(
    ["drew", "drawn", "draw", "drawing", "pulled", "pull", "pulling", "dragged", "dragging", "passed",
     "slid", "poked", "poking", "threaded"]
)  # fmt: skip
_CLOTHS: Final = frozenset(
    ["rag", "cloth", "tissue", "towel", "hanky", "handkerchief", "swab", "bud", "string", "paper"]
)  # fmt: skip
_NAILS: Final = frozenset({"nail", "fingernail", "thumbnail"})
_FINGERS: Final = _NAILS | {"finger", "fingers", "thumb", "pick", "scriber", "wire", "needle"}
_ALONG: Final = frozenset(
    {"down", "through", "round", "around", "along", "over", "across", "up", "into", "in"}
)
_LEADS: Final = 6  # tokens from the verb to the cloth
_OFF: Final = frozenset({"off", "out", "up", "away", "back"})
_COLOURS: Final = {
    "black": "dirty", "filthy": "dirty", "brown": "dirty", "grey": "dirty", "gray": "dirty", "mucky": "dirty",
    "dirty": "dirty", "orange": "rusty", "rusty": "rusty", "red": "rusty", "clean": "clean",
    "spotless": "clean", "dry": "dry", "wet": "wet", "oily": "oily", "gritty": "gritty",
}  # fmt: skip
_PAIRS: Final = (
    ("back", "and", "forth"), ("back", "and", "forwards"), ("backwards", "and", "forwards"),
    ("to", "and", "fro"), ("up", "and", "down"), ("in", "and", "out"), ("from", "side", "to", "side"),
    ("side", "to", "side"),
    ("round", "and", "round"), ("backward", "and", "forward"),
)  # fmt: skip
_PAIR_HEADS: Final = frozenset(one[0] for one in _PAIRS)
_MOVES: Final = frozenset(
    ["pull", "pulled", "pulling", "push", "pushed", "pushing", "work", "worked", "working", "rock",
     "rocked", "rocking", "slid", "sliding", "move", "moved", "moving", "wiggle", "wiggled", "wiggling",
     "turn", "turned", "turning", "bend", "bent", "flex", "flexed", "drew", "wobbled",
     "slide", "shook", "lifted", "tried"]
)  # fmt: skip
_GOES: Final = frozenset({"goes", "moves", "runs", "slides", "works", "is", "has", "travels"})
_HANDLED: Final = 7  # tokens from the verb to "back and forth"
_PULLS: Final = frozenset({"pull", "pulled", "pulling", "pulls"})
_LIFTS: Final = frozenset({"lift", "lifted", "lifting", "raised", "raising", "dropped", "dropping"})
_HANDLES: Final = frozenset({"lever", "handle", "knob", "pedal", "trigger", "latch", "pawl", "arm"})
_COVERS: Final = frozenset({"boot", "boots", "bellows", "gaiter", "sleeve", "lip", "wiper", "wipers"})
_WAYS: Final = frozenset({"up", "down", "back", "forward", "forwards", "over", "aside", "towards", "in"})
_GONE: Final = frozenset({"off", "out", "from", "clear", "away", "apart", "through", "on", "together"})
_OWNERS: Final = frozenset({"the", "that", "this", "a", "my", "its"})


def _put(tokens: Tokens, begin: int, end: int, *words: str) -> Tokens:
    return (*tokens[:begin], *(replace(tokens[begin], text=word) for word in words), *tokens[end:])


def _cloth(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Drew a rag down the rod and it came off orange", "pulled my nail along it and it catches"."""
    for at, text in enumerate(texts):
        if text not in _DRAWS:
            continue
        near = range(at + 1, min(at + 1 + _LEADS, len(texts) - 2))
        noun = next((i for i in near if texts[i] in _CLOTHS | _FINGERS and texts[i + 1] in _ALONG), 0)
        if noun and texts[noun] not in _CLOTHS and lexicon.names(tuple(texts), noun).parts:
            continue  # "slid the needle into the seat" of a carburetor
        if noun and BREAK not in texts[at:noun] and text_at(texts, noun + 2) not in {"", BREAK}:
            rest = _as_it_came(tokens[noun + 2 :], texts[noun] in _NAILS)
            begin = at - (text_at(texts, at - 1) in {"i", "we"})
            return (*tokens[:begin], *rest)
    return tokens


def _as_it_came(rest: Tokens, nail: bool) -> Tokens:
    """What is told behind, of the part: "and it came off black" is "is dirty"."""
    texts = [token.text for token in rest]
    for at in range(1, len(texts) - 1):
        if texts[at] == "it" and nail and texts[at + 1] in {"catches", "snags", "caught"}:
            return _put(rest, at, at + 2, "it", "is", "scored")
        came = texts[at] in {"came", "comes"} and texts[at + 1] in _OFF
        if came and (so := _COLOURS.get(text_at(texts, at + 2))) is not None:
            begin = at - (texts[at - 1] in {"it", "that"})
            begin -= text_at(texts, begin - 1) in {"and", BREAK, "but"}
            told = (*rest[:begin], replace(rest[at], text="is"), replace(rest[at], text=so))
            again = at + 3 + (text_at(texts, at + 3) == BREAK)
            once = so == "rusty" and text_at(texts, again) in {"rust", "rusty"}
            return (*told, *rest[again + 1 if once else at + 3 :])
    return rest


def _to_and_fro(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Working the shaft back and forth", "pulled the rod up and down": tried."""
    owned = _OWNERS | lexicon.positions  # "left slide up and down": the slide
    for at in range(2, len(texts) - 2):
        if texts[at] not in _PAIR_HEADS:
            continue
        pair = next((one for one in _PAIRS if tuple(texts[at : at + len(one)]) == one), ())
        near = range(at - 1, max(-1, at - 1 - _HANDLED), -1)
        verbs = (
            i
            for i in near
            if texts[i] in _MOVES
            and text_at(texts, i - 1) not in owned
            and text_at(texts, i + 1) not in _GOES  # "slide goes up and down"
        )
        verb = next(verbs, -1) if pair else -1
        if verb < 0 or BREAK in texts[verb:at]:
            continue
        begin = verb - (text_at(texts, verb - 1) in {"i", "we"})
        border = (replace(tokens[at], text=BREAK),) if text_at(texts, at + len(pair)) != BREAK else ()
        return (*tokens[:begin], *tokens[verb + 1 : at], *border, *tokens[at + len(pair) :])
    return tokens


def _pulled(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Pulling the handle up", "pulled on the lever", "pulled back the boot": it stays on."""
    for at, text in enumerate(texts):
        if text not in _PULLS | _LIFTS:
            continue
        with_it = _pulled_behind(tokens, texts, at) if text in _PULLS else None
        if with_it is not None:
            return with_it
        way = at + 1 if text_at(texts, at + 1) in {"on", "back"} and text in _PULLS else at
        first = way + 1 + (text_at(texts, way + 1) in _OWNERS)
        found = lexicon.match(tuple(texts), first) if first < len(texts) and texts[first] != BREAK else None
        if found is None or not (found[1].parts or found[1].aliases):
            continue
        end = first + found[0]
        if texts[end : end + 1] == ["back"] and text_at(texts, end + 1) in {"out", "off"}:
            return (*tokens[:end], *tokens[end + 1 :])  # "pulled the rod back out"
        if _stays(texts, way, end, at):
            begin = at - (text_at(texts, at - 1) in {"i", "we"})
            behind = end + (text_at(texts, end) in _WAYS)
            if _another_named(texts, behind, lexicon):
                return (*tokens[:begin], *tokens[behind + 1 :])
            border = () if text_at(texts, behind) in {BREAK, "and", ""} else (_border(tokens[end - 1]),)
            return (*tokens[:begin], *tokens[way + 1 : end], *border, *tokens[behind:])
    return tokens


def _another_named(texts: list[str], at: int, lexicon: Lexicon) -> bool:
    """ "Pulled back the boot, piston's pitted": of another part."""
    if text_at(texts, at) not in {BREAK, "and"}:
        return False
    noun = at + 1 + (text_at(texts, at + 1) in _OWNERS)
    while text_at(texts, noun) in lexicon.positions:
        noun += 1
    named = lexicon.names(tuple(texts), noun)
    return bool(named.parts or named.aliases)


def _border(token: Token) -> Token:
    return replace(token, text=BREAK)


def _stays(texts: list[str], way: int, end: int, at: int) -> bool:
    """True where what is pulled is a handle or a cover that folds back, and comes off nothing."""
    noun, behind = texts[end - 1], text_at(texts, end)
    if behind in _GONE or (behind in _WAYS and text_at(texts, end + 1) in _GONE | {"in", "into"}):
        return False
    if way > at:
        return texts[way] == "on" or noun in _COVERS | _HANDLES
    if noun in _COVERS:
        return behind == "back" and texts[at] in _PULLS
    if texts[at] in {"dropped", "dropping"} and behind == "in":
        return False  # "dropped the handle in"
    return noun in _HANDLES and (behind in _WAYS or texts[at] in _LIFTS)


def _pulled_behind(tokens: Tokens, texts: list[str], at: int) -> Tokens | None:
    """ "With the lever pulled down the gland weeps": how it stood then; None where it is no such."""
    held = text_at(texts, at - 1) in _HANDLES and text_at(texts, at + 1) in _WAYS
    begin = at - 2 - (text_at(texts, at - 2) in _OWNERS)
    if not held or "with" not in texts[max(0, begin) : at]:
        return None
    return (*tokens[: texts.index("with")], *tokens[at + 2 :])


_RULES: Final[Calls[Callable[[Tokens, list[str], Lexicon], Tokens]]] = Calls(
    (_cloth, _CLOTHS | _FINGERS),
    (_to_and_fro, {"forth", "fro", "forwards", "forward", "down", "out", "side", "round"}),
    (_pulled, _PULLS | _LIFTS),
)


@called_by(_RULES.words | BROUGHT.words | WORKED.words | HANDLED.words | HELD.words | BY_IT.words)
def tried_by_hand(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* without the moves by which a part is only tried."""
    tokens = worked_by_it(only_worked(brought_to_it(tokens, lexicon), state, lexicon), state, lexicon)
    tokens = held_back(handled_so(tokens, state, lexicon), lexicon)
    return _RULES.put(tokens, lambda plainer, said: plainer(said, [token.text for token in said], lexicon))
