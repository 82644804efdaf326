"""What reading a deck may cost. A deck comes from somebody else; these say when to refuse.

Each limit lies far above what a course needs (the largest known test file has 2,014 games
of 36 plies at most) and below what would make a laptop stand still.
"""

MANIFEST_BYTES = 256 * 1024
"""`deck.toml` lists chapters; at 300 bytes each this holds more than `CHAPTERS`."""

IDEAS_BYTES = 1024 * 1024
"""A chapter of ideas; at 2 kB each this holds all `IDEAS`."""

COMMENTS_BETWEEN = 1_000
"""Comments between two games, all of which are lost anyway."""

PGN_BYTES = 8 * 1024 * 1024
"""A chapter of a million words; read whole, at about three times its size in memory."""

DECK_BYTES = 16 * 1024 * 1024
"""All files of a deck; this alone bounds the move nodes of many chapters together."""

PACK_BYTES = 32 * 1024 * 1024
"""A packed deck as a file, with whatever else lies in its coach's folder; held in memory."""

PACK_ENTRIES = 5_000
"""Listed in a packed deck: room for a folder that was zipped with its version control."""

NAME_CHARS = 255
"""Of an entry there, its folders included."""

TOML_DEPTH = 32
"""Parts of one dotted key: reading it costs the square of them, and a deck has no such keys."""

CHAPTERS = 200
"""More could not be told apart in a list."""

GAMES = 20_000
"""In one file; a game without moves is cheap but not free."""

MOVES = 600_000
"""In one deck, variations included: about 200 MB of move nodes, read in some ten seconds."""

POSITIONS = 120_000
"""Different ones in one deck: adding it takes about 7 kB for each at its peak, which makes
900 MB (measured at 100,000: tests.bench.big_deck)."""

DEPTH = 10_000
"""Variations inside variations; nobody nests ten deep by hand, programs nest a whole line."""

SIBLINGS = 218
"""Moves written for one position at one place: no position has more legal ones."""

COMMENT_CHARS = 20_000
"""All that is said of one move at one place: ten screens of text."""

TAGS = 100
"""In one game; the roster has seven, the standard names about thirty."""

TAG_CHARS = 2_000
"""In one tag's value; the standard promises 255."""

TITLE_CHARS = 200
"""Titles and names stand on one line."""

ABOUT_CHARS = 20_000
"""A deck's own words about itself, as long as a comment at most."""

IDEAS = 500
"""In one deck; forty make a course. Each follows its line, which is most of the time."""

LINE_CHARS = 600
"""The line that leads to an idea: about forty moves of both sides."""

IDEA_CHARS = 2_000
"""A question, an answer to choose, or a reason: a screen of text."""

CHOICES = 9
"""Answers to choose from: each has a digit of its own to press."""

TURNS = 500
"""Moves asked in one tactic or model game, all defences together; the longest games known
have about 270 moves."""

PLAYED_PLIES = 2_000
"""Moves of one defence or game, both sides."""

DEFENCE_PLIES = 20_000
"""Moves of a deck's tactics, each variation counted with the length of the longest: about
10 MB, and four hundred tactics with three variations of twelve moves."""

ID_CHARS = 64
"""Ids become file names and are typed on the command line."""

FINDINGS = 200
"""Errors listed of one file (after these reading stops), and as many warnings and notes."""
