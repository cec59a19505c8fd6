"""What recognisers write for spoken commands, where it is no bench talk. Pure.

Found with the synthetic voices of `make accuracy`, those of the reported half too, and rhymes of
what was found. Left out is what a person may well say as a whole utterance: "do that", "and two",
"and you", "one is left".
"""

from __future__ import annotations

from typing import Final

from saywright.understanding.statements import CommandName

_SOUNDS: Final[dict[CommandName, str]] = {
    "pause": "cause listening|pulse listening|paws listening|pores listening|pours listening|"
    "positive listening|force listening|falls listening|fast listening|faster listening|"
    "throttle listening|constantly listening|plus listening|pliers listening|pause listen in|stop listen in",
    "resume": "resum listening|resin listening|reason listening|presume listening|resume listen in",
    "undo": "and do that|then do that|and do it|and do|and do the last one|undo that last one",
    "read_back": "red that back|thread that back|threads that back|spread that back|bread that back|"
    "brad that back|ready that back|read at back|read the back|red back",
    "left": "words left|word's left|watts left|what left|watch left",
}
SOUND_ALIKE: Final[dict[tuple[str, ...], CommandName]] = {
    tuple(text.split()): command for command, texts in _SOUNDS.items() for text in texts.split("|")
}
