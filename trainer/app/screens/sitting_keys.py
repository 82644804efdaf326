"""The keys of the Sitting screen, when each of them does something, and its help text."""

from __future__ import annotations

from dataclasses import dataclass

from textual.binding import BindingType

from trainer.app.keys import HELP_KEY, bound
from trainer.app.telling.teller import OPEN
from trainer.sitting.sitting import Phase

HELP = (
    "Play the deck's move: type it (Nf3, exd5, O-O, g1f3), or click the piece and then its "
    "square, or press Tab and use the arrow keys (Esc leads back). What you type is read back "
    "in words under the box; nothing is completed for you.\n\n"
    "A wrong try is taken back and you try again; the answer counts as missed. A hint names "
    "the piece and leaves 3 at best, being shown the move leaves 0. The words hint, show, "
    "undo, board, facts, help and stop can be typed too, and e4? tells what stands on e4, "
    "knights? where the knights are. G, R, Y or B at an arrow or a square is the colour that "
    "the coach gave it: green, red, yellow or blue.\n\n"
    "Every answer is saved before the next position comes: stop whenever you like."
)

BINDINGS: list[BindingType] = [
    bound("enter", "play", "play", "Play the move that is typed.", id="sitting.play"),
    bound("enter", "go_on", "next", "Go on to the next position.", id="sitting.next"),
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
        "tab,shift+tab",
        "to_board",
        "board",
        "Move pieces with the arrow keys and Enter.",
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


def does_something(action: str, hands: Hands) -> bool | None:
    """Whether the key of this action has a use now; None where typing has taken it over."""
    phase = hands.phase
    if hands.cramped and action not in _WITHOUT_A_BOARD:
        return False
    match action:
        case "play":
            return phase is Phase.ASKING and not hands.promoting
        case "go_on":
            return phase in (Phase.LOOKING, Phase.ANSWERED) and not hands.promoting
        case "leave":
            return phase is Phase.ENDED
        case "hint":
            if hands.typed or hands.shown:
                return None
            return phase is Phase.ASKING and not hands.promoting
        case "to_board":
            return phase in OPEN and not hands.on_board and not hands.promoting
        case "to_box":
            return phase is not Phase.ENDED and hands.on_board and not hands.promoting
        case "put_down":
            return hands.promoting or hands.held
        case "undo" | "stop" | "read_out" | "facts":
            return phase is not Phase.ENDED
        case "in_lines":
            # Not before: the tree shows the moves that are still to be asked.
            return phase is Phase.ENDED
        case "empty":
            return hands.typed and phase is not Phase.ENDED
    return True
