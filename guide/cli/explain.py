"""`hingeside check --explain [CODE]`: the manual of findings."""

import json
from dataclasses import asdict

from guide.errors import DONE, UNKNOWN


def explain(code: str, *, as_json: bool) -> int:
    """Print a finding's page, or with no code one line for each; an unknown code is status 2."""
    from guide.checker.manual import all_codes, page_of, printed
    from guide.cli.messages import say
    from guide.text import meant, printable, short

    if code and code not in all_codes():
        hint = meant(code, all_codes(), "“hingeside check --explain” lists them all.")
        say(f"hingeside: There is no finding “{printable(short(code))}”; {hint}")
        return UNKNOWN
    pages = [page_of(one) for one in ([code] if code else all_codes())]
    if as_json:
        for page in pages:
            print(json.dumps(asdict(page), ensure_ascii=False))
    elif code:
        print(printed(pages[0]))
    else:
        for page in pages:
            print(f"{page.code:<20} {page.level:<8} {page.title}")
    return DONE
