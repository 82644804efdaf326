"""`trainer deck pack`: a deck's folder into one file."""

from __future__ import annotations

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from trainer.cli.consent import ask, may_ask, yes_option
from trainer.cli.options import home_option, json_option
from trainer.cli.output import say, write_json
from trainer.service.words import counted

if TYPE_CHECKING:
    from collections.abc import Iterable

    from trainer.deck.findings import Finding
    from trainer.service.decks.packing import PackedDeck


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Where to write it; else the folder's name with .deck.zip, here.",
)
@yes_option
@json_option
@home_option
def pack(folder: Path, to: Path | None, yes: bool, as_json: bool) -> None:
    """Pack the deck in a folder into one file, to hand out.

    Only deck.toml and the files of the chapters go in. `trainer deck add` takes the file.
    An earlier pack of the same deck is replaced; before another file is, a yes is asked for.

    \b
    Example:
      trainer deck pack decks/vienna --to vienna.deck.zip
    """
    from trainer.service.decks.packing import NotPacked

    try:
        packed = _packed(folder, to, yes, asks=may_ask(as_json))
    except NotPacked as refused:
        if as_json:
            write_json(_outcome(None, refused.findings))
        raise
    if as_json:
        write_json(_outcome(packed, packed.findings))
    else:
        say(_what_was_written(packed))


def _packed(folder: Path, to: Path | None, yes: bool, asks: bool) -> PackedDeck:
    from trainer.service.decks.packing import InTheWay, NotPacked, pack_deck

    try:
        return pack_deck(folder, to, over_others=yes)
    except InTheWay as there:
        if not asks:
            message = f"{there}; name another file with --to, or replace it with --yes"
            raise NotPacked(message) from there
        ask(f"{there}. Replace it?", "nothing was written")
    return pack_deck(folder, to, over_others=True)


def _outcome(packed: PackedDeck | None, findings: Iterable[Finding]) -> dict[str, Any]:
    return {
        "deck": packed and packed.deck,
        "edition": packed and packed.edition,
        "file": packed and str(packed.file),
        "bytes": packed and packed.bytes,
        "files": packed and packed.files,
        "findings": [asdict(finding) for finding in findings],
    }


def _what_was_written(packed: PackedDeck) -> str:
    held = f"{counted(len(packed.files), 'file')}, {-(-packed.bytes // 1024)} kB"
    return f"{packed.file}: {packed.title} ({packed.deck}), edition {packed.edition}: {held}."
