"""Where marks are lost and why: the report on one learner, and the lesson that follows from it."""
