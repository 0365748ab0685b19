"""A scenario played through a real job without a person: what the shipped demonstration does."""

from guide.plain.loop import Print
from guide.plain.render import wrapped
from guide.procedure.scenario_file import ScenarioShape
from guide.run.prompt import prompt
from guide.run.rehearse import Player, Rehearsal
from guide.run.session import Session
from guide.run.state import State


def carry_through(session: Session, scenario: ScenarioShape, print_line: Print) -> list[str]:
    """Give a scenario's answers to the run, and print each step.

    Returns the differences from the scenario; empty if there are none.
    """

    def tell(before: State, after: State) -> None:
        shown = prompt(before)
        for passed in shown.passed:
            for line in wrapped(passed.text, "     "):
                print_line(line)
            for word, sentence in passed.cautions:
                for line in wrapped(f"{word.upper()}: {sentence}", "    "):
                    print_line(line)
        for word, sentence in shown.cautions:
            for line in wrapped(f"{word.upper()}: {sentence}", "    "):
                print_line(line)
        for line in wrapped(f"{len(before.route()) + 1:>3}. {shown.text}"):
            print_line(line)
        answer = after.answers.get(before.at)
        if answer is not None and before.at not in before.answers:
            fact = before.graph.facts[before.node.body["fact"]]
            print_line(f"     Answer: {fact.show(answer.value, before.units)}")
        for name, value in shown.read_back:
            print_line(f"     {name}: {value}")

    found = Rehearsal(scenario.scenario, session.state.graph.name)
    player = Player(session, scenario, found, tell)
    player.play()
    if not session.state.ended:
        session.send(("paused", {}))
    return found.differences
