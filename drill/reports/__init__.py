"""Rows for a teacher's and tutor's questions; showing them is the command line's business."""

from drill.reports.weak import weak_rows

__all__ = ["weak_rows"]
