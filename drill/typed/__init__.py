"""What every marking rule needs: cleaning typed text, spelling, comparing names, building marks.

It is below the subjects and `marking`, because a subject's kinds of part are marked with the same
tools as the general ones, and neither room may import the other.
"""
