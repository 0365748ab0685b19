"""`hingeside schema [procedure|record]`"""

import argparse

from guide.errors import DONE

OF = ("procedure", "record")
EXAMPLES = """\
  hingeside schema                                      to be sent into procedure.schema.json
  hingeside schema record                               of a record as JSON
"""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Add the options of the verb."""
    parser.add_argument(
        "of",
        nargs="?",
        choices=OF,
        default=OF[0],
        help="of what: a procedure file (the usual), or a record as JSON",
    )
    parser.add_argument(
        "--json", action="store_true", help="the same, since a schema is one JSON object"
    )


def run(options: argparse.Namespace) -> int:
    """Print the JSON Schema of a procedure file or of a record."""
    if options.of == OF[1]:
        from guide.papers.record.record_schema import written_schema as of_record

        print(of_record(), end="")
        return DONE
    from guide.procedure.json_schema import procedure_schema, written_schema

    print(written_schema(procedure_schema()), end="")
    return DONE
