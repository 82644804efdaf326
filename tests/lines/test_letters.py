"""The piece letters of eight languages."""

from __future__ import annotations

import dataclasses

import chess
import pytest

from trainer.lines.letters import ENGLISH, LANGUAGES

# Common usage; no source: the words for king, queen, rook, bishop, knight.
WORDS = {
    "en": "king queen rook bishop knight",
    "de": "König Dame Turm Läufer Springer",
    "fr": "roi dame tour fou cavalier",
    "es": "rey dama torre alfil caballo",
    "it": "re donna torre alfiere cavallo",
    "nl": "koning dame toren loper paard",
    "pl": "król hetman wieża goniec skoczek",
    "ru": "король ферзь ладья слон конь",
}
ORDER = (chess.KING, chess.QUEEN, chess.ROOK, chess.BISHOP, chess.KNIGHT)


def test_the_languages_are_these_eight() -> None:
    assert set(LANGUAGES) == set(WORDS)
    assert all(LANGUAGES[code].language == code for code in LANGUAGES)
    assert LANGUAGES["en"] is ENGLISH


@pytest.mark.parametrize("language", WORDS)
def test_each_letter_abbreviates_the_word_for_its_piece(language: str) -> None:
    known = LANGUAGES[language]
    for piece, word in zip(ORDER, WORDS[language].split(), strict=True):
        signs = iter(word.casefold())
        letter = known.letter(piece)
        assert letter
        assert letter[0].isupper()
        assert all(sign in signs for sign in letter.casefold()), (letter, word)
        assert known.letters[letter] == piece
    assert len(known.letters) == 5


def test_english_letters_are_those_of_the_library() -> None:
    # Agrees with python-chess 1.11.2, run live.
    for piece in ORDER:
        assert ENGLISH.letter(piece) == chess.piece_symbol(piece).upper()


def test_a_pawn_has_no_letter() -> None:
    assert [known.letter(chess.PAWN) for known in LANGUAGES.values()] == [""] * 8


def test_letters_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        ENGLISH.letters["X"] = chess.KING  # type: ignore[index]
    with pytest.raises(dataclasses.FrozenInstanceError):
        ENGLISH.language = "xx"  # type: ignore[misc]
