"""What `drill bank check` proves of templates, before anybody is asked them.

check(paths, folder, seeds, jobs, on_progress) -> Report
fit(files, folder)                what marking learns from sample answers, into the fitted file
write_passed(report, folder)      the versions that passed, into the bank's passed.csv
CHECKS                            name -> what is looked at in every instance
"""

from __future__ import annotations

from drill.checking.check import check
from drill.checking.fitting import fit
from drill.checking.instances import CHECKS
from drill.checking.report import Report, write_passed

__all__ = ["CHECKS", "Report", "check", "fit", "write_passed"]
