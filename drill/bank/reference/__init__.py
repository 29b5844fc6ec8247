"""The files that questions share: facts, skills, practicals, the lexicon, shared slips."""
