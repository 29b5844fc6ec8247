"""The functions an expression may call: a fixed list, each with its form and what it returns.

A function takes evaluated arguments and returns a value or a Fault. `if` is listed here for its
form; it evaluates its arguments itself (see evaluator.py). A subject may add functions: the parser
stores them in the tree (see parser.py).
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

from drill.quantities.evaluation import list_functions as lists
from drill.quantities.evaluation import scalar_functions as scalars
from drill.quantities.values import Fault, Value

Worker = Callable[[Sequence[Any]], Value | Fault]


class Function(NamedTuple):
    """`form` is how it is written, `says` what it gives, `fewest`/`most` how many arguments.

    `looks_in` names a table it gets as a value before its arguments (None when there is none);
    `sum_of` gives what it adds up, how many of each, for a worked answer.
    """

    form: str
    says: str
    work: Worker | None
    fewest: int
    most: int
    looks_in: str = ""
    sum_of: Callable[[Sequence[Any]], Sequence[tuple[int, Value]]] | None = None

    @property
    def name(self) -> str:
        return self.form.partition("(")[0]

    def counts(self) -> str:
        """ "2 values", "1 to 200 values", for a message."""
        if self.fewest != self.most:
            return f"{self.fewest} to {self.most} values"
        return "1 value" if self.most == 1 else f"{self.most} values"


def _function(
    form: str, says: str, work: Worker | None, fewest: int = 0, most: int = 0
) -> Function:
    arguments = form.count(",") + 1
    return Function(form, says, work, fewest or arguments, most or fewest or arguments)


_MANY = 200

_ALL = (
    _function("round(x, places)", "x to so many decimal places, half up", scalars.rounded),
    _function("sig(x, figures)", "x to so many significant figures, half up", scalars.significant),
    _function("floor(x)", "the whole number at or below x", scalars.floor),
    _function("ceil(x)", "the whole number at or above x", scalars.ceil),
    _function("abs(x)", "x without its sign", scalars.absolute),
    _function("sqrt(x)", "the square root; 40 digits when it does not end", scalars.sqrt),
    _function("log10(x)", "the power of ten that gives x; 40 digits", scalars.log10),
    _function("min(a, b)", "the least of a list or of several values", lists.least, 1, _MANY),
    _function(
        "max(a, b)",
        "the greatest of a list or of several values",
        lists.greatest,
        1,
        _MANY,
    ),
    _function("sum(list)", "all of them added", lists.total),
    _function("mean(list)", "sum / count", lists.mean),
    _function("median(list)", "the middle one in order of size", lists.median),
    _function("range(list)", "greatest - least", lists.spread),
    _function("half_range(list)", "(greatest - least) / 2", lists.half_range),
    _function("count(list)", "how many there are", lists.count),
    _function("first(list)", "the first of a list", lists.first),
    _function("last(list)", "the last of a list", lists.last),
    _function("drop(list, value)", "the list without that value", lists.drop),
    _function("without(list, value)", "the same as drop", lists.drop),
    _function(
        "drop_anomaly(list)",
        "without the one furthest from the median",
        lists.drop_anomaly,
    ),
    _function(
        "concordant(list, within)",
        "the most values that lie within that of each other; of two such sets the closer one",
        lists.concordant,
    ),
    _function("gradient(x1, y1, x2, y2)", "(y2 - y1) / (x2 - x1)", scalars.gradient),
    _function("percent_of(part, whole)", "100 * part / whole", scalars.percent_of),
    _function("percent_change(from, to)", "100 * (to - from) / from", scalars.percent_change),
    _function(
        "percent_error(measured, true)",
        "100 * abs(measured - true) / true",
        scalars.percent_error,
    ),
    _function("if(condition, a, b)", "a when the condition holds, else b", None),
)

FUNCTIONS: Mapping[str, Function] = {function.name: function for function in _ALL}
