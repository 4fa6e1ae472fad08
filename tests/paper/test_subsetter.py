"""Fonts are cut down in Python where they have to be, though what does so is not imported before that."""

from __future__ import annotations

import os
import subprocess
import sys

_LATE = """
import sys
from procgen.paper.subsetter import in_python_later
with in_python_later():
    import weasyprint
seldom = {"fontTools.subset", "fontTools.varLib", "fontTools.varLib.instancer"}
assert not seldom & sys.modules.keys(), seldom & sys.modules.keys()
"""
_PRINT = """
from weasyprint.pdf import fonts
fonts.harfbuzz_subset = None
sys.stdout.buffer.write(weasyprint.HTML(string='<html lang="en"><title>A</title><p>Bore and hone</p>').write_pdf())
sys.stderr.write(str("fontTools.subset" in sys.modules))
"""
_VARY = """
from fontTools.varLib import instancer
from weasyprint.pdf import fonts
try:
    fonts.instantiateVariableFont("no font", {})
except Exception as fault:
    print(type(fault).__name__, fault)
"""


def _run(*code: str) -> subprocess.CompletedProcess[bytes]:
    still = {**os.environ, "SOURCE_DATE_EPOCH": "0"}  # fontTools writes into a font when it was cut
    return subprocess.run([sys.executable, "-c", "".join(code)], capture_output=True, check=True, env=still)


def test_python_cuts_a_font_down_as_ever_when_it_has_to() -> None:
    late, early = _run(_LATE, _PRINT), _run("import sys, weasyprint", _PRINT)
    assert late.stderr.endswith(b"True")
    assert late.stdout.startswith(b"%PDF")
    assert late.stdout == early.stdout


def test_what_varies_is_asked_of_the_library_itself() -> None:
    late, early = _run(_LATE, _VARY), _run("import sys, weasyprint", _VARY)
    assert late.stdout == early.stdout != b""
