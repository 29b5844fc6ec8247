"""Classes that are right: other units, sentences, working, fractions, signs."""

from __future__ import annotations

from fractions import Fraction as F

from tests.bench.number_cases.exact import fixed, half_up, judge, plain, top, unit_of
from tests.bench.number_cases.keys import any_key, dec_key, good_digits, maxfigs, rounded, unit
from tests.bench.number_cases.makers import cls
from tests.bench.number_cases.unit_spellings import SIGNED, U
from tests.bench.number_cases.writing import (
    eq,
    expression,
    group,
    phrase,
    sci,
    sci_text,
    sentence,
    spaced,
    with_unit,
)


@cls("equal quantity in another unit", True, 150)
def _(r):
    u = unit(r, need="eq")
    w = r.choice(list(U[u]["eq"]))
    f = U[u]["eq"][w]
    x = any_key(r, u)
    y = x / f
    s = plain(y)
    d = s if s and r.random() < 0.6 else rounded(y, r.randint(2, max(2, min(4, maxfigs(y)))))
    if len(d) > 9:
        return None
    return (
        x,
        u,
        d + ("" if r.random() < 0.25 and len(w) < 4 and w[0] not in "/eE" else " ") + w,
        d,
        0,
        f,
    )


@cls("equal quantity in another unit, thousands separator", True, 20)
def _(r):
    u = unit(r, ["g", "dm3", "kJ", "kg", "J/(g °C)"])
    w = r.choice([w for w, f in U[u]["eq"].items() if f < 1])
    f = U[u]["eq"][w]
    x = any_key(r, u)
    y = x / f
    d = plain(y) or rounded(y, r.choice([3, 4]))
    g = group(d, r.choice([",", " ", "\u2009"]))
    if g == d or len(d) > 8:
        return None
    return x, u, g + " " + w, d, 0, f


@cls("phrase before (about, =, answer:)", True, 130)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = good_digits(r, x)
    return x, u, phrase(r, d, u), d, 0, F(1)


@cls("sentence round it", True, 120)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = good_digits(r, x)
    return x, u, sentence(r, d, u), d, 0, F(1)


@cls("working before the answer", True, 170)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    e = expression(r, x)
    if not e:
        return None
    d = good_digits(r, x)
    return x, u, e + eq(r) + with_unit(r, d, u), d, 0, F(1)


@cls("working, then 'so it is ...'", True, 70)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    e = expression(r, x)
    if not e:
        return None
    d = good_digits(r, x)
    s = plain(x)
    mid = f"{eq(r)}{s}" if s else ""
    n = with_unit(r, d, u)
    return (
        x,
        u,
        e
        + mid
        + r.choice(
            [
                " so it is ",
                " so ",
                ", so it is ",
                " therefore ",
                " so the answer is ",
                ", answer: ",
                "\n",
                "; ",
            ]
        )
        + n,
        d,
        0,
        F(1),
    )


@cls("two lines of working", True, 40)
def _(r):
    u = unit(r)
    x = dec_key(r, u)
    b = F(r.choice([2, 4, 5, 10, 20, 25, 50]))
    y = plain(x * b)
    e = expression(r, x * b)
    if not e:
        return None
    d = plain(x)
    return (
        x,
        u,
        (
            f"{e} = {y}{r.choice([', ', '; ', ' so ', chr(10)])}{y} {r.choice('/÷')} {b.numerator}"
            f" = {with_unit(r, d, u)}"
        ),
        d,
        0,
        F(1),
    )


@cls("working with units in it", True, 40)
def _(r):
    u = unit(r, ["g", "cm3", "°C", "s", "cm", "V", "kg", "J"])
    x = dec_key(r, u)
    if x.denominator > 1000:
        return None
    p = len(plain(x).split(".")[1]) if "." in plain(x) else 0
    b = unit_of(p) * r.randint(1, 400)
    d = plain(x)
    return x, u, f"{fixed(x + b, p)} {u} - {fixed(b, p)} {u} = {d} {u}", d, 0, F(1)


@cls("unrounded value, then rounded", True, 50)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    if maxfigs(x) < 4:
        return None
    n = r.choice([2, 3])
    d = rounded(x, n)
    s = plain(x)
    long = s or rounded(x, r.choice([5, 6]))
    return (
        x,
        u,
        long + r.choice([" = ", " -> ", " → ", " so ", " ≈ ", ", so "]) + with_unit(r, d, u),
        d,
        0,
        F(1),
    )


@cls("figures or places named after it", True, 50)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    n = r.choice([2, 3])
    if maxfigs(x) < n:
        return None
    d = rounded(x, n)
    if "." in d and r.random() < 0.35:
        note = r.choice([" ({} d.p.)", " ({} dp)", " to {} dp", " to {} decimal places"]).format(
            len(d.split(".")[1])
        )
        if note.endswith("1 decimal places"):
            note = note[:-1]
    else:
        note = r.choice(
            [" ({} s.f.)", " ({} sf)", " to {} sf", " to {} sig figs", " to {} significant figures"]
        ).format(n)
    return x, u, d + (spaced(u) if r.random() < 0.5 else "") + note, d, 0, F(1)


@cls("exact fraction", True, 55)
def _(r):
    u = unit(r, ["g", "mol", "", "mol/dm3", "dm3", "kJ", "cm3/s", "A", "kg"])
    z = r.random()
    if z < 0.6:
        x = F(r.randint(1, 9), r.choice([2, 4, 5, 8, 10, 16, 20, 25, 40]))
    else:
        x = F(r.randint(1, 29), r.choice([3, 6, 7, 9, 11, 12, 13, 15]))
    if x.denominator == 1:
        return None
    m = r.choice([1, 1, 1, 2, 3])
    sep = r.choice(["/", "/", " / "])
    t = f"{x.numerator * m}{sep}{x.denominator * m}"
    if m == 1 and r.random() < 0.25:
        g = {
            F(1, 4): "¼",
            F(1, 2): "½",
            F(3, 4): "¾",
            F(1, 3): "⅓",
            F(2, 3): "⅔",
            F(1, 5): "⅕",
            F(1, 8): "⅛",
        }.get(x)
        t = g or t
    if u and r.random() < 0.4:
        t += " " + u
    if r.random() < 0.15:
        t = r.choice(["= ", "answer: "]) + t
    return x, u, t, None, x, F(1)


@cls("percentage sign or word", True, 55)
def _(r):
    x = any_key(r, "%")
    d = good_digits(r, x)
    t = r.choice(
        [
            "{}%",
            "{} %",
            "{}%",
            "{} percent",
            "{} per cent",
            "= {}%",
            "yield = {} %",
            "about {}%",
            "{}% yield",
            "{}percent",
        ]
    ).format(d)
    return x, "%", t, d, 0, F(1)


for _w, _l, _n in (
    ("negative, plain minus", ["-{}", "-{}", "- {}"], 55),
    ("negative, unicode minus or dash", ["−{}", "–{}", "− {}"], 55),
    ("negative, 'minus' in words", ["minus {}", "minus {}", "negative {}"], 15),
):

    def _mk(forms):
        def make(r):
            u = unit(r, SIGNED)
            x = any_key(r, u)
            d = good_digits(r, x)
            if judge("-" + d, -x) != "right":
                return None
            t = with_unit(r, r.choice(forms).format(d), u)
            if r.random() < 0.2:
                t = r.choice(["= ", "answer: ", "so it is ", U[u]["q"][0] + " = "]) + t
            return -x, u, t, "-" + d, 0, F(1)

        return make

    cls(_w, True, _n)(_mk(_l))


@cls("negative from working", True, 25)
def _(r):
    u = unit(r, SIGNED)
    x = dec_key(r, u, figs=r.choice([2, 3]))
    p = len(plain(x).split(".")[1]) if "." in plain(x) else 0
    a = unit_of(p) * r.randint(1, 500)
    d = "-" + plain(x)
    return (
        -x,
        u,
        (
            f"{fixed(a, p)} - {fixed(a + x, p)} = "
            f"{with_unit(r, r.choice([d, d.replace('-', '−')]), u)}"
        ),
        d,
        0,
        F(1),
    )


@cls("plus sign", True, 25)
def _(r):
    u = unit(r, SIGNED)
    x = any_key(r, u)
    d = good_digits(r, x)
    return x, u, with_unit(r, "+" + d, u), d, 0, F(1)


@cls("negative standard form", True, 15)
def _(r):
    u = unit(r, ["J", "kJ/mol"])
    x = dec_key(r, u, figs=r.choice([2, 3]), lead=r.choice([3, 4]))
    m, k = sci(x, 3)
    md = fixed(m, 2)
    t = sci_text(r, r.choice(["-", "−"]) + md, k, r.choice(["e", "x10^", "×10ⁿ", "*10^"]))
    return -x, u, t + (spaced(u) if r.random() < 0.5 else ""), "-" + md, k, F(1)


@cls("asked decimal places, given so", True, 90, dec=True)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    n = r.randint(1, 3)
    v = half_up(x, unit_of(n))
    if top(x) + n + 1 < 2 or top(x) + n + 1 > 5:
        return None
    d = fixed(v, n)
    return x, u, with_unit(r, d, u) if r.random() < 0.7 else phrase(r, d, u), d, 0, F(1), n


@cls("spaces round it", True, 20)
def _(r):
    u = unit(r)
    x = any_key(r, u)
    d = good_digits(r, x)
    return (
        x,
        u,
        r.choice([" ", "  ", "\t", ""]) + d + r.choice([" ", "  ", "   " + u, "\n"]),
        d,
        0,
        F(1),
    )
