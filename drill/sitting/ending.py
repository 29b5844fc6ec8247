"""What a question and a whole sitting showed, and the exam-day forecast afterwards."""

from __future__ import annotations

from datetime import datetime
from typing import TYPE_CHECKING

from drill.sitting import history
from drill.sitting.learner_planner import learners_planner

if TYPE_CHECKING:
    from collections.abc import Iterable

    from drill.model import Shares
    from drill.planning import Forecast, Planner
    from drill.planning.figures import Figures
    from drill.sitting.choosing import Choosing
    from drill.sitting.current_question import CurrentQuestion
    from drill.store import AskingRow


class Ending:
    """The questions finished in a sitting, with their totals."""

    def __init__(self, choosing: Choosing) -> None:
        self._choosing, self._store = choosing, choosing.store
        self.done: list[CurrentQuestion] = []
        self._told: tuple[Planner, datetime, tuple[Forecast, Forecast]] | None = None

    # ---------------------------------------------------------------- after a question

    def finish(self, asked: CurrentQuestion, now: datetime) -> None:
        """Tell memory and planner what this question showed, and cache what is remembered."""
        anew, self._told = self._choosing.told(asked.asking), None
        if asked.shown:
            if not anew:
                when = self._store.asking(asked.asking).when
                self._choosing.planner.expose(asked.skill, asked.question.template, when)
        elif not asked.left and asked.marks:
            if not anew:
                self._record(asked, self._store.asking(asked.asking))
            self.done.append(asked)
        memory = self._choosing.planner.memory
        history.keep(self._store, self._choosing.learner, memory, self._choosing.seen)

    def _record(self, asked: CurrentQuestion, row: AskingRow) -> None:
        from drill.store import observations

        planner, told = self._choosing.planner, set()
        parts = history.info_from_text(self._store.template_text(row.version))
        for seen in observations(row, parts):
            told.add(seen.skill)
            seconds = seen.seconds if seen.skill == asked.skill else 0.0
            if seen.score is None:
                planner.attempt(seen.skill, seen.template, seen.when, seconds, seen=True)
            else:
                planner.record(
                    seen.skill,
                    seen.template,
                    seen.when,
                    seen.score,
                    seconds,
                    seen.floor,
                    seen.certain_error,
                )
        if asked.skill not in told:  # marked by the learner: asked all the same
            seconds = self._store.seconds_of(asked.asking)
            planner.attempt(asked.skill, asked.question.template, row.when, seconds)

    # ---------------------------------------------------------------- the sitting so far

    def marks(self) -> tuple[int, int]:
        """Marks earned so far in this sitting, and the marks of the parts answered."""
        shares = self._shares()
        return sum(one.marks for one in shares), sum(one.of for one in shares)

    def own_marks(self) -> tuple[int, int]:
        """The same for marks the learner decided or set; never added to the marker's."""
        shares = self._shares()
        return sum(one.own for one in shares), sum(one.own_of for one in shares)

    def _shares(self) -> list[Shares]:
        return [asked.shares(part) for asked in self.done for part in asked.marks]

    def seconds(self) -> float:
        """Seconds spent on the questions finished in this sitting."""
        return sum(self._store.seconds_of(asked.asking) for asked in self.done)

    def forecasts(self, now: datetime) -> tuple[Forecast, Forecast]:
        """What exam day was expected to bring before this sitting, and now.

        Made once for one moment: the end of a sitting needs them for several figures.
        """
        planner = self._choosing.planner
        if self._told is None or self._told[:2] != (planner, now):
            self._told = planner, now, self._forecasts(planner, now)
        return self._told[2]

    def _forecasts(self, planner: Planner, now: datetime) -> tuple[Forecast, Forecast]:
        from drill.planning.figures import minutes_to_try

        choosing, minutes = self._choosing, minutes_to_try(planner)
        after = planner.forecast(now, minutes)
        if choosing.before is None:
            return after, after
        from drill.memory import Memory

        memory = Memory.from_state(choosing.before, lessons=planner.memory.lessons)
        then = learners_planner(
            self._store, choosing.bank, choosing.deck, choosing.learner, now, memory=memory
        )
        return then.forecast(now, minutes), after

    def figures(self, now: datetime, minutes: Iterable[float] = ()) -> Figures:
        """Held today and on the day, as they are shown; and what this sitting changed."""
        from drill.sitting.learner_figures import learners_figures

        choosing = self._choosing
        before, after = self.forecasts(now)
        return learners_figures(
            self._store,
            choosing.planner,
            choosing.deck,
            choosing.learner,
            now,
            minutes,
            before,
            after,
        )

    def states(self, now: datetime) -> dict[str, str]:
        """`{skill: word}`: how each skill stands now."""
        from drill.sitting.mastery import parts_of_versions, states

        askings = self._store.askings(self._choosing.learner)
        parts = parts_of_versions(self._store, askings)
        return states(askings, parts, self._choosing.planner, now)
