"""The list of classes of cases: why, whether right, how many, and what makes one.

A maker gives (key, unit, typed, digits, power, factor[, decimals]) or None; digits are None for a
fraction, whose value is then `power`; a contradicting unit has the factor "contra".
"""

from __future__ import annotations

MAKERS = []


def cls(why, right, count, **kw):
    def reg(fn):
        MAKERS.append((why, right, count, fn, kw))
        return fn

    return reg
