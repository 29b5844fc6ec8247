"""Which options an answer means: their letters, alone or in a sentence, or their own words.

An answer is read clause by clause. "not B", "B is wrong" and "this, not that" say no to an option,
unless the question itself asks for what is wrong; what is behind "because" is a reason.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from drill.marking.short.paraphrase import paraphrased
from drill.model import Option
from drill.typed.spelling import nearest
from drill.typed.variants import one_spelling

LONGEST = 500  # characters of an answer that are read for a choice
_LEAD = re.compile(
    r"^(?:(?:i think|i choose|i would (?:choose|say)|i pick|my answer is|it is|it's|its|it must be|"
    r"the answer is|the answer|answer|the correct one is|correct answer is|option|letter|choice|"
    r"so|therefore|definitely|probably|maybe|the|its the|it would be)\b[\s:=\-]*)+"
)
_REASON = re.compile(r"\b(?:because|cause|cos|cuz|since|as it|as they|due to)\b")
_CLAUSE = re.compile(
    r"[,;.:\n()]+|\s-+\s|\b(?:but|so|therefore|whereas|while|rather than|instead of|(?=not\b))"
)
_CHANGED = re.compile(
    r"\b(?:actually|no wait|wait no|i mean|i meant|sorry|changed? (?:it|my mind) to)\b"
)
_BEFORE_DENIED = re.compile(
    r"\b(?:not|isn'?t|aren'?t|cannot be|can'?t be|couldn'?t be|wouldn'?t be|never|neither|except)\b"
)
_BEHIND_DENIED = re.compile(
    r"^\W*(?:is|are|was|would be|looks|seems|'?s)?\s*(?:n'?t|not|wrong|incorrect|false|untrue"
    r"|no good|the wrong|a mistake|impossible|bad)\b"
)
_ASKS_FOR_WRONG = re.compile(
    r"\b(?:wrong|incorrect|mistakes?|errors?|faults?|false|not|odd one|anomal\w+|least|un\w+)\b",
    re.I,
)
_CALLED_WRONG = re.compile(r"\b(?:wrong|incorrect|false|untrue|a mistake|impossible)\b")
_PLAIN = re.compile(r"[^a-z0-9.]+|\.(?!\d)|(?<!\d)\.")
_FILLERS = frozenset(
    {"a", "an", "the", "is", "are", "it", "its", "of", "to", "and", "that", "this", "be", "was"}
    | {"option", "answer", "one", "with", "in", "i", "think"}
)
_DENIES = frozenset(["not", "no", "never", "less", "more", "without", "nothing", "none"])
_Named = tuple[Option, str, str]  # the option, and what stands before and behind its name
_FEWEST = 2  # content words that tell an option, unless it has just one


def chosen_options(
    options: Sequence[Option], typed: str, ask: str = "", *, several: bool = False
) -> tuple[Option, ...] | None:
    """The options meant, in their own order; None when it cannot be told.

    Where `several` are wanted, what "and" joins is read part by part.
    """
    text = _said_last(typed)
    said = {_bare(text), _bare(_LEAD.sub("", _REASON.split(text)[0].strip()))}
    same = [option for option in options if _ways_to_write(option, options) & said]
    if same:
        return (same[0],)
    listed = _letters_alone(options, text)
    if listed:
        return listed
    wanted = bool(_ASKS_FOR_WRONG.search(ask))
    clauses = list(_clauses(text))
    meant = _agreed(_letters_in, options, clauses, wanted)
    if not meant:  # words beside a letter explain it
        meant = _agreed(_words_in, options, clauses, wanted, taken_back=True)
        meant = meant if meant and not several else meant + _reworded(options, text, ask, several)
    return tuple(option for option in options if option in meant) or None


def only_guessed(
    options: Sequence[Option], typed: str, ask: str = "", *, several: bool = False
) -> tuple[Option, ...]:
    """The options that loose words seem to mean; none where letters or their own words tell."""
    meant = chosen_options(options, typed, ask, several=several) or ()
    text = _said_last(typed)
    clauses = list(_clauses(text))
    wanted = bool(_ASKS_FOR_WRONG.search(ask))
    if _letters_alone(options, text) or _agreed(_letters_in, options, clauses, wanted):
        return ()
    said = f" {_bare(text)} "
    told = all(any(f" {way} " in said for way in _ways_to_write(o, options)) for o in meant)
    return () if told else meant


def _said_last(typed: str) -> str:
    """What was typed, in small letters; after a change of mind only what came then."""
    text = typed[:LONGEST].lower().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
    return list(filter(str.strip, _CHANGED.split(text)))[-1] if text.strip() else text


def _ways_to_write(option: Option, options: Sequence[Option]) -> set[str]:
    """An option's text, and its number alone where all of them are numbers in one unit."""
    each = [_bare(one.text).split(" ", 1) for one in options]
    units = {tuple(words[1:]) for words in each}
    if len(units) == 1 and all(words[0][0].isdecimal() for words in each):
        return {_bare(option.text), _bare(option.text).split(" ", 1)[0]}
    return {_bare(option.text)}


def _reworded(options: Sequence[Option], text: str, ask: str, several: bool) -> list[Option]:
    """The options told in other words; a reason, or a word that calls one wrong, tells none."""
    text = " ; ".join(_REASON.split(sentence)[0] for sentence in re.split(r"\n|\.\s", text))
    if _CALLED_WRONG.search(text) and not _ASKS_FOR_WRONG.search(ask):
        return []
    if not several:
        meant = paraphrased(options, text)
        return [meant] if meant is not None else []
    found: list[Option] = []
    for part in re.split(r"[,;&+]|\band\b", text):
        named = [o for o, before, _ in _words_in(options, part) if not before]
        meant = named[0] if named else paraphrased(options, part)
        if meant is not None and not _BEFORE_DENIED.search(part):
            found.append(meant)
    return found


def _letters_alone(options: Sequence[Option], text: str) -> tuple[Option, ...]:
    """Letters and nothing else: "A, C", "ac", "option b", "B a measuring cylinder"."""
    text = _LEAD.sub("", text.strip())
    letters = {option.letter.lower(): option for option in options}
    words = [word for word in re.split(r"[^a-z0-9]+", text) if word not in ("", "and")]
    first = letters.get(words[0]) if len(words) > 1 else None
    if first is not None and _bare(" ".join(words[1:])) == _bare(first.text):
        return (first,)
    if not words or not all(set(word) <= set(letters) for word in words):
        return ()
    if len(words) > 1 and any(len(word) > 1 for word in words):
        return ()
    return tuple(option for option in options if option.letter.lower() in "".join(words))


def _agreed(
    named_in: Callable[[Sequence[Option], str], list[_Named]],
    options: Sequence[Option],
    clauses: Sequence[str],
    wrong_wanted: bool,
    *,
    taken_back: bool = False,
) -> list[Option]:
    """The options that are named and said yes to; with `taken_back`, and not said no to later."""
    found: list[Option] = []
    for clause in clauses:
        for option, before, behind in named_in(options, clause):
            denied = _BEFORE_DENIED.search(before) is not None
            wrong = _BEHIND_DENIED.match(behind) is not None and not wrong_wanted
            if not (denied or wrong):
                found.append(option)
            elif taken_back:
                found = [one for one in found if one is not option]
    return found


def _clauses(text: str) -> Iterator[str]:
    """The clauses that choose; a reason and what follows in the same breath does not."""
    text = re.sub(r"\b(?:rather than|instead of|and not)\b", " not ", text)
    for sentence in re.split(r"\n|\bso\b|\btherefore\b|(?<=[a-z])\.\s", text):
        choosing = _REASON.split(sentence)[0]
        for clause in _CLAUSE.split(choosing):
            if clause and clause.strip():
                yield clause.strip()


def _letters_in(options: Sequence[Option], clause: str) -> list[_Named]:
    """Letters that stand alone; "a" and "i" only where they cannot be words."""
    letters = {option.letter.lower(): option for option in options}
    found: list[_Named] = []
    for match in re.finditer(r"(?<![\w'.°])(?<!° )([a-z])(?![\w'])", clause):
        letter, before, behind = match[1], clause[: match.start()], clause[match.end() :]
        if letter in letters and not _is_word(letter, before, behind):
            found.append((letters[letter], before, behind))
    return found


def _is_word(letter: str, before: str, behind: str) -> bool:
    """Whether this a or i is an article or a pronoun: "a beaker", not "a is wrong"."""
    if letter not in "ai":
        return False
    if re.search(r"\b(?:for|of|with|in|by|on|into|as|has|have|needs?)\s*$", before):
        return True
    if re.match(r"\s*$|\s+(?:is|and|or|would|has|can|looks|as)\b|\s*[&/+]", behind):
        return letter == "i" and bool(re.match(r"\s+(?:would|can)\b", behind))
    return not re.search(r"\b(?:option|letter|answer|choice)\s*(?:is\s*)?$", before)


def _words_in(options: Sequence[Option], clause: str) -> list[_Named]:
    """The option whose own words these are: whole, or all of the clause's that carry meaning."""
    bare = f" {_bare(_LEAD.sub('', clause))} "
    whole = [(option, _bare(option.text)) for option in options]
    held = [(o, text, bare.find(f" {text} ")) for o, text in whole if text and f" {text} " in bare]
    held = [
        one
        for one in held
        if not any(one[1] != o[1] and f" {one[1]} " in f" {o[1]} " for o in held)
    ]
    if held:
        return [(o, bare[:at], bare[at + len(text) + 1 :]) for o, text, at in held]
    meant = _nearest_option(options, clause)
    if meant is not None:
        return [(meant, "", "")]
    without = re.sub(r"^\W*(?:not|no)\b", "", clause)
    denied = _nearest_option(options, without) if without != clause else None
    return [(denied, "not", "")] if denied is not None else []


def _nearest_option(options: Sequence[Option], clause: str) -> Option | None:
    """The only option that holds every word of the clause that carries meaning."""
    said = _content(_LEAD.sub("", clause))
    if not said:
        return None
    holding = []
    for option in options:
        words = _content(option.text)
        known = [word for word in said if _known(word, words)]
        if len(known) == len(said) and (said & _DENIES) == (words & _DENIES & said):
            holding.append((option, words))
    if len(holding) != 1:
        return None
    option, words = holding[0]
    denials = (words & _DENIES) - said
    enough = len(said) >= min(_FEWEST, len(words)) or _only_here(said, option, options)
    return option if enough and not denials else None


def _only_here(said: set[str], option: Option, options: Sequence[Option]) -> bool:
    others = {word for other in options if other is not option for word in _content(other.text)}
    return bool(said - others) and max(map(len, said)) > 3


def _known(word: str, words: set[str]) -> bool:
    if word in words:
        return True
    same = any(_singular(word) == _singular(one) for one in words)
    return same or bool(nearest(word, tuple(words)))


def _singular(word: str) -> str:
    return word[:-1] if word.endswith("s") and len(word) > 3 else word


def _content(text: str) -> set[str]:
    return set(_bare(text).split()) - _FILLERS


def _bare(text: str) -> str:
    words = _PLAIN.split(one_spelling(text.lower()))
    return " ".join(word for word in words if word not in ("", "a", "an", "the"))
