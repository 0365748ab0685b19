"""The compiler: from validated blocks to the control-flow graph.

Nodes are laid down in the order of the file. `open` holds the edges that wait for the next node;
a case or a loop is then a range of node indexes, and abandonment and the count of rounds depend on that.
"""

import hashlib
from dataclasses import replace
from typing import Any

from guide.files.findings import Finding
from guide.files.library import catalogue
from guide.files.source import Path_, Source
from guide.files.titles import title_in, title_of
from guide.procedure import conditions, schema
from guide.procedure.braces import check_quantities
from guide.procedure.conditions import (
    Condition,
    WrongCondition,
    faults_in,
    read_condition,
    read_limit,
)
from guide.procedure.graph import Edge, Graph, Loop, Node
from guide.procedure.hazard_file import need_hazards
from guide.procedure.load import Loaded
from guide.procedure.nesting import around, nest
from guide.procedure.stored_graph import LOOPS_DEEP
from guide.text import LIMIT, has_limit, meant, names_in, short, stray_brace

TEXT_KEYS = ("text", "say", "why", "watch", "looks_right", "photo")
LISTED_KEYS = ("reads", "reads_back", "depends_on", "blind")
"""The keys that list facts a block depends on, shown or not."""
UNFILLED_KEYS = ("tools", "parts", "card")
"""Texts that are shown as written; the sentence of a picture too."""
DRAWN_NEEDS = ("mount", "knuckles")
"""The facts without which no opening is drawn; it is drawn from others too, where they are known."""
MOST_BLOCKS = 20_000
"""Blocks of a procedure, each include counted as often as it is gone into."""
DEEPEST = 60
"""Levels of blocks within blocks, includes too."""
END_OF_PART = "end-of-part"
COUNTS_ON = "counts-on"


class _Compiler:
    def __init__(self, loaded: Loaded) -> None:
        self.loaded = loaded
        self.facts = loaded.facts
        self.nodes: list[Node] = []
        self.loops: list[Loop] = []
        self.limits: dict[int, Condition] = {}
        self.untils: dict[int, Condition] = {}
        self.open: list[Edge] = []
        self.jumps: list[tuple[Edge, int, str, str, Source, Path_]] = []
        """Every `go`: its edge, the node it leaves, the block's id, the prefix, the place."""
        self.asking: list[tuple[Node, Source, Path_]] = []
        """Every block that asks for a fact."""
        self.swings: list[tuple[Node, Source, Path_]] = []
        """Every `time` block whose swing another goes on with."""
        self.ids: dict[str, tuple[Source, Path_]] = {}
        self.entry = Edge(0, "next")
        self.starts: dict[str, int] = {}
        """The node that a `go` to a block leads to, by the block's full id."""
        self.chain: list[Source] = [loaded.root]
        """The files that are being compiled, each included by the one before."""
        self.stages: list[tuple[int, str]] = []
        """The stages of the work, each with its first node."""
        self.counts_on: list[tuple[Source, Path_, str, str]] = []
        """Every fact that an included part counts on: the include's place, the file's name, the fact."""
        self.count = 0
        self.depth = 0

    def node(
        self, source: Source, path: Path_, prefix: str, kind: str, body: dict[str, Any]
    ) -> Node:
        """Lay down a node and lead every waiting edge to it."""
        id_ = prefix + body["id"]
        line, column = source.mark(path)
        node = Node(len(self.nodes), id_, kind, body, [], (), (), source.shown, line, column)
        node.shows = self.shown_facts(source, path, body)
        if "draws" in body:
            for name in DRAWN_NEEDS:
                self.need_fact(source, name, (*path, "draws"))
        for edge in self.open:
            edge.target = node.index
        self.open = []
        self.nodes.append(node)
        if kind in ("ask", "time", "check"):
            self.asking.append((node, source, (*path, "fact")))
        return node

    def way(self, node: Node, label: str, guard: Condition | None = None) -> Edge:
        """A new way out of a node, waiting for its target."""
        edge = Edge(-1, label, guard)
        node.edges.append(edge)
        return edge

    def condition(self, source: Source, data: Any, path: Path_) -> Condition | None:
        """Read a condition; what is wrong is noted in place."""
        if source.full:
            return None
        try:
            return read_condition(data, self.facts)
        except WrongCondition:
            for fault in faults_in(data, self.facts):
                source.fault((*path, *fault.path), fault.code, str(fault))
            return None

    def need_fact(self, source: Source, name: str, path: Path_) -> bool:
        """Note a name that is not a fact's."""
        if name in self.facts:
            return True
        if not source.full:
            hint = meant(name, self.facts, "declare it under facts.")
            source.fault(path, "fact-unknown", f"There is no fact “{short(name)}”; {hint}")
        return False

    def shown_facts(self, source: Source, path: Path_, body: dict[str, Any]) -> tuple[str, ...]:
        """The facts that a block's texts and its lists name, each once, in order."""
        found: dict[str, None] = {}
        texts = [(body[key], (*path, key)) for key in TEXT_KEYS if key in body]
        texts += [
            (text, (*path, "caution", number, word))
            for number, caution in enumerate(body.get("caution", ()))
            for word, text in caution.items()
        ]
        for text, place in texts:
            stray = stray_brace(text)
            if stray:
                source.fault(place, "brace-stray", f"This text holds {stray}.")
                continue
            check_quantities(source, text, place)
            for name in names_in(text):
                if self.need_fact(source, name, place):
                    found[name] = None
        for key in LISTED_KEYS:
            for number, name in enumerate(body.get(key, ())):
                if self.need_fact(source, name, (*path, key, number)):
                    found[name] = None
        if "fact" in body and self.need_fact(source, body["fact"], (*path, "fact")):
            found[body["fact"]] = None
        if "holes" in body:
            found.update(dict.fromkeys(self.hole_facts(source, path, body["holes"])))
        return tuple(found)

    def hole_facts(self, source: Source, path: Path_, group: str) -> list[str]:
        """The facts that say where a group of holes goes and what it takes: a step that lists the holes shows them."""
        from guide.trade.holes.rows import basis  # only a procedure that lists holes needs it

        parts = basis(group)
        found = {
            fact.part if fact.computation == "setting-out" else name: name
            for name, fact in self.facts.items()
            if name in parts or (fact.computation == "setting-out" and fact.part in parts)
        }
        missing = set(parts) - set(found)
        if missing:
            message = (
                f"“holes: {group}” depends on {', '.join(sorted(missing))} of setting-out;"
                " declare them under parts."
            )
            source.fault((*path, "holes"), "fact-unknown", message)
        return list(found.values())

    def blocks(
        self, source: Source, blocks: list[schema.AnyBlock], path: Path_, prefix: str
    ) -> None:
        """Compile a list of blocks in order."""
        self.depth += 1
        for index, block in enumerate(blocks):
            self.count += 1
            if self.count > MOST_BLOCKS:
                break
            if self.depth > DEEPEST:
                source.fault(
                    (*path, index),
                    "too-deep",
                    f"Blocks are nested more than {DEEPEST} deep here; flatten them.",
                )
                break
            self.block(source, block, (*path, index), prefix)
        self.depth -= 1

    def block(self, source: Source, block: schema.AnyBlock, path: Path_, prefix: str) -> None:
        """Compile one block, after its `when` if it has one."""
        kind = block.kind
        shape: schema.BlockShape = getattr(block, kind)
        inner = (*path, kind)
        self.take_id(source, prefix, shape.id, (*inner, "id"))
        self.starts.setdefault(prefix + shape.id, len(self.nodes))
        self.unfilled(source, shape, inner)
        need_hazards(source, self.loaded.hazards, getattr(shape, "hazards", ()), inner)
        skip: list[Edge] = []
        yes: Edge | None = None
        if shape.when is not None:
            guard = self.condition(source, shape.when, (*inner, "when"))
            gate = self.node(source, (*inner, "when"), prefix, "when", {"id": f"{shape.id}?"})
            yes = self.way(gate, "yes", guard)
            skip = [self.way(gate, "no", conditions.Not(guard) if guard is not None else None)]
            self.open = [yes]
        low = len(self.nodes)
        getattr(self, f"compile_{kind}")(source, shape, inner, prefix)
        if yes is not None:
            yes.inside = (low, len(self.nodes))
        self.open += skip

    def take_id(self, source: Source, prefix: str, id_: str, path: Path_) -> None:
        """Note an id used twice."""
        full = prefix + id_
        if id_ in (COUNTS_ON, END_OF_PART):
            source.fault(
                path, "name-reserved", f"“{id_}” has a meaning of its own here; choose another id."
            )
        if full in self.ids:
            first, first_path = self.ids[full]
            source.fault(
                path,
                "id-twice",
                f"The id “{id_}” is already used on line {first.mark(first_path)[0]}; choose another.",
            )
        else:
            self.ids[full] = (source, path)

    def unfilled(self, source: Source, shape: schema.BlockShape, path: Path_) -> None:
        """Note a fact in braces in a text that is shown as written."""
        if not isinstance(shape, schema.CheckShape):
            self.no_limit(source, shape, path)
        texts: list[tuple[str, Path_]] = []
        for key in UNFILLED_KEYS:
            value = getattr(shape, key, None) or []
            parts = [value] if isinstance(value, str) else value
            texts += [(text, (*path, key, number)) for number, text in enumerate(parts)]
        picture: schema.PictureShape | None = getattr(shape, "picture", None)
        if picture is not None:
            texts.append((picture.says, (*path, "picture", "says")))
        for text, place in texts:
            for name in names_in(text):
                if name in self.facts:
                    message = f"“{{{name}}}” is not filled in here; show it in text or say."
                    source.fault(place, "brace-stray", message)

    def no_limit(self, source: Source, shape: schema.BlockShape, path: Path_) -> None:
        """Note `{limit}` in the texts of a block that has no limit with a number."""
        texts = [(getattr(shape, key, None) or "", (*path, key)) for key in TEXT_KEYS]
        for number, caution in enumerate(getattr(shape, "caution", ())):
            told = caution.model_dump(exclude_none=True)
            texts += [(text, (*path, "caution", number, word)) for word, text in told.items()]
        for text, place in texts:
            if has_limit(text):
                message = f"“{{{LIMIT}}}” is filled in only in a check whose limit has a number; write the words."
                source.fault(place, "brace-stray", message)

    def plain_step(
        self, source: Source, shape: schema.BlockShape, path: Path_, prefix: str, kind: str
    ) -> Node:
        """A block with one way on."""
        node = self.node(source, path, prefix, kind, _body(shape))
        self.open = [self.way(node, "next")]
        return node

    def compile_do(self, source: Source, shape: schema.DoShape, path: Path_, prefix: str) -> None:
        self.plain_step(source, shape, path, prefix, "do")

    def asked(self, source: Source, name: str, path: Path_) -> None:
        """Note a question for a fact that is computed."""
        fact = self.facts.get(name)
        if fact is not None and fact.worked:
            source.fault(
                (*path, "fact"), "fact-worked", f"“{name}” is computed; show it with a work block."
            )

    def compile_ask(self, source: Source, shape: schema.AskShape, path: Path_, prefix: str) -> None:
        self.asked(source, shape.fact, path)
        self.plain_step(source, shape, path, prefix, "ask")

    def compile_work(
        self, source: Source, shape: schema.WorkShape, path: Path_, prefix: str
    ) -> None:
        fact = self.facts.get(shape.fact)
        if fact is not None and not fact.worked:
            source.fault(
                (*path, "fact"), "fact-asked", f"“{shape.fact}” is asked, not computed; use ask."
            )
        self.plain_step(source, shape, path, prefix, "work")

    def compile_time(
        self, source: Source, shape: schema.TimeShape, path: Path_, prefix: str
    ) -> None:
        fact = self.facts.get(shape.fact)
        if fact is not None and fact.kind != "time":
            source.fault(
                (*path, "fact"), "unit-wrong", f"“{shape.fact}” is a {fact.kind}, not a time."
            )
        node = self.plain_step(source, shape, path, prefix, "time")
        if shape.same_swing is not None:
            node.body["same_swing"] = prefix + shape.same_swing
            self.swings.append((node, source, (*path, "same_swing")))

    def compile_hold(
        self, source: Source, shape: schema.HoldShape, path: Path_, prefix: str
    ) -> None:
        self.plain_step(source, shape, path, prefix, "hold")

    def compile_end(self, source: Source, shape: schema.EndShape, path: Path_, prefix: str) -> None:
        body = _body(shape)
        if shape.leads_to is not None:
            body["next_title"] = self.title_of_next(source, shape.leads_to, (*path, "leads_to"))
        self.node(source, path, prefix, "end", body)
        self.open = []

    def title_of_next(self, source: Source, name: str, path: Path_) -> str:
        """The title of the procedure that an end leads to; one that is missing is a finding."""
        title = title_of(name, source.path)
        if title is None:
            known = [entry.name for entry in catalogue("procedure") if title_in(entry.path)]
            hint = meant(name, known, "look at the spelling.")
            said = f"There is no procedure “{short(name)}” to go on with; {hint}"
            source.fault(path, "next-unknown", said)
        return title or name

    def compile_check(
        self, source: Source, shape: schema.CheckShape, path: Path_, prefix: str
    ) -> None:
        limit: Condition | None = None
        fact = self.facts.get(shape.fact)
        if fact is not None:
            try:
                limit = read_limit(fact, shape.limit, self.facts)
            except WrongCondition as error:
                source.fault((*path, "limit", *error.path), error.code, str(error))
        node = self.node(source, path, prefix, "check", _body(shape, "otherwise"))
        if not isinstance(limit, conditions.Compare | conditions.Between | conditions.Against):
            self.no_limit(source, shape, path)
        if limit is not None:
            self.limits[node.index] = limit
            extra = tuple(n for n in conditions.facts_of(limit) if n not in node.shows)
            node.shows += extra
        met = self.way(node, "met", limit)
        failed = self.way(node, "not met", conditions.Not(limit) if limit is not None else None)
        self.otherwise(source, shape.otherwise, (*path, "otherwise"), prefix, shape.id, failed)
        self.open.append(met)

    def otherwise(
        self,
        source: Source,
        shape: schema.OtherwiseShape,
        path: Path_,
        prefix: str,
        owner: str,
        edge: Edge,
    ) -> None:
        """Compile the branch after a failure: steps, then perhaps a jump."""
        self.open = [edge]
        low = len(self.nodes)
        self.blocks(source, shape.steps, (*path, "steps"), prefix)
        if shape.go is not None:
            jump = self.node(source, (*path, "go"), prefix, "go", {"id": f"{owner}>"})
            way = self.way(jump, "go")
            self.jumps.append((way, jump.index, shape.go, prefix, source, (*path, "go")))
        edge.inside = (low, len(self.nodes))

    def compile_by_case(
        self, source: Source, shape: schema.ByCaseShape, path: Path_, prefix: str
    ) -> None:
        node = self.node(source, path, prefix, "by_case", {"id": shape.id})
        ends: list[Edge] = []
        for number, case in enumerate(shape.cases):
            here = (*path, "cases", number)
            self.take_id(source, prefix, f"{shape.id}/{case.id}", (*here, "id"))
            guard = self.condition(source, case.when, (*here, "when"))
            edge = self.way(node, case.id, guard)
            self.open = [edge]
            low = len(self.nodes)
            self.blocks(source, case.steps, (*here, "steps"), prefix)
            edge.inside = (low, len(self.nodes))
            ends += self.open
        self.open = ends

    def compile_repeat(
        self, source: Source, shape: schema.RepeatShape, path: Path_, prefix: str
    ) -> None:
        low = len(self.nodes)
        self.blocks(source, shape.steps, (*path, "steps"), prefix)
        until = self.condition(source, shape.until, (*path, "until"))
        node = self.node(source, path, prefix, "repeat", {"id": shape.id})
        if until is not None:
            self.untils[node.index] = until
        done = self.way(node, "until", until)
        again = self.way(node, "again")
        again.target, again.loop = low, len(self.loops)
        self.loops.append(Loop(low, node.index, shape.at_most))
        spent = self.way(node, "spent")
        self.otherwise(source, shape.otherwise, (*path, "otherwise"), prefix, shape.id, spent)
        self.open.append(done)

    def compile_each(
        self, source: Source, shape: schema.EachShape, path: Path_, prefix: str
    ) -> None:
        if self.need_fact(source, shape.fact, (*path, "fact")):
            fact = self.facts[shape.fact]
            if fact.kind != "choice" or fact.unsure:
                message = f"“{shape.fact}” has no answers to take in turn; make it a choice without unsure."
                source.fault((*path, "fact"), "turn-fact", message)
        for key, names in (("keeps", shape.keeps), ("suggests", shape.suggests)):
            for number, name in enumerate(names):
                self.need_fact(source, name, (*path, key, number))
        turn = {"id": f"{shape.id}+", "turn": shape.fact, "suggests": shape.suggests}
        begins = self.node(source, path, prefix, "turn", turn)
        self.open = [self.way(begins, "next")]
        self.blocks(source, shape.steps, (*path, "steps"), prefix)
        within = _set_within(self.nodes[begins.index + 1 :])
        begins.body["forgets"] = [
            name
            for name, fact in self.facts.items()
            if name in within and not fact.worked and name not in shape.keeps
        ]
        for key, names in (("keeps", shape.keeps), ("suggests", shape.suggests)):
            for number, name in enumerate(names):
                if name not in within and name in self.facts:
                    message = f"“{short(name)}” is not asked in these turns; take it out of {key}."
                    source.fault((*path, key, number), "turn-list", message)
        goes_on = self.condition(source, shape.goes_on, (*path, "goes_on"))
        node = self.node(source, path, prefix, "repeat", {"id": shape.id})
        until = conditions.Not(goes_on) if goes_on is not None else None
        if until is not None:
            self.untils[node.index] = until
        done = self.way(node, "until", until)
        again, spent = self.way(node, "again"), self.way(node, "spent")
        again.target, again.loop = begins.index, len(self.loops)
        turns = len(self.facts[shape.fact].options) if shape.fact in self.facts else 1
        self.loops.append(Loop(begins.index, node.index, max(turns, 1)))
        self.open = [done, spent]

    def compile_include(
        self, source: Source, shape: schema.IncludeShape, path: Path_, prefix: str
    ) -> None:
        inner = self.loaded.included(source, shape.file)
        if inner is None or inner in self.chain:
            return  # noted when the files were gathered
        if not isinstance(inner.shape, schema.ProcedureShape):
            return
        for number, name in enumerate(inner.shape.counts_on):
            if self.need_fact(inner, name, ("counts_on", number)):
                self.counts_on.append((source, (*path, "file"), shape.file, name))
        if (
            shape.stage is not None
            and not prefix
            and (not self.stages or self.stages[-1][1] != shape.stage)
        ):
            self.stages.append((len(self.nodes), shape.stage))
        self.chain.append(inner)
        self.blocks(inner, inner.shape.steps, ("steps",), f"{prefix}{shape.id}/")
        self.chain.pop()

    def join_jumps(self) -> None:
        """Lead every `go` to its block, and make a loop of each that goes back."""
        for way, leaves, name, prefix, source, path in self.jumps:
            target = self.starts.get(prefix + name)
            if target is None or "/" in name or target >= len(self.nodes):
                here = [one.removeprefix(prefix) for one in self.starts if one.startswith(prefix)]
                known = [one for one in here if "/" not in one]
                hint = meant(name, known, "name a block of this file.")
                message = f"This file has no block “{short(name)}” to go to; {hint}"
                source.fault(path, "block-unknown", message)
                continue
            way.target = target
            self.need_no_turn_entered(leaves, target, name, source, path)
            if target <= leaves:
                way.loop = len(self.loops)
                self.loops.append(Loop(target, leaves))

    def need_no_turn_entered(
        self, leaves: int, target: int, name: str, source: Source, path: Path_
    ) -> None:
        """Note a jump from outside into the steps of an `each`: it would be nobody's turn there."""
        for loop in self.loops:
            inside = loop.low < target <= loop.high and not loop.low <= leaves <= loop.high
            if inside and self.nodes[loop.low].kind == "turn" and loop.at_most:
                each = self.nodes[loop.high].id
                message = (
                    f"“{short(name)}” is a step of “{short(each)}”, whose turns begin at its first step; "
                    "go to that block itself."
                )
                source.fault(path, "turn-entered", message)

    def need_unasked_turns(self) -> None:
        """Note each question about whose turn it is."""
        turns = {node.body["turn"] for node in self.nodes if node.kind == "turn"}
        for node, source, path in self.asking:
            if node.body["fact"] in turns:
                message = f"“{short(node.body['fact'])}” says whose turn it is and is never asked; branch on it."
                source.fault(path, "turn-fact", message)

    def join_swings(self) -> None:
        """Note each `same_swing` that names a block that measures no time, or one before its own."""
        timed = {node.id: node.index for node in self.nodes if node.kind == "time"}
        for node, source, path in self.swings:
            name = node.body["same_swing"]
            if timed.get(name, -1) <= node.index:
                hint = meant(name, [one for one in timed if one != node.id], "name a later one.")
                message = f"No time block “{short(name)}” follows this one; {hint}"
                source.fault(path, "block-unknown", message)

    def need_counts_on(self) -> None:
        """Note each include whose part counts on a fact that no block asks."""
        asked = _set_within(self.nodes)
        for source, path, file, name in self.counts_on:
            if not self.comes_about(name, asked):
                message = f"“{short(file)}” counts on “{name}”, which nothing asks; ask it before."
                source.fault(path, "counts-on-not-known", message)

    def comes_about(self, name: str, asked: set[str]) -> bool:
        """Whether a fact is asked somewhere, or computed from such. A circle was noted elsewhere."""
        fact = self.facts[name]
        if not fact.worked:
            return name in asked
        return all(one in asked for one in self.leaves(name, set()))

    def leaves(self, name: str, seen: set[str]) -> list[str]:
        """The asked facts that a computed fact cannot do without."""
        seen.add(name)
        found: list[str] = []
        fact = self.facts[name]
        for wanted, filler in fact.using.items():
            if filler.startswith("=") or wanted in fact.optional or filler not in self.facts:
                continue
            if not self.facts[filler].worked:
                found.append(filler)
            elif filler not in seen:
                found += self.leaves(filler, seen)
        return [*found, *(names[0] for names in fact.rounds.values())]

    def number_loops(self) -> None:
        """Tell every node which loops it is part of."""
        starts: dict[int, list[int]] = {}
        for number, loop in enumerate(self.loops):
            starts.setdefault(loop.low, []).append(number)
        active: list[int] = []
        for node in self.nodes:
            active = [n for n in active if self.loops[n].high >= node.index]
            active += starts.get(node.index, [])
            node.loops = tuple(active)


def _set_within(nodes: list[Node]) -> set[str]:
    """The facts that blocks ask for or take in turn. A computed one in a check is named too, and never set."""
    asked = {node.body["fact"] for node in nodes if node.kind in ("ask", "time", "check")}
    return asked | {node.body["turn"] for node in nodes if node.kind == "turn"}


def _body(shape: schema.BlockShape, *left_out: str) -> dict[str, Any]:
    """The body of a block without the keys that the graph holds itself."""
    data = shape.model_dump(exclude_defaults=True, exclude={"when", *left_out})
    if "caution" in data:
        data["caution"] = [
            {word: text for word, text in caution.items() if text is not None}
            for caution in data["caution"]
        ]
    return data


def compile_procedure(loaded: Loaded) -> tuple[Graph | None, list[Finding]]:
    """The graph of a loaded procedure, and every finding so far.

    The graph is None if the file's shape was wrong or it grew too large, and for a file of facts.
    """
    shape = loaded.root.shape
    if not isinstance(shape, schema.ProcedureShape):
        return None, _telling(loaded)
    compiler = _Compiler(loaded)
    compiler.open = [compiler.entry]
    _ask_counts_on(compiler, shape)
    compiler.blocks(loaded.root, shape.steps, ("steps",), "")
    if compiler.count > MOST_BLOCKS:
        message = f"More than {MOST_BLOCKS} blocks are here, includes counted; split the work."
        loaded.root.fault(("steps",), "too-large", message, key=True)
        return None, _telling(loaded)
    _close(compiler, shape)
    compiler.join_jumps()
    compiler.join_swings()
    compiler.need_unasked_turns()
    compiler.number_loops()
    nested = [replace(loop) for loop in compiler.loops]
    nest(nested)
    if any(len(around(nested, node.index)) > LOOPS_DEEP for node in compiler.nodes):
        message = f"A block has more than {LOOPS_DEEP} loops around it; use fewer ways back."
        loaded.root.fault(("steps",), "too-deep", message, key=True)
        return None, _telling(loaded)
    compiler.need_counts_on()
    for number, name in enumerate(shape.counts_on):
        compiler.need_fact(loaded.root, name, ("counts_on", number))
    graph = Graph(
        shape.procedure,
        shape.edition,
        shape.title,
        shape.about or "",
        loaded.facts,
        compiler.nodes,
        compiler.loops,
        compiler.limits,
        compiler.untils,
        digest_of(loaded),
        loaded.hazards,
        compiler.stages,
        shape.purpose or "",
    )
    return graph, _telling(loaded)


def _telling(loaded: Loaded) -> list[Finding]:
    """The findings, without those that only follow from a file that could not be read."""
    follow = () if loaded.whole else ("fact-unknown", "counts-on-not-known", "no-end")
    return [finding for finding in loaded.gather() if finding.code not in follow]


def _ask_counts_on(compiler: _Compiler, shape: schema.ProcedureShape) -> None:
    """A part run or checked by itself asks first for what it counts on."""
    todo = list(shape.counts_on)
    asked: set[str] = set()
    while todo:
        name = todo.pop(0)
        fact = compiler.facts.get(name)
        if fact is None or name in asked:
            continue
        asked.add(name)
        if fact.worked:
            todo += fact.input_facts()
            continue
        root = compiler.loaded.root
        node = compiler.node(
            root,
            ("counts_on",),
            f"{COUNTS_ON}/",
            "ask",
            {"id": name.replace("_", "-"), "fact": name},
        )
        compiler.open = [compiler.way(node, "next")]


def _close(compiler: _Compiler, shape: schema.ProcedureShape) -> None:
    """End a part that was run by itself; a whole procedure must say its own ends."""
    if not compiler.open or not compiler.nodes:
        return
    root = compiler.loaded.root
    if "counts_on" not in shape.model_fields_set:
        root.fault(
            ("steps",),
            "no-end",
            "The run can fall off the end of the steps; finish every way with an end block.",
            key=True,
        )
    body = {"id": END_OF_PART, "outcome": "finished", "text": "This part is done."}
    compiler.node(root, ("steps",), "", "end", body)
    compiler.open = []


def digest_of(loaded: Loaded) -> str:
    """A digest over every source, in the order they were read."""
    digest = hashlib.sha256()
    for source in loaded.sources.values():
        data = source.text.encode("utf-8", "surrogatepass")
        digest.update(b"%d:" % len(data))
        digest.update(data)
    return digest.hexdigest()
