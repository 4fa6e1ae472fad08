"""Jobs written in a test: as YAML, judged by the workshop's own cards, or by a small workshop of the test's own."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from textwrap import dedent

from procgen.check import check_jobs
from procgen.compose import CardScope, job_bench
from procgen.compose.card import speaker_for
from procgen.compose.packet import compose_packet
from procgen.compose.verdicts import verdicts
from procgen.files.problems import Problem
from procgen.formula import Cell, State
from procgen.load.folder import Folder
from procgen.load.job import load_job
from procgen.load.workshop import JobFile, load_workshop
from procgen.model.job import Job
from procgen.model.packet import Packet
from procgen.model.verdict import Verdict
from procgen.model.workshop import Workshop
from tests.demo import ROOT, workshop


@dataclass(frozen=True)
class Stand:
    """One job on its stand. `shop` holds that job alone."""

    shop: Workshop
    problems: tuple[Problem, ...]

    def card(self, id: str) -> CardScope:
        return job_bench(self.shop, self.job).card(id)

    @property
    def job(self) -> Job:
        return next(iter(self.shop.jobs.values()))

    def value(self, card: str, name: str, member: str = "") -> float:
        cell = self.cell(card, name, member)
        assert cell.state is State.KNOWN, cell
        return cell.number

    def cell(self, card: str, name: str, member: str = "") -> Cell:
        return self.card(card).whole(name).cells[(member,) if member else ()]

    def verdict(self, card: str, decision: str, member: str = "") -> Verdict:
        bench = job_bench(self.shop, self.job)
        return next(
            v for v in verdicts(speaker_for(card, {"": bench})) if v.decision == decision and v.member == member
        )

    def outcome(self, card: str, decision: str, member: str = "") -> str:
        found = self.verdict(card, decision, member)
        assert found.is_settled, found
        return found.outcomes[0][0]

    def packet(self) -> Packet:
        return compose_packet(self.shop, self.job)[0]

    def told(self) -> list[str]:
        """Problems as "line:column: message; hint", errors and warnings."""
        said = (("; ".join(filter(None, (p.message, p.hint))), p.place) for p in self.problems)
        return [f"{place.line}:{place.column}: {text}" for text, place in said]


def stand(text: str, folder: Path) -> Stand:
    """A job of the workshop's own families, from the text of its file."""
    path = folder / "job.yaml"
    path.write_text(dedent(text), "utf-8")
    files = Folder(ROOT, Path.read_bytes)
    found = files.one("job", path)
    if not found:
        return Stand(replace(workshop(), jobs={}), tuple(files.problems))
    at = next(iter(found.values()))
    reader = files.reader(at)
    job = load_job(at, reader, workshop())
    if job is None:
        return Stand(replace(workshop(), jobs={}), tuple(reader.problems))
    shop = replace(workshop(), jobs={job.id: job})
    return Stand(shop, (*reader.problems, *(p for p in check_jobs(shop) if p.place.path == path.as_posix())))


def small(procedure: str, family: str, job: str, folder: Path, gauges: str = "") -> Stand:
    """A workshop with one procedure `size`, one family `teal` and one job."""
    files = {
        "procedures/workshop.yaml": "format: workshop/1\nname: Test Shop\nstock: a5\ndeck: [size]\n" + dedent(gauges),
        "procedures/deck/size.yaml": dedent(procedure),
        "procedures/families/teal.yaml": dedent(family),
        "procedures/jobs/one.yaml": dedent(job),
    }
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    loaded = load_workshop(folder, Path.read_bytes, JobFile(folder / "procedures/jobs/one.yaml"))
    assert loaded.workshop is not None, loaded.problems
    assert not [p for p in loaded.problems if p.is_error], loaded.problems
    return Stand(loaded.workshop, loaded.problems)
