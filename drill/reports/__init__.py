"""Rows for a teacher's and tutor's questions; showing them is the command line's business."""

from drill.reports.appeals import appeal_row, short_id
from drill.reports.weak import weak_rows

__all__ = ["appeal_row", "short_id", "weak_rows"]
