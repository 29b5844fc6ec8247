"""Each kind of part gets the key, the points and the model answer it should."""

from __future__ import annotations

from fractions import Fraction

import pytest

from drill.frozen import replace
from drill.generate import generate
from drill.marking import mark
from drill.model import ChoiceKey, NumberKey, OrderKey, Question, TableKey
from tests.generate.making import only_part, problem, question, template, written

NUMBER = """
[draw]
mass = { from = 10.0, to = 20.0, step = 0.1, unit = "g", first = 12.5 }
[work]
half = { is = "mass / 2", unit = "g", called = "half" }
[[part]]
kind = "number"
ask = "Half of {mass}?"
answer = "half"
"""


def points(part) -> list[tuple[str, str, int]]:
    return [(point.id, point.says, point.marks) for point in part.points]


def test_a_number_is_exact_and_shown_as_asked():
    part = only_part(NUMBER + "decimals = 1\n")
    assert isinstance(part.key, NumberKey)
    assert part.key.value == Fraction("6.25")
    assert part.model_answer == "6.3 g"
    assert (part.unit, part.marks) == ("g", 1)
    assert points(part) == [("value", "6.3 g", 1)]


def test_a_method_names_its_steps_but_not_what_was_asked_before():
    work = '[work]\nhalf = { is = "mass / 2", unit = "g", called = "half" }\n'
    more = 'fifth = { is = "half / 5", unit = "g", called = "fifth" }\n'
    more += 'last = { is = "fifth / 3", unit = "g", called = "last" }\n'
    head = '[draw]\nmass = { from = 10, to = 90, step = 1, unit = "g" }\n'
    ask = '[[part]]\nkind = "number"\nask = "From {mass}?"\nanswer = "%s"\n%s'
    award = "award = { method = 1, value = 1 }\n"
    text = head + work + more
    alone = only_part(text + ask % ("last", award))
    assert points(alone)[0] == ("method", "method: half; then fifth", 1)
    after = question(written(text + ask % ("half", "") + ask % ("last", award))).parts[1]
    assert points(after)[0] == ("method", "method: fifth", 1)


def test_awards_become_points_in_their_order():
    more = (
        "figures = 3\nunit_asked = true\naward = { figures = 1, unit = 1, value = 2, method = 1 }"
    )
    part = only_part(NUMBER + more)
    assert points(part) == [
        ("method", "correct method", 1),
        ("value", "6.25 g", 2),
        ("unit", "the unit, g", 1),
        ("figures", "to 3 significant figures", 1),
    ]
    assert (part.unit, part.marks) == ("", 5)


def test_a_number_may_be_asked_in_another_unit():
    part = only_part(NUMBER + 'unit = "kg"\nfigures = 3\n')
    assert part.model_answer == "0.00625 kg"
    assert part.key.value == Fraction(625, 100000)


def test_accepted_bounds_are_in_the_mark_scheme():
    part = only_part(NUMBER + 'between = ["half - (0.2 in g)", "half + (0.2 in g)"]\n')
    assert (part.key.low, part.key.high) == (Fraction("6.05"), Fraction("6.45"))
    assert points(part)[0][1] == "6.25 g (6.05 to 6.45 accepted)"


def test_a_slip_has_its_value_here():
    slip = '[[part.slip]]\nid = "doubled"\ngives = "2 * mass"\nsays = "Twice {mass}."\n'
    key = only_part(NUMBER + "decimals = 2\n" + slip).key
    assert [(s.id, s.value, s.text, s.says) for s in key.slips] == [
        ("doubled", 25, "25.00 g", "Twice 12.5 g.")
    ]


def test_a_slip_that_does_not_apply_is_left_out():
    slip = '[[part.slip]]\nid = "d"\ngives = "2 * mass"\nsays = "x"\nwhen = "mass < 12.4"\n'
    assert only_part(NUMBER + slip).key.slips == ()
    assert any(only_part(NUMBER + slip, seed).key.slips for seed in range(1, 30))


@pytest.mark.parametrize(
    ("gives", "other"),
    [
        ("half + 0.001", "the answer: 6.25 g and 6.25 g"),
        ("half / 1.1", '"first": 5.68 g and 5.68 g'),
    ],
)
def test_slips_that_cannot_be_told_apart_are_refused(gives, other):
    slips = (
        '[[part.slip]]\nid = "first"\ngives = "half / 1.1001"\nsays = "x"\n'
        f'[[part.slip]]\nid = "second"\ngives = "{gives}"\nsays = "x"\n'
    )
    assert problem(NUMBER + "decimals = 2\n" + slips) == (
        f'20: the slip "second" cannot be told from {other} (seed 0, 200 tries). '
        "Add a requirement or a when, or drop the slip."
    )


def test_two_figures_are_looked_at_where_they_meet():
    """0.97 and 1.03 differ to two figures, but 1.0 is a rounding of both."""
    text = NUMBER.replace("mass / 2", "0.97 * mass / mass * (1 in g)")
    slip = '[[part.slip]]\nid = "near"\ngives = "1.03"\nsays = "x"\n'
    assert "cannot be told from the answer: 1.0 g and 0.97 g" in problem(
        text + "figures = 2\n" + slip
    )


def test_options_are_shuffled_unless_their_order_matters():
    option = '[[part.option]]\ntext = "{}"\n{}\n'
    options = option.format("a", "right = true") + option.format("b", "") + option.format("c", "")
    options = options.replace('text = "b"', 'text = "b"\nsays = "x"')
    options = options.replace('text = "c"', 'text = "c"\nsays = "x"')
    head = '[[part]]\nkind = "choice"\nask = "Which?"\n'
    seen = {only_part(head + options, seed).model_answer for seed in range(40)}
    assert seen == {"A", "B", "C"}
    kept = head + "keep_order = true\n" + options
    assert {only_part(kept, seed).model_answer for seed in range(20)} == {"A"}


def test_several_right_options_are_points_of_their_own():
    part = question(template("measure/choose-kit"), 0).parts[1]
    assert isinstance(part.key, ChoiceKey)
    assert part.marks == 2
    assert part.model_answer == ", ".join(point.id for point in part.points)


def test_an_order_is_never_shown_right():
    for seed in range(300):
        part = question(template("salts/order-steps"), seed).parts[0]
        assert isinstance(part.key, OrderKey)
        assert part.key.right != "ABCDE"
        texts = dict(part.key.steps)
        assert [texts[letter][:4] for letter in part.key.right] == [
            "warm", "add ", "filt", "evap", "leav",
        ]  # fmt: skip


def test_two_steps_are_turned_round_when_they_come_out_right():
    text = '[[part]]\nkind = "order"\nask = "?"\nsteps = ["a", "b", "c"]\n'
    assert {only_part(text, seed).key.right for seed in range(60)} == {
        "ACB", "BAC", "BCA", "CAB", "CBA",
    }  # fmt: skip


def test_an_order_is_worth_what_the_author_awards():
    steps = '[[part]]\nkind = "order"\nask = "?"\nsteps = ["a", "b", "c", "d"]\n'
    part = only_part(steps + "award = { value = 3 }\n")
    (point,) = part.points
    assert (part.marks, point.id) == (3, "value")
    assert point.says.endswith("one less for every step to be moved")
    assert mark(part, part.model_answer).marks == 3
    assert mark(part, part.model_answer[::-1]).marks == 0
    assert only_part(steps).marks == 1


def test_a_table_has_a_key_for_every_cell():
    part = question(template("titration/mean-titre"), 0).parts[0]
    assert isinstance(part.key, TableKey)
    assert part.model_answer == "mean = 24.12 cm3"
    assert [point.id for point in part.points] == ["mean"]


def test_levels_are_worth_their_best():
    part = question(template("salts/why-excess"), 0).parts[1]
    assert (part.kind, part.marks) == ("levels", 4)


def test_printed_values_are_given_and_not_worked_again():
    """Whoever answers has the printed total, so it is no value on the way to the answer."""
    parts = question(template("salts/percentage-yield"), 0).parts
    chain = parts[1].key.chain
    assert "total" in chain.givens
    assert [step.name for step in chain.steps] == ["theory", "crystals", "percent"]
    assert chain.answers == {"a": "crystals"}


def test_a_choice_without_a_right_option_is_no_question():
    text = (
        '[draw]\nx = { one_of = [1, 2] }\n[[part]]\nkind = "choice"\nask = "{x}?"\n'
        '[[part.option]]\ntext = "one"\nright_when = "x > 2"\nsays = "x"\n'
        '[[part.option]]\ntext = "two"\nsays = "x"\nright_when = "x > 3"\n'
    )
    assert problem(text) == (
        "8: 0 options are right here (seed 0, 200 tries). "
        "Look at right and right_when, or write several = true."
    )


def test_a_schools_own_word_is_right_and_so_is_the_banks():
    of = replace(template("measure/choose-kit"), names={"evaporating basin": "steaming dish"})
    part = question(of, 0).parts[2]
    assert part.model_answer == "steaming dish"
    assert part.key.accept == ("steaming dish", "evaporating dish", "evaporating basin")


KIT = """
[draw]
kit = { one_of = ["evaporating basin", "tripod"], first = "evaporating basin" }
[[part]]
kind = "name"
ask = "What is the {kit} called?"
accept = ["{kit}", "wide {kit}"]
look_alikes = { "crucible" = "A crucible is smaller." }
"""


def test_both_words_are_right_where_a_draw_holds_the_name():
    of = replace(written(KIT), names={"evaporating basin": "dish", "crucible": "pot"})
    part = question(of, 0).parts[0]
    assert part.ask == "What is the dish called?"
    assert part.model_answer == "dish"
    for typed in ("dish", "wide dish", "evaporating basin", "wide evaporating basin"):
        assert mark(part, typed).marks == 1, typed
    for typed in ("pot", "crucible"):
        assert mark(part, typed).says.count("is smaller.") == 1, typed


def test_a_word_that_a_school_gives_to_the_thing_is_no_look_alike():
    of = replace(written(KIT), names={"evaporating basin": "Crucible"})
    part = question(of, 0).parts[0]
    assert mark(part, "crucible").marks == 1
    assert part.key.look_alikes == {}


POINT = """
[[part]]
kind = "written"
ask = "Why is the basin hot?"
model_answer = "The flame heats the basin."
[[part.point]]
id = "heat"
says = "the flame heats the basin"
accept = [["flame", "basin"], ["=pan|bowl"]]
"""


def test_a_written_answer_may_use_either_word():
    of = replace(written(POINT), names={"basin": "evaporating dish", "pan": "wide pan"})
    part = question(of, 0).parts[0]
    for typed in ("the flame heats the basin", "the flame heats the evaporating dish", "a bowl"):
        assert mark(part, typed).marks == 1, typed
    assert mark(part, "the flame heats the air").marks == 0


OPTIONS = '[[part]]\nkind = "choice"\nask = "Which?"\n' + "".join(
    f'[[part.option]]\ntext = "{text}"\n{rest}\n'
    for text, rest in [("a", "right = true"), *((one, 'says = "x"') for one in "bcd")]
)
STEPS = '[[part]]\nkind = "order"\nask = "Which?"\nsteps = ["a", "b", "c", "d"]\n'


@pytest.mark.parametrize("part", [OPTIONS, STEPS])
def test_a_seed_does_not_shuffle_two_parts_or_two_questions_alike(part):
    one = written(part + part)
    other = replace(one, id="tests/another")
    shuffles = {
        (of.id, index): [question(of, seed).parts[index].model_answer for seed in range(30)]
        for of in (one, other)
        for index in (0, 1)
    }
    assert len({tuple(shuffle) for shuffle in shuffles.values()}) == 4
    for shuffle in shuffles.values():
        assert len(set(shuffle)) >= 4


def test_steps_that_come_out_alike_are_no_order() -> None:
    draw = '[draw]\nx = { one_of = ["b", "d"], first = "b" }\n'
    text = draw + '[[part]]\nkind = "order"\nask = "?"\nsteps = ["{x}", "b", "c"]\n'
    assert "with different texts" in problem(text)
    seed = next(seed for seed in range(1, 9) if seed_of(text, seed))
    assert isinstance(only_part(text, seed).key, OrderKey)


def seed_of(text: str, seed: int) -> bool:
    """Whether a question comes of this seed."""
    return isinstance(generate(written(text), seed), Question)
