"""`hingeside settings [key=value...]`"""

import argparse
import json

from guide.cli.messages import Usage
from guide.errors import DONE
from guide.run.settings import (
    ALLOWED,
    load_settings,
    longest,
    save_settings,
    settings_path,
)
from guide.text import meant
from guide.trade.inputs import CODES, IBC_EDITIONS, NFPA_80_EDITIONS

_MEANINGS = {"rules": CODES, "nfpa_80": NFPA_80_EDITIONS, "ibc": IBC_EDITIONS}

EXAMPLES = """\
  hingeside settings                                    all of them
  hingeside settings units=metric name='A. Fitter'      change two
  hingeside settings rules=us nfpa_80=2010              rules and edition that are adopted
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "changes",
        nargs="*",
        metavar="key=value",
        help="what to change; if left out, the settings are shown",
    )
    parser.add_argument("--json", action="store_true", help="one JSON object")
    meanings = [
        f"  {key}={one}: {means[one]}" for key, means in _MEANINGS.items() for one in ALLOWED[key]
    ]
    parser.epilog = "\n".join([*filter(None, [parser.epilog]), "meanings:", *meanings])


def run(options: argparse.Namespace) -> int:
    """Show the settings, or change some."""
    settings = load_settings()
    for pair in options.changes:
        key, equals, value = pair.partition("=")
        known = settings._asdict()
        if not equals or key not in known:
            hint = meant(key, known, f"there are {', '.join(known)}.")
            raise Usage(f"“{pair[:40]}” is not a setting; {hint}")
        if key in ALLOWED and value not in ALLOWED[key]:
            raise Usage(f"{key} is one of {', '.join(ALLOWED[key])}.")
        if len(value) > longest(key) or not value.isprintable():
            raise Usage(f"{key} has at most {longest(key)} plain characters.")
        settings = settings._replace(**{key: value})
    if options.changes:
        save_settings(settings)
    if options.json:
        print(json.dumps(settings._asdict(), ensure_ascii=False))
        return DONE
    for key, value in settings._asdict().items():
        meaning = f"   ({_MEANINGS[key][value]})" if key in _MEANINGS else ""
        print(f"{key:<13} {value}{meaning}")
    print(f"kept in       {settings_path()}")
    return DONE
