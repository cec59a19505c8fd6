"""What was heard, as plain words to compare."""

from __future__ import annotations


def plain_words(said: str, *, dot_is_point: bool = False) -> list[str]:
    """Lower case, letters only. *dot_is_point*: the recorded speaker says "dot" where a point is meant.

    Not for others: a "got" that is heard as "dot" would count as a number word.
    """
    kept = "".join(c if c.isalpha() or c == "'" else " " for c in said.lower())
    return ["point" if dot_is_point and word == "dot" else word for word in kept.split()]
