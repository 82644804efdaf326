"""What of the settings only a face can judge: the name of a theme, and the student's own keys."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from textual.app import App

from trainer.service.settings import ReadSettings
from trainer.service.settings.declared import KEYS
from trainer.service.settings.kinds import shown


@dataclass(frozen=True, slots=True)
class InForce:
    """What holds on the screen, and a sentence for each thing that does not."""

    theme: str
    own_keys: Mapping[str, str] = field(default_factory=dict)
    """The steps that are remapped, by the ids of their bindings."""
    keymap: Mapping[str, str] = field(default_factory=dict)
    """The keys of all steps, where one is remapped; else empty."""
    problems: tuple[str, ...] = ()


def judge(file: ReadSettings, app: App[None]) -> InForce:
    """Judge what the file says with the themes and the steps of this app."""
    theme, problems = file.settings.theme, []
    if theme not in app.available_themes:
        problems.append(
            f"{file.where('theme')}: theme = {shown(theme)} is not known; {app.theme} holds"
        )
        theme = app.theme
    if not file.settings.keys:
        return InForce(theme, problems=tuple(problems))
    from trainer.app.key_clashes import in_force, sort_out
    from trainer.app.key_scopes import scopes_of

    scopes = scopes_of(type(app))
    outcome = sort_out(file.settings.keys, scopes)
    for refused in outcome.refused:
        given = f"{shown(refused.id)[1:-1]} = {shown(file.settings.keys[refused.id])}"
        problems.append(f"{file.where(KEYS, refused.id)}: {given} is not taken: {refused.reason}")
    own = {name: ",".join(keys) for name, keys in outcome.taken.items()}
    return InForce(theme, own, in_force(outcome.taken, scopes) if own else {}, tuple(problems))
