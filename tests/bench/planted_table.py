"""The faults that are planted: each a slip that a programmer could make and not see."""

from __future__ import annotations

from tests.bench.planted import Fault
from tests.bench.planted_numbers import NUMBERS
from tests.bench.planted_questions import QUESTIONS

FAULTS: tuple[Fault, ...] = (*NUMBERS, *QUESTIONS)
