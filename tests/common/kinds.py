"""Every kind of part there is: the general ones, and those of each subject."""

from __future__ import annotations

from drill.bank.schema.part_schema import PART_KINDS, part_fields
from drill.model.field import Field
from drill.subjects import own_kinds

ALL_KINDS = (*PART_KINDS, *own_kinds())
ALL_FIELDS: tuple[Field, ...] = part_fields(own_kinds())
