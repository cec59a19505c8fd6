"""What stands around a token while the tokens of one utterance get their tags."""

from __future__ import annotations

from dataclasses import dataclass, field

from saywright.understanding.lexicon import Lexicon
from saywright.understanding.meanings import Meaning
from saywright.understanding.quantities.measures import Measure
from saywright.understanding.tags import Tag


@dataclass(slots=True)
class Around:
    """The utterance with the tags given so far."""

    lexicon: Lexicon
    texts: tuple[str, ...]  # a particle of a verb that was split is ""
    measures: dict[int, Measure]  # first token → measure
    out: list[Tag] = field(default_factory=list)  # without gaps, up to the token at work
    inside: frozenset[int] = field(init=False)  # tokens of a measure behind its first
    ones: bool = field(init=False)  # "one" or "ones" is said
    size: int = field(init=False)  # how many tokens

    def __post_init__(self) -> None:
        """Note once what is asked at each token."""
        inside = [at for m in self.measures.values() for at in range(m.start + 1, m.end)]
        self.inside = frozenset(inside)
        self.size = len(self.texts)
        self.ones = "one" in self.texts or "ones" in self.texts

    @property
    def last(self) -> Tag | None:
        """The tag before the token at work."""
        return self.out[-1] if self.out else None

    @property
    def last_kind(self) -> str:
        """Its kind; "" at the beginning."""
        return self.out[-1].kind if self.out else ""

    def text(self, at: int) -> str:
        """The token at *at*; "" behind the end."""
        return self.texts[at] if at < self.size else ""

    def names(self, at: int) -> Meaning:
        """What the longest name at *at* means; an empty meaning where there is none."""
        return self.lexicon.names(self.texts, at)

    def names_part(self, at: int) -> bool:
        """True where a part's name begins at *at*, in full or in short."""
        found = self.names(at)
        return bool(found.parts or found.aliases)
