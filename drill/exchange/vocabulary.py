"""The names that our statements use: IRIs of verbs, activities and extensions.

Verbs and the type "question" are those of the ADL vocabulary
(http://adlnet.gov/expapi/verbs/, http://adlnet.gov/expapi/activities/).
"""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

HOME = "https://drill.invalid"
"""Where accounts are: a learner's own computer, so an address that cannot exist (RFC 2606)."""
RECORD = f"{HOME}/xapi/record"
"""The extension with the rest of a record and its checksum."""
TEMPLATE = f"{HOME}/xapi/template"
"""The extension with the text of a question's template, at its first question in a file."""

_VERBS = {
    "learner_name": "registered",
    "setting": "preferred",
    "sitting": "initialized",
    "sitting_end": "terminated",
    "asking": "attempted",
    "shown": "experienced",
    "reading": "commented",
    "faulty": "commented",
    "answer": "answered",
    "hint": "interacted",
    "verdict": "scored",
    "acceptance": "scored",
    "appeal": "commented",
}


def verb(name: str) -> dict[str, Any]:
    """The verb of a table's records, or of the two special cases "shown" and "hint"."""
    word = _VERBS[name]
    return {"id": f"http://adlnet.gov/expapi/verbs/{word}", "display": {"en": word}}


def actor(code: str) -> dict[str, Any]:
    """A learner: an account with the short code, nothing else about the person."""
    return {"objectType": "Agent", "account": {"homePage": HOME, "name": code}}


def activity(*path: str, name: str, question: bool = False) -> dict[str, Any]:
    """Something one can do, at a place below `HOME`."""
    place = "/".join(quote(part, safe="/") for part in path)
    definition: dict[str, Any] = {"name": {"en": name}}
    if question:
        definition["type"] = "http://adlnet.gov/expapi/activities/question"
    return {"objectType": "Activity", "id": f"{HOME}/{place}", "definition": definition}


def reference(id: str) -> dict[str, Any]:
    """Another statement."""
    return {"objectType": "StatementRef", "id": id}


def score(marks: int, of: int) -> dict[str, Any]:
    """A result for other readers; empty where marks make no share."""
    if not 0 <= marks <= of or of == 0:
        return {}
    share = round(marks / of, 4)
    return {
        "score": {"scaled": share, "raw": marks, "min": 0, "max": of},
        "success": marks == of,
    }
