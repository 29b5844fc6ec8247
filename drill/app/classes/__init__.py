"""A class: work handed in, gathered and reported; and many schools together."""
