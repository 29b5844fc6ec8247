"""A learner's two figures, with the one shown last kept in the store so that it moves smoothly."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from drill.planning.figures import Figures, Kept, figures

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

    from drill.model import Deck
    from drill.planning import Forecast, Planner
    from drill.store import Learner, Store

_SETTING = "figure of "


def learners_figures(
    store: Store,
    planner: Planner,
    deck: Deck,
    learner: Learner,
    now: datetime,
    minutes: Iterable[float] = (),
    before: Forecast | None = None,
    after: Forecast | None = None,
) -> Figures:
    """The figures of a learner with a deck, going on from those shown last.

    Args:
        planner: the learner's, with this deck.
        minutes: other minutes a day to tell of.
        before: the forecast for now without the latest answers, to say what they did.
        after: the forecast for now with them, where it was made already.
    """
    return figures(planner, now, _kept(store, deck, learner), minutes, before, after)


def keep_figure(
    store: Store, deck: Deck, learner: Learner, kept: Kept | None, now: datetime
) -> None:
    """Keep the figure shown at the end of a sitting; the next one starts from it."""
    if kept is not None:
        text = json.dumps(list(vars(kept).values()))
        store.set_setting(learner, _SETTING + deck.id, text, now)


def _kept(store: Store, deck: Deck, learner: Learner) -> Kept | None:
    """None when there is none, or (from another computer) nothing that can be read."""
    text = store.setting(learner, _SETTING + deck.id)
    if not text:
        return None
    try:
        share, answers, base, base_answers, minutes, exam = json.loads(text)
        return Kept(
            float(share), int(answers), float(base), int(base_answers), float(minutes), str(exam)
        )
    except (ValueError, TypeError, RecursionError):
        return None
