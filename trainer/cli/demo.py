"""`trainer demo`: a throwaway home with something to practise."""

from __future__ import annotations

import click

from trainer.cli.screens import on_a_terminal, open_screens


@click.command()
@click.option("--plain", is_flag=True, help="Practise in words: no screen, moves are typed.")
def demo(plain: bool) -> None:
    """Look around with a made-up student; nothing of it is kept.

    \b
    Example:
      trainer demo
    """
    from trainer.cli.practice import practise_in_words
    from trainer.service.demo import open_demo
    from trainer.service.preparation import Wish

    with open_demo() as study:
        if plain or not on_a_terminal():
            practise_in_words(study, Wish())
        else:
            open_screens(study.home.folder)
