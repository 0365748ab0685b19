"""The stages of the work along the top bar, like marks on a tape: a heavy line behind, a light one ahead."""

from guide.run.stages import Standing
from guide.screens.words_shown import Piece, Words
from guide.translation import _

LONG, SHORT = 80, 50
"""Columns of the window from which every stage is shown, and below which the stage has the fewest words."""


class StageTape(Words):
    """The stages, the present one lit; in a narrow window the present one alone. Then the minutes left."""

    def show(self, standing: Standing, minutes: int, columns: int) -> None:
        """Show the stage, and the least minutes that are left; 0 where nobody knows."""
        round_ = _round(standing)
        left = _("{minutes}+ min").format(minutes=minutes) if minutes else ""
        if columns >= LONG and standing.titles:
            self.tell(*_tape(standing, round_), f"  {left}" if left else "")
            return
        said = standing.title
        if said and not round_:
            place, all_ = standing.now + 1, len(standing.titles)
            said += f" {place}/{all_}" if columns < SHORT else f", {place} of {all_}"
        self.tell("  ".join(filter(None, (said, round_, left))))


def _round(standing: Standing) -> str:
    """In a later turn, which it is; in a later round, the number."""
    return ", ".join(filter(None, (standing.turn, _number(standing))))


def _number(standing: Standing) -> str:
    if standing.round < 2:
        return ""
    return (
        _("round {round} of {rounds}").format(round=standing.round, rounds=standing.rounds)
        if standing.rounds
        else _("round {round}").format(round=standing.round)
    )


def _tape(standing: Standing, round_: str) -> list[Piece]:
    pieces: list[Piece] = []
    for number, title in enumerate(standing.titles):
        if number:
            pieces.append(("━" if number <= standing.now else "─", "$secondary"))
        if number == standing.now:
            said = f"{title}, {round_}" if round_ else title
            pieces.append((f" {said} ", "bold reverse $primary"))
        else:
            pieces.append(title)
    return pieces
