"""The settings that make the reader's taste, and the letters of every language."""

import pytest

from trainer.app.taste import board_letters, taste_of
from trainer.app.widgets.board import Taste
from trainer.lines.letters import LANGUAGES
from trainer.service.settings import Settings

TASTES = [
    ("nothing set", Settings(), Taste()),
    ("letters", Settings(pieces="letters"), Taste(letters=True)),
    ("German", Settings(piece_letters="de"), Taste(piece_letters=tuple("KDTLSB"))),
    ("the largest", Settings(board_size="largest"), Taste(tallest=5)),
    ("large", Settings(board_size="large"), Taste(tallest=4)),
    ("medium", Settings(board_size="medium"), Taste(tallest=3)),
    ("small", Settings(board_size="small"), Taste(tallest=2)),
    (
        "nothing moves, nothing is marked",
        Settings(motion=False, show_targets=False),
        Taste(motion=False, show_targets=False),
    ),
]


@pytest.mark.parametrize(("_name", "settings", "taste"), TASTES, ids=[t[0] for t in TASTES])
def test_settings_make_a_taste(_name, settings, taste):
    assert taste_of(settings) == taste


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_two_pieces_share_a_letter(language):
    letters = board_letters(language)
    assert len(set(letters)) == 6
    # Plain boards tell the sides by the case of the first sign, and have room for two.
    assert all(1 <= len(text) <= 2 and text[0].lower() != text[0] for text in letters)


def test_the_russian_king_has_both_his_letters():
    # Common practice; no source.
    assert board_letters("ru") == ("Кр", "Ф", "Л", "С", "К", "П")


def test_a_board_beside_other_things_stays_small():
    assert Taste().no_taller_than(3) == Taste(tallest=3)
    assert Taste(tallest=2).no_taller_than(3) == Taste(tallest=2)
