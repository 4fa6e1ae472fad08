"""One job: its file read, checked and judged, wherever it lies."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from procgen.check import check_jobs
from procgen.compose.packet import compose_packet
from procgen.files.problems import Problem
from procgen.load.folder import FOLDERS, Read
from procgen.load.workshop import JobFile, load_workshop
from procgen.make.build import settings_of
from procgen.make.order import Order, require
from procgen.make.printing import packet_path, require_layout
from procgen.model.packet import Packet
from procgen.model.verdict import Judged
from procgen.model.workshop import Workshop
from procgen.values import dataclass


@dataclass(frozen=True, slots=True)
class Settled:
    """`packet` and `judged` are None where there are errors. `problems`: errors, and whatever else is of the job."""

    problems: tuple[Problem, ...]
    sources: Mapping[str, str]
    workshop: Workshop | None = None
    packet: Packet | None = None
    judged: Judged | None = None


def work_out(root: Path, named: str, readings: Path | None, read: Read) -> Settled:
    """`named`: a path, or the id of a job in the workshop's folder.

    Raises:
        UnknownName: where it is neither.
    """
    path = job_path(root, named)
    loaded = load_workshop(root, read, JobFile(path, readings))
    sources = {shown: content.decode("utf-8", "replace") for shown, content in loaded.sources.items()}
    found = list(loaded.problems)
    if loaded.workshop is not None:
        broken = {problem.place.path for problem in found if problem.is_error}
        found += check_jobs(loaded.workshop, broken)
    jobs = {job.place.path for job in loaded.workshop.jobs.values()} if loaded.workshop is not None else set()
    own = {*jobs, *_shown(root, (path, readings))}
    told = tuple(p for p in dict.fromkeys(sorted(found, key=lambda p: p.place)) if p.is_error or p.place.path in own)
    job = next(iter(loaded.workshop.jobs.values()), None) if loaded.workshop is not None else None
    if loaded.workshop is None or job is None or any(problem.is_error for problem in told):
        return Settled(told, sources)
    packet, judged = compose_packet(loaded.workshop, job)
    return Settled(told, sources, loaded.workshop, packet, judged)


def print_packet(settled: Settled, order: Order) -> tuple[Path, tuple[Problem, ...]]:
    """Write the job's packet into the site, its old one replaced only by a whole new one.

    Raises:
        NoLayout: where nothing can be laid out here.
    """
    assert settled.workshop is not None
    assert settled.packet is not None
    require_layout()
    from procgen.draw.fonts import prepare
    from procgen.paper.packet import PacketPress

    setting = settings_of(settled.workshop, order)[0]
    press = PacketPress(prepare(setting.fonts), setting.templates)
    made = press.packet(settled.packet, setting.shop, setting.sheets.paper, setting.theme)
    path = order.out / packet_path(settled.packet.id)
    if not any(problem.is_error for problem in made.problems):
        path.parent.mkdir(parents=True, exist_ok=True)
        new = path.with_suffix(".new")
        new.write_bytes(made.pdf)
        new.replace(path)
    return path, made.problems


def job_path(root: Path, named: str) -> Path:
    """The file that a person means; one of the workshop's own is called as the workshop calls it."""
    folder = root / FOLDERS["job"]
    given = Path(named)
    if given.suffix or given.is_file():
        if not given.is_file():
            require("job file", named, sorted(path.as_posix() for path in folder.glob("*.yaml")))
        inside = folder.resolve()
        return folder / given.name if given.resolve().parent == inside else given
    require("job", named, sorted(path.stem for path in folder.glob("*.yaml")))
    return folder / f"{named}.yaml"


def _shown(root: Path, paths: tuple[Path | None, ...]) -> Iterator[str]:
    for path in paths:
        if path is not None:
            yield path.relative_to(root).as_posix() if path.is_relative_to(root) else path.as_posix()
