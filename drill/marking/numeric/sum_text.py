"""What was typed as numbers and sums, brought to one way of writing: x, /, ±, - and figures.

    "3 minus 1.5", "3·2", "0.8x0.04", "two and a half" -> "3 - 1.5", "3 x 2", "0.8 x 0.04", "2 1/2"

Only signs and number words change; nothing is worked out here.
"""

from __future__ import annotations

import re

from drill.typed.typed_text import flat

_ONES = "zero one two three four five six seven eight nine"
_TEENS = "ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen"
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"
COUNTED = {word: value for value, word in enumerate(f"{_ONES} {_TEENS}".split())} | {
    word: 10 * value for value, word in enumerate(_TENS.split(), 2)
}
_COUNT = "|".join(COUNTED)
_PARTS = {"half": "1/2", "halves": "1/2", "quarter": "1/4", "third": "1/3", "fifth": "1/5"} | {
    "three quarters": "3/4", "two thirds": "2/3"
}  # fmt: skip
_GLYPHS = {
    "½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5",
    "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_GLYPH = re.compile(rf"[{''.join(_GLYPHS)}]")
_AND_PART = re.compile(
    rf"\b(\d+|{_COUNT})\s*(?:and|&)?\s*(?:(?:a|one)\s+)?(three[ -]quarters|two[ -]thirds|"
    r"half|quarter|third|fifth)\b(?!\s+of\b)",
    re.IGNORECASE,
)
_POINT = re.compile(
    rf"\b(\d+|{_COUNT}) point ((?:(?:\d|{_ONES.replace(' ', '|')})\b ?)+)", re.IGNORECASE
)
_SPREAD = re.compile(
    r"\+\s*/\s*-|\+-(?=\s*[\d.])|\bplus\s*(?:or|and|/|-)\s*minus\b|\bgive or take\b", re.IGNORECASE
)
_FIGURE = r"(?=\s*[-+]?\s*[(\d.])"
_WORDED_SIGNS = tuple(
    (re.compile(pattern, re.IGNORECASE), sign)
    for pattern, sign in (
        (rf"\b(?:minus|negative|subtract|take away)\b{_FIGURE}", "-"),
        (rf"(?<=[\w)%])\s+(?:plus|add)\b{_FIGURE}", " + "),
        (rf"(?<=[\w)%])\s+(?:times|multiplied by|lots of)\b{_FIGURE}", " x "),
        (rf"(?<=[\d)])\s+(?:divided by|over)\b{_FIGURE}", " / "),
    )
)
# "0.8x0.04", "2·5", "12.5gX2"; the dot of a hydrate is none
_TIMES = re.compile(
    rf"(?<![A-Za-z])[xX]{_FIGURE}|(?<=\d)\s*[·⋅•∙](?!\s*\d*\s*H2?O)(?=\s*[(\d.])|\*(?!\*)(?<!\*\*)"
)
_UNIT_TIMES = re.compile(rf"(?<=\d)(\s?(?:k?g|k?J|mol|s|cm|°C|V|A))[xX]{_FIGURE}")
_LETTER_O = re.compile(
    r"(?<![A-Za-z\d.])(?=[\d.]*[oO])(?:\d[\doO]*\.?[\doO]*|[oO]\.[\doO]+|\.[\doO]+)(?![A-Za-z\d^])"
)


def plain_sums(text: str) -> str:
    """The text with the signs of sums in one writing, and number words as figures."""
    text = flat(text)
    text = _GLYPH.sub(lambda glyph: f" {_GLYPHS[glyph[0]]} ", text)
    if re.search(r"[A-Za-z]{3}", text):
        text = _words_to_figures(text)
    text = _SPREAD.sub("±", text)
    for pattern, sign in _WORDED_SIGNS:
        text = pattern.sub(sign, text)
    return _UNIT_TIMES.sub(r"\1 x ", _TIMES.sub(_times, text))


def _times(sign: re.Match[str]) -> str:
    return sign[0] if sign[0] == "*" else " x "


def _words_to_figures(text: str) -> str:
    text = _AND_PART.sub(
        lambda found: f"{_figure(found[1])} {_PARTS[found[2].lower().replace('-', ' ')]}", text
    )
    return _POINT.sub(lambda found: f"{_figure(found[1])}.{_digits(found[2])} ", text)


def _figure(word: str) -> str:
    return str(COUNTED.get(word.lower(), word))


def _digits(words: str) -> str:
    return "".join(_figure(word) for word in words.split())


def letter_o(text: str) -> str | None:
    """The number meant where the letter O was typed for a zero ("O.25" -> "0.25")."""
    for found in _LETTER_O.finditer(text):
        if any(sign in found[0] for sign in "oO"):
            return found[0].replace("o", "0").replace("O", "0")
    return None
