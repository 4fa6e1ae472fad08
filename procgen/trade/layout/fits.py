"""Whether the nominal sizes give the clearances and fits that the family asks for."""

from __future__ import annotations

from collections.abc import Iterator

from procgen.model.family import Family
from procgen.trade.finding import Finding, said
from procgen.units.compare import at_most
from procgen.units.dimension import LENGTH

FITS = {
    "cup": (0.05, 0.30),  # mm that a cup is larger than its hole; common practice, no source
    "disc": (-0.10, 0.0),  # a disc slides in and is hardly loose, before it is flattened; common practice, no source
}
SHELL_STACK = 0.005  # mm: half the last digit of a bore drawn to 0.01 mm


def clearances(family: Family) -> Iterator[Finding]:
    """Housing less two walls less journal lies within the band that the family states, at every bearing."""
    for id in family.members.get("main", {}):
        sizes = tuple(family.member("main", id, name) for name in ("housing_bore", "shell_wall", "journal"))
        yield from _in_band(family, "mains", _clearance(*sizes), f"main {id}", ("main", id))
    rods = tuple(family.millimetres(f"rods.{name}") for name in ("housing_bore", "shell_wall", "journal"))
    yield from _in_band(family, "rods", _clearance(*rods), "rods", ("family", family.id))
    for id in family.members.get("cam_bearing", {}):
        bore, journal = family.member("cam_bearing", id, "bore_installed"), family.member("cam_bearing", id, "journal")
        yield from _in_band(family, "cam", _clearance(bore, 0.0, journal), f"cam bearing {id}", ("cam_bearing", id))


def cam_shells(family: Family) -> Iterator[Finding]:
    """A cam shell takes its bore's shape: block bore less two walls is the bore with the shell in."""
    for id in family.members.get("cam_bearing", {}):
        block, wall, bore = (
            family.member("cam_bearing", id, n) for n in ("block_bore", "shell_wall", "bore_installed")
        )
        if block is None or wall is None or bore is None:
            continue
        if not at_most(abs(block - 2 * wall - bore), SHELL_STACK, LENGTH):
            yield Finding(
                "cam-shell-bore",
                f"block bore less two walls is {said(block - 2 * wall, family, 3)} at cam bearing {id}, "
                f"not {said(bore, family, 3)}",
                (("cam_bearing", id),),
            )


def core_plugs(family: Family) -> Iterator[Finding]:
    """A cup is pressed in by 0.05 to 0.30 mm; a disc slides in, and is hardly loose."""
    for plug in family.core_plugs.values():
        if plug.kind not in FITS or plug.bore is None or plug.od_min is None or plug.od_max is None:
            continue
        least, most = plug.od_min - plug.bore, plug.od_max - plug.bore
        low, high = FITS[plug.kind]
        if not (at_most(low, least, LENGTH) and at_most(most, high, LENGTH)):
            yield Finding(
                "core-plug-fit",
                f"{plug.kind} {plug.id} is {said(least, family)} to {said(most, family)} over its bore; "
                f"{said(low, family)} to {said(high, family)} is usual",
                (("core_plug", plug.id),),
            )


def _clearance(housing: float | None, wall: float | None, journal: float | None) -> float | None:
    """Diametral clearance (mm) of a journal in a housing with two shell walls, w at the crown."""
    return None if housing is None or wall is None or journal is None else housing - 2 * wall - journal


def _in_band(
    family: Family, section: str, clearance: float | None, what: str, subject: tuple[str, str]
) -> Iterator[Finding]:
    least, most = family.millimetres(f"{section}.clearance_min"), family.millimetres(f"{section}.clearance_max")
    if clearance is None or (least is not None and most is not None and least > most):  # told by itself
        return
    if least is not None and not at_most(least, clearance, LENGTH):
        yield Finding(
            "clearance-band",
            f"{what}: nominal clearance {said(clearance, family, 4)} is under the least, {said(least, family, 4)}",
            (subject,),
        )
    if most is not None and not at_most(clearance, most, LENGTH):
        yield Finding(
            "clearance-band",
            f"{what}: nominal clearance {said(clearance, family, 4)} is over the most, {said(most, family, 4)}",
            (subject,),
        )
