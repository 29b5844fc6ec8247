"""Names of things: misspelt is right, another real name is wrong, and what is unclear is asked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction

from drill.frozen import replace
from drill.marking.short.beside_names import explains
from drill.marking.short.known_names import KnownNames
from drill.marking.short.name_reading import LONGEST, NamesRead, read_names
from drill.model import Mark, NameKey, Part
from drill.subjects import subject
from drill.typed.awarding import nothing, whole
from drill.typed.names import NameRules, plain_name

# letters with a figure, a charge or a second capital, at the end of what is said
_SYMBOL = re.compile(
    r"(?<![\w(])\(?((?=\w*[\d+-]|[A-Z][a-z]?[A-Z])[A-Z][\w^]*(?:\(\w+\)\w*)*[+-]?)\)?"
    r"(?=\s*(?:[,;.)]|$))"
)


def mark_name(part: Part, typed: str, earlier: Mapping[str, Fraction]) -> Mark:
    """Right in any case, with a slip of spelling and with words that change nothing.

    Of several names given every one must be right; where a right one stands beside another thing,
    the name alone is asked for, once.
    """
    key = part.key
    assert isinstance(key, NameKey)
    rules = subject(part.subject).names
    names = _known(part, key, rules)
    text, symbols = _without_symbols(typed[:LONGEST], key, rules)
    read = read_names(text, names)
    read = replace(read, left=(*read.left, *_other_symbols(text, part, key, rules)))
    if symbols and not (read.right or read.alike or read.left):
        return _symbol(part, key, symbols[0])
    if read.alike and not read.right and not read.left:
        name = names.alike[read.alike[0]]
        says = f"Not {name}: {key.look_alikes[name]} {_wanted(key)}"
        return whole(part, False, says, slip=name)
    if not read.right:
        return _not_named(part, key, typed, names)
    if read.alike or read.left:
        return _unclear(part, read, names)
    word = "Right:" if read.exact else "Right, spelt"
    return whole(part, True, f"{word} {names.accepted[read.right[0]]}.")


def _known(part: Part, key: NameKey, rules: NameRules) -> KnownNames:
    """The key's names; numbers in brackets count only where an accepted name has one."""
    names = KnownNames(
        _plainly(key.right, rules), _plainly(key.look_alikes, rules), rules, part.ask
    )
    if names.numbered:
        return names
    bare = {rules.numeral.sub("", plain): name for plain, name in names.alike.items()}
    alike = {plain: name for plain, name in bare.items() if plain not in names.accepted}
    return replace(names, alike=alike)


def _plainly(names: Iterable[str], rules: NameRules) -> dict[str, str]:
    """Plain spelling -> as the author wrote it, the first way when there are several."""
    found: dict[str, str] = {}
    for name in names:
        found.setdefault(plain_name(name, rules), name)
    return found


def _wanted(key: NameKey) -> str:
    only = len(key.right) == 1
    return f"The name wanted is {key.accept[0]}." if only else f"A right name is {key.accept[0]}."


def _without_symbols(typed: str, key: NameKey, rules: NameRules) -> tuple[str, list[str]]:
    """What was typed without symbols that say the name again, and those symbols."""
    own = [name for name in key.right if rules.is_symbol(name)]
    symbols = [
        one
        for one in re.split(r"[\s,;=]+", typed)
        if one
        and any(
            rules.same_symbol(bare, name)
            for bare in (one.strip(".:"), one.strip("().:"))
            for name in own
        )
    ]
    for one in symbols:
        typed = typed.replace(one, " ", 1)
    return (typed.strip(" ,;=().:") if symbols else typed), symbols


def _other_symbols(text: str, part: Part, key: NameKey, rules: NameRules) -> tuple[str, ...]:
    """Symbols of other things said of the name: "aluminium, Al2+"; none where none is known."""
    if not any(rules.is_symbol(name) for name in key.right):
        return ()
    return tuple(
        found[1]
        for found in _SYMBOL.finditer(text)
        if rules.is_symbol(found[1])
        and not re.fullmatch(rules.number or "-", found[1].lower())
        and found[1] not in part.ask
        and not explains(text[: found.start()].lower().split())
    )


def _symbol(part: Part, key: NameKey, symbol: str) -> Mark:
    """A right symbol for a name: right, unless the question itself gives it."""
    if re.search(rf"(?<!\w){re.escape(symbol.strip('().:'))}(?!\w)", part.ask):
        says = f"That is what the question gives: its name is asked for. {_wanted(key)}"
        return whole(part, False, says)
    return whole(part, True, f"Right: {symbol}.")


def _not_named(part: Part, key: NameKey, typed: str, names: KnownNames) -> Mark:
    """A number in brackets that is another's, a symbol that is not its own, or another name."""
    numeral = names.rules.numeral
    plain = plain_name(typed, names.rules)
    if numeral.search(plain) and names.numbered:
        bare = numeral.sub("", plain)
        without = {numeral.sub("", name): name for name in names.accepted}
        unnumbered = replace(names, accepted=without, alike={})
        if read_names(bare, unnumbered).right:
            return whole(part, False, f"The number in brackets is another one's. {_wanted(key)}")
    note = names.rules.note(typed)
    if note and any(names.rules.is_symbol(name) for name in key.right):
        note = "That is the formula of something else."
    return whole(part, False, f"{note} {_wanted(key)}".strip())


def _unclear(part: Part, read: NamesRead, names: KnownNames) -> Mark:
    """More than the name: the name alone is to be typed, once."""
    said = names.accepted[read.right[0]]
    if read.alike:
        says = f"{said} and {names.alike[read.alike[0]]} are two things: give just the one name."
    else:
        says = f'Beside a name there is "{" ".join(read.left[:4])}": give just the name.'
    return nothing(part, says, readable=False)
