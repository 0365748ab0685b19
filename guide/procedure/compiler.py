"""From validated blocks to the one graph.

Nodes are laid down in the order of the file. `open` holds the edges that wait for the next node;
a branch or a loop is then a range of node indexes, which is what abandonment and tries rest on.
"""

import hashlib
from typing import Any

from guide.procedure import conditions, schema
from guide.procedure.conditions import Condition, WrongCondition, read_condition, read_limit
from guide.procedure.findings import Finding
from guide.procedure.graph import Edge, Graph, Loop, Node
from guide.procedure.load import Loaded
from guide.procedure.source import Path_, Source
from guide.procedure.spelling import meant
from guide.procedure.templates import names_in, stray_brace

TEXT_KEYS = ("text", "say", "why", "watch", "looks_right")
MOST_NODES = 200_000
END_OF_PART = "end-of-part"


class _Compiler:
    def __init__(self, loaded: Loaded) -> None:
        self.loaded = loaded
        self.facts = loaded.facts
        self.nodes: list[Node] = []
        self.loops: list[Loop] = []
        self.limits: dict[int, Condition] = {}
        self.untils: dict[int, Condition] = {}
        self.open: list[Edge] = []
        self.jumps: list[tuple[Node, Edge, str, Source, Path_]] = []
        self.ids: dict[str, tuple[Source, Path_]] = {}
        self.entry = Edge(0, "next")
        self.full = False

    def node(
        self, source: Source, path: Path_, prefix: str, kind: str, body: dict[str, Any]
    ) -> Node:
        """Lay down a node and lead every waiting edge to it."""
        id_ = prefix + body["id"]
        line, column = source.mark(path)
        node = Node(len(self.nodes), id_, kind, body, [], (), (), source.shown, line, column)
        node.shows = self.shown_facts(source, path, body)
        for edge in self.open:
            edge.target = node.index
        self.open = []
        self.nodes.append(node)
        self.full = self.full or len(self.nodes) > MOST_NODES
        return node

    def way(self, node: Node, label: str, guard: Condition | None = None) -> Edge:
        """A new way out of a node, waiting for its target."""
        edge = Edge(-1, label, guard)
        node.edges.append(edge)
        return edge

    def condition(self, source: Source, data: Any, path: Path_) -> Condition | None:
        """Read a condition; what is wrong is noted in place."""
        try:
            return read_condition(data, self.facts)
        except WrongCondition as error:
            source.fault((*path, *error.path), error.code, str(error))
            return None

    def need_fact(self, source: Source, name: str, path: Path_) -> bool:
        """Note a name that is no fact."""
        if name in self.facts:
            return True
        hint = meant(name, self.facts, "declare it under facts.")
        source.fault(path, "fact-unknown", f"There is no fact “{name}”; {hint}")
        return False

    def shown_facts(self, source: Source, path: Path_, body: dict[str, Any]) -> tuple[str, ...]:
        """The facts a block's texts and its `reads` name, each once, in order."""
        found: dict[str, None] = {}
        texts = [(body[key], (*path, key)) for key in TEXT_KEYS if key in body]
        texts += [
            (text, (*path, "caution"))
            for caution in body.get("caution", ())
            for text in caution.values()
        ]
        for text, place in texts:
            stray = stray_brace(text)
            if stray:
                source.fault(place, "brace-stray", f"This text holds {stray}.")
                continue
            for name in names_in(text):
                if self.need_fact(source, name, place):
                    found[name] = None
        for key in ("reads", "reads_back"):
            for number, name in enumerate(body.get(key, ())):
                if self.need_fact(source, name, (*path, key, number)):
                    found[name] = None
        if "fact" in body and self.need_fact(source, body["fact"], (*path, "fact")):
            found[body["fact"]] = None
        return tuple(found)

    def blocks(
        self, source: Source, blocks: list[schema.AnyBlock], path: Path_, prefix: str
    ) -> None:
        """Compile a list of blocks in order."""
        for index, block in enumerate(blocks):
            if self.full:
                return
            self.block(source, block, (*path, index), prefix)

    def block(self, source: Source, block: schema.AnyBlock, path: Path_, prefix: str) -> None:
        """Compile one block, behind its `when` where it has one."""
        kind = block.kind
        shape: schema.BlockShape = getattr(block, kind)
        inner = (*path, kind)
        self.take_id(source, prefix, shape.id, (*inner, "id"))
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
        if full in self.ids:
            first, first_path = self.ids[full]
            source.fault(
                path,
                "id-twice",
                f"The id “{id_}” is already used on line {first.mark(first_path)[0]}; choose another.",
            )
        else:
            self.ids[full] = (source, path)

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
        self.plain_step(source, shape, path, prefix, "time")

    def compile_hold(
        self, source: Source, shape: schema.HoldShape, path: Path_, prefix: str
    ) -> None:
        self.plain_step(source, shape, path, prefix, "hold")

    def compile_end(self, source: Source, shape: schema.EndShape, path: Path_, prefix: str) -> None:
        self.node(source, path, prefix, "end", _body(shape))
        self.open = []

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
        """What follows a failure: steps, then perhaps a jump."""
        self.open = [edge]
        low = len(self.nodes)
        self.blocks(source, shape.steps, (*path, "steps"), prefix)
        if shape.go is not None:
            jump = self.node(source, (*path, "go"), prefix, "go", {"id": f"{owner}>"})
            way = self.way(jump, "go")
            self.jumps.append((jump, way, prefix + shape.go, source, (*path, "go")))
        edge.inside = (low, len(self.nodes))

    def compile_choose(
        self, source: Source, shape: schema.ChooseShape, path: Path_, prefix: str
    ) -> None:
        node = self.node(source, path, prefix, "choose", {"id": shape.id})
        ends: list[Edge] = []
        for number, branch in enumerate(shape.branches):
            here = (*path, "branches", number)
            self.take_id(source, prefix, f"{shape.id}/{branch.id}", (*here, "id"))
            guard = self.condition(source, branch.when, (*here, "when"))
            edge = self.way(node, branch.id, guard)
            self.open = [edge]
            low = len(self.nodes)
            self.blocks(source, branch.steps, (*here, "steps"), prefix)
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
        self.loops.append(Loop(low, node.index, shape.tries))
        spent = self.way(node, "spent")
        self.otherwise(source, shape.otherwise, (*path, "otherwise"), prefix, shape.id, spent)
        self.open.append(done)

    def compile_include(
        self, source: Source, shape: schema.IncludeShape, path: Path_, prefix: str
    ) -> None:
        inner = self.loaded.included(source, shape.file)
        if inner is None or inner.shape is None or inner is self.loaded.root:
            return
        if prefix.count("/") > 20:
            return
        self.blocks(inner, inner.shape.steps, ("steps",), f"{prefix}{shape.id}/")

    def join_jumps(self) -> None:
        """Lead every `go` to its block, and make a loop of each that goes back."""
        first: dict[str, int] = {}
        for node in self.nodes:
            first.setdefault(node.id.removesuffix("?").removesuffix(">"), node.index)
            if node.id.endswith("?"):
                first[node.id[:-1]] = node.index
        for jump, way, name, source, path in self.jumps:
            target = first.get(name)
            if target is None:
                known = [n.rpartition("/")[2] for n in first]
                hint = meant(name.rpartition("/")[2], known, "name a block of this file.")
                short = name.rpartition("/")[2]
                source.fault(path, "block-unknown", f"There is no block “{short}” to go to; {hint}")
                continue
            way.target = target
            if target <= jump.index:
                way.loop = len(self.loops)
                self.loops.append(Loop(target, jump.index))

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


def _body(shape: schema.BlockShape, *left_out: str) -> dict[str, Any]:
    """What a block says, without what the graph says better."""
    data = shape.model_dump(exclude_defaults=True, exclude={"when", *left_out})
    if "caution" in data:
        data["caution"] = [
            {word: text for word, text in caution.items() if text is not None}
            for caution in data["caution"]
        ]
    return data


def compile_procedure(loaded: Loaded) -> tuple[Graph | None, list[Finding]]:
    """The graph of a loaded procedure, and every finding so far.

    The graph is None where a file's shape was wrong: its faults are to be mended first.
    """
    shape: schema.ProcedureShape | None = loaded.root.shape
    if shape is None:
        return None, loaded.gather()
    compiler = _Compiler(loaded)
    compiler.open = [compiler.entry]
    _ask_given(compiler, shape)
    compiler.blocks(loaded.root, shape.steps, ("steps",), "")
    _close(compiler, shape)
    compiler.join_jumps()
    compiler.number_loops()
    if compiler.full:
        loaded.root.fault((), "too-large", f"More than {MOST_NODES} steps; split the procedure.")
    for number, name in enumerate(shape.given):
        compiler.need_fact(loaded.root, name, ("given", number))
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
    )
    return graph, loaded.gather()


def _ask_given(compiler: _Compiler, shape: schema.ProcedureShape) -> None:
    """A part run or checked by itself asks first for what it is given."""
    todo = list(shape.given)
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
            root, ("given",), "given/", "ask", {"id": name.replace("_", "-"), "fact": name}
        )
        compiler.open = [compiler.way(node, "next")]


def _close(compiler: _Compiler, shape: schema.ProcedureShape) -> None:
    """End a part that was run by itself; a whole procedure must say its own ends."""
    if not compiler.open or not compiler.nodes:
        return
    root = compiler.loaded.root
    if "given" not in shape.model_fields_set:
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
        data = source.text.encode()
        digest.update(b"%d:" % len(data))
        digest.update(data)
    return digest.hexdigest()
