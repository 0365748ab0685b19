"""The help page: every key and every word, from the command table."""

from guide.screens.rows import Row
from guide.words.commands import ANSWERS, COMMANDS, VOICE, Command

_MORE = (
    ("1-9", "Pick the answer of that number"),
    ("↑ ↓", "Move the highlight, or the measure by one step"),
    ("Page Up, Page Down", "The rest of a long step"),
    ("← →", "In the drawing: swing the leaf"),
    ("Tab", "From typing to the keys, and back"),
    ("Ctrl+Q", "Pause the job and close; nothing is lost"),
)


def help_rows(*, voice: bool = False) -> list[Row]:
    """What each key does, with the word that means the same; with `voice`, what only a voice needs too."""
    rows = [Row("Keys and words", "label")]
    rows += [_row(command) for command in (*COMMANDS, *ANSWERS)]
    if voice:
        rows += [Row("By voice", "label"), *map(_row, VOICE)]
        rows.append(Row("Any key ends what is being said."))
    rows += [Row("Keys without a word", "label")]
    rows += [Row(meaning, mark=f" {keys}  ", mark_style="bold") for keys, meaning in _MORE]
    return rows


def _row(command: Command) -> Row:
    return Row(
        f"“{command.word}”: {command.meaning}", mark=f" {command.key_shown:<5}  ", mark_style="bold"
    )
