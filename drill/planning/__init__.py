"""From expected shares, exam date and minutes a day to the next question and a forecast.

The index is half a price on time, half plain gain: prices on the stretches of days to come gain
most where memory's weights fit the learner and lose where they do not; the gain of an asking now
is steadier (on tuning seeds, part of the way to the family plan: prices alone 0.936, half and
half 0.932, plain gain 0.922; with shipped weights 0.914, 0.921, 0.919). A future wrong answer is
never counted as harm; otherwise the planner would stop asking what is not known. A question of
another practical goes first when it is worth 0.8 of the best.
"""

from drill.planning.plan_values import Choice, Forecast, Reason, SkillPlan, lessons
from drill.planning.planner import HORIZON, Planner

__all__ = ["HORIZON", "Choice", "Forecast", "Planner", "Reason", "SkillPlan", "lessons"]
