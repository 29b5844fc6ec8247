"""Classes of typed numbers that are wrong: digits, powers, signs."""

from __future__ import annotations

from fractions import Fraction as F

from tests.bench.number_cases.exact import down, fixed, top, unit_of
from tests.bench.number_cases.keys import (
    another,
    any_key,
    dec_key,
    double_rounded,
    good_digits,
    maxfigs,
    off_by_unit,
    places_for,
    ten_off,
    tie_key,
    transposed,
    truncated,
    unit,
)
from tests.bench.number_cases.makers import cls
from tests.bench.number_cases.unit_spellings import SIGNED
from tests.bench.number_cases.writing import (
    SCI,
    big_key,
    big_unit,
    group,
    sci,
    sci_text,
    spaced,
    with_unit,
    wrap,
)


@cls("last figure out by one, bare", False, 200)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = off_by_unit(r, x)
    return d and (x, u, d, d, 0, F(1))


@cls("last figure out by one, with unit or words", False, 140)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = off_by_unit(r, x)
    return d and (x, u, wrap(r, d, u), d, 0, F(1))


@cls("cut off, not rounded", False, 150)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    if maxfigs(x) < 3:
        return None
    d = truncated(r, x)
    return x, u, wrap(r, d, u), d, 0, F(1)


@cls("rounded up where it should go down", False, 50)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    if maxfigs(x) < 3:
        return None
    n = r.choice([2, 3, 4])
    if n >= maxfigs(x):
        return None
    p = places_for(x, n)
    v = down(x, unit_of(p)) + unit_of(p)
    d = fixed(v, max(0, p))
    return x, u, wrap(r, d, u), d, 0, F(1)


@cls("rounded twice", False, 35)
def _(r):
    u = unit(r)
    x = any_key(r, u) if r.random() < 0.3 else dec_key(r, u, figs=4)
    if maxfigs(x) < 4:
        return None
    d = double_rounded(r, x)
    return x, u, wrap(r, d, u), d, 0, F(1)


@cls("tie rounded down to an odd figure", False, 30)
def _(r):
    u = unit(r)
    x, n = tie_key(r, u)
    p = places_for(x, n - 1)
    d = fixed(down(x, unit_of(p)), max(0, p))
    return x, u, wrap(r, d, u), d, 0, F(1)


@cls("power of ten out", False, 160)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = ten_off(r, x, u)
    if not d or len(d) > 9:
        return None
    return x, u, wrap(r, d, u), d, 0, F(1)


@cls("thousands separator, wrong number", False, 45)
def _(r):
    u = big_unit(r)
    x = big_key(r, u)
    d = r.choice([transposed, another, off_by_unit])(r, x)
    if not d:
        return None
    g = group(d, r.choice([",", " ", "\u2009"]))
    if g == d:
        return None
    return x, u, with_unit(r, g, u), d, 0, F(1)


def bad_sci(how):
    def make(r):
        u = unit(
            r, ["mol", "mol/dm3", "g/s", "J", "J/(kg °C)", "mg", "g", "kg", "A", "kJ", "cm3/s"]
        )
        x = any_key(r, u)
        if -1 < top(x) < 2:
            return None
        n = r.randint(2, max(2, min(4, maxfigs(x))))
        m, k = sci(x, n)
        md = fixed(m, n - 1)
        if how == "exp":
            k += r.choice([-2, -1, 1, 2])
        elif how == "sign":
            k = -k
        else:
            v = m + r.choice([-1, 1]) * unit_of(n - 1) * r.choice([1, 1, 2, 7])
            if not 1 <= v < 10:
                return None
            md = fixed(v, n - 1)
        if k == 0:
            return None
        t = sci_text(r, md, k, r.choice(list(SCI)))
        if not t:
            return None
        return x, u, t + (spaced(u) if r.random() < 0.45 else ""), md, k, F(1)

    return make


cls("standard form, wrong power", False, 75)(bad_sci("exp"))
cls("standard form, sign of the power", False, 40)(bad_sci("sign"))
cls("standard form, wrong figures", False, 60)(bad_sci("figs"))


@cls("sign lost (key negative)", False, 50)
def _(r):
    u = unit(r, SIGNED)
    x = any_key(r, u)
    d = good_digits(r, x)
    return -x, u, with_unit(r, r.choice(["", "", "+"]) + d, u), d, 0, F(1)


@cls("minus where there is none", False, 55)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = good_digits(r, x)
    t = with_unit(r, r.choice(["-", "−"]) + d, u)
    if r.random() < 0.25:
        t = r.choice(["= ", "answer: ", "so it is "]) + t
    return x, u, t, "-" + d, 0, F(1)


@cls("negative, another number", False, 30)
def _(r):
    u = unit(r, SIGNED)
    x = any_key(r, u)
    d = r.choice([another, off_by_unit, transposed])(r, x)
    return d and (-x, u, with_unit(r, r.choice(["-", "−"]) + d, u), "-" + d, 0, F(1))


@cls("another number", False, 130)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = another(r, x)
    return x, u, wrap(r, d, u), d, 0, F(1)


@cls("figures swapped round", False, 95)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = transposed(r, x)
    return d and (x, u, wrap(r, d, u), d, 0, F(1))
