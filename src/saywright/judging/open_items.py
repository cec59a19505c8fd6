"""All that still waits for a person: one list, ids that stay the same from one look to the next."""

from __future__ import annotations

from collections.abc import Iterator

from saywright.judging.missing import gone_back_together, in_hand_first, missing
from saywright.judging.questions import question
from saywright.judging.repeats import Group
from saywright.judging.restored import Restored, restored
from saywright.judging.spread import spread_question, waits_for_spread
from saywright.judging.wording import capital
from saywright.record.ledger import LedgerLine, ledger
from saywright.record.types import Item, OpenItem, OpenKind, Photo, Record, Unclear
from saywright.sheets.model import Sheet


def open_items(record: Record, sheet: Sheet, groups: tuple[Group, ...]) -> tuple[OpenItem, ...]:
    """Every open item of *record*: recordings not heard to their end, what asks, what is missing, the ledger,
    settings, pictures.

    Explanations in `record.open_items` are carried over to the items they belong to; as the fold gives them,
    they have no text.
    """
    why = {item.id: item.explained for item in record.open_items if item.explained}
    found = (
        *(item for item in record.open_items if item.kind == "recording" and item.text),
        *_asks(record, sheet),
        *_spreads(sheet, groups),
        *_missing(record, sheet),
        *_parts(record, sheet),
        *_settings(record, sheet, groups),
        *_pictures(record, sheet),
    )
    return tuple(item.model_copy(update={"explained": why.get(item.id)}) for item in found)


def _of(item: Item, kind: OpenKind, text: str) -> OpenItem:
    return OpenItem(
        id=f"{kind}:{item.id}",
        kind=kind,
        component=getattr(item, "component", None),
        which=getattr(item, "which", None),
        text=text,
        heard=item.heard or None,
        start_s=item.start_s,
        item=item.id,
    )


def _asks(record: Record, sheet: Sheet) -> Iterator[OpenItem]:
    for item in record.items():
        if item.superseded_by is not None or item.accepted_by is not None:
            continue
        if isinstance(item, Unclear):
            yield _of(item, "unclear", question(item, sheet))
        elif item.asks:
            yield _of(item, "ask", question(item, sheet))


def _spreads(sheet: Sheet, groups: tuple[Group, ...]) -> Iterator[OpenItem]:
    for group in groups:
        if waits_for_spread(group, sheet):
            item = _of(group.readings[-1], "ask", spread_question(group, sheet))
            yield item.model_copy(update={"id": f"ask:repeats:{item.item}"})


def _missing(record: Record, sheet: Sheet) -> Iterator[OpenItem]:
    for lack in in_hand_first(record, missing(record, sheet)):
        yield OpenItem(
            id=f"missing:{lack.id}",
            kind="missing",
            component=lack.component,
            which=lack.which,
            text=lack.sentence,
        )


def _parts(record: Record, sheet: Sheet) -> Iterator[OpenItem]:
    for line in ledger(record, sheet).lines:
        name = capital(sheet.label(line.component, line.which))
        off, on = _times(line.removed, "came off"), _times(line.fitted, "went on")
        if line.not_renewed:
            yield _part(line, "not_renewed", f"{name}: {off} and must be renewed; {on}{_age(line)}.")
        if line.missing and not (line.renew and line.missing <= line.not_renewed):
            yield _part(line, "off", f"{name}: {off}, {on}; {line.missing} not back on.")
        if line.renewed_twice:
            new = _times(line.fitted_new, "new one went on", "new ones went on")
            text = f"{name}: {new}, and there is room for {line.places}. Was one fitted twice?"
            yield _part(line, "renewed_twice", text)
        elif line.surplus:
            ask = " Did the old one come off?" if line.renew else ""
            yield _part(line, "surplus", f"{name}: {off}, {on}; {line.surplus} more than came off.{ask}")


def _times(count: int, one: str, many: str | None = None) -> str:
    return f"{count or 'none'} {one if count == 1 else many or one}"


def _age(line: LedgerLine) -> str:
    """What is known of the age of the parts that went on."""
    if line.fitted_unsaid:
        return ", not said to be new"
    return ", the old one" if line.fitted_old else ""


def _part(line: LedgerLine, kind: OpenKind, text: str) -> OpenItem:
    place = f"{line.component}:{line.which}" if line.which is not None else line.component
    return OpenItem(id=f"{kind}:{place}", kind=kind, component=line.component, which=line.which, text=text)


def _settings(record: Record, sheet: Sheet, groups: tuple[Group, ...]) -> Iterator[OpenItem]:
    together = gone_back_together(record)
    for setting in restored(record, sheet, groups):
        if setting.found is None or setting.equal or setting.on_purpose:
            continue
        if setting.left is None and (not together or _required_as_left(setting, sheet)):
            continue  # not yet due, or already in the list as missing
        place = f"{setting.component}:{setting.which}" if setting.which is not None else setting.component
        ask = "" if setting.left is None else " Was it changed on purpose?"
        yield OpenItem(
            id=f"not_restored:{place}.{setting.characteristic}",
            kind="not_restored",
            component=setting.component,
            which=setting.which,
            text=setting.sentence + ask,
            item=setting.left_items[-1] if setting.left_items else None,
        )


def _required_as_left(setting: Restored, sheet: Sheet) -> bool:
    characteristic = sheet.find(setting.component, setting.characteristic)
    return characteristic is not None and "as_left" in characteristic.when


def _pictures(record: Record, sheet: Sheet) -> Iterator[OpenItem]:
    for photo in record.photos:
        if photo.superseded_by is not None or photo.accepted_by is not None:
            continue
        if photo.sha256 is None:
            part = f" of the {sheet.label(photo.component, photo.which)}" if photo.component else ""
            text = f"A photo{part} was announced (“{photo.heard}”) and no picture was found for it."
            yield _of(photo, "photo_mark", text)
        elif is_loose(photo):
            yield _of(
                photo, "photo", f"The picture {photo.name} belongs to no spoken mark. What does it show?"
            )


def is_loose(photo: Photo) -> bool:
    """True for a picture that is at no mark and on no part."""
    return photo.sha256 is not None and not photo.heard and photo.component is None
