"""Words that nobody says where they stand, heard for those that sound just the same: "front write wheel inn".

A recogniser spells by its own vocabulary. What stands around a word tells which of the two was said; where
the sheet has the word itself, it stays. No number is made of them: those ask (`heard_numerals`).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Final

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import NOTHING
from saywright.understanding.numbers.words import CLASSES
from saywright.understanding.sounds.never_said import NEVER_SAID, never_said
from saywright.understanding.sounds.twin_numerals import points_or_counts, teens_joined
from saywright.understanding.sounds.twins_around import AROUND, around_twin
from saywright.understanding.sounds.twins_in_clause import IN_CLAUSE, told_in_clause, with_their_verbs
from saywright.understanding.tokens import BREAK, Token, words_of
from saywright.understanding.wordforms import is_past

_SIDE_NOUNS: Final = frozenset({"side", "end", "stage", "one"})
_GO_TO: Final = frozenset({"", BREAK, "and", "then", "the"})
_WRITERS: Final = frozenset(
    ["i", "we", "you", "he", "she", "they", "to", "let", "us", "me", "please", "can", "could", "should",
     "will", "must", "would", "and", "not"]
)  # fmt: skip
_WRITTEN: Final = frozenset(["it", "this", "a", "on", "them", "your", "my", "up", "down", "me", "one"])
_WARNED: Final = frozenset(["him", "her", "them", "you", "the", "me", "us", "people", "whoever"])
_WARNERS: Final = frozenset(["to", "i", "we", "you", "did", "will", "must", "should", "always", "and"])
_OPENS: Final = frozenset({"", BREAK, "then", "so", "but", "please"})
_WORN_SO: Final = frozenset(
    ["", BREAK, "at", "on", "in", "by", "down", "out", "flat", "through", "thin", "along", "away", "smooth",
     "though", "and", "but"]
)  # fmt: skip
_KNOWERS: Final = frozenset(
    ["i", "you", "we", "they", "he", "she", "who", "to", "not", "do", "does", "did", "could", "would",
     "should", "let", "must", "might", "may", "will", "never", "well", "already", "all", "got", "can",
     "really", "just"]
)  # fmt: skip
_KNOWN: Final = frozenset(
    ["what", "how", "why", "where", "when", "who", "if", "of", "him", "them", "about", "the", "your",
     "better", "whether"]
)  # fmt: skip
_HAVE: Final = frozenset({"has", "have", "had", "is", "are", "not", "never", "already", "just", "always"})
_BE: Final = frozenset({"is", "are", "was", "were", "has", "have"})
_I_DO: Final = frozenset(
    ["am", "will", "would", "have", "had", "can", "could", "think", "mean", "make", "reckon", "guess", "got",
     "did", "do", "should", "might", "said", "get", "was", "want", "need", "call", "say", "see"]
)  # fmt: skip
_GO_ON: Final = frozenset(["the", "going", "a", "both", "all", "not", "these", "those", "being", "just"])
_VERY: Final = frozenset({"dead", "badly", "very", "quite", "slightly", "totally", "all"})
_SEERS: Final = frozenset({"you", "i", "we", "can", "to", "could", "let", "us", "did", "will"})
_LIKE_NEW: Final = frozenset({"new", "good", "clean", "old", "well", "fine"})
_THEY: Final = frozenset({"they", "it", "we", "i", "you", "he"})
_BITS: Final = frozenset({"bit", "far", "way", "gone", "looks", "feels", "runs", "little"})
_TOO_SO: Final = frozenset(
    ["tight", "loose", "short", "far", "thin", "worn", "noisy", "low", "hot", "rough", "late", "soon",
     "small", "slack", "stiff", "soft", "hard", "fast", "slow", "heavy", "weak", "rich", "lean", "dirty",
     "rusty", "bad", "sloppy", "greasy", "brittle"]
)  # fmt: skip
_ONES: Final = frozenset({"one", "ones", "bolt", "bolts", "screw", "screws", "nut", "nuts", "seal", "seals"})
_ENDS: Final = frozenset({"", BREAK, "and", "then", "now"})
_THAT_ONE: Final = {("that", "one"), ("this", "one"), ("other", "one")}
_MODALS: Final = frozenset({"will", "to", "can", "not"})


def twins_heard(tokens: tuple[Token, ...], lexicon: Lexicon) -> tuple[Token, ...]:
    """*tokens* with the words that were said in place of their twins."""
    texts = [token.text for token in tokens]
    if not _IN_TWO.isdisjoint(texts):
        tokens = with_their_verbs(teens_joined(tokens) if "teen" in texts else tokens, lexicon)
        texts = [token.text for token in tokens]
    if TWINS.isdisjoint(texts):
        return tokens
    heard = [(at, _said(texts, at, lexicon)) for at, text in enumerate(texts) if text in _ONE_WORD]
    put = {at: said for at, said in heard if said}
    return (
        tuple([replace(t, text=put[at]) if at in put else t for at, t in enumerate(tokens)])
        if put
        else tokens
    )


def _said(texts: Sequence[str], at: int, lexicon: Lexicon) -> str:
    """The word that was said at *at*; "" where it is the one that was heard."""
    text = texts[at]
    if text in lexicon.positions or (text in lexicon.words and text not in _TALK):
        return ""
    if text == "too" and tuple(texts[max(0, at - 2) : at]) in _THAT_ONE:
        return "also"  # "four jets out of that one too"
    if text == "won":
        return "one" if points_or_counts(texts, at, lexicon) else ""
    if text in NEVER_SAID:
        return (text in IN_CLAUSE and told_in_clause(texts, at, lexicon)) or never_said(texts, at)
    before = texts[at - 1] if at else ""
    behind = texts[at + 1] if at + 1 < len(texts) else ""
    if text == "know" and behind in _GO_TO and (before in _SIDE_NOUNS or before in lexicon.positions):
        return "now"  # "second stage know and the wheel is off"
    if text in _PLACED:
        meant, is_said = _PLACED[text]
        if is_said(before, behind):
            return meant
    if text in _ON_SHEET:
        meant, is_said_here = _ON_SHEET[text]
        if is_said_here(before, behind, lexicon):
            return meant
    said = around_twin(texts, at, lexicon) if text in AROUND else ""
    return told_in_clause(texts, at, lexicon) if not said and text in IN_CLAUSE else said


def _is_right(before: str, behind: str, lexicon: Lexicon) -> bool:
    """ "front write wheel", "write that's it"; not "write that down", "rod write nine"."""
    placed = before in lexicon.positions and behind not in CLASSES
    return placed or not (
        behind in CLASSES or before in _WRITERS or behind in _WRITTEN or behind in {"that", "the"}
    )


def _is_worn(before: str, behind: str) -> bool:
    """ "warn at the seal", "ring warn in it"; not "I'd warn the owner", "warn owner about it"."""
    if before in _OPENS:
        return behind in _WORN_SO
    return before not in _WARNERS and behind not in _WARNED


def _is_no(before: str, behind: str) -> bool:
    """ "scored know it's just dirty", "know I make it nine"; not "you know", "know what"."""
    if behind in _KNOWN or before in _KNOWERS:
        return False
    return bool(behind) or before in {"said", "says"}


def _is_too(before: str, behind: str) -> bool:
    """ "that's two much", "it's two tight"; not "it's two thick", which may be a thickness."""
    return behind in {"much", "many"} or (before in _BE | _BITS and behind in _TOO_SO)


def _is_for(before: str, behind: str) -> bool:
    """ "a new one four the chewed one": no article stands behind a number."""
    return behind == "the" and before in _ONES


def _is_been(before: str, behind: str, lexicon: Lexicon) -> bool:
    """ "has bin greased", "seal's bin soaked"; not "it's bin fodder"."""
    done = is_past(behind) or bool(lexicon.table.get((behind,), NOTHING).acts) or behind in {"in", "on", "at"}
    return before in _HAVE and (done or behind.endswith("ing"))


def _is_bin(before: str, behind: str) -> bool:
    """ "in the been", "flattened, been them"."""
    if behind == "them" and before not in _HAVE:
        return True
    return before in {"the", "scrap", "rubbish", "parts"} and behind in _ENDS


def _is_i(before: str, behind: str) -> bool:
    """ "eye mean", "should eye clean it"."""
    return behind in _I_DO or before in {"should", "shall", "did", "do", "can", "will", "have", "am", "would"}


def _is_where(before: str, behind: str, lexicon: Lexicon) -> bool:
    """ "back wear they were", "greased wear the shaft runs"; not "no wear it's fine"."""
    told = lexicon.table.get((before,), NOTHING)
    led = (
        before in {"back", "from", "just", "right", "that", "is"} or is_past(before) or bool(told.conditions)
    )
    return (led and behind in _THEY | {"the"}) or (before == "to" and behind in _THEY)


def _is_are(before: str, behind: str, lexicon: Lexicon) -> bool:
    """ "rods our thirteen point nine", "so our the springs", "those our going in the bin"."""
    if behind in _GO_ON:
        return True
    part = lexicon.table.get((before,), NOTHING)
    return before in {"those", "these", "they", "both"} or (
        bool(part.parts) and part.many and behind in CLASSES
    )


def _is_is(before: str, behind: str, lexicon: Lexicon) -> bool:
    """ "seal as torn", "sheave his dead rough"; not "bearing as good as new", "his worn pads"."""
    part = lexicon.table.get((before,), NOTHING)
    told = behind in _VERY or bool(lexicon.table.get((behind,), NOTHING).conditions)
    return told and behind not in _LIKE_NEW and bool(part.parts or part.aliases)


def _is_by(before: str, behind: str) -> bool:
    """ "bye the way", "turned bye hand"; not "buy the hose"."""
    return behind in {"the", "hand", "a", "itself"} and before != "say"


def _is_by_hand(before: str, behind: str) -> bool:
    """ "buy the way", "turned buy hand"; not "buy a hose", "need to buy the seals"."""
    return behind in {"hand", "itself"} or (behind == "the" and is_past(before))


# Heard → said, where what stands before and behind it tells so; and where the sheet tells it too.
_PLACED: Final[Mapping[str, tuple[str, Callable[[str, str], bool]]]] = {
    "warn": ("worn", _is_worn),
    "know": ("no", _is_no),
    "been": ("bin", _is_bin),
    "eye": ("i", _is_i),
    "aye": ("i", _is_i),
    "their": ("there", lambda _, behind: behind in _ENDS | _BE),  # "out of their", "their are a few"
    "were": ("where", lambda before, behind: before in {"is", "back"} and behind in _THEY),
    "hear": (
        "here",
        lambda before, behind: before == "over" or behind in {"is", "are", "we", "comes", "goes"},
    ),
    "mill": ("mil", lambda before, _: before in CLASSES),  # "five mill", where no mill is on the sheet
    "mills": ("mils", lambda before, _: before in CLASSES),
    "sea": ("see", lambda before, _: before in _SEERS),
    "bye": ("by", _is_by),
    "buy": ("by", _is_by_hand),
    "two": ("too", _is_too),
    "aloud": ("allowed", lambda before, behind: before in _BE and (behind == "to" or behind in CLASSES)),
    "four": ("for", _is_for),
    "asset": ("set", lambda _, behind: behind not in _SIDE_NOUNS),  # "the asset side"
    "dew": ("do", lambda before, _: before in _MODALS),  # "that'll dew"
    "due": ("do", lambda before, _: before in _MODALS),
}
_ON_SHEET: Final[Mapping[str, tuple[str, Callable[[str, str, Lexicon], bool]]]] = {
    "write": ("right", _is_right),
    "bin": ("been", _is_been),
    "wear": ("where", _is_where),
    "our": ("are", _is_are),
    "as": ("is", _is_is),
    "his": ("is", _is_is),
}
_TALK: Final = words_of(
    "hole bin been wear their two four too were hear sea to then than off weak find our"
)  # words of every sheet, not of its parts
_IN_TWO: Final = frozenset({"teen", "their", "it"})  # written in two words for one, or in one for two
TWINS: Final = frozenset({*NEVER_SAID, *_PLACED, *_ON_SHEET, *AROUND, *IN_CLAUSE, "won", *_IN_TWO})
_ONE_WORD: Final = TWINS - {"teen", "it"}
