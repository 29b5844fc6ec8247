"""The pages in a real browser: no console message, nothing fetched, accessible, on A4 when printed.

Needs Chromium; `.ci/run` installs it where it is missing.
"""

from __future__ import annotations

import json
import random
import re
import shutil
import subprocess
from datetime import date
from html import unescape
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest

from drill.app.classes.class_report import class_report
from drill.app.classes.class_room import Pupil, sums_of
from drill.documents import writer
from drill.documents.class_report import whole
from tests.common.classes import NOW, SKILLS, class_of, item, row
from tests.common.shipped import shipped_bank

BROWSER = shutil.which("chromium") or shutil.which("chromium-browser")
RULES = find_spec("axe_selenium_python")
_A4 = (595, 842)

pytestmark = [
    pytest.mark.skipif(BROWSER is None, reason="no Chromium on this machine"),
    pytest.mark.skipif(RULES is None, reason="no accessibility rules on this machine"),
]


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A whole class report: tables, charts, a name that would be markup."""
    pupils = [
        Pupil(one.code, "<b>Ann & Co</b>", (one.learner,), sums_of(one.rows), 12, 0)
        for one in class_of(14, 1, SKILLS[0])
    ]
    odd = [row(random.Random(1), item("odd", 0, "salts/broken"), NOW, 0, 1, faulty=True)]
    pupils.append(Pupil("k99", "", ("x",), sums_of(odd), 12, 0))
    report = class_report("Year 11 <C1>", pupils, {}, shipped_bank().skills(), date(2027, 3, 1))
    path = tmp_path_factory.mktemp("page") / "class.html"
    path.write_text(writer("html")(whole(report)), encoding="utf-8")
    return path


def browse(page: Path, *options: str) -> subprocess.CompletedProcess[str]:
    assert BROWSER is not None
    return subprocess.run(
        [BROWSER, "--headless", "--no-sandbox", "--disable-gpu", "--enable-logging=stderr",
         f"--user-data-dir={page.parent / 'profile'}", "--virtual-time-budget=20000", *options,
         page.as_uri()],
        capture_output=True, text=True, check=True, timeout=120,
    )  # fmt: skip


def asked_of(page: Path, script: str, extra: str = "") -> Any:
    """What a script answers in a copy of the page that lets scripts run."""
    copy = page.with_name("copy.html")
    text = re.sub("<meta[^>]*Content-Security-Policy[^>]*>", "", page.read_text("utf-8"))
    shown = (
        "const shown = found => { const out = document.createElement('pre'); out.id = 'found';"
        "out.textContent = JSON.stringify(found); document.body.append(out); };"
    )
    more = f"{extra}<script>{shown}addEventListener('load', () => {{ {script} }});</script>"
    copy.write_text(text.replace("</body>", f"{more}</body>"), encoding="utf-8")
    found = re.search(r'<pre id="found">(.*?)</pre>', browse(copy, "--dump-dom").stdout, re.DOTALL)
    assert found is not None, "the script did not run"
    return json.loads(unescape(found[1]))


def test_a_message_to_the_console_would_be_noticed(page: Path) -> None:
    spoilt = page.with_name("spoilt.html")
    text = page.read_text("utf-8")
    spoilt.write_text(text.replace("</body>", "<script>x(</script></body>"), encoding="utf-8")
    printed = browse(spoilt, f"--print-to-pdf={page.with_name('spoilt.pdf')}")
    assert "CONSOLE" in printed.stderr


def faults_of(page: Path, extra: str = "") -> tuple[list[str], list[str]]:
    """The accessibility rules that a page breaks, and what it fetched."""
    assert RULES is not None
    assert RULES.origin is not None
    rules = next(Path(RULES.origin).parent.rglob("axe.min.js")).read_text("utf-8")
    script = (
        "axe.run(document).then(found => shown([found.violations.map(one => one.id),"
        "performance.getEntriesByType('resource').map(one => one.name)]));"
    )
    broken, fetched = asked_of(page, script, f"{extra}<script>{rules}</script>")
    return broken, fetched


def test_the_page_fetches_nothing_and_passes_the_accessibility_rules(page: Path) -> None:
    assert faults_of(page) == ([], [])


def test_a_picture_that_is_fetched_and_has_no_words_would_be_noticed(page: Path) -> None:
    broken, fetched = faults_of(page, '<img src="http://127.0.0.1:49151/x.png">')
    assert "image-alt" in broken
    assert fetched == ["http://127.0.0.1:49151/x.png"]


def test_the_page_prints_on_a4_and_says_nothing_to_the_console(page: Path) -> None:
    printed = page.with_name("class.pdf")
    done = browse(page, f"--print-to-pdf={printed}")
    assert "CONSOLE" not in done.stderr
    boxes = re.findall(rb"/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)", printed.read_bytes())
    assert boxes
    for wide, high in boxes:
        assert (round(float(wide)), round(float(high))) == pytest.approx(_A4, abs=2)
