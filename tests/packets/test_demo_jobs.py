"""The three engines on the shop's stands: verdicts, exit codes, the published form, and their packets on paper."""

from __future__ import annotations

import json
from functools import cache
from io import BytesIO
from pathlib import Path

import pdfplumber
import pytest
from jsonschema import Draft202012Validator

from procgen.cli import main
from procgen.compose import shop
from procgen.compose.packet import compose_packet
from procgen.compose.packet.record import record
from procgen.draw.fonts import prepare
from procgen.files.home import resources
from procgen.model.packet import BEGUN, DONE, UNCALLED, WAITING, Packet
from procgen.model.verdict import CLOSE, TOO_CLOSE, Judged
from procgen.paper.boxes import MM, attribute, walk
from procgen.paper.boxes import pages as boxes_of
from procgen.paper.packet import PacketPress, PacketPrint
from tests.demo import ROOT, workshop
from tests.packets.shed import stand

JOBS = ("reed-cutter", "samphire", "sea-lavender")


@cache
def made(id: str) -> tuple[Packet, Judged]:
    return compose_packet(workshop(), workshop().jobs[id])


@cache
def printed(id: str, theme: str = "colour") -> PacketPrint:
    press = PacketPress(prepare(ROOT / ".cache" / "test-fonts"), [resources("templates")])
    return press.packet(made(id)[0], shop(workshop()), "a4", theme)


def outcomes(id: str, card: str, decision: str) -> set[str]:
    settled = [v for v in made(id)[1].verdicts if v.is_settled]
    found = {v.outcomes[0][0] for v in settled if (v.card, v.decision) == (card, decision)}
    assert found
    return found


def test_one_is_honed() -> None:
    assert outcomes("reed-cutter", "cylinder-survey", "hone_or_bore") == {"hone"}
    assert outcomes("reed-cutter", "decide", "engine") == {"hone_all"}
    (before,) = made("reed-cutter")[0].befores
    assert [change.whose for change in before.changes] == [f"cylinder {n}" for n in range(1, 5)]


def test_a_card_that_was_decided_against_is_not_called_for(tmp_path: Path) -> None:
    """Bored or honed: with every cylinder honed no bar turns; with pistons on order it has yet to turn."""
    honed = made("reed-cutter")[0]
    states = {one.card: one.state for one in honed.progress}
    assert (states["hone"], states["bore"], states["line-deck"]) == (DONE, UNCALLED, WAITING)
    assert f"{list(states.values()).count(WAITING)} stages not begun" in honed.sentence
    bored = (ROOT / "procedures/jobs/sea-lavender.yaml").read_text("utf-8")
    for pistons in ("none", "ordered"):
        packet = stand(bored.replace("pistons: none", f"pistons: {pistons}"), tmp_path).packet()
        assert {one.state for one in packet.progress if one.card == "bore"} == {WAITING}, pistons


def test_one_is_bored_and_all_its_cylinders_to_one_size() -> None:
    packet, judged = made("sea-lavender")
    assert outcomes("sea-lavender", "cylinder-survey", "hone_or_bore") == {"hone", "bore"}
    assert outcomes("sea-lavender", "decide", "engine") == {"bore_all"}
    bought = {(part.item, part.size): (part.count, part.on_shelf) for part in packet.purchases}
    assert bought["piston, oversize", "0.50\u202fmm"] == (6, 2)  # eight cylinders, two on the shelf
    assert bought["ring set, oversize", "0.50\u202fmm"] == (8, 0)
    assert bought["core plug, hole", "41.30\u202fmm"] == (0, 6)
    shells = {size: count for (item, size), (count, _) in bought.items() if item.startswith("cam shell")}
    assert shells == {f"{size}\u202fmm": 1 for size in ("54.00", "53.60", "53.20", "52.80", "52.40")}
    assert "old_fits" not in {verdict.decision for verdict in judged.verdicts}  # nobody asks of pistons that go
    assert packet.shells_out == ("cam shells: cam bearings 1–5",)


def test_one_has_two_verdicts_too_close_to_call() -> None:
    packet, judged = made("samphire")
    close = [v for v in judged.verdicts if v.state == CLOSE and any(m.side == TOO_CLOSE for m in v.margins)]
    assert [(v.card, v.member) for v in close] == [("cam-bearings", "2"), ("cylinder-survey", "A2")]
    assert packet.sentence.startswith("Not settled: 2 verdicts are too close to call")
    assert "bore gauge 1" in close[1].settles  # the shop's own gauge is finer than the borrowed one
    assert "more finely than with micrometer 50 and small bore 1" in close[0].settles  # the shop has none
    assert packet.cover[0].word == TOO_CLOSE  # what needs somebody stands first
    wanted = {sheet.title for sheet in packet.sheets}
    assert wanted == {"Hone or bore"}


def test_members_that_say_the_same_are_told_once() -> None:
    for id in JOBS:
        packet, judged = made(id)
        assert len(packet.findings) < len(judged.verdicts) / 2
        lines = len([f for f in packet.findings if f.state != CLOSE])
        assert lines < 90


@pytest.mark.parametrize("id", JOBS)
def test_the_published_form_holds(id: str) -> None:
    schema = json.loads((resources("schemas") / "verdicts.json").read_text("utf-8"))
    data = json.loads(json.dumps(record(*made(id))))
    assert [fault.message for fault in Draft202012Validator(schema).iter_errors(data)] == []
    assert len(data["verdicts"]) > 50
    assert data["settled"] is False


def test_exit_codes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    start = ["job", "--workshop", str(ROOT), "--no-packet"]
    assert main([*start, "samphire"]) == 3
    assert "TOO CLOSE TO CALL" in capsys.readouterr().out
    assert main([*start, "samphyre"]) == 2
    assert "samphire" in capsys.readouterr().err
    broken = tmp_path / "broken.yaml"
    broken.write_text((ROOT / "procedures/jobs/samphire.yaml").read_text("utf-8").replace("A1:", "A7:"), "utf-8")
    assert main([*start, str(broken)]) == 1
    assert "has no cylinder `A7`" in capsys.readouterr().err
    assert main([*start, str(broken), "--json"]) == 1
    assert json.loads(capsys.readouterr().out)["problems"]


def test_a_broken_job_leaves_its_old_packet_alone(tmp_path: Path) -> None:
    old = tmp_path / "site/jobs/samphire/packet.pdf"
    old.parent.mkdir(parents=True)
    old.write_bytes(b"old")
    broken = tmp_path / "samphire.yaml"
    broken.write_text((ROOT / "procedures/jobs/samphire.yaml").read_text("utf-8").replace("A1:", "A7:"), "utf-8")
    assert main(["job", "--workshop", str(ROOT), "--out", str(tmp_path / "site"), str(broken)]) == 1
    assert old.read_bytes() == b"old"


@pytest.mark.parametrize("id", JOBS)
def test_a_packet_says_what_was_settled(id: str) -> None:
    packet, _ = made(id)
    made_pdf = printed(id)
    assert made_pdf.problems == ()
    with pdfplumber.open(BytesIO(made_pdf.pdf)) as pdf:
        pages = [{word["text"] for word in page.extract_words()} for page in pdf.pages]
    whole = set().union(*pages)
    for said in (packet.title, packet.sentence, *(row.word for row in packet.cover)):
        assert set(said.split()) <= pages[0], said  # a cell may wrap, so word by word
    assert {one.revision for one in packet.progress if one.state in (DONE, BEGUN)} <= pages[0]
    assert {plug.id for plug in (*packet.plugs, *packet.water_plugs)} <= whole
    for part in packet.purchases:
        assert set(f"{part.item} {part.size}".split()) <= whole
    places = {label for sheet in packet.sheets for _, table in sheet.tables for label, _ in table.rows}
    assert {word for label in places for word in label.split()} <= whole


def test_two_bores_are_written_side_by_side() -> None:
    """Three of samphire's are wanting, all at the same depths; on the paper two of them are one table."""
    packet, _ = made("samphire")
    tables = [(title, table) for sheet in packet.sheets for title, table in sheet.tables if title.startswith("Bore")]
    assert [title for title, _ in tables] == ["Bore, mm, cylinders B1 and B2", "Bore, mm, cylinder B3"]
    assert [len(table.head) for _, table in tables] == [4, 2]
    assert all(len(cells) == len(table.head) for _, table in tables for _, cells in table.rows)
    rights = [
        round(box.position_x * MM) for page in boxes_of(printed("samphire").document) for box in walk(page)
        if attribute(box, "class") == "box"
    ]  # fmt: skip
    assert sum(right > 150 for right in rights) == 6, "a column of six in the right quarter of the page"


def test_boxes_are_large_enough_for_a_marker() -> None:
    """Every reading that is wanting has its box: at least 11 mm high, 8 mm for each of five digits."""
    packet, _ = made("samphire")
    wanted = [cell for sheet in packet.sheets for _, table in sheet.tables for _, cells in table.rows for cell in cells]
    found = []
    for page in boxes_of(printed("samphire").document):
        for box in walk(page):
            if (kind := attribute(box, "class")) in ("box", "letter"):
                found.append((kind, box.width * MM, box.height * MM))
    heads = 2 * len(packet.sheets)  # day and name
    assert len(found) == wanted.count(None) + heads
    assert all(height >= 11 for _, _, height in found)
    assert all(width >= 40 for kind, width, _ in found if kind == "box")


def test_nothing_moves_between_the_themes() -> None:
    colour, mono = printed("samphire"), printed("samphire", "mono")
    assert colour.pages == mono.pages

    def lines(made_pdf: PacketPrint) -> list[list[tuple[str, int, int]]]:
        with pdfplumber.open(BytesIO(made_pdf.pdf)) as pdf:
            return [[(w["text"], round(w["x0"]), round(w["top"])) for w in page.extract_words()] for page in pdf.pages]

    assert lines(colour) == lines(mono)


def test_the_same_packet_gives_the_same_bytes() -> None:
    again = PacketPress(prepare(ROOT / ".cache" / "test-fonts"), [resources("templates")])
    assert again.packet(made("samphire")[0], shop(workshop()), "a4").pdf == printed("samphire").pdf
