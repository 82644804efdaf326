"""Whether a TOML text holds a dotted key of so many parts that reading it would not end.

`tomllib` copies every prefix of such a key: 120,000 parts take a minute and 3 GB. What is
nested by brackets it refuses by itself.
"""

from __future__ import annotations

import re

from trainer.deck.limits import TOML_DEPTH

_TOO_DEEP = re.compile(
    r"""(?<![\w-])(?:(?:[\w-]++|"(?:\\.|[^"\\\n])*+"|'[^'\n]*+')[ \t]*+\.[ \t]*+)"""
    f"{{{TOML_DEPTH}}}"
)


def is_too_deep(text: str) -> bool:
    """Whether a key, or what looks like one, has more than `TOML_DEPTH` parts."""
    return _TOO_DEEP.search(text) is not None
