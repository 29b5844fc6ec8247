"""Classes of typed numbers that are right: digits, units, standard form."""

from __future__ import annotations

from fractions import Fraction as F

from tests.bench.number_cases.exact import fixed, plain, top
from tests.bench.number_cases.keys import (
    any_key,
    dec_key,
    good_digits,
    maxfigs,
    rounded,
    tie_key,
    unit,
)
from tests.bench.number_cases.makers import cls
from tests.bench.number_cases.unit_spellings import SPAN, U
from tests.bench.number_cases.writing import (
    SPACES,
    any_spelling,
    big_key,
    big_unit,
    glue,
    group,
    sci,
    sci_text,
    spaced,
    with_unit,
)


@cls("bare number, exact", True, 130)
def _(r):
    u = unit(r)
    x = dec_key(r, u)
    d = plain(x)
    return x, u, d, d, 0, F(1)


@cls("bare number, correct rounding", True, 190)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    n = min(maxfigs(x) - 1, r.choice([2, 3, 4, 5]))
    if n < 2:
        return None
    d = rounded(x, n)
    return x, u, d, d, 0, F(1)


@cls("exact tie, half-up", True, 50)
def _(r):
    u = unit(r)
    x, n = tie_key(r, u)
    d = rounded(x, n - 1)
    return x, u, with_unit(r, d, u), d, 0, F(1)


@cls("exact tie, half-even", True, 60)
def _(r):
    u = unit(r)
    x, n = tie_key(r, u)
    d = rounded(x, n - 1, True)
    if d == rounded(x, n - 1):
        return None
    return x, u, with_unit(r, d, u), d, 0, F(1)


@cls("trailing zeros", True, 90)
def _(r):
    u = unit(r)
    x = dec_key(r, u, figs=r.choice([1, 2, 2, 3, 4]))
    d = plain(x)
    d = d + ("" if "." in d else ".") + "0" * r.choice([1, 1, 1, 2, 3])
    return x, u, with_unit(r, d, u), d, 0, F(1)


@cls("leading dot", True, 80)
def _(r):
    u = unit(r, [u for u in U if SPAN[u][0] < 0])
    x = dec_key(r, u, lead=r.choice([-1, -1, -1, -2]))
    d = good_digits(r, x)
    if not d.startswith("0."):
        return None
    t = d[1:]
    return x, u, with_unit(r, t, u), d, 0, F(1)


@cls("trailing dot", True, 50)
def _(r):
    u = unit(r)
    k = r.randint(*SPAN[u])
    if k < 0:
        return None
    x = dec_key(r, u, figs=min(5, k + 1), lead=k) if r.random() < 0.6 else any_key(r, u)
    d = rounded(x, top(x) + 1) if top(x) >= 0 else "."
    if "." in d:
        return None
    return x, u, d + ".", d, 0, F(1)


@cls("full stop after", True, 35)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = good_digits(r, x)
    w = r.choice(["", u, any_spelling(r, u)])
    if not w and "." not in d:
        return None
    return x, u, d + spaced(w) + ".", d, 0, F(1)


@cls("unit as printed", True, 110)
def _(r):
    u = unit(r, need="q")
    x = any_key(r, u)
    d = good_digits(r, x)
    if not u:
        return None
    return x, u, d + " " + u, d, 0, F(1)


@cls("unit glued on", True, 130)
def _(r):
    u = unit(r, need="alt")
    x = any_key(r, u)
    d = good_digits(r, x)
    w = r.choice([u, u, r.choice(U[u]["alt"])])
    if w in ("oC", "gram", "amp", "l") or w.startswith(("deg", "per")):
        w = u
    return x, u, glue(d, w), d, 0, F(1)


@cls("unit, other spelling", True, 150)
def _(r):
    u = unit(r, need="alt")
    x = any_key(r, u)
    d = good_digits(r, x)
    w = r.choice(U[u]["alt"])
    if w == u:
        return None
    return x, u, d + r.choice([" ", " ", "  "]) + w, d, 0, F(1)


@cls("unit in words", True, 150)
def _(r):
    u = unit(r, need="words")
    x = any_key(r, u)
    d = good_digits(r, x)
    return x, u, d + " " + r.choice(U[u]["words"]), d, 0, F(1)


@cls("unit, capitals", True, 100)
def _(r):
    u = unit(r, need="caps")
    x = any_key(r, u)
    d = good_digits(r, x)
    w = r.choice(U[u]["caps"])
    return (
        x,
        u,
        d + ("" if w[0] in "GCKJjkV" and len(w) < 4 and r.random() < 0.4 else " ") + w,
        d,
        0,
        F(1),
    )


@cls("unit in brackets", True, 25)
def _(r):
    u = unit(r)
    if not u or "(" in u:
        return None
    x = any_key(r, u)
    d = good_digits(r, x)
    return x, u, f"{d} ({u})", d, 0, F(1)


@cls("thousands comma", True, 80)
def _(r):
    u = big_unit(r)
    x = big_key(r, u)
    d = good_digits(r, x)
    g = group(d, ",")
    if g == d:
        return None
    return x, u, with_unit(r, g, u), d, 0, F(1)


@cls("thousands space", True, 60)
def _(r):
    u = big_unit(r)
    x = big_key(r, u)
    d = good_digits(r, x)
    g = group(d, " ")
    if g == d:
        return None
    return x, u, with_unit(r, g, u), d, 0, F(1)


@cls("thousands thin or no-break space", True, 50)
def _(r):
    u = big_unit(r)
    x = big_key(r, u)
    d = good_digits(r, x)
    g = group(d, r.choice(list(SPACES.values())))
    if g == d:
        return None
    return x, u, with_unit(r, g, u), d, 0, F(1)


def sci_case(style, shift=(0,)):
    def make(r):
        u = unit(
            r,
            [
                "mol",
                "mol/dm3",
                "g/s",
                "1/s",
                "J",
                "J/(kg °C)",
                "mg",
                "g",
                "kg",
                "A",
                "kJ",
                "cm3/s",
                "",
            ],
        )
        x = any_key(r, u)
        if -1 < top(x) < 2:
            return None
        n = r.randint(2, max(2, min(4, maxfigs(x))))
        m, k = sci(x, n, r.choice(shift))
        md = fixed(m, max(0, n - 1 - (top(m)))) if shift != (0,) else fixed(m, n - 1)
        t = sci_text(r, md, k, style)
        if t is None or k == 0:
            return None
        w = r.random()
        uu = "s⁻¹" if u == "1/s" else u
        if u and w < 0.45:
            t = t + " " + (uu if r.random() < 0.7 else r.choice(U[u]["words"] or [uu]))
        elif u and w < 0.55 and u != "1/s":
            t = t + u
        return x, u, t, md, k, F(1)

    return make


cls("standard form, 1.2e-3", True, 50)(sci_case("e"))
cls("standard form, 1.2x10^-3", True, 60)(sci_case("x10^"))
cls("standard form, 1.2 × 10⁻³", True, 60)(sci_case("×10ⁿ"))
cls("standard form, 1.2*10^-3", True, 50)(sci_case("*10^"))
cls("standard form, 1.2 x10-3", True, 45)(sci_case("x10-3"))
cls("standard form, not normalised (12 x 10^-4)", True, 25)(
    lambda r: sci_case(r.choice(["e", "x10^", "×10ⁿ"]), (-1, 1))(r)
)
