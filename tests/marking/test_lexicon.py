"""The lexicon can be read: every set says what it is, every phrase is one."""

from __future__ import annotations

import tomllib

import pytest

from drill.marking.written.phrases import AnswerText, phrases
from drill.marking.written.sentences import words_of
from drill.places import bank_dir

SETS = tomllib.loads((bank_dir() / "lexicon.toml").read_text("utf-8"))


def test_there_are_concepts_for_practical_science():
    assert len(SETS) >= 300


@pytest.mark.parametrize("name", sorted(SETS))
def test_every_set_has_words_and_says_what_they_mean(name):
    assert SETS[name]["doc"]
    assert SETS[name]["words"]
    for words in SETS[name]["words"]:
        for phrase in phrases(words):
            assert phrase, words
            assert all(piece.exact | piece.stems | piece.prefixes for piece in phrase), words


@pytest.mark.parametrize(
    "name", ["more", "less", "faster", "slower", "higher", "larger", "smaller"]
)
def test_directions_are_exact(name):
    single = [words for words in SETS[name]["words"] if " " not in words]
    assert single
    assert all(words.startswith("=") for words in single)


def test_no_phrase_stands_twice_in_a_set():
    for name, one in SETS.items():
        assert len(set(one["words"])) == len(one["words"]), name


def test_no_two_sets_say_the_same():
    told = [frozenset(one["words"]) for one in SETS.values()]
    assert len(set(told)) == len(told)


# ideas that a mark scheme keeps apart: no wording of one may count as the other
APART = """
more/less faster/slower larger/smaller higher/lower-value all/none soluble/insoluble acid/alkali
exothermic/endothermic gets-hot/gets-cold gain-electrons/lose-electrons more-reactive/less-reactive
directly-proportional/inversely-proportional positive-relation/negative-relation residue/filtrate
solute/solvent pure/impurity independent-variable/dependent-variable/control-variable
random-error/systematic-error repeatable-check/reproducible-check meniscus-bottom/meniscus-top
eye-level/from-above burette/pipette/measuring-cylinder ammeter/voltmeter/thermometer/balance
hydrochloric-acid/sulfuric-acid/nitric-acid hydrogen/oxygen/carbon-dioxide/chlorine
lit-splint/glowing-splint gloves/goggles/lab-coat colourless/cloudy flammable/toxic/oxidising
conical-flask/volumetric-flask/beaker evaporating-basin/crucible hydrate/anhydrous-salt
potential-difference/current/resistance filtrate/distillate dissolve/crystallise
"""
DENIERS = ("not", "no", "never", "unable", "un", "non", "none", "without")


def apart() -> list[tuple[str, str]]:
    groups = [group.split("/") for group in APART.split()]
    return [(one, other) for group in groups for one in group for other in group if one != other]


def said(phrase: str) -> str:
    """A phrase as somebody would write it, its gaps closed."""
    elements = [element for element in phrase.split() if not element.startswith("~")]
    return " ".join(element.removeprefix("=").split("|")[0].rstrip("*") for element in elements)


@pytest.mark.parametrize(("name", "other"), apart())
def test_ideas_kept_apart_share_no_wording(name, other):
    wanted = [phrase for words in SETS[other]["words"] for phrase in phrases(words)]
    for words in SETS[name]["words"]:
        for text in map(said, words.split(" / ")):
            if text.split()[0] in DENIERS:  # "not soluble": the marker sees that it is denied
                continue
            answer = AnswerText(words_of(text), frozenset())
            assert not any(list(answer.hits(phrase)) for phrase in wanted), text
