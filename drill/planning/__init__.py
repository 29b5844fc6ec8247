"""From expected shares, exam date and minutes a day to the next question and a forecast."""

from drill.planning.plan_values import Choice, Forecast, Reason, SkillPlan, lessons
from drill.planning.planner import HORIZON, Planner

__all__ = ["HORIZON", "Choice", "Forecast", "Planner", "Reason", "SkillPlan", "lessons"]
