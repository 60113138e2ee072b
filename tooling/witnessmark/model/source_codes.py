"""What can stop a file from being read as it was meant: one code a cause, with why and remedy.

The table is data, so that `explain WM003` and the manual print the same words as a check.
"""

from __future__ import annotations

from dataclasses import dataclass

from witnessmark.model.diagnostics import Level

UNREADABLE = "WM001"
INDENT = "WM002"
LOST = "WM003"
COLON = "WM004"
TWICE = "WM005"
YES_NO = "WM006"
NO_VALUE = "WM007"
EMPTY = "WM008"
NOT_FIELDS = "WM009"
SECOND = "WM010"
KEY = "WM011"
ANCHOR = "WM013"
ALIAS = "WM014"
MERGE = "WM015"
TAG = "WM016"
START = "WM017"
TAB = "WM018"
HARD_SPACE = "WM019"
CONFLICT = "WM020"
UNCLOSED = "WM021"
NOT_UTF8 = "WM022"
MANY = "WM023"
CONTROL = "WM024"
TURNING = "WM025"
UNSEEN = "WM026"
LARGE = "WM027"
DEEP = "WM028"
NUMBER = "WM029"


@dataclass(frozen=True, kw_only=True)
class SourceCode:
    """One cause: its name, why it matters, and what puts it right unless more is known."""

    title: str
    why: str
    fix: str
    level: Level = Level.ERROR


SOURCE_CODES: dict[str, SourceCode] = {
    UNREADABLE: SourceCode(
        title="this cannot be read as YAML",
        why="Nothing below a line that cannot be read is sure to be read as you meant it.",
        fix="Compare the line with the ones around it: each is `name: value` or `- value`.",
    ),
    INDENT: SourceCode(
        title="the line does not line up with the ones above",
        why="YAML tells what belongs to what by how far a line is set in.",
        fix="Set fields of one group in by the same number of spaces.",
    ),
    LOST: SourceCode(
        title="the rest of this text would be lost",
        why='YAML treats " #" as the start of a comment, so what follows is never kept.',
        fix='Put the text on the next line after ">-", or in "double quotes".',
    ),
    COLON: SourceCode(
        title="a colon inside the text",
        why="YAML reads a colon followed by a space as the end of a field's name.",
        fix='Put the text on the next line after ">-", or in "double quotes".',
    ),
    TWICE: SourceCode(
        title="a field is written twice",
        why="Only one of the two can hold, and other readers would keep the other one.",
        fix="Keep one of them and take the other out.",
    ),
    YES_NO: SourceCode(
        title="a word that some readers take for true or false",
        why="Older YAML readers turn yes, no, on, off, y and n into true and false.",
        fix='Write true or false, or put the word in "double quotes" if it is text.',
    ),
    NO_VALUE: SourceCode(
        title="a name without a value inside { }",
        why="Inside { } a comma ends a value, so text with a comma in it falls apart.",
        fix='Put the whole text in "double quotes", or write the fields on lines of their own.',
    ),
    EMPTY: SourceCode(
        title="the file holds no record yet",
        why="Every file of a museum says something; an empty one may be a save gone wrong.",
        fix="Write the record, start one with `witnessmark new`, or remove the file.",
    ),
    NOT_FIELDS: SourceCode(
        title="the file does not start with a field",
        why="A file of a museum is a set of `name: value` fields.",
        fix="Start the file with its first field, for example `id: 2024-003`.",
    ),
    SECOND: SourceCode(
        title="a second record in one file",
        why="One file holds one record; what follows the marker would not be read.",
        fix="Move what follows to a file of its own, or take the `---` or `...` line out.",
    ),
    KEY: SourceCode(
        title="a field's name that is not text",
        why="Numbers, true, false and null are read differently from reader to reader as names.",
        fix='Put the name in "double quotes", or choose a word.',
    ),
    ANCHOR: SourceCode(
        title="an anchor (&)",
        why="Records outlive this program: each fact is written where it holds.",
        fix='Take the &name out and repeat the values; if it is text, put it in "double quotes".',
    ),
    ALIAS: SourceCode(
        title="a reference to an anchor (*)",
        why="Records outlive this program: each fact is written where it holds.",
        fix='Write the values out here; if it is text, put it in "double quotes".',
    ),
    MERGE: SourceCode(
        title="a merge key (<<)",
        why="Fields taken over from elsewhere cannot be seen where they hold.",
        fix="Write the fields out here.",
    ),
    TAG: SourceCode(
        title="a tag (!)",
        why="Tags tell a program to build something else from the text; records are plain facts.",
        fix='Take the tag out; if it is text, put it in "double quotes".',
    ),
    START: SourceCode(
        title="text that starts with a sign YAML keeps for itself",
        why="At the start of a value, @ ` % * & ! | > ? - , [ ] { } mean something else to YAML.",
        fix='Put the text in "double quotes", or on the next line after ">-".',
    ),
    TAB: SourceCode(
        title="a tab where spaces are wanted",
        why="A tab is as wide as each editor likes, so YAML does not let one set a line in.",
        fix="Put spaces in place of each tab (shown as \u2192) at the start of the line.",
    ),
    HARD_SPACE: SourceCode(
        title="an invisible space at the start of the line",
        why="It looks like a space and is not one, so the line belongs elsewhere than it seems.",
        fix="Delete the blank start of the line and type ordinary spaces.",
    ),
    CONFLICT: SourceCode(
        title="an unfinished merge",
        why="Two versions of these lines stand in the file and nobody has chosen between them.",
        fix="Keep the lines that hold and delete the <<<<<<<, ======= and >>>>>>> lines.",
    ),
    UNCLOSED: SourceCode(
        title="a bracket or quote that is not closed where it should be",
        why="What follows is read as part of it.",
        fix='Close it, or put the whole text in "double quotes".',
    ),
    NOT_UTF8: SourceCode(
        title="the file is not saved as UTF-8",
        why="Letters outside the English alphabet would come out wrong.",
        fix="Save it again with the encoding set to UTF-8, and look at the accents.",
    ),
    MANY: SourceCode(
        title="too many values in one file",
        why="A file this full cannot be checked in a reasonable time.",
        fix="Split the file; a decision has a few hundred values.",
    ),
    CONTROL: SourceCode(
        title="a control character",
        why="It cannot be seen or printed, and it can change what a screen shows.",
        fix="Delete it; it often comes along with text copied from elsewhere.",
    ),
    TURNING: SourceCode(
        title="a character that turns the reading direction",
        why="It makes text look different from what it says, so eyes cannot be trusted.",
        fix="Delete it; it often comes along with text copied from elsewhere.",
    ),
    UNSEEN: SourceCode(
        title="a character that cannot be seen",
        why="Two words that look alike would differ, so searches and references miss.",
        fix="Delete it; it often comes along with text copied from elsewhere.",
    ),
    LARGE: SourceCode(
        title="the file is too large",
        why="A record is a few pages of text; a file this large is usually something else.",
        fix="Take out what does not belong, or split the file.",
    ),
    DEEP: SourceCode(
        title="nested too deep",
        why="No record needs so many levels, and a file made so can stop a reader.",
        fix="Look for brackets that were never closed, or write the fields on lines of their own.",
    ),
    NUMBER: SourceCode(
        title="a number that cannot be kept as written",
        why="Other readers would round it, or have no such number at all.",
        fix='Write an ordinary number; if it is a part number or text, put it in "double quotes".',
    ),
}
