"""What `drill` alone prints: in ten lines, what a student, a teacher and a tutor would type."""

from __future__ import annotations

LINES = """\
Practice for practical-skills exam questions. Start: drill sit

Student  drill sit                     what gains most; --again: what went wrong
         drill sit titration           one practical, topic or skill
         drill plan --exam 2027-05-18  your exam date; then how you stand
         drill answers                 what you typed, its marks, what was right
Teacher  drill deck new                what was taught, and when the exam is
         drill deck handout            a file for pupils; drill appeals: marks
Tutor    drill weak                    where marks are lost, and why
Every command: drill -h               One of them: drill sit -h"""
