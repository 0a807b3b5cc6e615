"""Reads and writes the plan document; what cannot be used is BadInput with one sentence: where, what, what is allowed.

Whether a plan's numbers are true is not asked here: `recheck` recomputes them.
"""

from __future__ import annotations

import json
import re
from datetime import date
from typing import Any, NoReturn

from pydantic import ValidationError

from mealopt.documents.plan import SCHEMA, Plan
from mealopt.documents.sentences import refusal, shown
from mealopt.errors import BadInput

#: A week's plan takes some hundred kilobytes; what is longer than this, in characters, is something else.
MOST_CHARACTERS = 20_000_000

#: What is left of a number, of true, false or null where a document was cut in the middle of it.
_CUT_WORD = re.compile(r"[-+.\deE]*|[tfn][a-z]{0,4}")


def plan_from_text(text: str, where: str) -> Plan:
    """The plan in this JSON text; where: the words for its origin that a refusal begins with. Raises BadInput."""
    if len(text) > MOST_CHARACTERS:
        raise BadInput(f"{where}: read {len(text):,} characters; a plan has at most {MOST_CHARACTERS:,}")
    data = _parsed(text.removeprefix("\ufeff"), where)
    if not isinstance(data, dict):
        raise BadInput(f"{where}: read {shown(data)}; a plan document is expected, an object {{...}}")
    _check_schema(data, where)
    try:
        return Plan.model_validate(data)
    except ValidationError as error:
        raise BadInput(refusal(error, where)) from None


def plan_to_text(plan: Plan) -> str:
    """The document as JSON text: two spaces a level, keys in the order of the models. Raises BadInput on NaN."""
    data = plan.model_dump(mode="python", by_alias=True)
    try:
        return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False, default=_plain) + "\n"
    except (TypeError, ValueError) as error:
        raise BadInput(f"the plan cannot be written as JSON ({error}); plain data and finite numbers only") from None


def _plain(value: object) -> str:
    if isinstance(value, date):
        return value.isoformat()
    raise TypeError(f"{type(value).__name__} is not plain data")


def _parsed(text: str, where: str) -> Any:
    if not text.strip():
        raise BadInput(f"{where}: read an empty file; a plan document is expected")

    def constant(word: str) -> NoReturn:
        raise BadInput(f"{where}: read {word} for a number; a finite number is expected")

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        found = dict(pairs)
        if len(found) < len(pairs):
            names = [name for name, _ in pairs]
            twice = next(name for name in names if names.count(name) > 1)
            raise BadInput(f"{where}: read the key {shown(twice)} twice in one object; each key once is expected")
        return found

    try:
        return json.loads(text, parse_constant=constant, object_pairs_hook=once)
    except json.JSONDecodeError as error:
        raise BadInput(_broken(text, where, error)) from None
    except RecursionError:
        raise BadInput(f"{where}: read lists inside lists too deep to follow; a plan document is expected") from None
    except ValueError:
        # Not the parser's own error: Python turns no text of more than 4,300 digits into a number.
        raise BadInput(f"{where}: read a number of thousands of digits; a number in its range is expected") from None


def _broken(text: str, where: str, error: json.JSONDecodeError) -> str:
    spot = f"{where}, line {error.lineno}, column {error.colno}"
    rest = text[error.pos :].strip()
    begun = text.lstrip().startswith("{")
    if begun and (
        not rest or _CUT_WORD.fullmatch(rest) or error.msg.startswith(("Unterminated string", "Invalid \\u"))
    ):
        return f"{spot}: read a document that ends in the middle; it was cut off, a whole plan document is expected"
    reason = error.msg[:1].lower() + error.msg[1:]
    found = f"read {shown(rest.splitlines()[0])} " if rest else ""
    return f"{spot}: {found}which is not JSON ({reason}); a plan document in JSON is expected"


def _check_schema(data: dict[str, Any], where: str) -> None:
    form = data.get("schema")
    if form == SCHEMA:
        return
    allowed = f'"{SCHEMA}" is the one form that this program reads'
    if "schema" not in data:
        raise BadInput(f'{where}: read no "schema"; {allowed}')
    if isinstance(form, str) and re.fullmatch(r"mealopt/plan-\d+", form):
        raise BadInput(f"{where}, schema: read {shown(form)}, another version of the plan document; {allowed}")
    if isinstance(form, str) and form.startswith("mealopt/case-"):
        raise BadInput(f"{where}, schema: read {shown(form)}, which is a case, not a plan; {allowed}")
    raise BadInput(f"{where}, schema: read {shown(form)}; {allowed}")
