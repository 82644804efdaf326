"""What the introduction says beside a sitting: one thing to do at each of its moves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from trainer.app.telling.blocks import Block, Paragraph, Rows
from trainer.app.telling.moment import Moment, Tone
from trainer.app.telling.teller import Teller
from trainer.sitting.events import Ask, Effect, Ended, Graded

ADVICE = {
    "": (
        "A first minute at the board; nothing of it is kept. You are White, and the deck "
        "wants a first move: type e4 and press Enter.",
        "Enter goes on.",
    ),
    "1. e4 e5": (
        "Now without typing: click the knight on g1 and then f3, or drag it. By keys: Tab, the "
        "arrows, Enter to take it, Enter to drop it; Esc leads back to the box.",
        "Typed, Nf3, g1f3 or the letters of your language would do as well.",
    ),
    "1. e4 e5 2. Nf3 Nc6": (
        "Say you have forgotten this one. Press ? to hear which piece moves, then ? again to "
        "be shown the move.",
        "An answer with help is asked once more.",
    ),
    "1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5": (
        "Time to castle: type O-O, or move the king two squares.",
        "Ctrl+Z takes an answer back and asks it again.",
    ),
}
"""By the line of a card: what is said when it is asked, and when it is answered."""

ONCE_MORE = "Here it is once more, as after any answer that was not right at once."

LAST: tuple[Block, ...] = (
    Paragraph(
        "You never grade yourself: right at once counts 5, with a hint 3, after a miss 2, "
        "shown 0. From that comes the day it is asked again."
    ),
    Rows(
        (
            ("Enter", "on Today: practise"),
            ("F4", "help, anywhere"),
            ("Esc", "stop; all is saved"),
            ("I", "this, from Today"),
        ),
    ),
)


class Guide(Teller):
    """Tells the sitting of the introduction, with its advice above what is said anyway."""

    def _told(self, effects: Sequence[Effect]) -> Moment:
        # Nothing is kept, so nothing is said of the day on which it comes again.
        moment = super()._told([e for e in effects if not isinstance(e, Graded)])
        for effect in effects:
            match effect:
                case Ask(prompt) if prompt.repeat:
                    moment = _with(moment, ONCE_MORE)
                case Ask(prompt):
                    moment = _with(moment, ADVICE[prompt.card.line][0])
                case Graded(prompt) if not prompt.repeat:
                    moment = _with(moment, "", ADVICE[prompt.card.line][1])
                case Ended():
                    headline = "That is all it takes"
                    moment = replace(moment, headline=headline, sign="●", tone=Tone.GOOD, page=LAST)
        self.moment = moment
        return moment


def _with(moment: Moment, before: str, after: str = "") -> Moment:
    first, last = ((Paragraph(text),) if text else () for text in (before, after))
    return replace(moment, page=(*first, *moment.page, *last))
