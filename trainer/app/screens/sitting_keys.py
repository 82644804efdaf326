"""The keys of the Sitting screen, when each of them does something, and its help text."""

from __future__ import annotations

from dataclasses import dataclass

from textual.binding import BindingType

from trainer.app.keys import HELP_KEY, bound
from trainer.app.telling.moment import Wants
from trainer.app.telling.teller import OPEN
from trainer.sitting.sitting import Phase
from trainer.sitting.step import WAITING_TO_GO_ON

HELP = (
    "Play the deck's move: type it (Nf3, exd5, O-O, g1f3), or click the piece and then its "
    "square, or press Tab and use the arrow keys (Esc leads back). What you type is read back "
    "in words under the box; nothing is completed for you.\n\n"
    "A wrong try is taken back and you try again; the answer counts as missed. A hint names "
    "the piece and leaves 3 at best, being shown the move leaves 0. The words hint, show, "
    "undo, board, facts, help and stop can be typed too, and e4? tells what stands on e4, "
    "knights? where the knights are. G, R, Y or B at an arrow or a square is the colour that "
    "the coach gave it: green, red, yellow or blue.\n\n"
    "A question asks for a move, for squares or for one of several answers. Squares are typed "
    "(d4 e5), clicked, or marked with Tab, the arrow keys and Space; Enter answers, and all of "
    "them are wanted. An answer is chosen by its number, by a click, or with the arrow keys and "
    "Enter. A question has no hint; ? twice shows the answer.\n\n"
    "A tactic is played to its end, against each defence in turn. A wrong move ends that "
    "defence: its solution stands there until you go on. In a model game you guess the moves of "
    "one side; each guess is told at once, none is graded, and a game that you leave goes on "
    "at the same move next time.\n\n"
    "Every answer is saved before the next position comes: stop whenever you like."
)

BINDINGS: list[BindingType] = [
    bound("enter", "play", "play", "Play the move that is typed.", id="sitting.play"),
    bound("enter", "answer", "answer", "Give the answer that is chosen.", id="sitting.answer"),
    bound("enter", "go_on", "next", "Go on to what comes next.", id="sitting.next"),
    bound("enter,escape", "leave", "back", "Go back to where you were.", id="sitting.leave"),
    HELP_KEY,
    bound("f2", "read_out", "read", "Read the position out in words.", id="sitting.read"),
    bound(
        "escape",
        "put_down",
        "put down",
        "Leave the piece where it was.",
        id="sitting.put_down",
    ),
    bound("escape", "to_box", "box", "Back to typing moves.", id="sitting.from_board"),
    bound("escape", "empty", "empty", "Rub out what is typed.", id="sitting.empty"),
    bound(
        "tab,shift+tab",
        "to_box",
        "box",
        "Back to typing moves.",
        id="sitting.to_box",
        show=False,
    ),
    bound("escape", "stop", "stop", "Stop here; every answer is saved.", id="sitting.stop"),
    bound(
        "question_mark",
        "hint",
        "hint",
        "In the empty box: say which piece moves; again: show the move.",
        id="sitting.hint",
    ),
    bound(
        "question_mark",
        "show",
        "show",
        "In the empty box, twice: show the answer.",
        id="sitting.show",
    ),
    bound("down", "point(1)", "choose", "Point at the next answer.", id="sitting.point"),
    bound(
        "up", "point(-1)", "back", "Point at the answer before.", id="sitting.point_up", show=False
    ),
    bound(
        "tab,shift+tab",
        "to_board",
        "board",
        "Move pieces with the arrow keys and Enter, or mark squares with Space.",
        id="sitting.to_board",
    ),
    bound("ctrl+z", "undo", "undo", "Take the last answer back.", id="sitting.undo"),
    bound("f6", "in_lines", "lines", "See the hardest position in its lines.", id="sitting.lines"),
    bound("f3", "flip", "flip", "Turn the board.", id="sitting.flip"),
    bound("f5", "facts", "facts", "Say what can be counted in the position.", id="sitting.facts"),
    bound("pagedown", "turn(1)", "on", "Read on in the note.", id="sitting.on", show=False),
    bound("pageup", "turn(-1)", "back", "Read back in the note.", id="sitting.back", show=False),
]
"""Those that are always there come before the others, so that they keep their places."""

_WITHOUT_A_BOARD = frozenset({"put_down", "stop", "leave"})
"""What can be done in a window that is too small for the board."""


@dataclass(frozen=True, slots=True)
class Hands:
    """What the student's hands are at."""

    phase: Phase
    wants: Wants | None
    """What is to be answered with; None where nothing is asked."""
    question: bool
    """Whether it is a question, which has no hint."""
    typed: bool
    """Whether something stands in the box."""
    shown: bool
    """Whether the move asked for was shown."""
    promoting: bool
    """Whether the desk asks what a pawn becomes."""
    held: bool
    """Whether a piece is in hand."""
    on_board: bool
    """Whether the board has the focus."""
    cramped: bool
    """Whether the window is too small for the board."""
    answered: bool
    """Whether an answer of this sitting can be taken back."""
    lines: bool
    """Whether a move of the lines was asked."""


def does_something(action: str, hands: Hands) -> bool | None:
    """Whether the key of this action has a use now; None where typing has taken it over."""
    phase = hands.phase
    if hands.cramped and action not in _WITHOUT_A_BOARD:
        return False
    match action:
        case "play" | "answer":
            asks_move = hands.wants is Wants.MOVE
            return _asked(hands) and asks_move == (action == "play")
        case "go_on":
            return phase in WAITING_TO_GO_ON and not hands.promoting
        case "leave":
            return phase is Phase.ENDED
        case "hint" | "show":
            if hands.question != (action == "show"):
                return False
            return None if hands.typed or hands.shown else _asked(hands)
        case "point":
            return hands.wants is Wants.NUMBER
        case "to_board":
            return phase in OPEN and not (hands.on_board or hands.promoting) and _on_board(hands)
        case "to_box":
            return phase is not Phase.ENDED and hands.on_board and not hands.promoting
        case "put_down":
            return hands.promoting or hands.held
        case "undo":
            return phase is not Phase.ENDED and hands.answered
        case "stop" | "read_out" | "facts":
            return phase is not Phase.ENDED
        case "in_lines":
            # Not before: the tree shows the moves that are still to be asked.
            return phase is Phase.ENDED and hands.lines
        case "empty":
            return hands.typed and phase is not Phase.ENDED
    return True


def _asked(hands: Hands) -> bool:
    return hands.phase is Phase.ASKING and not hands.promoting


def _on_board(hands: Hands) -> bool:
    """Whether the answer can be given on the board."""
    return hands.wants in (Wants.MOVE, Wants.SQUARES)
