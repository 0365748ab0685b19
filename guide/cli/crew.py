"""`hingeside crew init|push|pull URL`"""

import argparse
import json
import sys
import time
from dataclasses import asdict

from guide.cli.messages import Usage, left_out, say
from guide.cli.progress import Progress
from guide.cli.taken_in import tell
from guide.crew.server import LINK, WRITER, Server
from guide.errors import DONE
from guide.files.library import runs_folder, user_folder

ACTIONS = ("init", "push", "pull")
ABOUT = (
    "init prepares a PostgreSQL database, as its owner.",
    "push sends the lines of your jobs, and the photos, sites and sheets, that the server does not have.",
    "pull adds the jobs and files of the others to yours.",
    "Keep the password out of the link: in PGPASSWORD, or in ~/.pgpass.",
)
EXAMPLES = """\
  hingeside crew init postgresql://owner@server/jobs    once, by the owner of the database
  hingeside crew push postgresql://anna@server/jobs     send what the server does not have
  hingeside crew pull postgresql://anna@server/jobs     get what the others sent
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument("action", nargs="?", metavar="init|push|pull")
    parser.add_argument("url", nargs="?", metavar="URL", help=LINK)
    parser.add_argument("--json", action="store_true", help="one JSON object")
    parser.epilog = "\n".join([*filter(None, [parser.epilog]), *ABOUT])


def run(options: argparse.Namespace) -> int:
    """Prepare a crew's server, send jobs to it, or take in those of the others."""
    if options.action not in ACTIONS or options.url is None:
        raise Usage(f"Write crew init, crew push or crew pull, and the link {LINK}.")
    server = Server(options.url, _wait)
    try:
        if options.action == "init":
            return _init(server, options)
        return _push(server, options) if options.action == "push" else _pull(server, options)
    finally:
        server.close()


def _wait(seconds: float) -> None:
    """Wait before another try, and say so on a terminal."""
    if sys.stderr.isatty():
        say("hingeside: no connection; trying again…")
    time.sleep(seconds)


def _init(server: Server, options: argparse.Namespace) -> int:
    server.prepare()
    if options.json:
        print(json.dumps({"server": server.name, "role": WRITER}))
        return DONE
    print(f"Prepared: {server.name}. Lines can be added and read there, not changed or deleted.")
    print(
        f"For each person its owner writes: CREATE ROLE anna LOGIN PASSWORD '…' IN ROLE {WRITER};"
    )
    return DONE


def _push(server: Server, options: argparse.Namespace) -> int:
    from guide.crew.push import push

    with Progress("sending job") as shown:
        done = push(server, runs_folder(), shown.count)
    if options.json:
        print(json.dumps(asdict(done), ensure_ascii=False))
    else:
        files = f" and {done.files} other files" if done.files else ""
        print(
            f"{server.name}: {done.sent} lines{files} sent; it now has all of your {done.runs} jobs."
        )
    if done.again:
        say(
            f"hingeside: {server.name} had lost lines of {done.again} of your jobs, which were there; they were sent"
            " again. Ask the server's owner."
        )
    return left_out(done.left)


def _pull(server: Server, options: argparse.Namespace) -> int:
    from guide.crew.pull import pull
    from guide.crew.taking_in import DataFolder

    into = DataFolder(user_folder(), own=True)
    with Progress("getting job") as shown:
        pull(server, into, shown.count)
    return tell(into.outcome, user_folder(), options)
