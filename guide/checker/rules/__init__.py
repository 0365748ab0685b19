"""The rules that are more than a property of one block: one file a family, one function a rule.

A rule has the name of its finding's code. What reading and compiling a file and the proof find has its code there.
"""

from collections.abc import Callable, Iterator

from guide.checker.rules.blind import blind_shown
from guide.checker.rules.contradictions import (
    fact_repeated,
    label_against_words,
    say_against_text,
    swing_split,
    when_missing,
    words_against_fact,
    words_against_fixed,
    words_against_label,
)
from guide.checker.rules.cuts import (
    cut_basis_none,
    cut_basis_odd,
    cut_basis_short,
    cuts_missing,
    reads_without_cut,
)
from guide.checker.rules.editions import edition_not_raised
from guide.checker.rules.ends import (
    finished_in_part,
    finished_refusing,
    never_finished,
    outcome_against_words,
    stage_twice,
    started_already,
)
from guide.checker.rules.expected import expects_wrong
from guide.checker.rules.figures import limit_alone, number_alone
from guide.checker.rules.hazards import caution_weak, hazard_missing, hazard_unnamed
from guide.checker.rules.rounds import cure_apart, cure_unneeded
from guide.checker.rules.siblings import (
    hold_short,
    input_crossed,
    input_left_out,
    option_lacking,
    part_unused,
    range_wide,
)
from guide.checker.rules.sounds import say_missing, sounds_alike, step_long
from guide.checker.rules.statements import (
    limit_contrary,
    limit_unsaid,
    threshold_unsaid,
    words_against_limit,
    words_against_when,
)
from guide.checker.rules.twins import asked_twice, done_twice
from guide.checker.rules.units import question_of_one_system, unit_of_one_system
from guide.checker.rules.unused import (
    answer_unused,
    counts_on_unused,
    fact_unasked,
    fact_unused,
    option_gone,
)
from guide.files.findings import Finding
from guide.procedure.graph import Graph
from guide.procedure.load import Loaded

FILE_RULES: tuple[Callable[[Loaded], Iterator[Finding]], ...] = (
    fact_unused,
    finished_in_part,
    counts_on_unused,
    input_crossed,
    input_left_out,
    option_lacking,
    label_against_words,
    never_finished,
    part_unused,
    question_of_one_system,
    range_wide,
    sounds_alike,
    stage_twice,
    fact_unasked,
    option_gone,
    edition_not_raised,
)
"""The rules that the files of a procedure are checked by."""

GRAPH_RULES: tuple[Callable[[Graph], Iterator[Finding]], ...] = (
    answer_unused,
    asked_twice,
    blind_shown,
    caution_weak,
    cut_basis_none,
    cut_basis_odd,
    cut_basis_short,
    cure_apart,
    cure_unneeded,
    cuts_missing,
    done_twice,
    expects_wrong,
    fact_repeated,
    finished_refusing,
    hazard_missing,
    hazard_unnamed,
    hold_short,
    limit_alone,
    limit_contrary,
    limit_unsaid,
    number_alone,
    outcome_against_words,
    reads_without_cut,
    say_against_text,
    say_missing,
    started_already,
    step_long,
    swing_split,
    threshold_unsaid,
    unit_of_one_system,
    when_missing,
    words_against_fact,
    words_against_fixed,
    words_against_label,
    words_against_limit,
    words_against_when,
)
"""The rules that the blocks of the graph are checked by."""
