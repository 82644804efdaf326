"""The handout as a page: sound HTML, complete in itself, with every text of the deck escaped."""

from __future__ import annotations

import re
from html.parser import HTMLParser

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.deck.handout_decks import GAMES, LINES, chapter, deck, idea, whole_deck
from trainer.deck.deck import Deck, Kind
from trainer.deck.handout.as_html import page
from trainer.deck.handout.compose import handout_of
from trainer.deck.handout.svg_pieces import OUTLINES
from trainer.lines.idea import Form

VOID = {"meta", "br", "hr", "img", "input", "link"}


class Structure(HTMLParser):
    """What a page is made of; complains of tags that do not match."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: set[str] = set()
        self.attributes: list[tuple[str, str, str]] = []
        self.words: list[tuple[str, str]] = []
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._note(tag, attrs)
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert "svg" in self.open, f"<{tag}/> outside a drawing"
        self._note(tag, attrs)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        if data.strip():
            self.words.append((self.open[-1] if self.open else "", data))

    def _note(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        names = [name for name, _ in attrs]
        assert len(names) == len(set(names))
        self.attributes += [(tag, name, value or "") for name, value in attrs]

    def values(self, name: str) -> list[str]:
        """All values of an attribute."""
        return [value for _, found, value in self.attributes if found == name]

    @property
    def text(self) -> str:
        """All that is read, the style sheet left out."""
        return " ".join(data for tag, data in self.words if tag != "style")


def made(one: Deck, chapter_id: str | None = None) -> Structure:
    return Structure(page(handout_of(one, chapter_id)))


@pytest.mark.parametrize("part", [None, "lines", "tactics", "games", "ideas"])
def test_ids_are_unique_and_links_resolve(part: str | None) -> None:
    found = made(whole_deck(), part)
    ids = found.values("id")
    assert len(ids) == len(set(ids))
    links = found.values("href")
    assert links
    assert {link[1:] for link in links} <= set(ids)
    assert all(link.startswith("#") for link in links)


def test_everything_is_in_the_contents_and_can_be_reached() -> None:
    found = made(whole_deck())
    linked = {value[1:] for tag, name, value in found.attributes if (tag, name) == ("a", "href")}
    sections = {value for tag, name, value in found.attributes if (tag, name) == ("section", "id")}
    assert sections <= linked
    assert {"c1-1", "c1-2", "c3-1"} <= linked


def test_the_page_is_complete_in_itself_and_has_no_script() -> None:
    text = page(handout_of(whole_deck()))
    assert not re.search(r"https?:|url\(|@import|src=", text)
    assert Structure(text).tags.isdisjoint({"script", "link", "img", "iframe", "object", "form"})
    assert not [name for _, name, _ in Structure(text).attributes if name.startswith("on")]


def test_it_is_made_for_black_and_white_on_a4() -> None:
    text = page(handout_of(whole_deck()))
    assert "size: A4" in text
    assert "break-inside: avoid" in text
    assert "break-before: page" in text
    assert set(re.findall(r"#[0-9a-fA-F]{3,6}\b(?=[;}\s])", text)) == {"#000", "#fff"}
    assert "Times" in text


def test_the_front_says_what_it_is() -> None:
    words = made(whole_deck(about="One.\nTwo.")).text
    for said in ("All of it", "Edition 2", "Nobody", "CC-BY-4.0", "One.", "Two.", "Contents"):
        assert said in words


def test_the_footer_has_title_edition_and_licence() -> None:
    text = page(handout_of(whole_deck(title='A "b" </style>')))
    (content,) = re.findall(r'@bottom-left \{ content: "([^"]*)"', text)
    shown = re.sub(r"\\([0-9a-f]+) ", lambda found: chr(int(found[1], 16)), content)
    assert shown == 'A "b" </style>, edition 2, CC-BY-4.0'


@pytest.mark.parametrize(
    ("language", "expected", "ours"),
    [("en", "en", ""), ("en-GB", "en-GB", ""), ("de", "de", "en"), ("und", "", "en")],
)
def test_the_language_is_the_decks_and_our_words_are_english(
    language: str, expected: str, ours: str
) -> None:
    found = made(whole_deck(language=language))
    first, *others = found.values("lang")
    assert first == expected
    assert set(others) == ({ours} if ours else set())


def test_text_of_the_deck_sets_its_own_direction() -> None:
    pgn = LINES.replace("Takes the centre.", "مركز").replace("We strike early.", "نبدأ")
    found = page(handout_of(deck(chapter(Kind.LINES, pgn, title="خطوط"))))
    assert '<span dir="auto">مركز</span>' in found
    assert '<p class="level-0" dir="auto">نبدأ</p>' in found
    assert '<h2>1 <span dir="auto">خطوط</span></h2>' in found


def test_answers_begin_on_a_page_of_their_own_behind_all_chapters() -> None:
    found = made(whole_deck())
    kinds = [value for tag, name, value in found.attributes if (tag, name) == ("section", "class")]
    assert kinds == ["chapter"] * 4 + ["first answers", "answers"]


def test_the_signs_are_explained_where_they_come_up() -> None:
    share, strokes = "A percentage in brackets", "Marked squares and arrows"
    plain = made(deck(chapter(Kind.LINES, "1. e4 e5 2. f4 *"))).text
    assert share not in plain
    assert strokes not in plain
    pgn = "1. e4 {[%share 5]} e5 2. f4 {[%csl Ge4,Rd5]} *"
    told = made(deck(chapter(Kind.LINES, pgn))).text
    assert share in told
    assert strokes in told


HOSTILE = "</style></title><script>alert(1)</script> & &lt; \"x\" 'y' <!-- ]]> \\"


def hostile_deck(text: str) -> Deck:
    """The text in every place in which a deck can have one."""
    in_tag = text.replace("\\", "").replace('"', "")
    pgn = LINES.replace("The gambit", in_tag)
    for said in ("Takes the centre.", "We strike early.", "Quieter."):
        pgn = pgn.replace(said, text.replace("}", ""))
    chapters = (
        chapter(Kind.LINES, pgn, title=text),
        chapter(Kind.GAMES, GAMES.replace("Ann", in_tag).replace("A club match", in_tag)),
        chapter(
            Kind.IDEAS,
            ideas=(
                idea(Form.CHOOSE, choices=(text, "b", "c")),
                idea(Form.SQUARES, squares=("d5",)),
            ),
        ),
    )
    return deck(*chapters, title=text, author=text, licence=text, about=text)


def test_hostile_text_stays_text() -> None:
    text = page(handout_of(hostile_deck(HOSTILE)))
    found = Structure(text)
    assert "script" not in found.tags
    assert text.count("</style>") == text.count("</title>") == 1
    # Title twice (head and page), author, licence, about, chapter in contents and heading,
    # three comments, a choice and its answer.
    assert found.text.count(HOSTILE) == 12


SAID = st.text(st.characters(exclude_categories=("Cc", "Cf", "Cs", "Co", "Zl", "Zp")), min_size=1)


@given(SAID.filter(lambda text: text == " ".join(text.split()) != ""))
def test_any_text_comes_out_as_it_went_in(text: str) -> None:
    found = made(deck(chapter(Kind.LINES, LINES, title=text), title=text, author=text))
    assert found.words.count(("span", text)) == 2
    assert ("h1", text) in found.words
    assert ("p", text) in found.words


def test_drawings_are_defined_once() -> None:
    text = page(handout_of(whole_deck()))
    assert text.count("<figure>") > 5
    assert all(text.count(outline) == 2 for outline in OUTLINES.values())


def test_a_deck_without_a_diagram_has_no_definitions() -> None:
    assert "<svg" not in page(handout_of(deck(chapter(Kind.LINES, "1. e4 *"))))
