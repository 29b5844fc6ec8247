"""Numbers written down: with units, in sentences, in standard form, behind working."""

from __future__ import annotations

from fractions import Fraction as F

from tests.bench.number_cases.exact import half_up, plain, top, unit_of
from tests.bench.number_cases.keys import dec_key, places_for, unit
from tests.bench.number_cases.unit_spellings import U

SUP = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
SPACES = {"thin": "\u2009", "nnbsp": "\u202f", "nbsp": "\u00a0"}


def spaced(u):
    return (" " + u) if u else ""


def glue(num, w):
    """number and unit run together, where that reads unambiguously."""
    if w == "1/s":
        w = "/s"
    return num + w


def any_spelling(r, u, kinds=("own", "alt", "words", "caps")):
    d = U[u]
    k = r.choice([k for k in kinds if k == "own" or d[k]])
    return u if k == "own" else r.choice(d[k])


def with_unit(r, num, u):
    """number with or without its unit, any accepted way."""
    if not u:
        return num
    z = r.random()
    if z < 0.45:
        return num
    if z < 0.70:
        return num + " " + u
    if z < 0.82:
        return glue(num, u)
    return num + " " + any_spelling(r, u)


def phrase(r, num, u):
    n = num if r.random() < 0.5 or not u else num + " " + u
    return r.choice(
        [
            "about {}",
            "approximately {}",
            "approx {}",
            "roughly {}",
            "~{}",
            "≈ {}",
            "= {}",
            "={}",
            "answer: {}",
            "Answer = {}",
            "ans = {}",
            "Ans: {}",
            "answer is {}",
            "the answer is {}",
            "I got {}",
            "it is {}",
            "it's {}",
            "so {}",
            "so it is {}",
            "therefore {}",
            "∴ {}",
            "final answer {}",
            "final answer: {}",
        ]
    ).format(n)


def sentence(r, num, u):
    q = r.choice(U[u]["q"])
    n = num + spaced(u) if (u and r.random() < 0.75) else num
    return r.choice(
        [
            "{q} = {n}",
            "{q}: {n}",
            "{q} is {n}",
            "the {q} is {n}",
            "The {q} is {n}.",
            "{n} is the {q}",
            "so the {q} is {n}",
            "so the {q} = {n}",
            "the {q} was {n}",
            "therefore the {q} is {n}",
        ]
    ).format(q=q, n=n)


TIMES = ["x", " x ", "×", " × ", "*", " * "]
DIV = ["/", " / ", "÷", " ÷ "]


def expression(r, x):
    """A calculation whose exact value is x (positive), or None."""
    s = plain(x)
    if s is None:
        return (
            f"{x.numerator}{r.choice(DIV)}{x.denominator}"
            if x.denominator < 1000 and x.numerator < 100000
            else None
        )
    places = len(s.split(".")[1]) if "." in s else 0
    step = unit_of(max(places - r.randint(0, 1), 0))
    kind = r.choice(["add", "sub", "sub", "mul", "mul", "div", "div", "mean", "pct"])
    if kind == "add":
        a = step * r.randint(1, max(1, int(x / step) - 1))
        b = x - a
        if a <= 0 or b <= 0:
            return None
        return f"{plain(a)}{r.choice([' + ', '+'])}{plain(b)}"
    if kind == "sub":
        b = step * r.randint(1, max(3, min(999, int(3 * x / step))))
        return f"{plain(x + b)}{r.choice([' - ', '-', ' − ', ' – '])}{plain(b)}"
    if kind == "mul":
        b = F(r.choice([2, 3, 4, 5, 6, 8, 25, 40, 63, 74, 98])) * F(1, r.choice([1, 1, 10, 1000]))
        a = plain(x / b)
        if a is None or len(a.replace(".", "").lstrip("0")) > 5:
            return None
        both = [a, plain(b)]
        r.shuffle(both)
        return both[0] + r.choice(TIMES) + both[1]
    if kind == "div":
        b = F(r.choice([2, 3, 4, 5, 7, 8, 12, 15, 25, 40, 60, 81, 90, 1000])) * F(
            1, r.choice([1, 1, 10])
        )
        return plain(x * b) + r.choice(DIV) + plain(b)
    if kind == "mean":
        e = step * r.randint(1, 4)
        if x - e <= 0:
            return None
        return f"({plain(x - e)} + {plain(x + e)}){r.choice(DIV)}2"
    b = F(r.randint(11, 98), 10)
    a = plain(x * b / 100)
    if a is None or len(a.replace(".", "").lstrip("0")) > 6 or x > 100:
        return None
    return f"{a}{r.choice(DIV)}{plain(b)}{r.choice(TIMES)}100"


def eq(r):
    return r.choice([" = ", "=", " = "])


def sci(digits_value, figs, shift=0):
    """(mantissa digits, power) for a value rounded to figs figures."""
    v = half_up(digits_value, unit_of(places_for(digits_value, figs)))
    k = top(v) + shift
    m = v / F(10) ** k
    return m, k


SCI = {
    "e": ["{m}e{p}", "{m}E{p}"],
    "x10^": [
        "{m}x10^{p}",
        "{m} x 10^{p}",
        "{m} x10^{p}",
        "{m}X10^{p}",
        "{m} x 10^({p})",
        "{m} x 10 ^ {p}",
    ],
    "×10ⁿ": ["{m} × 10{s}", "{m}×10{s}", "{m} x 10{s}", "{m}x10{s}"],
    "*10^": [
        "{m}*10^{p}",
        "{m} * 10^{p}",
        "{m} × 10^{p}",
        "{m}×10^{p}",
        "{m}*10**{p}",
        "{m} · 10^{p}",
    ],
    "x10-3": ["{m} x10{p}", "{m} x 10{p}", "{m}x10{p}", "{m} × 10{p}", "{m}×10{p}"],
}


def sci_text(r, m, p, style):
    if style == "x10-3" and p >= 0:
        return None
    ps = str(p)
    if style == "×10ⁿ":
        pass
    elif p < 0 and style != "e" and r.random() < 0.12:
        ps = ps.replace("-", "−")
    return r.choice(SCI[style]).format(m=m, p=ps, s=str(p).translate(SUP))


def group(d, sep):
    neg = d.startswith("-")
    d = d.lstrip("-")
    a, dot, b = d.partition(".")
    out = ""
    while len(a) > 3:
        out = sep + a[-3:] + out
        a = a[:-3]
    return ("-" if neg else "") + a + out + dot + b


def big_unit(r):
    return unit(r, ["mg", "J", "J/(kg °C)", "s", "cm3", "kJ/mol", ""])


def big_key(r, u):
    return (
        dec_key(r, u, figs=r.randint(3, 5), lead=r.choice([3, 3, 4]))
        if r.random() < 0.8
        else F(r.randint(1000, 99999) * 3 + 1, 3)
    )


def wrap(r, d, u):
    z = r.random()
    if z < 0.6:
        return with_unit(r, d, u)
    if z < 0.8:
        return phrase(r, d, u)
    return sentence(r, d, u)
