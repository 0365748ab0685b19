"""The stages of the work along the top bar, like marks on a tape: a heavy line behind, a light one ahead."""

from guide.run.stages import Standing
from guide.screens.words_shown import Piece, Words

LONG = 80
"""Columns of the window from which every stage is shown."""


class StageTape(Words):
    """The stages, the present one lit; in a narrow window the present one alone."""

    def show(self, standing: Standing, corner: str, columns: int) -> None:
        """Show the stage, and in the corner what else belongs there, such as the minutes left."""
        round_ = _round(standing)
        if not standing.titles:
            self.tell(" ".join(filter(None, (round_, corner))))
        elif columns < LONG:
            place = f"{standing.title}, {standing.now + 1} of {len(standing.titles)}"
            self.tell(f"{standing.title}, {round_}" if round_ else place)
        else:
            self.tell(*_tape(standing, round_))


def _round(standing: Standing) -> str:
    if standing.round < 2:
        return ""
    return (
        f"round {standing.round} of {standing.rounds}"
        if standing.rounds
        else f"round {standing.round}"
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
