"""The engine's own libraries: opened without a search."""

import subprocess
import sys

_IMPORTED = """
import ctypes.util, subprocess
from procgen.make.native import by_name
search = ctypes.util.find_library
def refuse(*words, **more):
    raise AssertionError(f"begun: {words}")
subprocess.Popen = refuse
with by_name():
    import weasyprint
assert ctypes.util.find_library is search
weasyprint.HTML(string="<p>words</p>").write_pdf()
"""


def test_the_engine_is_imported_without_beginning_any_process() -> None:
    found = subprocess.run([sys.executable, "-c", _IMPORTED], capture_output=True, text=True, check=False)
    assert found.returncode == 0, found.stderr
