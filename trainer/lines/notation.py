"""A typed move taken apart, before any position is asked.

Reads standard notation (FIDE's Laws of Chess 2023, Appendix C) with what people make of
it, long algebraic notation and UCI. One text may be readable in two ways (`bc3`: the
b-pawn takes, or a bishop moves): both are handed on, nothing is decided here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache

import chess

from trainer.lines.letters import ENGLISH, PieceLetters

LONGEST = 20
"""No move is written with more signs than this."""

Pieces = frozenset[chess.PieceType]


@dataclass(frozen=True, slots=True)
class Castling:
    """The text is `O-O` or `O-O-O`, however spelled."""

    kingside: bool


@dataclass(frozen=True, slots=True)
class Shape:
    """One way to read the text of a move."""

    pieces: Pieces
    """The pieces that the text can mean."""
    origins: chess.Bitboard
    """The squares it may start from."""
    to_square: chess.Square
    takes: bool
    """A capture sign was written. None says nothing: it may be left out."""
    promotions: Pieces
    """What the pawn may become; empty where nothing was written."""
    en_passant: bool
    """`e.p.` was written. None says nothing: it is optional."""
    standard: bool
    """Capitals, small letters and capture sign stand as SAN or UCI have them."""

    @property
    def whole_origin(self) -> chess.Square | None:
        """The square it starts from, where the text gives file and rank."""
        return chess.lsb(self.origins) if self.origins.bit_count() == 1 else None


@dataclass(frozen=True, slots=True)
class _Grammar:
    """What a reader's piece letters make of the two forms of a move."""

    with_piece: re.Pattern[str]
    without_piece: re.Pattern[str]
    pieces: Mapping[str, Pieces]
    """Case-folded letter or figurine to the pieces it means, in both alphabets."""


def take_apart(text: str, letters: PieceLetters = ENGLISH) -> Castling | tuple[Shape, ...]:
    """Every way to read the text; none if it is no move."""
    text = _trimmed(text)
    if len(text) > LONGEST:
        return ()
    if castling := _CASTLING.fullmatch(text):
        return Castling(kingside=castling["far"] is None)
    return tuple(_shapes(text, _grammar(letters)))


_LOOKALIKES = str.maketrans(
    {
        **dict.fromkeys("‐‑‒–—―−", "-"),
        **dict.fromkeys("ОоΟο", "O"),
        "×": "x",
        "\ufe0e": None,
        "\ufe0f": None,
    }
)
"""Dashes, the letter O of other alphabets, and the selectors that follow figurines."""

_NUMBER = re.compile(r"(?:[1-9][0-9]{0,3})?[\s.…]+")
_CASTLING = re.compile(r"[Oo0]\s?-?\s?[Oo0](?P<far>\s?-?\s?[Oo0])?")
_FIGURINES = dict(
    zip("♔♕♖♗♘♙♚♛♜♝♞♟", (*reversed(chess.PIECE_TYPES), *reversed(chess.PIECE_TYPES)), strict=True)
)


def _trimmed(text: str) -> str:
    """The text without move number, marks of check and comment signs."""
    text = text.strip()
    if len(text) > 4 * LONGEST:
        return text
    text = text.translate(_LOOKALIKES)
    if number := _NUMBER.match(text):
        text = text[number.end() :]
    return text.rstrip("+#=!?‼⁇⁈⁉ ")


@lru_cache(maxsize=16)
def _grammar(letters: PieceLetters) -> _Grammar:
    pieces: dict[str, Pieces] = {}
    for alphabet in (letters.letters, ENGLISH.letters, _FIGURINES):
        for sign, piece in alphabet.items():
            folded = sign.casefold()
            pieces[folded] = pieces.get(folded, frozenset()) | {piece}
    # Standard notation has no letter for the pawn: P is one only where it is no piece.
    pieces.setdefault("p", frozenset({chess.PAWN}))
    signs = "|".join(sorted(pieces, key=len, reverse=True))
    capture = r"\s?(?P<sign>[-x:])?\s?"
    goal = (
        rf"(?P<to>[a-h][1-8])(?:\s?[=/]?\s?\(?(?P<promotion>{signs})\)?)?"
        r"[+#]*\s?(?P<en_passant>\(?e\.?\s?p\.?\)?)?"
    )
    with_piece = rf"(?P<piece>{signs})(?P<file>[a-h])?(?P<rank>[1-8])?{capture}{goal}"
    without_piece = rf"(?:(?P<file>[a-h])(?P<rank>[1-8])?{capture})?{goal}"
    return _Grammar(
        re.compile(with_piece, re.IGNORECASE), re.compile(without_piece, re.IGNORECASE), pieces
    )


def _shapes(text: str, grammar: _Grammar) -> Iterator[Shape]:
    if match := grammar.with_piece.fullmatch(text):
        sign = match["piece"]
        standard = not sign.islower() and match["to"].islower()
        yield _shape(match, grammar, grammar.pieces[sign.casefold()], standard)
    match = grammar.without_piece.fullmatch(text)
    if match and _may_start_with_a_file(match, grammar):
        if match["rank"]:
            pieces, complete = frozenset(chess.PIECE_TYPES), True
        else:
            pieces, complete = frozenset({chess.PAWN}), not match["file"] or bool(match["sign"])
        yield _shape(match, grammar, pieces, complete and text[0].islower())


def _may_start_with_a_file(match: re.Match[str], grammar: _Grammar) -> bool:
    """Whether the first letter can be a file; `B` in `Bc3` is a piece and nothing else."""
    file, to = match["file"], match["to"]
    if not file:
        return True
    if file.isupper() and to[0].islower() and file.casefold() in grammar.pieces:
        return False
    return bool(match["rank"]) or (file.lower() != to[0].lower() and match["sign"] != "-")


def _shape(match: re.Match[str], grammar: _Grammar, pieces: Pieces, standard: bool) -> Shape:
    origins = chess.BB_ALL
    if file := match["file"]:
        origins &= chess.BB_FILES[chess.FILE_NAMES.index(file.lower())]
    elif pieces == {chess.PAWN} and "piece" not in match.groupdict():
        origins &= chess.BB_FILES[chess.FILE_NAMES.index(match["to"][0].lower())]
    if rank := match["rank"]:
        origins &= chess.BB_RANKS[int(rank) - 1]
    promotion = match["promotion"]
    return Shape(
        pieces=pieces,
        origins=origins,
        to_square=chess.parse_square(match["to"].lower()),
        takes=match["sign"] not in (None, "-"),
        promotions=grammar.pieces[promotion.casefold()] if promotion else frozenset(),
        en_passant=match["en_passant"] is not None,
        standard=standard,
    )
