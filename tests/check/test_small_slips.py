"""Slips that were once passed over, or told at the wrong place or again and again: one line each, and what is said."""

import shutil
from pathlib import Path

import pytest
from test_wrong import HERE, said

CARD, FAMILY, SHOP = "deck/wear.yaml", "families/teal.yaml", "workshop.yaml"
WAYS = "    title: Size\n    each: cylinder\n"
BORE = "        then: Bore. It is worn.\n"
GAUGE = "step: 0.001 mm, uncertainty: 0.004 mm"

SLIPS = (
    (CARD, "max: shop.wear_max", "max: wear", "15:19: error: a limit of `wear` is `wear` again: it would let anything"
     " pass (name another figure) [idle-limit]"),
    (CARD, "max: shop.wear_max", "min: shop.wear_max, max: shop.wear_max",
     "15:39: error: `min` and `max` of `wear` are the same (leave one out, or mend it) [idle-limit]"),
    (CARD, "    formula: size - geometry.bore", "    formula:",
     "10:3: error: `wear` has no `formula` (say how it is worked out, or what it `is`) [missing-key]"),
    (CARD, "    formula: size - geometry.bore", "    formula: size - geometry.bore\n    is: 3 mm",
     "14:9: error: `wear` is given outright and worked out too: only one"
     " could count (keep `is` or `formula`) [wrong-form]"),
    (CARD, "scored: is scored", "scored: is sound",
     "29:32: error: `sound` and `scored` of `wall` both read “is sound” (say them apart) [wrong-form]"),
    (CARD, WAYS, f"{WAYS}    expect: {{near: geometry.bore, below: -1 mm, above: 1 mm}}\n",
     "24:42: error: `below` is how far it may lie below `near`, and can't be less than"
     " nothing (write it without the sign) [out-of-range]"),
    (CARD, BORE, f"{BORE}        buy: [{{item: piston, count: 1, size: geometry.bor}}]\n",
     "38:15: error: there is no name `geometry.bor` (did you mean `geometry.bore`?) [unknown-name]"),
    (SHOP, "deck: [wear]", "deck: [wear.yaml]", "5:8: error: `wear.yaml` is not written as entry 1 of `deck` wants it"
     " (did you mean `wear`?) [wrong-form]"),
    (SHOP, "stock: a5", "stock: a5\nread_from: {steps: 0.7 mm}", "5:20: error: nobody reads a card from 0.7 mm"
     " (write 0.2 m to 10 m, as in 0.7 m) [out-of-range]"),
    (SHOP, "stock: a5", "stock: a5\napproved: {by: R. Teal, on: 2026-02-30}",
     "5:29: error: there is no day `2026-02-30` (write year-month-day, as in 2026-03-14) [day]"),
    (SHOP, GAUGE, "step: 0.001 mm, uncertainty: 0 mm",
     "9:65: error: `uncertainty` must be more than nothing (leave it empty until it is known) [gauge-figures]"),
    (SHOP, GAUGE, f"range: [50, 150 mm], {GAUGE}", "9:43: error: `range` has no unit (write it after both ends, for"
     " example [50 mm, 150 mm]) [gauge-figures]"),
    (FAMILY, "traits:", "variants: {short: {name: Works}, long: {name: Works}}\ntraits:",
     "6:40: error: two variants are called `Works` (give one of them another `name`) [same-id]"),
    (FAMILY, "traits:", "mains: {bearings: {Every: {journal: 40}, 1: {x: 10}}}\ntraits:",
     "6:20: error: `Every` would be one more main (did you mean `every`, for all of them?) [unknown-key]"),
    (FAMILY, "traits:", "oversizes: [0.5, 0.25]\ntraits:",
     "6:12: error: Teal: `oversizes` do not rise from one to the next"
     " (write each once, the smallest first) [out-of-order]"),
    (FAMILY, "traits:", "oversizes: [-0.25]\ntraits:", "6:12: error: Teal: each of `oversizes` must be"
     " more than nothing (write by how much each differs from the standard size, without a sign) [not-a-size]"),
    (FAMILY, "traits:", "oversizes: [70.25]\ntraits:",
     "6:12: error: Teal: `oversizes` of 70.25 mm does not go with a size of 70.00 mm"
     " (write by how much each differs from the standard size, not the size itself) [out-of-proportion]"),
    (FAMILY, "traits:", "rods: {shell_wall: -1.8}\ntraits:", "6:20: error: Teal: `shell_wall` must be more than nothing"
     " (write the size, or leave it empty until it is known) [not-a-size]"),
    (FAMILY, "traits:", "limits: {main_cap_torque: -80 N·m}\ntraits:",
     "6:27: error: Teal: `main_cap_torque` must be more than nothing"
     " (write the size, or leave it empty until it is known) [not-a-size]"),
    (FAMILY, "traits:", "core_plugs: {C: {kind: cup, plug_od: [41.4, 41.3]}}\ntraits:",
     "6:14: error: Teal: `plug_od` of C runs downward (write the smaller one first) [limits-crossed]"),
    (FAMILY, "traits:", "drain_plugs: {D: {thread: 1/4-17 NPT}}\ntraits:",
     '6:15: error: Teal: 1/4 NPT has 18 threads an inch, not 17 (write "1/4-18 NPT") [thread-unknown]'),
    (FAMILY, "kind: inline, cylinders: 2}", "kind: vee, cylinders: 2}\ncylinders: {1: {bank: A}, 2: {bank: A}}",
     "5:9: error: Teal: the layout is vee, and `cylinders` stand in one bank (mend `kind`, or each cylinder's `bank`)"
     " [cylinders-counted]"),
)  # fmt: skip


@pytest.mark.parametrize(
    ("file", "old", "new", "message"), SLIPS, ids=[message.split("[")[-1] for *_, message in SLIPS]
)
def test_it_is_told_once_and_where_it_stands(file: str, old: str, new: str, message: str, tmp_path: Path) -> None:
    shutil.copytree(HERE / "workshop", tmp_path, dirs_exist_ok=True)
    path = tmp_path / "procedures" / file
    written = path.read_text()
    assert old in written
    path.write_text(written.replace(old, new, 1))
    assert said(tmp_path) == f"procedures/{file}:{message}\n"


def test_ways_across_that_nothing_is_read_for(tmp_path: Path) -> None:
    """It goes on as if they had been asked for, so that the formulas that use them are not told as well."""
    shutil.copytree(HERE / "workshop", tmp_path, dirs_exist_ok=True)
    path = tmp_path / "procedures" / CARD
    ways = path.read_text().replace("formula: size -", "formula: max(size) -")
    path.write_text(ways.replace(WAYS, f"{WAYS}    axis: {{thrust: across, axial: along}}\n"))
    hint = "write `each: [cylinder, axis]`, or leave out `axis`"
    message = f"24:11: error: `size` has ways across, and is not read for each of them ({hint}) [wrong-form]"
    assert said(tmp_path) == f"procedures/{CARD}:{message}\n"


JOB = """format: job/1
id: eider
family: teal
gauges: {mine: {kind: bore_gauge, step: 0.001 mm, uncertainty: 0.01 mm}}
sessions:
  - id: first
    card: wear
    gauge: {size: bore_gauge_1}
    cylinder: {1: {size: 70.1, wall: sound}}
"""


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("{size: 70.1, wall: sound}", "70.1",
         "9:19: error: what was read of `1` goes by its name; this is a value alone (write {size: …}) [wrong-type]"),
        ("70.1", "[70.1, 70.2]", "9:26: error: `size` is read once here; this is a list (write what was read, alone)"
         " [wrong-type]"),
        ("70.1", "{thrust: 70.1}", "9:26: error: `size` is read once here; this is a map (`key: value`)"
         " (write what was read, alone) [wrong-type]"),
        ("bore_gauge", "bore_gage",
         "4:10: error: there is no gauge `bore_gage` (did you mean `bore_gauge`?) [no-gauge]"),
        ("    card: wear", "    on: 2026-02-30\n    card: wear",
         "7:9: error: there is no day `2026-02-30` (write year-month-day, as in 2026-03-14) [day]"),
    ],
)  # fmt: skip
def test_of_a_job(old: str, new: str, message: str, tmp_path: Path) -> None:
    shutil.copytree(HERE / "workshop", tmp_path, dirs_exist_ok=True)
    path = tmp_path / "procedures" / "jobs" / "eider.yaml"
    path.parent.mkdir()
    path.write_text(JOB)
    assert said(tmp_path) == ""
    path.write_text(JOB.replace(old, new, 1))
    assert said(tmp_path) == f"procedures/jobs/eider.yaml:{message}\n"


def test_a_reading_of_two_ways_given_once(tmp_path: Path) -> None:
    shutil.copytree(HERE / "workshop", tmp_path, dirs_exist_ok=True)
    card, job = tmp_path / "procedures" / CARD, tmp_path / "procedures" / "jobs" / "eider.yaml"
    written = card.read_text().replace("formula: size -", "formula: max(size) -")
    ways = "    title: Size\n    each: [cylinder, axis]\n    axis: {thrust: across, axial: along}\n"
    card.write_text(written.replace(WAYS, ways))
    job.parent.mkdir()
    job.write_text(JOB)
    hint = "say where each was read, as in {thrust: …}"
    message = f"9:26: error: `size` is read more than once; this is a value alone ({hint}) [wrong-type]"
    assert said(tmp_path) == f"procedures/jobs/eider.yaml:{message}\n"
