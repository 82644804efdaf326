"""Adding a deck to the home: read, compared with the edition that is there, and kept.

First comes a proposal with the account of what would change, then it is accepted; between
the two a face may ask. The deck's files are copied into the home and compiled into the data
file. Cards keep their history by themselves: it belongs to what is asked, not to a deck.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from trainer.deck.compiled import CompiledDeck, compile_deck
from trainer.deck.deck import Deck
from trainer.deck.findings import Finding, has_error
from trainer.deck.reader import read_deck
from trainer.deck.source import is_single
from trainer.errors import TrainerError
from trainer.lines.graph import graph_to_data
from trainer.service.collection import collection_paused
from trainer.service.decks.cards import Contents
from trainer.service.decks.contents import (
    contents_of,
    old_contents,
    stored_deck,
    stored_exercises,
)
from trainer.service.decks.editions import CardChanges, EditionAccount, account_of
from trainer.service.decks.files import forget_files_off_the_shelf, keep_files
from trainer.service.decks.refusal import first_error
from trainer.service.study import Study
from trainer.store.answers import read_states
from trainer.store.database import DataFileError, transaction
from trainer.store.decks import put_deck, read_decks, read_edition
from trainer.store.preferences import read_preferences


@dataclass(frozen=True, slots=True)
class Candidate:
    """A deck without an error, as its files have it."""

    path: Path
    deck: Deck
    """Without its trees."""
    compiled: CompiledDeck
    findings: tuple[Finding, ...]
    """Warnings and notes alone."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """What adding a deck would come to, as the shelf stands."""

    candidate: Candidate
    deck: Deck
    """With the edition that it would get."""
    contents: Contents
    account: EditionAccount


@dataclass(frozen=True, slots=True)
class AddedDeck:
    """The outcome of adding a deck."""

    deck: str
    title: str
    edition: int
    account: EditionAccount
    findings: tuple[Finding, ...]

    @property
    def cards(self) -> CardChanges:
        """How many cards stay, come, change and go."""
        return self.account.cards


class DeckRefused(TrainerError):
    """The deck was not added; the findings say why, where the fault is in its files."""

    def __init__(
        self,
        message: str,
        findings: Sequence[Finding] = (),
        account: EditionAccount | None = None,
    ) -> None:
        """:param account: what it would change, where that is why."""
        super().__init__(message)
        self.findings = tuple(findings)
        self.account = account


def add_deck(study: Study, path: Path, side: str | None = None) -> AddedDeck:
    """Add a deck without a question, whatever it changes; the account tells.

    The same edition with the same content changes nothing.

    :param side: `white` or `black`; needed for a PGN file, and for that alone.
    :raises DeckRefused: the deck has errors, or its edition is not above the one here.
    """
    with collection_paused():
        return _put_on_shelf(study, _candidate(path, side))


def prepare_deck(study: Study, path: Path, side: str | None = None) -> Proposal:
    """The deck in a folder, a packed deck or a PGN file, ready to be added; nothing is changed.

    :param side: `white` or `black`; needed for a PGN file, and for that alone.
    :raises DeckRefused: the deck has errors, or its edition is not above the one here.
    """
    with collection_paused():
        return _proposal(study, _candidate(path, side))


def accept(study: Study, proposal: Proposal) -> AddedDeck:
    """Add the deck of a proposal whose account was agreed to.

    :raises DeckRefused: by now another edition is here, or more would go than was told.
    """
    with collection_paused():
        return _put_on_shelf(study, proposal.candidate, proposal.account.at_stake)


def forget_old_files(study: Study) -> None:
    """Remove the files of what is no longer on the shelf; only once that is committed.

    What cannot be done now is done the next time.
    """
    with suppress(DataFileError), transaction(study.db):
        shelf = [(deck.id, deck.edition) for deck in read_decks(study.db)]
        forget_files_off_the_shelf(study.home, shelf)


def _candidate(path: Path, side: str | None) -> Candidate:
    read = read_deck(path, side)
    if read.deck is None:
        raise _refused(path, read.findings)
    compiled = compile_deck(read.deck)
    findings = (*read.findings, *compiled.findings)
    if has_error(findings):
        raise _refused(path, findings)
    return Candidate(path, read.deck.without_trees(), compiled, findings)


def _proposal(study: Study, candidate: Candidate) -> Proposal:
    here = read_edition(study.db, candidate.deck.id)
    deck = _with_edition(candidate.deck, here, candidate.path)
    contents = contents_of(deck, candidate.compiled, read_preferences(study.db, deck.id))
    old = None
    if here is not None:
        same = here[1] == deck.digest
        old = contents if same else old_contents(study, deck.id)
    answered = {card for card, state in read_states(study.db).items() if not state.fresh}
    return Proposal(candidate, deck, contents, account_of(old, contents, answered))


def _put_on_shelf(
    study: Study, candidate: Candidate, agreed: frozenset[str] | None = None
) -> AddedDeck:
    """:param agreed: the answered cards that may go; None for any."""
    # One transaction from the look at the edition that is here to the one that takes its
    # place: two programs that add a deck together do so one after the other.
    with transaction(study.db):
        now = _proposal(study, candidate)
        if agreed is not None and not now.account.at_stake <= agreed:
            raise DeckRefused(
                f"{candidate.path}: not added: meanwhile other cards were answered that this "
                "edition changes or withdraws; add it again",
                account=now.account,
            )
        put_deck(
            study.db,
            stored_deck(now.deck),
            now.contents.stored_cards,
            ((side, graph_to_data(graph)) for side, graph in candidate.compiled.graphs.items()),
            stored_exercises(now.deck, candidate.compiled),
        )
        # The files last: then nothing but the commit itself can still fail.
        keep_files(study.home, now.deck, candidate.path)
    forget_old_files(study)
    deck = now.deck
    return AddedDeck(deck.id, deck.title, deck.edition, now.account, candidate.findings)


def _refused(path: Path, findings: Sequence[Finding]) -> DeckRefused:
    return DeckRefused(f"{path}: not added: {first_error(findings)}", findings)


def _with_edition(deck: Deck, here: tuple[int, str] | None, path: Path) -> Deck:
    """Refuse an edition that is not above the one here; a PGN file's rises by itself.

    :param here: edition and digest of the deck on the shelf.
    """
    if here is None:
        return deck
    edition, digest = here
    if digest == deck.digest:
        return replace(deck, edition=edition)
    if is_single(path):
        return replace(deck, edition=edition + 1)
    if deck.edition < edition:
        raise DeckRefused(
            f"{path}: edition {deck.edition} of {deck.id!r} is older than edition "
            f"{edition}, which is here already; nothing was changed"
        )
    if deck.edition == edition:
        raise DeckRefused(
            f"{path}: edition {deck.edition} of {deck.id!r} is here already with other "
            "content; raise the edition in deck.toml"
        )
    return deck
