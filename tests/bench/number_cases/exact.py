"""Which typed digits are a right answer to an exact key: worked out with fractions alone."""

from __future__ import annotations

from fractions import Fraction as F


def plain(x):
    """A terminating fraction as a plain decimal string, or None."""
    x = F(x)
    d, two, five = x.denominator, 0, 0
    while d % 2 == 0:
        d //= 2
        two += 1
    while d % 5 == 0:
        d //= 5
        five += 1
    if d != 1:
        return None
    return fixed(x, max(two, five))


def fixed(x, places):
    """x, a multiple of 10**-places, written with that many decimal places."""
    n = F(x) * 10**places
    assert n.denominator == 1
    n = n.numerator
    s = str(abs(n)).rjust(places + 1, "0")
    if places:
        s = s[:-places] + "." + s[-places:]
    return ("-" if n < 0 else "") + s


def top(x):
    """Place of the leading digit: 0 for 3.92, -3 for 0.00125."""
    x = abs(F(x))
    k = 0
    while x >= 10:
        x /= 10
        k += 1
    while x < 1:
        x *= 10
        k -= 1
    return k


def unit_of(places):
    return F(10) ** -places


def down(x, u):
    q = abs(x) / u
    n = q.numerator // q.denominator
    return n * u * (1 if x >= 0 else -1)


def half_up(x, u):
    q = abs(x) / u + F(1, 2)
    n = q.numerator // q.denominator
    return n * u * (1 if x >= 0 else -1)


def half_even(x, u):
    return round(F(x) / u) * u


def is_tie(x, u):
    return (F(x) / u).denominator == 2


def judge(digits, key, power=0, factor=F(1)):
    """'right', 'wrong' or 'unsure' for digits x 10**power in a unit of `factor` key units."""
    t = F(digits)
    K = F(key) / factor / F(10) ** power
    if t == K:
        return "right"
    if t == 0:
        return "wrong"
    places = len(digits.split(".")[1]) if "." in digits else 0
    verdict = "wrong"
    # the last place as typed, and the coarser places that trailing zeros may stand for
    p = places
    while True:
        u = unit_of(p)
        if (t / u).denominator != 1 or abs(t) < u:
            break
        good = {half_up(K, u), half_even(K, u)}
        if t in good:
            figs = min(top(t), top(K)) + p + 1
            as_typed = p == places
            whole = places == 0 and p < 0
            nonzero = len(str(abs(t / u).numerator).rstrip("0"))
            if K < 0 and is_tie(K, u):
                verdict = "unsure"  # half-up of a negative number: two conventions
            elif figs >= 2 and as_typed and (p >= 0):
                return "right"
            elif whole and any(down(K, F(10) ** j) == t for j in range(-p)):
                verdict = "unsure"  # 140 for 140.99: rounded to 2 figures, or cut off?
            elif figs >= 2 and whole and nonzero >= 2:
                return "right"  # 1200 for 1234
            else:
                verdict = "unsure"  # one figure, or zeros that promise too much
        elif K < 0 and is_tie(K, u) and abs(t - K) == u / 2:
            verdict = "unsure"
        p -= 1
    return verdict
