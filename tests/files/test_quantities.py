"""What a bare number means in a file."""

from __future__ import annotations

import pytest
from reads import sound

from procgen.files.quantities import bare_units, quantity_at, quantity_problems
from procgen.files.schemas import Schemas
from procgen.units import dimension as d
from procgen.units.quantity import UnitError
from procgen.units.table import COUNT, UNITS


def test_units_of_the_file(schemas: Schemas) -> None:
    inches = bare_units(sound("format: engine/2\nunits: {length: in}\n"), schemas)
    assert inches[d.LENGTH] is UNITS["in"]
    assert inches[d.MASS] is UNITS["kg"]
    usual = bare_units(sound("format: engine/2\n"), schemas)
    assert usual[d.LENGTH] is UNITS["mm"]
    assert d.TORQUE not in usual


def test_a_form_without_units_has_no_bare_quantities(schemas: Schemas) -> None:
    assert bare_units(sound("format: tool/1\n"), schemas) == {}
    assert [p.message for p in quantity_problems(sound("format: tool/1\nlength: 3\n"), schemas)] == [
        "`length`: a length was expected; `3` has no unit"
    ]
    assert quantity_problems(sound("format: tool/1\nlength: 3 mm\n"), schemas) == ()


def test_quantity_at_a_cursor(schemas: Schemas) -> None:
    document = sound("format: engine/2\nunits: {length: in}\nbore: 0.0010\nempty:\nstep: 0.5\n")
    bare, root = bare_units(document, schemas), document.root()
    bore = quantity_at(root["bore"], "length", bare)
    assert bore is not None
    assert (bore.value, bore.unit, bore.text) == (0.0254, UNITS["in"], "0.0010")
    assert quantity_at(root["empty"], "length", bare) is None
    step = quantity_at(root["step"], "any", bare)
    assert step is not None
    assert step.unit is COUNT
    with pytest.raises(UnitError, match=r"a torque was expected; `0\.5` has no unit"):
        quantity_at(root["step"], "torque", bare)
