"""The judge's internal exception for anything without a value; it never leaves this package."""


class Cannot(Exception):
    """A formula, a unit or a draw cannot be worked out; the message says why."""
