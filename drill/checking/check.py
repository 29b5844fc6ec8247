"""Many instances of many templates, in several processes, and one report on them."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, Future, ProcessPoolExecutor
from dataclasses import dataclass, field
from multiprocessing import get_context
from pathlib import Path

from drill.bank import read_template
from drill.checking.conditions import check_conditions
from drill.checking.instances import CHECKS
from drill.checking.reachable import check_reachable
from drill.checking.report import Finding, Report, Row
from drill.checking.samples import check_samples, check_settled
from drill.checking.scheme_faults import scheme_faults
from drill.checking.second_judge import judged, why_none
from drill.checking.trials import try_schemes
from drill.checking.variety import check_variety, fingerprint
from drill.errors import Problem
from drill.generate import generate
from drill.model import Template

Progress = Callable[[int, int], None]

_CHUNK = 50  # seeds worked on at once
_HOPELESS = 5  # seeds without a question after which no more are tried
_WITHOUT_DRAWS = 5  # seeds of a template without draws: only the order of options differs
_SHELVES = ("skills.toml", "practicals.toml", "lexicon.toml", "slips.toml")


@dataclass(frozen=True)
class Beside:
    """What templates are checked against: the bank's folder, and settled answers, if any."""

    folder: Path
    settled: Path | None = None


@dataclass(frozen=True)
class Task:
    """Some seeds of one template; small enough to hand to another process."""

    template: Template
    start: int
    stop: int
    beside: Beside


@dataclass
class CheckOutcome:
    """The findings for some seeds of a template; outcomes of one template can be added."""

    problems: list[Problem] = field(default_factory=list)
    findings: dict[tuple[str, int], tuple[Finding, int, int]] = field(default_factory=dict)
    seen: set[bytes] = field(default_factory=set)
    seeds: int = 0
    samples: int = 0

    def note(self, finding: Finding, seed: int, times: int = 1) -> None:
        """Count a finding; the first seed that shows it is kept."""
        place = (finding.check, finding.line)
        kept, first, count = self.findings.get(place, (finding, seed, 0))
        self.findings[place] = (kept, first, count + times)

    def add(self, other: CheckOutcome) -> None:
        """Take in another outcome, of later seeds."""
        self.problems += [one for one in other.problems if one not in self.problems]
        for finding, first, count in other.findings.values():
            self.note(finding, first, count)
        self.seen |= other.seen
        self.seeds += other.seeds
        self.samples += other.samples


def check(
    paths: Sequence[Path],
    folder: Path,
    seeds: int = 200,
    jobs: int = 1,
    on_progress: Progress | None = None,
    settled: Path | None = None,
) -> Report:
    """All that can be proved of templates before they are asked.

    Args:
        paths: template files, or folders of them.
        folder: the bank whose facts, lexicon and shared slips they use.
        seeds: instances of each template.
        jobs: processes to share the work; 1 works in this one.
        on_progress: told how many templates are done, and of how many.
        settled: a folder of answers settled on this computer, to check against as well.
    """
    files = list(dict.fromkeys(_files(paths)))
    templates: list[Template] = []
    problems: list[Problem] = []
    for path in files:
        read = read_template(path, folder)
        if isinstance(read, Template):
            templates.append(read)
        else:
            problems += read
    rows: list[Row] = []
    beside = Beside(folder, settled)
    for template, outcome in _outcomes(templates, seeds, jobs, on_progress, beside):
        found = _problems(template, outcome)
        problems += found
        rows.append(_row(template, outcome, found))
    return Report(tuple(sorted(problems)), len(files), tuple(rows))


def _files(paths: Sequence[Path]) -> Iterator[Path]:
    for path in paths:
        if path.is_dir():
            yield from (one for one in sorted(path.rglob("*.toml")) if one.name not in _SHELVES)
        else:
            yield path


def _seeds(template: Template, seeds: int) -> int:
    return max(1, seeds if template.draws else min(seeds, _WITHOUT_DRAWS))


# ------------------------------------------------------------ sharing the work


def _outcomes(
    templates: list[Template],
    seeds: int,
    jobs: int,
    on_progress: Progress | None,
    beside: Beside,
) -> Iterator[tuple[Template, CheckOutcome]]:
    tasks = [_tasks(template, _seeds(template, seeds), beside) for template in templates]
    if jobs <= 1 or sum(map(len, tasks)) < 2:
        results = (_together(map(check_some, several)) for several in tasks)
        yield from _told(templates, results, on_progress)
        return
    with ProcessPoolExecutor(jobs, mp_context=get_context("spawn")) as pool:
        submitted = [_submitted(pool, several) for several in tasks]
        results = (_together(one.result() for one in several) for several in submitted)
        yield from _told(templates, results, on_progress)


def _tasks(template: Template, seeds: int, beside: Beside) -> list[Task]:
    starts = range(0, seeds, _CHUNK)
    return [Task(template, start, min(start + _CHUNK, seeds), beside) for start in starts]


def _submitted(pool: Executor, tasks: list[Task]) -> list[Future[CheckOutcome]]:
    return [pool.submit(check_some, task) for task in tasks]


def _together(outcomes: Iterator[CheckOutcome]) -> CheckOutcome:
    whole = CheckOutcome()
    for outcome in outcomes:
        whole.add(outcome)
    return whole


def _told(
    templates: list[Template], results: Iterator[CheckOutcome], on_progress: Progress | None
) -> Iterator[tuple[Template, CheckOutcome]]:
    for done, (template, outcome) in enumerate(zip(templates, results, strict=True), 1):
        if on_progress is not None:
            on_progress(done, len(templates))
        yield template, outcome


# ------------------------------------------------------------ one template


def check_some(task: Task) -> CheckOutcome:
    """Checks some seeds of one template; the first batch also runs the checks that need no seed."""
    outcome, template = CheckOutcome(), task.template
    for seed in range(task.start, task.stop):
        outcome.seeds += 1
        question = generate(template, seed)
        if isinstance(question, Problem):
            outcome.note(_not_made(template, question, seed, task.beside.folder), seed)
            if outcome.seeds >= _HOPELESS and not outcome.seen:
                break  # every seed costs all its tries, and none will do better
            continue
        outcome.seen.add(fingerprint(question))
        for look in CHECKS.values():
            for finding in look(template, question):
                outcome.note(finding, seed)
        for finding in judged(template, question, task.beside.folder):
            outcome.note(finding, seed)
    if task.start == 0:
        if outcome.seen:
            outcome.problems += check_reachable(template)
            outcome.problems += check_conditions(template)
            outcome.problems += try_schemes(template)
        outcome.problems += scheme_faults(template)
        samples, outcome.samples = check_samples(template)
        outcome.problems += samples
        if task.beside.settled is not None:
            notes, count = check_settled(template, task.beside.settled)
            outcome.problems += notes
            outcome.samples += count
    return outcome


def _not_made(template: Template, problem: Problem, seed: int, folder: Path) -> Finding:
    message = problem.message.partition(" (seed ")[0]
    hint = why_none(template, seed, folder) or problem.hint
    return Finding(f"made {problem.line}", problem.line, f"{message}.", hint)


def _problems(template: Template, outcome: CheckOutcome) -> list[Problem]:
    found = list(outcome.problems)
    for finding, first, count in outcome.findings.values():
        if finding.always and count < outcome.seeds:
            continue
        where = f" (seed {first}" + (f"; {count} of {outcome.seeds} seeds)" if count > 1 else ")")
        says = finding.says + (where if template.draws else "")
        found.append(Problem(template.path, finding.line, 0, says, finding.hint, finding.level))
    if not any(problem.level == "error" for problem in found):
        found += check_variety(template, len(outcome.seen), outcome.seeds)
    return found


def _row(template: Template, outcome: CheckOutcome, problems: list[Problem]) -> Row:
    errors = sum(problem.level == "error" for problem in problems)
    return {
        "template": template.id,
        "path": template.path,
        "version": template.version,
        "seeds": outcome.seeds,
        "distinct": len(outcome.seen),
        "draws": template.has_draws,
        "samples": outcome.samples,
        "unproven": any(part.unproven for part in template.parts),
        "problems": errors,
        "passed": errors == 0,
    }
