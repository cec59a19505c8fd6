"""What somebody else wants, or turns down: "boss would rather have it replaced", "he won't have it". Pure."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from saywright.understanding.doings.act_forms import ing_forms
from saywright.understanding.doings.roundabout import POINTS, Form, ended, put_by_words, put_words
from saywright.understanding.meanings import NOTHING
from saywright.understanding.statements import ActionNote
from saywright.understanding.steps import Calls, Tokens, called_by
from saywright.understanding.tokens import BREAK, text_at

if TYPE_CHECKING:
    from saywright.understanding.discourse import Discourse
    from saywright.understanding.lexicon import Lexicon

PEOPLE: Final = frozenset(
    ["he", "she", "they", "customer", "owner", "boss", "gaffer", "client", "skipper", "landlord", "foreman",
     "manager", "lady", "gentleman", "chap", "bloke", "fella", "captain", "wife", "husband", "guvnor",
     "management", "office", "club"]
)  # fmt: skip
_IT: Final = POINTS - {"they"}
# Behind who it was: "… won't have it", "… said no".
_NO: Final[tuple[tuple[str, ...], ...]] = (
    ("said", "no"), ("says", "no"), ("say", "no"), ("turned", "IT", "down"), ("knocked", "IT", "back"),
    ("will", "not", "have", "IT"), ("will", "not", "hear", "of", "IT"), ("will", "not", "wear", "IT"),
    ("will", "not", "pay"), ("will", "not", "pay", "for", "IT"), ("would", "not", "have", "IT"),
    ("is", "not", "having", "IT"), ("are", "not", "having", "IT"), ("is", "not", "paying", "for", "IT"),
    ("are", "not", "paying", "for", "IT"), ("does", "not", "want", "IT"), ("do", "not", "want", "IT"),
    ("does", "not", "want", "IT", "done"), ("do", "not", "want", "IT", "done"),
    ("did", "not", "want", "IT", "done"), ("did", "not", "want", "IT"),
    ("would", "not", "pay"), ("would", "not", "pay", "for", "IT"), ("can", "not", "afford", "IT"),
    ("would", "not", "hear", "of", "IT"), ("would", "rather", "i", "did", "not"),
    ("would", "rather", "we", "did", "not"), ("would", "rather", "not"),
)  # fmt: skip
_TALKED_OUT: Final[tuple[tuple[str, ...], ...]] = tuple(
    ("talked", who, "out", "of", "it") for who in ("him", "her", "them", "myself", "me")
)
_TO_THAT: Final = frozenset({"it", "that", "this"})
_LEADS: Final = frozenset(
    ["rang", "phoned", "called", "asked", "told", "spoke", "spoken", "to", "him", "her", "them", "the", "i",
     "have", "just", "but", "and", "so", "well", "no", "though", "right", "okay", "been", "on", "phone", "my",
     "his", BREAK, "mentioned", "it", "nah"]
) | PEOPLE  # fmt: skip
_RATHER: Final = (
    ("would", "rather", "have"), ("would", "rather", "see"), ("would", "sooner", "have"),
    ("would", "prefer", "to", "have"), ("would", "sooner", "see"), ("would", "prefer"),
)  # fmt: skip
_WILL_NOT: Final = (
    ("will", "not", "have"), ("would", "not", "have"), ("is", "not", "having"), ("are", "not", "having"),
    ("would", "rather", "not", "have"), ("did", "not", "want"),
)  # fmt: skip
_OBJECT: Final = 5  # tokens of "the left back plate"
_DETERMINERS: Final = frozenset({"the", "its", "both", "that", "this", "those", "these", "it", "them", "all"})


def refusal(texts: Sequence[str], at: int) -> int:
    """The token behind "customer said no", "he won't have it", "talked him out of it" at *at*; else 0."""
    for said in _TALKED_OUT:
        if tuple(texts[at : at + len(said)]) == said:
            return at + len(said)
    if text_at(texts, at) not in PEOPLE:
        return 0
    for said in sorted(_NO, key=len, reverse=True):
        end = at + 1 + len(said)
        here = texts[at + 1 : end]
        if len(here) < len(said) or any(
            one != text and not (one == "IT" and text in _IT) for one, text in zip(said, here, strict=True)
        ):
            continue
        if text_at(texts, end) == "to" and text_at(texts, end + 1) in _TO_THAT:
            end += 2
        return end if ended(texts, end) or text_at(texts, end) in {"because", "either", "anyway"} else 0
    return 0


def is_turned_down(after: Sequence[str]) -> bool:
    """ "I'd replace it, customer said no", "… he won't have it", "… I talked him out of it"."""
    return any(refusal(after, at) for at in range(len(after)))


@called_by({"no", "not", "of", "down", "back", "rather", "sooner", "prefer"})
def others_decide(tokens: Tokens, state: Discourse, lexicon: Lexicon) -> Tokens:
    """*tokens* with what others want as what is needed, or is not; what was proposed is turned down."""
    tokens = put_by_words(tokens, _FORMS, lexicon)
    tokens = _turned_down_now(tokens, [token.text for token in tokens], state, lexicon)
    texts = [token.text for token in tokens]
    he = (at for at in range(1, len(texts)) if texts[at] in {"he", "she"} and texts[at - 1] in {BREAK, "but"})
    people = {at for at in he if refusal(texts, at)}
    return tuple([replace(t, text="owner") if at in people else t for at, t in enumerate(tokens)])


def _turned_down_now(tokens: Tokens, texts: list[str], state: Discourse, lexicon: Lexicon) -> Tokens:
    """ "Hose should be renewed" / "rang the owner, he won't have it": it is not to be renewed."""
    at = next((i for i in range(len(texts)) if refusal(texts, i)), -1)
    proposed = _proposed(state) if at >= 0 else ""
    if not proposed or not _LEADS.issuperset(texts[:at]):
        return tokens
    verb = next(iter(ing_forms(proposed, lexicon)), ())
    return put_words(tokens, 0, refusal(texts, at), "i", "am", "not", *verb, "it") if verb else tokens


def _proposed(state: Discourse) -> str:
    """What was proposed last for the part in hand, in the last breath; "" where nothing was."""
    last = [s for s in (state.recent[-1] if state.recent else ()) if isinstance(s, ActionNote)]
    hand = state.hand
    if hand is None or any(s.component != hand.component or s.status != "proposed" for s in last):
        return ""
    said = {s.action for s in last}
    return "replace" if "replace" in said else said.pop() if len(said) == 1 else ""


def _wish(texts: Sequence[str], at: int, said: Collection[tuple[str, ...]], lexicon: Lexicon) -> range:
    """Where the object stands of "boss would rather have the seal replaced" at *at*; empty for none."""
    words = next((one for one in said if tuple(texts[at : at + len(one)]) == one), ())
    begin = at + len(words)
    if not words or text_at(texts, begin) not in _DETERMINERS or text_at(texts, at - 1) not in PEOPLE:
        return range(0)
    ends = range(begin + 1, min(begin + 1 + _OBJECT, len(texts)))
    end = next((i for i in ends if _is_done_to(texts, i, lexicon)), 0)
    return range(begin, end) if end and BREAK not in texts[begin:end] else range(0)


def _is_done_to(texts: Sequence[str], at: int, lexicon: Lexicon) -> bool:
    known = lexicon.match(tuple(texts), at) if texts[at] != BREAK else None
    acts = known[1].acts if known is not None else NOTHING.acts
    return bool(acts) and acts[0].form in {"past", "ing"}


def _would_rather(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "The boss would rather have the seal replaced": the seal needs it."""
    return _as_need(tokens, texts, _RATHER, ("needs",), lexicon)


def _will_not_have(tokens: Tokens, texts: list[str], lexicon: Lexicon) -> Tokens:
    """ "Customer won't have the hose replaced": it does not need it."""
    return _as_need(tokens, texts, _WILL_NOT, ("does", "not", "need"), lexicon)


def _as_need(
    tokens: Tokens, texts: list[str], said: Collection[tuple[str, ...]], need: tuple[str, ...],
    lexicon: Lexicon,
) -> Tokens:  # fmt: skip
    for at in range(1, len(texts) - 2):
        thing = _wish(texts, at, said, lexicon) if texts[at] in {"would", "will", "is", "are", "did"} else ()
        if thing:
            begin = at - 1 - (text_at(texts, at - 2) in {"the", "my", "his"})
            told = tokens[thing.start : thing.stop]
            return (
                *tokens[:begin],
                *told,
                *put_words(tokens[at : at + 1], 0, 1, *need),
                *tokens[thing.stop :],
            )
    return tokens


_FORMS: Final[Calls[Form]] = Calls(
    (_would_rather, {"rather", "sooner", "prefer"}),
    (_will_not_have, {"not"}),
)
