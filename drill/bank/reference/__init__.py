"""What questions lean on: facts, skills, practicals, the lexicon, shared slips."""
