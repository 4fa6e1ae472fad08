"""Each problem that loading finds: the exact place, message and mend."""

from __future__ import annotations

from pathlib import Path

from small_workshops import SHOP, Load, family, procedure, told

from procgen.load.workshop import load_workshop

DECK = "procedures/deck/look-see.yaml"
TEAL = "procedures/families/teal.yaml"
WORKSHOP = "procedures/workshop.yaml"
SHARED = {
    "shared/own.yaml": """\
        format: cautions/1
        cautions:
          hot-plugs: {level: WARNING, hazard: Plugs are hot., consequence: Burns., avoid: Wait.}
        """,
    "shared/tools.yaml": "format: tools/1\ntools:\n  plug-gauge: {name: plug gauge, kind: gauge}\n",
    "shared/traits.yaml": """\
        format: traits/1
        traits:
          sump.kind: {title: Sump, values: {wet: oil below, dry: oil elsewhere}}
          sump.depth: {title: Sump depth, values: {deep: deep, flat: flat}, concluded_by: engine.banks}
        """,
}


def test_no_workshop(tmp_path: Path) -> None:
    loaded = load_workshop(tmp_path / "nowhere", Path.read_bytes)
    assert loaded.workshop is None
    assert [told(p) for p in loaded.problems] == [
        "procedures/workshop.yaml:1:1 error no-workshop: there is no `procedures/workshop.yaml` here"
        " -> run procgen in a workshop's folder, or name one with --workshop"
    ]


def problems(load: Load, files: dict[str, str]) -> list[str]:
    return [told(p) for p in load({**SHARED, **files}).problems]


def test_two_files_with_one_id(load: Load) -> None:
    assert problems(load, {DECK: procedure(), "procedures/deck/zz.yaml": procedure()}) == [
        "procedures/deck/zz.yaml:2:5 error same-id: two files have the id `look-see` -> give one of them another id\n"
        "  procedures/deck/look-see.yaml:2:5: first used here"
    ]


def test_a_file_called_otherwise_than_its_id(load: Load) -> None:
    assert problems(load, {"procedures/families/duck.yaml": family()}) == [
        "procedures/families/duck.yaml:2:5 warning file-name: the file is called `duck.yaml`, but its id is `teal`"
        " -> rename the file to teal.yaml"
    ]


def test_a_file_with_the_other_ending(load: Load) -> None:
    assert problems(load, {"procedures/families/teal.yml": family()}) == [
        "procedures/families/teal.yml:1:1 warning file-name: only files that end in .yaml are read"
        " -> rename it to teal.yaml"
    ]


def test_a_file_in_the_wrong_folder(load: Load) -> None:
    assert problems(load, {"procedures/deck/teal.yaml": family()}) == [
        "procedures/deck/teal.yaml:1:9 error wrong-folder: a procedure was expected here; this is `family/1`"
        " -> it belongs in procedures/families/"
    ]


def test_the_deck_lists_a_card_that_is_not_there_or_twice(load: Load) -> None:
    shop = SHOP + "deck: [look-sea, look-see, look-see]\n"
    assert problems(load, {WORKSHOP: shop, DECK: procedure()}) == [
        "procedures/workshop.yaml:3:8 error deck-no-card: the deck lists `look-sea`, but no procedure has that id"
        " -> did you mean `look-see`?",
        "procedures/workshop.yaml:3:28 error deck-twice: `look-see` is in the deck twice -> keep one of the two\n"
        "  procedures/workshop.yaml:3:18: first listed here",
    ]


def test_a_broken_card_in_the_deck_is_told_once(load: Load) -> None:
    """Cause before echo: the deck's own line is right."""
    found = problems(load, {WORKSHOP: SHOP + "deck: [look-see]\n", DECK: procedure(stage="[3")})
    assert len(found) == 1
    assert found[0].startswith("procedures/deck/look-see.yaml:")


def test_unknown_caution_tool_gauge_trait_and_stock(load: Load) -> None:
    card = procedure(
        cautions="[hot-plug]",
        tools="[plug-gage]",
        traits="[sump.kinds]",
        readings="\n  size: {title: Size, measure: length, with: plug_gage}",
        steps="\n  - id: look\n    do: Look all round it.\n    cautions: [hot-plugs, cold-plugs]",
    )
    shop = SHOP + "stock: a55\ngauges:\n  mine: {kind: plug_gaug}\n"
    assert problems(load, {WORKSHOP: shop, DECK: card}) == [
        "procedures/deck/look-see.yaml:10:27 error no-caution: there is no caution `cold-plugs`"
        " -> did you mean `hot-plugs`?",
        "procedures/deck/look-see.yaml:11:12 error no-caution: there is no caution `hot-plug`"
        " -> did you mean `hot-plugs`?",
        "procedures/deck/look-see.yaml:12:9 error no-tool: there is no tool `plug-gage` -> did you mean `plug-gauge`?",
        "procedures/deck/look-see.yaml:13:10 error no-trait: there is no trait `sump.kinds`"
        " -> did you mean `sump.kind`?",
        "procedures/deck/look-see.yaml:15:3 error no-gauge: there is no gauge `plug_gage`"
        " -> did you mean `plug_gauge`?",
        "procedures/workshop.yaml:3:8 error no-stock: there is no stock `a55` -> did you mean `a5`?",
        "procedures/workshop.yaml:5:3 error no-gauge: there is no gauge `plug_gaug` -> did you mean `plug_gauge`?",
    ]


def test_typed_traits(load: Load) -> None:
    more = "traits:\n  sump.kind: wett\n  sump.depth: deep\n  sump.kond: wet\n"
    assert problems(load, {TEAL: family(more=more)}) == [
        "procedures/families/teal.yaml:5:3 error trait-value: `sump.kind` can't be `wett` -> did you mean `wet`?",
        "procedures/families/teal.yaml:6:3 error trait-concluded: `sump.depth` is concluded from the layout and may not"
        " be typed -> the layout says it; leave it out",
        "procedures/families/teal.yaml:7:3 error no-trait: there is no trait `sump.kond` -> did you mean `sump.kind`?",
    ]


def test_tools_for_engines_of_a_kind_that_there_is_not(load: Load) -> None:
    tools = """\
        format: tools/1
        tools:
          torch: {name: torch, kind: tool, only: {sump.kind: wett}}
          yoke: {name: yoke, kind: tool, only: {sump.kond: wet}}
    """
    assert problems(load, {"shared/tools.yaml": tools}) == [
        "shared/tools.yaml:3:43 error trait-value: `sump.kind` can't be `wett` -> did you mean `wet`?",
        "shared/tools.yaml:4:41 error no-trait: there is no trait `sump.kond` -> did you mean `sump.kind`?",
    ]


def test_drillings_and_plugs_that_name_what_is_not_there(load: Load) -> None:
    more = """\
        cylinders: {A1: {bank: A}}
        mains: {bearings: {1: {x: 0}, 2: {x: 90}}}
        lifters: {banks: {A: {galley: LG}}}
        passages:
          MG: {from: [0, 0, 0], to: [9, 0, 0], diameter: 3, opens: [plug MGF, main 3], crosses: [MD]}
          LGA: {from: [0, 0, 0], to: [9, 0, 0], diameter: 3, opens: [cam 7, open]}
        plugs:
          MG-F: {thread: M8x1, at: [0, 0, 0], closes: [MG, NG]}
        core_plugs:
          C1: {kind: cup, bank: B}
        """
    assert problems(load, {TEAL: family(more=more)}) == [
        "procedures/families/teal.yaml:6:31 error no-such-part: `A` names the passage `LG`, which the family does not"
        " have -> did you mean `LGA`?",
        "procedures/families/teal.yaml:8:61 error no-such-part: `MG` names the plug `MGF`, which the family does not"
        " have -> did you mean `MG-F`?",
        "procedures/families/teal.yaml:8:71 error no-such-part: `MG` names the main bearing `3`, which the family does"
        " not have -> it has 1, 2",
        "procedures/families/teal.yaml:8:90 error no-such-part: `MG` names the passage `MD`, which the family does not"
        " have -> it has MG, LGA",
        "procedures/families/teal.yaml:11:52 error no-such-part: `MG-F` names the passage `NG`, which the family does"
        " not have -> it has MG, LGA",
        "procedures/families/teal.yaml:13:25 error no-such-part: `C1` names the bank `B`, which the family does not"
        " have -> it has A",
    ]


def test_two_steps_with_one_id(load: Load) -> None:
    steps = "\n  - {id: look, do: Look here.}\n  - {id: look, do: Look there.}"
    assert problems(load, {DECK: procedure(steps=steps)}) == [
        "procedures/deck/look-see.yaml:9:10 error two-steps: two steps are called `look`"
        " -> give one of them another id\n"
        "  procedures/deck/look-see.yaml:8:10: first used here"
    ]


def test_amendments_to_what_is_not_there(load: Load) -> None:
    more = """\
        amend:
          look-sea: {drop: {look: Not here.}}
          look-see:
            drop: {lock: Not here.}
            cautions: {look: [hot-plug]}
            after: {look: [{id: look, do: Look again.}]}
            values: {siez: {is: 2 mm}}
        """
    card = procedure(values="\n  size: {title: Size, is: 3 mm, source: geometry}")
    assert problems(load, {DECK: card, TEAL: family(more=more)}) == [
        "procedures/families/teal.yaml:5:3 error amend-no-card: no procedure is called `look-sea`, so it cannot be"
        " changed -> did you mean `look-see`?",
        "procedures/families/teal.yaml:7:12 error amend-no-step: the card `look-see` has no step `lock`"
        " -> did you mean `look`?\n  procedures/deck/look-see.yaml:2:5: `look-see` begins here",
        "procedures/families/teal.yaml:8:23 error no-caution: there is no caution `hot-plug`"
        " -> did you mean `hot-plugs`?",
        "procedures/families/teal.yaml:9:25 error two-steps: two steps are called `look`"
        " -> give one of them another id\n"
        "  procedures/deck/look-see.yaml:8:9: first used here",
        "procedures/families/teal.yaml:10:14 error amend-no-value: the card `look-see` has no value `siez`"
        " -> did you mean `size`?",
    ]


def test_an_amendment_to_a_broken_card_waits_for_its_mend(load: Load) -> None:
    more = "amend:\n  look-see: {drop: {lock: Not here.}}\n"
    found = problems(load, {DECK: procedure(titel="Look"), TEAL: family(more=more)})
    assert [line.split(" ")[0] for line in found] == ["procedures/deck/look-see.yaml:10:1"]


def test_unknown_keys_of_a_variant(load: Load) -> None:
    more = "variants:\n  teal-9: {name: long, geometry: {strok: 91.6}, oversizes: [1]}\n"
    found = problems(load, {TEAL: family(more=more)})
    assert [line.split(" ")[0] for line in found] == [
        "procedures/families/teal.yaml:5:35",
        "procedures/families/teal.yaml:5:49",
    ]
    assert "did you mean `stroke`?" in found[0]


def test_a_formula_is_told_at_its_column(load: Load) -> None:
    card = procedure(values="\n  slack: {title: Slack, formula: geometry.bore + }")
    (found,) = problems(load, {DECK: card})
    assert found.startswith("procedures/deck/look-see.yaml:11:49 error ")  # where the missing name should stand


def test_a_table_row_with_a_column_that_the_table_lacks(load: Load) -> None:
    table = """\
        format: tables/1
        tables:
          drills:
            title: Drills
            columns: {size: {title: Size, quantity: length, unit: in}}
            rows:
              "1": {size: 0.228, sise: 0.3}
              "2": {size: 5 kg}
        """
    assert problems(load, {"shared/tables.yaml": table}) == [
        "shared/tables.yaml:7:26 error table-column: the table has no column `sise` -> did you mean `size`?",
        "shared/tables.yaml:8:19 error quantity: a length was expected; kg is a mass"
        " -> units for it: mm, cm, m, µm, in, ft",
    ]


def test_one_broken_file_hides_no_other(load: Load) -> None:
    files = {
        DECK: procedure(),
        "procedures/deck/broken.yaml": "format: procedure/1\nid: [",
        TEAL: family(),
        "procedures/families/odd.yaml": "format: family/1\nid: odd\nname: Odd\ncolour: red\n",
        "procedures/jobs/odd.yaml": "format: job/1\nid: odd\nfamly: teal\n",
        "procedures/printed.yaml": "format: printed/1\nprinted: [{family: teal}]\n",
        "shared/broken.yaml": "format: stocks/1\nstocks: 7\n",
    }
    loaded = load({**SHARED, **files})
    assert loaded.workshop is not None
    assert list(loaded.workshop.procedures) == ["look-see"]
    assert list(loaded.workshop.families) == ["teal"]
    assert {p.place.path for p in loaded.problems if p.is_error} == set(files) - {DECK, TEAL}


def test_a_file_that_cannot_be_read(load: Load, tmp_path: Path) -> None:
    load({TEAL: family()})

    def refuse(path: Path) -> bytes:
        if path.name == "teal.yaml":
            raise PermissionError(13, "Permission denied")
        return path.read_bytes()

    loaded = load_workshop(tmp_path, refuse)
    assert [told(p) for p in loaded.problems] == [
        "procedures/families/teal.yaml:1:1 error unreadable: the file can't be read: Permission denied"
    ]
