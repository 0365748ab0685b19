"""The tools and parts to fetch: at the first climb once the mount is known, and on a page at any time."""

from guide.run.pages.kit import kit_of, kit_page
from guide.run.prompt import FETCH, prompt
from tests.run.small_procedures import begin
from tests.run.stands import standing_at


def test_what_to_fetch_stands_at_the_first_climb_and_nowhere_else() -> None:
    session = standing_at("demo", "holes/wedge-the-leaf")
    lines = prompt(session.state).kit
    assert lines[0] == FETCH
    assert any(line.startswith("Tools: two wedges, step ladder, ") for line in lines)
    assert "Parts: wood screws from the box." in lines
    assert any(line.startswith("Leaf: 4 holes, 7/64 in drill ") for line in lines)
    assert prompt(standing_at("demo", "make-safe/look-at-ladder").state).kit == []
    assert prompt(standing_at("demo", "holes/drill-pilot-leaf").state).kit == []


def test_where_nothing_is_drilled_no_drill_is_fetched() -> None:
    kit = kit_of(standing_at("cloakroom-prepared", "holes/wedge-the-leaf").state)
    assert kit.drilled == ()
    assert not any("drill" in tool for tool in (*kit.tools, *kit.perhaps))


def test_a_job_that_sets_nothing_out_has_its_list_at_its_first_ladder() -> None:
    lines = prompt(standing_at("adjust-easy-lever", "make-safe/look-at-ladder").state).kit
    assert any("force gauge" in line for line in lines)


def test_the_page_has_every_tool_on_a_line() -> None:
    page = kit_page(standing_at("demo", "holes/wedge-the-leaf").state)
    headings = [section.heading for section in page.sections]
    assert headings == ["Tools", "Parts", "Drilled here", "Perhaps, by answers still to come"]
    assert "step ladder" in page.sections[0].lines


def test_before_the_mount_is_known_nothing_that_may_be_needed_is_left_out() -> None:
    kit = kit_of(standing_at("demo", "may-i-drill/prepared").state)
    assert {"drill", "rivet nut tool", "square", "eye protection"} <= {*kit.perhaps, *kit.tools}


def test_a_procedure_without_tools_says_so() -> None:
    assert "name no tools" in kit_page(begin("sports-hall").state).sections[0].lines[0]
