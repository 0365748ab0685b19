"""Parts of a graph that lead into each other (strongly connected components; Tarjan 1972)."""

from collections.abc import Iterator


def strongly_connected(ways: dict[int, list[int]]) -> Iterator[list[int]]:
    """Each part of a graph whose nodes all lead to one another; without recursion, for long graphs."""
    number: dict[int, int] = {}
    lowest: dict[int, int] = {}
    stack: list[int] = []
    on_stack: set[int] = set()
    for root in ways:
        if root in number:
            continue
        work = [(root, 0)]
        while work:
            node, place = work.pop()
            if place == 0:
                number[node] = lowest[node] = len(number)
                stack.append(node)
                on_stack.add(node)
            for position in range(place, len(ways[node])):
                target = ways[node][position]
                if target not in number:
                    work += [(node, position + 1), (target, 0)]
                    break
                if target in on_stack:
                    lowest[node] = min(lowest[node], number[target])
            else:
                if lowest[node] == number[node]:
                    part = []
                    while True:
                        member = stack.pop()
                        on_stack.discard(member)
                        part.append(member)
                        if member == node:
                            break
                    yield part
                if work:
                    parent = work[-1][0]
                    lowest[parent] = min(lowest[parent], lowest[node])
