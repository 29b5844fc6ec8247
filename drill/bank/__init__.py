"""The bank: an author's text becomes a `Template` or a `Deck`, or problems with file and line."""

from drill.bank.facts import read_facts
from drill.bank.template import read_template
from drill.bank.version import ENGINE

__all__ = ["ENGINE", "read_facts", "read_template"]
