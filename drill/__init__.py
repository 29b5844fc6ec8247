"""drill: spaced practice for practical-skills exam questions in school science."""

__version__ = "0.2.0"
