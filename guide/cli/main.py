"""`hingeside`: the verbs, and the one place where errors become a sentence and an exit status.

Each verb is a module with `EXAMPLES`, `arguments(parser)` and `run(options) -> int`, imported when it is called. It may
have `help_of(words)` too, for what is named after the verb.
"""

import atexit
import gc
import importlib
import io
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from types import ModuleType

from guide.errors import DONE, NO_DEVICE, UNKNOWN, HingesideError

VERBS = {
    "run": "carry out a procedure on one opening",
    "rehearse": "run scenarios, and compare each with what it must show",
    "check": "find what is wrong in a procedure file",
    "chart": "draw a procedure as a flow chart",
    "schema": "print the JSON Schema of a procedure file, for an editor",
    "work": "calculate one thing: spring size, holes, …",
    "plan": "plan every door of a door schedule, and the pick list",
    "site": "list the doors of a site, what became of each, and its yearly rounds",
    "practice": "tune a model door, and read a debrief",
    "record": "write the record of a job, or check that it was not altered",
    "template": "write the full-size template of the holes, as a PDF",
    "sheet": "copy a maker's sheet number by number into a file",
    "hear": "show what is understood in sound files",
    "voice": "show which voice features work here, and how to get the rest",
    "settings": "show or change how you work",
    "merge": "unite the jobs of several devices",
    "backup": "write one file with everything that is kept",
    "restore": "take in what a backup holds",
    "crew": "share jobs through a PostgreSQL server",
    "serve": "open the app to a browser",
    "completion": "teach a shell to complete this command",
    "handbook": "read the handbook: safety, voice, words of the trade, …",
}


_CATALOGUES = "HINGESIDE_CATALOGUES"
"""The variable with the folder of a translation's catalogues, for those who write one."""
_COMPLETING = "_ARGCOMPLETE"
"""The variable that a shell sets when it wants to complete a line; see `hingeside completion`."""
CHECK_COLLECTS_AT = 500_000
"""Objects made before garbage is looked for: more than the check of all our own files makes, and some 50 MB."""


def main(argv: Sequence[str] | None = None) -> int:
    """Run one verb and return its exit status."""
    if _COMPLETING in os.environ:
        from guide.cli.completing import complete  # only a shell's completion needs it

        complete(os.environ.get("COMP_LINE", ""), VERBS)
    if _CATALOGUES in os.environ:
        from guide.translation import use_catalogue  # before a text is imported

        use_catalogue(Path(os.environ[_CATALOGUES]))
    arguments = list(sys.argv[1:] if argv is None else argv)
    _never_choke()
    try:
        return _verb(arguments)
    except KeyboardInterrupt:
        return DONE
    except BrokenPipeError:
        # The reader went away; nothing is left to say, and Python must not try at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE


def _never_choke() -> None:
    """Read and print what the terminal's character set cannot hold as a mark, not as a traceback."""
    for stream, errors in (
        (sys.stdin, "replace"),
        (sys.stdout, "backslashreplace"),
        (sys.stderr, "backslashreplace"),
    ):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors=errors)


def _verb(arguments: list[str]) -> int:
    if arguments and arguments[0] in VERBS:
        _collect_seldom(arguments[0])
        module = importlib.import_module(f"guide.cli.{arguments[0]}")
        return guarded(lambda: _called(module, arguments))
    if arguments and arguments[0] in ("--version", "-V"):
        from guide.files.stored_form import VERSION

        print(f"hingeside {VERSION}")
        return DONE
    if arguments and arguments[0] in ("--help", "-h"):
        print(_help())
        return DONE
    if arguments:
        from guide.text import meant

        hint = meant(arguments[0], VERBS, f"there are {', '.join(VERBS)}.")
        sys.stderr.write(f"hingeside: “{arguments[0][:40]}” is not a command; {hint}\n")
        return UNKNOWN
    _collect_seldom("")
    from guide.cli import home

    return guarded(home.run)


def _called(module: ModuleType, arguments: list[str]) -> int:
    verb: Callable[[object], int] = module.run
    from guide.cli.options import parser_of

    name, *words = arguments
    if {"-h", "--help"} & set(words) and hasattr(module, "help_of") and module.help_of(words):
        print(module.help_of(words))
        return DONE
    parser = parser_of(name, VERBS[name], getattr(module, "EXAMPLES", ""))
    module.arguments(parser)
    return verb(parser.parse_intermixed_args(words))


def _collect_seldom(verb: str) -> None:
    """Let short work end before its garbage is looked for, and leave all of it to the system at the end."""
    if verb == "work":
        gc.disable()
    elif verb in ("check", "plan", "site", "run", "practice", ""):  # the app sets it back
        gc.set_threshold(CHECK_COLLECTS_AT)
    else:
        return
    atexit.register(gc.freeze)


def guarded(work: Callable[[], int]) -> int:
    """Do the work; known errors become one sentence and their exit status."""
    try:
        status = work()
        sys.stdout.flush()  # a full disk is reported here, not at exit
        return status
    except BrokenPipeError:
        raise
    except HingesideError as error:
        return _failed(error.status, str(error))
    except OSError as error:
        where = f" ({error.filename})" if error.filename else ""
        return _failed(NO_DEVICE, f"{error.strerror or 'The system refused'}{where}.")
    except ValueError as error:
        if "null byte" not in str(error):
            raise
        return _failed(UNKNOWN, "No file can have that name; check the spelling.")


def _failed(status: int, message: str) -> int:
    from guide.cli.messages import say

    say(f"hingeside: {message}")
    return status


def _help() -> str:
    lines = [
        "hingeside: a guide for people who fit and adjust surface-mounted door closers.",
        "",
        "  hingeside             the app",
    ]
    lines += [f"  hingeside {verb:<11} {words}" for verb, words in VERBS.items()]
    lines += [
        "",
        "“hingeside VERB --help” explains a verb, with examples. New here? hingeside practice 1",
    ]
    return "\n".join(lines)


if __name__ == "__main__":
    raise SystemExit(main())
