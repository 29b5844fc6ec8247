"""Faults drawn by somebody who had not seen the second judge, nor the faults it was tried with.

    python tests/bench/planted_faults.py --table tests/bench/faults_drawn_blind.py --seeds 3

Functions that no shipped question uses stand here for those to come.
"""

from __future__ import annotations

from tests.bench.blind_details import DETAILS
from tests.bench.blind_questions import QUESTIONS
from tests.bench.blind_values import VALUES

FAULTS = (*VALUES, *QUESTIONS, *DETAILS)
