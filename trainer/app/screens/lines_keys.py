"""The keys of the Lines screen, when each of them does something, and its help text."""

from __future__ import annotations

from dataclasses import dataclass, replace

from textual.binding import BindingType

from trainer.app.keys import HELP_KEY, bound
from trainer.app.telling.exercises import ExerciseRow
from trainer.app.telling.here import Here
from trainer.app.widgets.line_tree import LineTree

HELP = (
    "The lines of a deck as a tree: a row is a run of moves up to the next branch. Up and down "
    "go from row to row, left and right from move to move, over forks and joins too. "
    "= 3 Nf3 says that the line joins another after that move; the right arrow goes there. "
    "► 12 says that 12 lines are folded away.\n\n"
    "The bar at the right is as high as the part of that branch which you know; a dot: nothing "
    "of it was asked yet. The number is what is due today. Held means that your last answer was "
    "right, shaky that it was not, fresh that the position was never asked.\n\n"
    "Type to find something: moves in any order that leads there (e4 e5 Nc3, or 1. e4 e5 2. Nc3; "
    "moves that fit no start are played from here), or words of a chapter, a game or a theme. "
    "Enter goes on to the next place found, Esc closes the box.\n\n"
    "Enter practises the position and all that can follow it, by any move order: as often as "
    "you like, and right answers before their day earn only part credit. PgDn and PgUp read the "
    "note, Ctrl+Down and Ctrl+Up turn the tree by a screenful.\n\n"
    "Below the tree stand the deck's tactics, questions and model games; down leads there from "
    "the last row. Enter asks what is due or fresh of a chapter, or lets you guess the moves of "
    "a game: 7/12 is what you found the last time, at 5 the guess at which it goes on."
)

BINDINGS: list[BindingType] = [
    bound("enter", "practise", "practise", "Practise this branch.", id="lines.practise"),
    bound("enter", "find_next", "go there", "Go to the next place found.", id="lines.find_next"),
    bound("escape", "find(False)", "close", "Close the box.", id="lines.close_find"),
    bound("escape", "dismiss", "back", "Go back.", id="lines.leave"),
    HELP_KEY,
    replace(
        bound(
            "slash",
            "find(True)",
            "find",
            "Find a move order, or words of a title; any letter begins it too.",
            id="lines.find",
        ),
        key_display="/",
    ),
    bound("space", "fold(False)", "unfold", "Unfold what is below.", id="lines.unfold"),
    bound("space", "fold(True)", "fold", "Fold away what is below.", id="lines.fold"),
    bound("down", "row(1)", "row", "To the next row.", id="lines.down"),
    bound("right", "forward", "move", "On by a move, into the first branch.", id="lines.right"),
    bound("up", "row(-1)", "up", "To the row before.", id="lines.up", show=False),
    bound("left", "back", "back", "Back by a move.", id="lines.left", show=False),
    bound("tab", "deck(1)", "next deck", "The next deck, or its other side.", id="lines.next"),
    bound("f3", "flip", "flip", "Turn the board.", id="lines.flip"),
    bound("f2", "read_out", "read", "Read the position out in words.", id="lines.read"),
    bound("f5", "facts", "facts", "Say what can be counted in the position.", id="lines.facts"),
    bound("shift+tab", "deck(-1)", "deck back", "The deck before.", id="lines.prev", show=False),
    bound("home", "row(-99999)", "first", "To the first row.", id="lines.first", show=False),
    bound("end", "row(99999)", "last", "To the last row.", id="lines.last", show=False),
    bound("ctrl+down", "page(1)", "page", "A screenful down.", id="lines.page", show=False),
    bound("ctrl+up", "page(-1)", "page up", "A screenful up.", id="lines.page_up", show=False),
    replace(
        bound("plus", "fold_all(False)", "all", "Show every row.", id="lines.all", show=False),
        key_display="+",
    ),
    replace(
        bound(
            "minus",
            "fold_all(True)",
            "few",
            "Show the first branches only.",
            id="lines.few",
            show=False,
        ),
        key_display="-",
    ),
    bound("pagedown", "turn(1)", "on", "Read on in the note.", id="lines.on", show=False),
    bound("pageup", "turn(-1)", "back", "Read back in the note.", id="lines.note_up", show=False),
]


@dataclass(frozen=True, slots=True)
class Reach:
    """What there is to press keys for; the defaults are those of a screen without lines."""

    shown: bool = False
    """Whether one stands in a tree, in a window that is large enough."""
    finding: bool = False
    """Whether the find box is open."""
    decks: int = 0
    """How many trees there are to choose from."""
    practised: bool = False
    """Whether anything is asked from here on."""
    folds: bool = False
    """Whether the row has branches."""
    folded: bool = False
    """Whether these are folded away."""
    forward: bool = False
    """Whether a move follows."""
    back: bool = False
    """Whether a move came before."""
    below: bool = False
    """Whether one stands below the tree."""
    searched: bool = True
    """Whether there is a tree to find something in."""


def reach_of(
    here: Here | None, row: ExerciseRow | None, rows: LineTree, finding: bool, decks: int
) -> Reach:
    """What there is to press keys for in a place; None where nothing is open.

    :param row: the row below the tree where one stands.
    """
    if row is not None:
        searched = here is not None
        return Reach(shown=True, decks=decks, practised=row.asks, below=True, searched=searched)
    if here is None:
        return Reach(finding=finding, decks=decks)
    tree, spot = here.report.tree, here.spot
    return Reach(
        shown=True,
        finding=finding,
        decks=decks,
        practised=bool(here.counts.cards) or here.joins_elsewhere,
        folds=rows.can_fold(spot.stretch),
        folded=rows.is_folded(spot.stretch),
        forward=tree.forward(spot) is not None,
        back=tree.back(spot) is not None,
    )


def does_something(action: str, parameters: tuple[object, ...], here: Reach) -> bool:
    """Whether the key of this action has a use now."""
    if action == "dismiss":
        return not here.finding
    if action == "find" and here.finding:
        return parameters == (False,)
    if action == "deck":
        return here.decks > 1 and not here.finding
    if not here.shown:
        return False
    match action:
        case "find_next":
            return here.finding
        case "find":
            return here.searched and parameters == (True,)
        case "read_out" | "facts" if here.below:
            return False
        case "practise":
            return here.practised and not here.finding
        case "fold":
            return here.folds and not here.finding and parameters == (not here.folded,)
        case "fold_all":
            return not here.finding
        case "forward":
            return here.forward
        case "back":
            return here.back
    return True
