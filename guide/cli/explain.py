"""`hingeside check --explain [CODE]`: the manual of rules."""

import json

from guide.cli.main import DONE, UNKNOWN


def explain(code: str, *, as_json: bool) -> int:
    """Print a rule's page, or with no code one line a rule; an unknown code is status 2."""
    from guide.cli.errors import say
    from guide.procedure.checker.rules import RULES
    from guide.procedure.checker.rules.rule import page_of, printed
    from guide.text import meant, printable, short

    if code and code not in RULES:
        hint = meant(code, RULES, "“hingeside check --explain” lists them all.")
        say(f"hingeside: There is no finding “{printable(short(code))}”; {hint}")
        return UNKNOWN
    rules = [RULES[code]] if code else list(RULES.values())
    if as_json:
        for rule in rules:
            page = page_of(rule)
            data = {
                "code": rule.code,
                "level": rule.level,
                "acceptable": rule.acceptable,
                "title": page.title,
                "about": page.about,
                "do": page.do,
                "fails": page.fails,
                "passes": page.passes,
            }
            print(json.dumps(data, ensure_ascii=False))
    elif code:
        print(printed(rules[0]))
    else:
        for rule in rules:
            print(f"{rule.code:<20} {rule.level:<8} {page_of(rule).title}")
    return DONE
