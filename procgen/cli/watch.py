"""`procgen watch`: make again whatever is edited, and serve it on this machine."""

from __future__ import annotations

import multiprocessing
import os
import sys
from argparse import Namespace
from collections.abc import Sequence
from functools import partial
from importlib import import_module
from multiprocessing import Process
from signal import SIGTERM, default_int_handler, signal
from threading import Thread
from time import perf_counter, sleep

from procgen.cli import SOUND, USAGE
from procgen.cli.make import build, order_of
from procgen.make.known import Resident
from procgen.make.order import Order
from procgen.make.pool import FORKS
from procgen.make.publish import objection
from procgen.make.watching import Builder, Pace, edits, server
from procgen.make.whole import is_ours, ours, workshops

BREATH = 0.002  # s, in which nothing more changes once an edit is whole


def run(words: Namespace) -> int:
    order = order_of(words)
    if why := objection(order.out, order.root, order.is_partial):
        print(f"procgen watch: {why}; name another folder with --out", file=sys.stderr)
        return USAGE
    try:
        serving = server(order.out, words.port)
    except OSError as taken:
        print(f"procgen watch: port {words.port}: {taken.strerror}; name another with --port", file=sys.stderr)
        return USAGE
    if FORKS:
        multiprocessing.set_start_method("fork", force=True)
        for needed in ("procgen.paper.press", "procgen.web"):
            import_module(needed)  # so that builds find it there when they are forked
        Process(target=serving.serve_forever, daemon=True).start()
    else:
        Thread(target=serving.serve_forever, daemon=True).start()
    signal(SIGTERM, default_int_handler)  # ended from without, it takes along what serves
    print(f"http://127.0.0.1:{serving.server_address[1]}/  (Ctrl-C ends it)", file=sys.stderr)
    pace = Pace()
    with Builder(partial(_build, order, words.faces)) as builder:
        for changed in edits(lambda: workshops(order), pace.wait, ours, lambda: sleep(BREATH)):
            if changed:
                print(_edited(changed), file=sys.stderr)
            if any(is_ours(name) for name in changed):
                builder.end()  # it has imported and read some of that
            begun = perf_counter()
            code = builder.build()
            if code == SOUND:
                print(f"made in {perf_counter() - begun:.1f} s", file=sys.stderr)
            elif code is None:
                print("procgen watch: what builds has died of it; the next edit is built anew", file=sys.stderr)
            pace.edited()
    return SOUND


def _edited(names: Sequence[str]) -> str:
    """A folder only where no file of it is named: it is as old as what was put into it last."""
    files = [name for name in names if not any(other.startswith(f"{name}{os.sep}") for other in names)]
    return f"edited: {', '.join(map(os.path.relpath, files[:3]))}{' ...' if len(files) > 3 else ''}"


def _build(order: Order, faces: bool, resident: Resident) -> int:
    return build(order, faces, resident)[0]
