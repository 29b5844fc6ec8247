"""Numbers: value, unit, figures and method apart; slips by name; carried forward."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.marking.making import chain, marks, number, number_key, points_of, verdict

YIELD = chain(
    {
        "total": ("53.02", "g"), "basin": ("48.90", "g"), "conc": ("1.00", "mol/dm3"),
        "volume": ("25.0", "cm3"), "molar": ("249.5", "g/mol"),
    },
    {
        "crystals": ("round(total - basin, 2)", "g"),
        "amount": ("conc * (volume in dm3)", "mol"),
        "theory": ("amount * molar", "g"),
        "percent": ("100 * crystals / theory", "%"),
    },
    {"a": "crystals"},
)  # fmt: skip
MASS = number(number_key(YIELD, "crystals", "g", slips=[("whole", "total", 0)]))
PERCENT = number(
    number_key(
        YIELD, "percent", "%", award={"method": 1, "value": 1},
        slips=[("inverted", "100 * theory / crystals", 0), ("molar-only", "crystals / amount", 1)],
    )
)  # fmt: skip
VOLUME = number(number_key(YIELD, "volume", "cm3", award={"value": 1, "unit": 1}, printed=False))
FIGURES = number(number_key(YIELD, "percent", "%", award={"value": 1, "figures": 1}, figures=3))
PLAIN = number(
    number_key(chain({"a": ("4.9", "cm"), "b": ("7.2", "cm")}, {"rf": ("a / b", "")}), "rf")
)


@pytest.mark.parametrize(
    "typed",
    ["4.12", "4.12 g", "4.120", "4.1", "0.00412 kg", "4120 mg", "4.12 x 10^0", "4.12 g = m"],
)
def test_equal_quantities_and_correct_roundings_are_right(typed):
    assert marks(MASS, typed) == 1


@pytest.mark.parametrize(
    "typed", ["4.11", "4.13", "41.2", "-4.12", "4.12 cm3", "53.02", "4", "4.12 s"]
)
def test_other_values_are_wrong(typed):
    assert marks(MASS, typed) == 0


def test_a_slip_is_told_by_its_value():
    mark = verdict(MASS, "53.02 g")
    assert (mark.slip, mark.says) == ("whole", "Slip whole.")


@pytest.mark.parametrize(
    ("typed", "slip", "begins"),
    [
        ("412", "power-of-ten", "Right digits, 100 times too large"),
        ("0.412", "power-of-ten", "Right digits, 10 times too small"),
        ("4", "rounded-too-far", "Rounded too far: to 2 figures it is 4.1."),
        ("-4.12", "sign", "The sign is the wrong way round."),
        ("4.12 cm3", "unit", "cm3 does not measure this: the unit is g."),
    ],
)
def test_slips_any_number_can_suffer(typed, slip, begins):
    mark = verdict(MASS, typed)
    assert mark.slip == slip
    assert mark.says.startswith(begins)


def test_cut_off_is_not_rounded():
    exact = verdict(PERCENT, "66.0").marks
    assert exact == 2
    third = number(number_key(chain({"a": ("2", "")}, {"q": ("a / 3", "")}), "q"))
    assert verdict(third, "0.66").slip == "cut-off"
    assert marks(third, "0.67") == marks(third, "2/3") == marks(third, "0.6667") == 1


def test_a_percentage_needs_its_hundred():
    mark = verdict(PERCENT, "0.661")
    assert (mark.slip, mark.marks) == ("no-times-100", 1)
    assert mark.says.startswith("Not multiplied by 100")


def test_a_tie_may_go_either_way():
    tie = number(number_key(chain({"a": ("2.345", "g")}, {"m": ("a * 1", "g")}), "m", "g"))
    assert marks(tie, "2.34") == marks(tie, "2.35") == 1
    assert marks(tie, "2.33") == marks(tie, "2.36") == 0


def test_values_rounded_on_the_way_are_forgiven():
    """4.12 / 6.24 is 66.0 %, 4.12 / 6.2375 is 66.1 %: common practice takes both."""
    assert marks(PERCENT, "66.0") == marks(PERCENT, "66.1") == marks(PERCENT, "66") == 2
    assert marks(PERCENT, "66.4") == 0


def test_a_reading_is_never_rounded_again():
    assert marks(MASS, "4.10") == 0


def test_a_reading_stays_when_what_it_was_made_from_is_rounded():
    """The author works forwards from a hidden share; the pupil only ever sees the reading."""
    links = chain(
        {"amount": ("0.0250", "mol"), "molar": ("249.5", "g/mol"), "share": ("0.6611", "")},
        {
            "theory": ("amount * molar", "g"),
            "crystals": ("round(theory * share, 2)", "g"),
            "percent": ("100 * crystals / theory", "%"),
        },
    )
    hidden = number(number_key(links, "crystals", "g"))
    assert marks(hidden, "4.12") == 1
    assert marks(hidden, "4.13") == 0  # 6.24 * 0.6611 rounded
    percent = number(number_key(links, "percent", "%"))
    assert marks(percent, "66.1") == marks(percent, "66.0") == 1
    assert marks(percent, "66.2") == 0


def test_the_learner_s_own_earlier_value_is_carried_forward():
    own = {"a": Fraction("4.20")}
    mark = verdict(PERCENT, "67.3", own)
    assert (mark.marks, mark.carried) == (2, True)
    assert mark.says == "Right on your own earlier value: 67.3."
    assert verdict(PERCENT, "66.1", own).marks == 2
    assert verdict(PERCENT, "67.3").marks == 0


def test_slips_are_told_on_carried_values_too():
    mark = verdict(PERCENT, "149", {"a": Fraction("4.20")})
    assert (mark.slip, mark.marks) == ("inverted", 0)


def test_unit_asked_for_has_a_mark_of_its_own():
    assert points_of(VOLUME, "25.0 cm3") == {"value": 1, "unit": 1}
    assert points_of(VOLUME, "25.0 ml") == {"value": 1, "unit": 1}
    assert points_of(VOLUME, "0.0250 dm3") == {"value": 1, "unit": 1}
    assert points_of(VOLUME, "25.0") == {"value": 1, "unit": 0}
    assert points_of(VOLUME, "25.0 g") == {"value": 1, "unit": 0}
    assert points_of(VOLUME, "25.0 dm3") == {"value": 1, "unit": 0}
    assert verdict(VOLUME, "25.0").says == "Right: 25.0. The unit is missing: cm3."


def test_figures_are_demanded_only_when_awarded():
    assert points_of(FIGURES, "66.1") == {"value": 1, "figures": 1}
    assert points_of(FIGURES, "66.05") == {"value": 1, "figures": 0}
    assert points_of(FIGURES, "66") == {"value": 1, "figures": 0}
    assert points_of(FIGURES, "71.2") == {"value": 0, "figures": 0}  # any number has some


def test_a_plain_number_has_no_unit():
    assert marks(PLAIN, "0.68") == 1
    assert marks(PLAIN, "68 %") == 1
    assert marks(PLAIN, "0.68 cm") == 0
    says = "No unit belongs here: cm is one too many. Type the number alone."
    assert verdict(PLAIN, "0.68 cm").says == says


def test_between_two_bounds():
    read = number(number_key(YIELD, "volume", "cm3", between=("24.5", "25.5")))
    assert marks(read, "24.5") == marks(read, "25.4 cm3") == 1
    assert marks(read, "24.4") == 0


class TestWorking:
    def test_the_last_value_counts(self):
        assert marks(MASS, "53.02 - 48.90 = 4.12 g") == 1
        assert marks(MASS, "53.02 - 48.90 = 4.21 g") == 0

    def test_a_calculation_that_leads_there_earns_the_method(self):
        assert points_of(PERCENT, "4.12 / 6.2375 x 100 = 77") == {"method": 1, "value": 0}
        assert points_of(PERCENT, "4.12/6.24*100") == {"method": 1, "value": 0}

    def test_two_values_earn_nothing_and_are_asked_about_once(self):
        mark = verdict(MASS, "4.12 or 4.21")
        assert mark.says == "More than one value, 4.12 and 4.21: choose one."
        assert (mark.marks, mark.readable) == (0, False)

    def test_one_value_given_twice_is_one(self):
        assert marks(MASS, "4.12 g (4120 mg)") == 1

    def test_a_sum_left_undone_is_not_an_answer(self):
        assert verdict(MASS, "53.02 - 48.90").says == "Not worked out: give the result too."


def test_what_cannot_be_read_may_be_typed_again():
    mark = verdict(MASS, "4,12")
    assert (mark.readable, mark.says) == (False, "Did you mean 4.12? Use a point.")
    assert verdict(MASS, "dunno").readable is False


def test_what_was_read_goes_on_to_later_parts():
    assert verdict(MASS, "4.20 g").value == Fraction("4.2")
    assert verdict(MASS, "4200 mg").value == Fraction("4.2")
    assert verdict(MASS, "dunno").value is None


LEFT = chain(
    {"full": ("31.42", "g"), "empty": ("21.846", "g"), "gone": ("3.0", "g")},
    {
        "mass": ("full - empty", "g"),
        "left": ("mass - gone", "g"),
        "more": ("100 * mass / full", "%"),
    },
    {"a": "mass"},
)
TWO = {"method": 1, "value": 1}
WEIGHED = number(number_key(LEFT, "mass", "g", award=TWO))
REST = number(number_key(LEFT, "left", "g", award=TWO))
SHARE = number(number_key(LEFT, "more", "%", award=TWO))


class TestRounding:
    @pytest.mark.parametrize("typed", ["9.57", "9.6", "9.574", "9570 mg", "0.00957 kg"])
    def test_two_figures_or_more_are_enough(self, typed):
        assert marks(WEIGHED, typed) == 2

    @pytest.mark.parametrize(
        ("typed", "says"),
        [
            ("10", "Rounded too far: to 2 figures it is 9.6."),
            ("9.58", "9.574 rounds to 9.57, not 9.58."),
            ("9.5", "9.57 rounds to 9.6, not 9.5."),
        ],
    )
    def test_a_wrong_rounding_loses_the_value_and_keeps_the_method(self, typed, says):
        mark = verdict(WEIGHED, typed)
        assert mark.says.startswith(says)
        assert points_of(WEIGHED, typed) == {"method": 1, "value": 0}

    @pytest.mark.parametrize(
        ("exact", "typed", "right"),
        [("9.96", "10", 1), ("9.96", "10.0", 1), ("99.6", "100", 1), ("96", "100", 0),
         ("0.0957", "0.10", 0), ("0.0996", "0.10", 1), ("1480", "1500", 1), ("10", "10", 1)],
    )  # fmt: skip
    def test_zeros_that_end_a_number(self, exact, typed, right):
        plain = chain({"x": (exact, "")}, {"y": ("x * 1", "")})
        assert marks(number(number_key(plain, "y")), typed) == right

    def test_what_was_asked_for_is_never_too_short(self):
        whole = number(number_key(LEFT, "mass", "g", decimals=0))
        assert marks(whole, "10") == 1
        assert marks(number(number_key(LEFT, "mass", "g", figures=1)), "10") == 1

    def test_figures_that_were_missed_are_named_first(self):
        asked = number(number_key(LEFT, "mass", "g", award={"value": 1, "figures": 1}, figures=3))
        assert verdict(asked, "9.6").says == (
            "9.57 was wanted: 3 significant figures. The value is right."
        )


def test_a_printed_unit_contradicted_is_told_before_powers_of_ten():
    mark = verdict(WEIGHED, "9.57 kg")
    assert (mark.slip, mark.value) == ("unit", Fraction("9.57"))
    assert mark.says.startswith("The number fits g, not kg: the unit is wrong.")
    assert points_of(WEIGHED, "9.57 kg") == {"method": 1, "value": 0}
    assert verdict(WEIGHED, "957 g").slip == "power-of-ten"


def test_less_than_nothing_is_not_carried_forward():
    mark = verdict(REST, "-5", {"a": Fraction(-2)})
    assert (mark.marks, mark.carried, mark.slip) == (0, False, "less-than-nothing")
    assert mark.says == "You cannot have less than nothing left: look at part (a) again."
    assert verdict(REST, "-1.0", {"a": Fraction(2)}).slip == "less-than-nothing"
    assert verdict(REST, "1.0", {"a": Fraction(4)}).carried


def test_a_percentage_below_nought_is_judged_like_any_other():
    assert verdict(SHARE, "-31.8", {"a": Fraction(-10)}).carried


def test_only_working_that_was_read_is_shown_beside_a_mark():
    shown = {one.id: one.because for one in verdict(WEIGHED, "31.42 - 21.846 = 9.57").points}
    assert shown == {"method": '"31.42 - 21.846"', "value": ""}
    assert {one.because for one in verdict(WEIGHED, "9.57").points} == {""}


def test_a_slip_written_to_the_places_asked_for_is_told():
    small = chain({"x": ("9.5", "cm3")}, {"y": ("x * 1", "cm3")})
    read = number_key(small, "y", "cm3", decimals=1, slips=[("tenth", "x / 10", 0)])
    assert verdict(number(read), "1.0").slip == "tenth"  # 0.95 to one place
