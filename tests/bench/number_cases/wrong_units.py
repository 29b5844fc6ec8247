"""Classes that are wrong: units that contradict, working, what was asked for."""

from __future__ import annotations

from fractions import Fraction as F

from tests.bench.number_cases.exact import down, fixed, half_up, plain, top, unit_of
from tests.bench.number_cases.keys import (
    another,
    any_key,
    dec_key,
    good_digits,
    maxfigs,
    off_by_unit,
    places_for,
    rounded,
    ten_off,
    transposed,
    truncated,
    unit,
)
from tests.bench.number_cases.makers import cls
from tests.bench.number_cases.unit_spellings import SPAN, U
from tests.bench.number_cases.writing import (
    DIV,
    TIMES,
    any_spelling,
    eq,
    expression,
    with_unit,
    wrap,
)


@cls("right number, unit of another quantity", False, 120)
def _(r):
    u = unit(r, need="other")
    x = any_key(r, u)
    d = good_digits(r, x)
    w = r.choice(U[u]["other"])
    n = d + ("" if r.random() < 0.3 else " ") + w
    z = r.random()
    if z < 0.15:
        n = r.choice(["= ", "answer: ", "about ", "so it is "]) + n
    return x, u, n, d, 0, "contra"


@cls("right number, same quantity in the wrong size of unit", False, 110)
def _(r):
    u = unit(r, need="scale")
    x = any_key(r, u)
    d = good_digits(r, x)
    w = r.choice(U[u]["scale"])
    n = d + ("" if r.random() < 0.25 and len(w) < 4 and w[0] != "/" else " ") + w
    z = r.random()
    if z < 0.15:
        n = r.choice(["= ", "answer: ", "about ", "so it is "]) + n
    return x, u, n, d, 0, "contra"


@cls("percentage sign on another quantity", False, 25)
def _(r):
    u = unit(r, ["g", "cm3", "mol", "°C", "J", "s"])
    x = any_key(r, u)
    d = good_digits(r, x)
    return x, u, d + r.choice(["%", " %", " percent"]), d, 0, "contra"


@cls("conversion out by a power of ten", False, 60)
def _(r):
    u = unit(r, need="eq")
    w = r.choice(list(U[u]["eq"]))
    f = U[u]["eq"][w]
    x = any_key(r, u)
    if (u in ("s", "cm3/s", "g/s", "1/s") and f.numerator in (60,)) or f.denominator in (60,):
        return None
    y = x / f * F(10) ** r.choice([-2, -1, 1, 2])
    d = plain(y) or rounded(y, r.choice([2, 3]))
    if len(d) > 9:
        return None
    return x, u, d + " " + w, d, 0, f


@cls("converted to another unit, wrong figures", False, 40)
def _(r):
    u = unit(r, need="eq")
    w = r.choice(list(U[u]["eq"]))
    f = U[u]["eq"][w]
    x = any_key(r, u)
    if "60" in str(f):
        return None
    d = r.choice([off_by_unit, transposed, another])(r, x / f)
    if not d or len(d) > 9:
        return None
    return x, u, d + " " + w, d, 0, f


@cls("working ends on a wrong number", False, 90)
def _(r):
    u = unit(r)
    x = dec_key(r, u)
    e = expression(r, x)
    if not e:
        return None
    d = r.choice([another, transposed, off_by_unit, lambda r, x: ten_off(r, x, u)])(r, x)
    if not d or len(d) > 9:
        return None
    return x, u, e + eq(r) + with_unit(r, d, u), d, 0, F(1)


@cls("right number only inside the working", False, 60)
def _(r):
    u = unit(r)
    x = dec_key(r, u, figs=r.choice([2, 3]))
    s = plain(x)
    b = F(r.choice([2, 3, 4, 5, 8, 20]))
    if r.random() < 0.5:
        e, v = f"{s}{r.choice(TIMES)}{plain(b)}", x * b
    else:
        e, v = f"{s}{r.choice(DIV)}{plain(b)}", x / b
    d = plain(v)
    if d is None:
        return None
    return x, u, e + eq(r) + with_unit(r, d, u), d, 0, F(1)


@cls("wrong fraction", False, 40)
def _(r):
    u = unit(r, ["g", "mol", "", "mol/dm3", "dm3", "kJ", "A"])
    x = F(r.randint(1, 19), r.choice([2, 3, 4, 5, 6, 7, 8, 9, 12, 20, 25]))
    y = r.choice(
        [
            1 / x,
            F(x.numerator + 1, x.denominator),
            F(x.numerator, x.denominator + 1),
            F(x.numerator, x.denominator * 2),
        ]
    )
    if x.denominator == 1 or y.denominator == 1:
        return None
    t = f"{y.numerator}/{y.denominator}"
    if u and r.random() < 0.4:
        t += " " + u
    return x, u, t, None, y, F(1)


@cls("asked decimal places, last figure out by one", False, 45, dec=True)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    n = r.randint(1, 3)
    if not 2 <= top(x) + n + 1 <= 4:
        return None
    v = half_up(x, unit_of(n)) + r.choice([-1, 1]) * unit_of(n)
    d = fixed(v, n)
    return x, u, wrap(r, d, u), d, 0, F(1), n


@cls("asked decimal places, cut off", False, 35, dec=True)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    n = r.randint(1, 3)
    if not 2 <= top(x) + n + 1 <= 5:
        return None
    d = fixed(down(x, unit_of(n)), n)
    return x, u, wrap(r, d, u), d, 0, F(1), n


@cls("leading dot, wrong number", False, 35)
def _(r):
    u = unit(r, [u for u in U if SPAN[u][0] < 0])
    x = dec_key(r, u, lead=-1)
    d = r.choice([another, transposed, off_by_unit])(r, x)
    if not d or not d.startswith("0."):
        return None
    return x, u, with_unit(r, d[1:], u), d, 0, F(1)


@cls("trailing dot, wrong number", False, 20)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = r.choice([another, off_by_unit])(r, x)
    if not d or "." in d:
        return None
    return x, u, d + ".", d, 0, F(1)


@cls("unit spelled out, wrong number", False, 75)
def _(r):
    u = unit(r, need="words")
    x = any_key(r, u)
    d = r.choice([another, transposed, off_by_unit])(r, x)
    return d and (x, u, d + " " + any_spelling(r, u, ("alt", "words", "caps")), d, 0, F(1))


@cls("percentage, wrong number", False, 30)
def _(r):
    x = any_key(r, "%")
    d = r.choice([another, transposed, off_by_unit, truncated])(r, x)
    return d and (
        x,
        "%",
        r.choice(["{}%", "{} %", "{} percent", "= {}%", "yield = {} %"]).format(d),
        d,
        0,
        F(1),
    )


@cls("figures named, wrongly rounded", False, 25)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    n = r.choice([2, 3])
    if maxfigs(x) <= n:
        return None
    p = places_for(x, n)
    v = half_up(x, unit_of(p)) + r.choice([-1, 1]) * unit_of(p)
    d = fixed(v, max(0, p))
    return (
        x,
        u,
        d
        + r.choice([" ({} s.f.)", " ({} sf)", " to {} sf", " to {} significant figures"]).format(n),
        d,
        0,
        F(1),
    )
