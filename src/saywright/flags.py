"""The closed list of doubts, each with its reason in plain words.

A *note* is harmless and shown small. An *ask* waits for a person: until one accepts or
corrects the item, its value is provisional.
"""

from __future__ import annotations

from enum import StrEnum
from functools import lru_cache
from typing import Literal

from pydantic import BaseModel, ConfigDict

Level = Literal["note", "ask"]


class FlagKind(StrEnum):
    """Every reason why something in the record may not be what was meant."""

    # notes
    UNIT_FROM_SHEET = "unit_from_sheet"
    PART_FROM_CONTEXT = "part_from_context"
    PART_FROM_CHARACTERISTIC = "part_from_characteristic"
    CHARACTERISTIC_FROM_PART = "characteristic_from_part"
    COUNT_FROM_SHEET = "count_from_sheet"
    RESTORED = "restored"
    FIGURES = "figures"
    JOINED = "joined"
    NAME_MENDED = "name_mended"
    POINT_NOT_SAID = "point_not_said"
    WHICH_NOT_SAID = "which_not_said"
    PLACE_NOT_SAID = "place_not_said"
    BY_PERSON = "by_person"
    BY_INSTRUMENT = "by_instrument"
    PHOTO_BY_ORDER = "photo_by_order"
    PHOTO_DARK = "photo_dark"
    PHOTO_BRIGHT = "photo_bright"
    PHOTO_BLURRED = "photo_blurred"
    PHOTO_MOVED = "photo_moved"
    PHOTO_GLARE = "photo_glare"
    PHOTO_FAR = "photo_far"
    PHOTO_FRAMES = "photo_frames"
    PHOTO_PRINT_COLOURS = "photo_print_colours"
    PHOTO_DEEP = "photo_deep"
    PHOTO_DATE = "photo_date"
    CALIBRATION_OVERDUE = "calibration_overdue"
    # asks
    INSTRUMENT_DISAGREES = "instrument_disagrees"
    HEARINGS_DISAGREE = "hearings_disagree"
    POORLY_HEARD = "poorly_heard"
    NUMBER_AMBIGUOUS = "number_ambiguous"
    NUMBER_ODD = "number_odd"
    HOMOPHONE = "homophone"
    SECOND_NUMBER = "second_number"
    OUTSIDE_PLAUSIBLE = "outside_plausible"
    APPROXIMATE = "approximate"
    UNIT_MISMATCH = "unit_mismatch"
    UNIT_AMBIGUOUS = "unit_ambiguous"
    PART_AMBIGUOUS = "part_ambiguous"
    WHICH_UNCLEAR = "which_unclear"
    CHARACTERISTIC_AMBIGUOUS = "characteristic_ambiguous"
    PART_MENDED = "part_mended"
    STAMP_DIFFERS = "stamp_differs"
    CORRECTION_UNCLEAR = "correction_unclear"
    HOLDS_AGAIN = "holds_again"
    NOTHING_TO_RESTORE = "nothing_to_restore"
    RENEW_REFITTED = "renew_refitted"
    COUNT_TOO_HIGH = "count_too_high"
    IDENTIFIER_PARTIAL = "identifier_partial"
    PHOTO_MATCH_UNCLEAR = "photo_match_unclear"


REASONS: dict[FlagKind, tuple[Level, str]] = {
    FlagKind.UNIT_FROM_SHEET: ("note", "no unit was said; it is the sheet's"),
    FlagKind.PART_FROM_CONTEXT: ("note", "the part is the one in hand"),
    FlagKind.PART_FROM_CHARACTERISTIC: ("note", "only one part has this characteristic"),
    FlagKind.CHARACTERISTIC_FROM_PART: ("note", "no characteristic was said; the part leaves one answer"),
    FlagKind.COUNT_FROM_SHEET: ("note", "no number was said; it is as many as the sheet says are fitted"),
    FlagKind.RESTORED: ("note", "said to be as it was; the value is the one found"),
    FlagKind.FIGURES: ("note", "came as figures; how it was spoken is not known"),
    FlagKind.JOINED: ("note", "joined from two utterances with a pause between"),
    FlagKind.NAME_MENDED: ("note", "a word was heard a little wrong and mended by its sound"),
    FlagKind.POINT_NOT_SAID: (
        "note",
        "the point was not said; a value of the same kind or the limits tell its place",
    ),
    FlagKind.WHICH_NOT_SAID: ("note", "several are fitted; it was not said which"),
    FlagKind.PLACE_NOT_SAID: ("note", "it is read at several places; it was not said at which"),
    FlagKind.BY_PERSON: ("note", "entered by a person, not heard"),
    FlagKind.BY_INSTRUMENT: ("note", "came from the data key of the instrument, not heard"),
    FlagKind.PHOTO_BY_ORDER: ("note", "the picture's clock was of no use; placed by order"),
    FlagKind.PHOTO_DARK: ("note", "the picture is too dark"),
    FlagKind.PHOTO_BRIGHT: ("note", "the picture is too bright"),
    FlagKind.PHOTO_BLURRED: ("note", "the picture is not sharp"),
    FlagKind.PHOTO_MOVED: ("note", "the camera was moved"),
    FlagKind.PHOTO_GLARE: ("note", "highlights hide part of it"),
    FlagKind.PHOTO_FAR: ("note", "taken from too far away to measure small things"),
    FlagKind.PHOTO_FRAMES: ("note", "the file holds several frames, of which one is shown"),
    FlagKind.PHOTO_PRINT_COLOURS: ("note", "colours for print (CMYK) are shown as on a screen"),
    FlagKind.PHOTO_DEEP: ("note", "finer shades than 8 bits a channel are shown as 8"),
    FlagKind.PHOTO_DATE: ("note", "the camera's date is of no use"),
    FlagKind.CALIBRATION_OVERDUE: ("note", "the calibration of the instrument was overdue that day"),
    FlagKind.INSTRUMENT_DISAGREES: ("ask", "the instrument and what was said disagree"),
    FlagKind.HEARINGS_DISAGREE: ("ask", "the hearings disagree about the value"),
    FlagKind.POORLY_HEARD: ("ask", "a word was heard poorly"),
    FlagKind.NUMBER_AMBIGUOUS: ("ask", "the number can be read in more than one way"),
    FlagKind.NUMBER_ODD: ("ask", "words around the number do not fit it"),
    FlagKind.HOMOPHONE: ("ask", "a word that sounds like a number was taken as one"),
    FlagKind.SECOND_NUMBER: ("ask", "there is a second number that no one has a place for"),
    FlagKind.OUTSIDE_PLAUSIBLE: ("ask", "outside what is plausible for this characteristic"),
    FlagKind.APPROXIMATE: ("ask", "said as approximate"),
    FlagKind.UNIT_MISMATCH: ("ask", "the unit does not measure this characteristic"),
    FlagKind.UNIT_AMBIGUOUS: ("ask", "the unit can be read in more than one way"),
    FlagKind.PART_AMBIGUOUS: ("ask", "the part could be another"),
    FlagKind.WHICH_UNCLEAR: ("ask", "several are fitted and it was not said which"),
    FlagKind.CHARACTERISTIC_AMBIGUOUS: ("ask", "it could be another characteristic"),
    FlagKind.PART_MENDED: ("ask", "the part's name was mended by its sound"),
    FlagKind.STAMP_DIFFERS: ("ask", "read before with another value"),
    FlagKind.CORRECTION_UNCLEAR: ("ask", "a correction, but it is not clear of what"),
    FlagKind.HOLDS_AGAIN: ("ask", "what had replaced it was undone"),
    FlagKind.NOTHING_TO_RESTORE: ("ask", "said to be as it was, but nothing was found on record"),
    FlagKind.RENEW_REFITTED: ("ask", "the sheet says this is renewed, and the old one was put back"),
    FlagKind.COUNT_TOO_HIGH: ("ask", "more than the sheet says are fitted"),
    FlagKind.IDENTIFIER_PARTIAL: ("ask", "only part of the mark was read"),
    FlagKind.PHOTO_MATCH_UNCLEAR: ("ask", "the picture could belong to another mark, or to none"),
}


class Flag(BaseModel):
    """One doubt about one item."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    kind: FlagKind
    level: Level
    text: str  # the reason, with the words or values it is about


def flag(kind: FlagKind, detail: str = "") -> Flag:
    """The flag of this kind; *detail* names the words or values it is about."""
    return _flag(kind, detail)


@lru_cache(maxsize=4_096)
def _flag(kind: FlagKind, detail: str) -> Flag:
    level, reason = REASONS[kind]
    return Flag(kind=kind, level=level, text=f"{reason}: {detail}" if detail else reason)
