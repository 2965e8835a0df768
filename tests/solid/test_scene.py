"""The solid view's pure JavaScript, tested by node's own runner on timelines and faults that Python writes."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

from mechcalc import Machine, load_spec, machine_names
from mechcalc.bench import CarryPinGone, Machine as BenchMachine, every_fault
from mechcalc.view import timeline_of
from mechcalc.view.timeline import machine_data
from tests.view.sessions import nines, random_session, told

FOLDER = Path(__file__).parent


def faults() -> dict[str, Any]:
    """One of each kind with the part that Python names, and a machine on which a missing carry pin is felt."""
    kinds = {fault.name: fault for fault in every_fault(load_spec("slate"))}
    gone = CarryPinGone(place=2, direction=1)
    machine = BenchMachine(load_spec("slate"), faults=[gone])
    machine.set(9)
    machine.turn(2)
    return {"named": [{"fault": fault.to_dict(), "part": fault.part} for fault in kinds.values()],
            "goneCarryPin": {"timeline": timeline_of(machine), "fault": gone.to_dict()}}


def shifted() -> Machine:
    """A multiplication by 21: the carriage goes over, and a turn is made there."""
    machine = Machine(load_spec("slate"))
    machine.set(34)
    machine.turn()
    machine.shift(1)
    machine.turn(2)
    return machine


def test_javascript(tmp_path: Path) -> None:
    """All of tests/solid/*.test.mjs pass; without node this is skipped, and in CI that is a failure."""
    node = shutil.which("node")
    if node is None:
        pytest.skip("node (20 or later) runs the tests of the solid view's JavaScript, and there is none")
    sessions = [{"name": "nines", "timeline": told(nines(more=True))}]
    sessions.append({"name": "shifted", "timeline": told(shifted())})
    sessions += [{"name": f"{name} 3", "timeline": told(random_session(name, 3, 8))} for name in ("slate", "ledger")]
    data = {"sessions": sessions, "faulty": faults(),
            "machines": [{"name": name, "machine": machine_data(load_spec(name))} for name in machine_names()]}
    path = tmp_path / "solid.json"
    path.write_text(json.dumps(data), encoding="utf-8")
    files = sorted(str(file) for file in FOLDER.glob("*.test.mjs"))
    assert len(files) >= 2
    run = subprocess.run([node, "--test", "--test-reporter=spec", *files], capture_output=True, text=True, timeout=180,
                         env={**os.environ, "MECHCALC_SOLID": str(path)}, check=False)
    assert run.returncode == 0, run.stdout[-8000:] + run.stderr[-2000:]
    assert "pass 0" not in run.stdout
