"""What each list for reporting is made of, and the hash that fixes it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Which:
    """One of the lists; a part that two lists take out of one source begins at another place in each."""

    name: str  # of its trades and voices
    sha256: str
    seed: int  # of lines
    lines: int
    corpus_from: int
    corpus_lines: int
    strings: int
    prompts_from: int
    prompts: int
    spelled_from: int
    takes: tuple[int, ...]  # of sounds that are no speech
    sounds_from: int  # seed of surroundings
    points_only: bool = False  # of human strings: the others are used up


LISTS = {
    "report": Which(
        "report",
        "bd8aa5dd4113bb6a143a2efd603a6f9b2ae2551509322f87202736ae2d266239",
        3,
        60,
        0,
        36,
        36,
        0,
        60,
        0,
        (1, 2, 3),
        0,
    ),
    "again": Which(
        "again",
        "4f9801b7583107b6f89112036f69e600e5c700ab221c7d542094f1b14479490c",
        4,
        72,
        36,
        36,
        48,
        60,
        60,
        10,
        (4, 5, 6),
        100_000,
    ),
    "third": Which(
        "again",
        "bec27245326d3fefa1049b2a1a802b878eb9fdc7cd96d310c2956d6a5cac14af",
        5,
        60,
        72,
        24,
        36,
        120,
        40,
        20,
        (7, 8, 9),
        200_000,
        points_only=True,
    ),
}
