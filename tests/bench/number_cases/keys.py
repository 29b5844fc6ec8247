"""Exact keys, and right and wrong digits for them."""

from __future__ import annotations

from fractions import Fraction as F

from tests.bench.number_cases.exact import down, fixed, half_even, half_up, plain, top, unit_of
from tests.bench.number_cases.unit_spellings import SPAN, WEIGHT, U


def unit(r, among=None, need=None):
    names = [u for u in (among or U) if not need or U[u][need]]
    return r.choices(names, [WEIGHT.get(u, 3) for u in names])[0]


def dec_key(r, u, figs=None, lead=None, ints=False):
    """An exact decimal key: a positive Fraction with `figs` figures and no trailing zero."""
    figs = figs or r.choices([2, 3, 4, 5], [20, 45, 25, 10])[0]
    k = lead if lead is not None else r.randint(*SPAN[u])
    n = r.randrange(10 ** (figs - 1), 10**figs)
    if n % 10 == 0:
        n += r.randint(1, 9)
    if u == "%":
        k = 1 if k else 0
    return F(n) * F(10) ** (k - figs + 1)


def frac_key(r, u):
    """A key that does not terminate, in the unit's range."""
    while True:
        q = r.choice(
            [3, 6, 7, 9, 11, 12, 13, 17, 21, 23, 24, 27, 31, 37, 45, 60, 90, 106, 123, 161]
        )
        k = r.randint(*SPAN[u])
        lo, hi = F(10) ** k * q, F(10) ** (k + 1) * q
        if hi < 2:
            continue
        p = r.randint(max(1, int(lo)), max(1, int(hi) - 1))
        x = F(p, q)
        if plain(x) is None and SPAN[u][0] <= top(x) <= SPAN[u][1]:
            return x


def any_key(r, u, **kw):
    return frac_key(r, u) if not kw and r.random() < 0.3 else dec_key(r, u, **kw)


def key_text(x):
    return plain(x) or f"{x.numerator}/{x.denominator}"


def maxfigs(x):
    s = plain(x)
    return 9 if s is None else len(s.replace(".", "").replace("-", "").strip("0"))


def places_for(x, figs):
    return figs - 1 - top(x)


def rounded(x, figs, even=False):
    """digits of x rounded to `figs` figures, as a pupil writes them (1200, 39, 0.0125)."""
    p = places_for(x, figs)
    v = (half_even if even else half_up)(x, unit_of(p))
    return fixed(v, max(0, p))


def good_digits(r, x):
    """Some right digits for the key: exact, or rounded to 2 to 4 figures."""
    s = plain(x)
    if s and r.random() < 0.6:
        return s
    n = min(maxfigs(x) if s else 4, 4)
    return rounded(x, r.randint(2, max(2, n)), r.random() < 0.3)


# wrong digits -------------------------------------------------------------


def off_by_unit(r, x):
    n = min(maxfigs(x), 4)
    figs = r.randint(2, max(2, n))
    p = places_for(x, figs)
    v = half_up(x, unit_of(p)) + r.choice([-1, 1]) * unit_of(p)
    return fixed(v, max(0, p)) if v else None


def truncated(r, x):
    figs = r.randint(2, max(2, min(maxfigs(x) - 1, 4)))
    p = places_for(x, figs)
    return fixed(down(x, unit_of(p)), max(0, p))


def double_rounded(r, x):
    figs = r.randint(2, 3)
    v = x
    for f in (figs + 1, figs):
        v = half_up(v, unit_of(places_for(x, f)))
    return fixed(v, max(0, places_for(x, figs)))


def ten_off(r, x, u):
    pw = [-3, -2, -1, 1, 2, 3]
    if u in ("%", ""):
        pw = [-1, 1, 3] if u == "%" else [-1, 1, -3, 3]
    d = good_digits(r, x)
    v = F(d) * F(10) ** r.choice(pw)
    return plain(v)


def another(r, x):
    figs = r.randint(2, 4)
    while True:
        v = x * F(r.randint(20, 400), 100)
        if abs(v / x - 1) > F(8, 100):
            break
    return rounded(v, figs)


def transposed(r, x):
    d = good_digits(r, x)
    idx = [
        i for i in range(len(d) - 1) if d[i].isdigit() and d[i + 1].isdigit() and d[i] != d[i + 1]
    ]
    pair = [(i, i + 1) for i in idx] + [
        (i, i + 2)
        for i in range(len(d) - 2)
        if d[i + 1] == "." and d[i] != d[i + 2] and d[i].isdigit()
    ]
    if not pair:
        return None
    i, j = r.choice(pair)
    s = list(d)
    s[i], s[j] = s[j], s[i]
    s = "".join(s)
    if s.lstrip("-").startswith("0") and not s.lstrip("-").startswith("0."):
        return None
    return s if F(s) else None


def tie_key(r, u):
    figs = r.randint(3, 4)
    x = dec_key(r, u, figs=figs)
    p = places_for(x, figs)
    last = (x / unit_of(p)).numerator % 10
    return x + (5 - last) * unit_of(p), figs
