"""`words`: what the shop calls things, and how it says it."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Sequence
from pathlib import Path

import click

from saywright.cli.common import data_folder, json_option, note, print_json, sheet_option, table
from saywright.errors import InputError, NotFoundError, StoreError
from saywright.hearing.known_words import Knowledge, known_to
from saywright.sheets.form import PHONES, hint
from saywright.sheets.load import load_sheet, load_words
from saywright.sheets.model import Sheet, ShopWord
from saywright.sheets.words import meanings, taken_by
from saywright.sheets.words_text import words_text


def words_file() -> Path:
    """Where the shop's words are kept: beside the jobs."""
    return data_folder(click.get_current_context().find_root().obj) / "words.toml"


def shop_sheet(name: str) -> Sheet:
    """The bench sheet of this name, with the shop's own words."""
    return load_sheet(name, words=load_words(words_file()))


@click.group()
def words() -> None:
    """The shop's own words: list, add, remove.

    A word that names a part, a characteristic, a condition, an action or an instrument is understood as
    its name in jobs opened from then on. One that names nothing is only listened for.

    \b
    Example:
      saywright words add butterfly --means throttle_plate
    """


@words.command("list")
@sheet_option
@json_option
def list_words(*, sheet_name: str | None, as_json: bool) -> None:
    """The words, what each means, and what each listener makes of it.

    \b
    Example:
      saywright words list --sheet outboard-float-carburetor
    """
    kept = load_words(words_file())
    sheet = load_sheet(sheet_name) if sheet_name else None
    rows = [(word, _use(word, sheet), known_to(word)) for word in kept]
    if as_json:
        print_json([word.model_dump(mode="json") | {"use": use, "known": vars(k)} for word, use, k in rows])
    elif not kept:
        click.echo("No words of the shop's own yet; 'saywright words add' takes one.")
    else:
        cells = [(word.say, word.means or "", use, _heard(known)) for word, use, known in rows]
        click.echo(table(("Word", "Means", "On this sheet" if sheet else "", "PocketSphinx"), cells))
        click.echo("\nWhisper hears any word; a Vosk model only those that it was made with.")


@words.command()
@click.argument("say", nargs=-1, required=True)
@click.option("--means", metavar="ID", help="Id of what it names; component.characteristic for one of those.")
@click.option("--sounds", metavar="PHONES", help='How it is said, in CMU phones: "F L OW T".')
@sheet_option
def add(*, say: tuple[str, ...], means: str | None, sounds: str | None, sheet_name: str | None) -> None:
    """Take a word in; with --sheet, check that it names something there.

    \b
    Example:
      saywright words add butterfly --means throttle_plate
    """
    word = ShopWord(say=ShopWord(say=" ".join(say)).spoken, means=means, sounds=sounds)
    _check(word, load_sheet(sheet_name) if sheet_name else None)
    kept = [one for one in load_words(words_file()) if one.spoken != word.spoken]
    _write([*kept, word])
    click.echo(f"'{word.say}' {f'is a name of {means}' if means else 'is listened for'} from the next job on")


@words.command()
@click.argument("say", nargs=-1, required=True)
def remove(say: tuple[str, ...]) -> None:
    """Take a word out. Jobs that were opened with it keep it.

    \b
    Example:
      saywright words remove butterfly
    """
    spoken = ShopWord(say=" ".join(say)).spoken
    kept = load_words(words_file())
    left = [one for one in kept if one.spoken != spoken]
    if len(left) == len(kept):
        known = [one.spoken for one in kept]
        raise NotFoundError(f"'{spoken}' is no word of the shop's", to_do=hint(spoken, known).capitalize())
    _write(left)
    click.echo(f"'{spoken}' is taken out")


def _check(word: ShopWord, sheet: Sheet | None) -> None:
    if not any(char.isalnum() for char in word.say):
        raise InputError("no word was given", where=word.say, to_do="Give it as it is said, in letters")
    wrong = [phone for phone in (word.sounds or "").split() if phone not in PHONES]
    if wrong:
        to_do = f"Phones are {', '.join(sorted(PHONES))}, without stress"
        raise InputError(f"'{wrong[0]}' is no phone", where=word.say, to_do=to_do)
    if word.sounds and len(word.spoken.split()) > 1:
        raise InputError("phones go with one word at a time", where=word.say, to_do="Add the words singly")
    if sheet is None or word.means is None:
        return
    ids = list(meanings(sheet))
    if word.means not in ids:
        to_do = hint(word.means, ids).capitalize()
        raise NotFoundError(f"sheet {sheet.id} has nothing with the id '{word.means}'", to_do=to_do)
    other = taken_by(sheet, word)
    if other is not None:
        raise InputError(
            f"'{word.say}' already names {other} on sheet {sheet.id}", to_do="Choose another word, or that id"
        )


def _use(word: ShopWord, sheet: Sheet | None) -> str:
    if sheet is None:
        return ""
    if word.means is None:
        return "listened for"
    if word.means not in set(meanings(sheet)):
        return "not on it"
    other = taken_by(sheet, word)
    return f"taken: names {other}" if other else "used"


def _heard(known: Knowledge) -> str:
    if known.sphinx == "own":
        return "as you say it"
    return "in its dictionary" if known.sphinx == "dictionary" else f"guessed: {known.phones}"


def _write(kept: Sequence[ShopWord]) -> None:
    """The whole file at once: a crash leaves the old one or the new one."""
    path = words_file()
    fresh = path.with_suffix(".new")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        fresh.write_text(words_text(kept), encoding="utf-8")
        os.replace(fresh, path)  # noqa: PTH105  atomic, and says so
    except OSError as error:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise StoreError(
            f"the words cannot be written ({error.strerror or error})",
            where=str(path),
            to_do="Mend that, then repeat",
        ) from None
    if not kept:
        note("No words are left.")
