"""The scale or graph that is part of a question: its numbers, its axes, its readings.

Axes are chosen here and not on the screen, since the tolerance of an answer is half a small
division and may not depend on a window. They are chosen for a screen of 80 by 24; a larger one
shows them larger. Steps of 1, 2 and 5, with more than half of the grid used, are common practice
(no source); labels are quantity over unit (NIST Special Publication 811, 2008, section 7.1). A
cooling line carried back to the time of mixing corrects a temperature rise (J. O'C. Young, Chem.
Educator 21 (2016) 53, abstract).

The tolerance follows from the readings. `read_off` names them, each may be wrong by half a small
division, and every answer that such readings lead to is correct. On the smallest screen a gradient
between two distant points has a tolerance of about 10 to 20 %; common mistakes must lie outside it.
"""
