"""`hingeside schema`"""

import argparse

from guide.errors import DONE

EXAMPLES = """\
  hingeside schema                                      to be sent into procedure.schema.json
  hingeside schema --json                               the same
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "--json", action="store_true", help="the same, since a schema is one JSON object"
    )


def run(options: argparse.Namespace) -> int:
    """Print the JSON Schema of a procedure file."""
    from guide.procedure.json_schema import procedure_schema, written_schema

    print(written_schema(procedure_schema()), end="")
    return DONE
