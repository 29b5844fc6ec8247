"""What every marking rule needs: typed text made plain, spelling, names compared, marks built.

It stands below the subjects and `marking`, because the kinds of part of a subject are marked with
the same tools as the general ones and neither room may import the other.
"""
