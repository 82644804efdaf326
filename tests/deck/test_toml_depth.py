"""Keys that would take `tomllib` a minute are seen before it reads them."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.deck.toml_depth import is_too_deep

PARTS = st.sampled_from(["a", "b-1", '"a.b"', "'c'", '"\\""'])


@given(st.lists(PARTS, min_size=33, max_size=60), st.sampled_from([".", " . "]), st.booleans())
def test_a_key_of_many_parts(parts: list[str], joint: str, is_header: bool) -> None:
    key = joint.join(parts)
    text = f"id = 'x'\n[{key}]\n" if is_header else f"id = 'x'\n{key} = 1\n"
    tomllib.loads(text)
    assert is_too_deep(text)


@given(st.lists(PARTS, min_size=1, max_size=32), st.sampled_from([".", " . "]))
def test_a_key_of_some_parts(parts: list[str], joint: str) -> None:
    assert not is_too_deep(f"{joint.join(parts)} = 1\n")


@pytest.mark.parametrize(
    "text",
    [
        "after = '" + " ".join(f"{n}. Nf3 Nf6" for n in range(60)) + "'",
        "a" * 250_000,
        "a " * 125_000,
        "\"'" * 125_000,
        '"' * 250_000,
        "a." * 31 + "\n" + "b." * 31,
        "1.5, " * 50_000,
    ],
    ids=["moves", "a word", "words", "quotes", "one quote", "two lines", "numbers"],
)
def test_what_is_no_such_key(text: str) -> None:
    assert not is_too_deep(text)
