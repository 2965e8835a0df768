"""The machines that come with the kit, machines of one's own, and what importing the kit costs."""

from __future__ import annotations

import copy
import pickle
import subprocess
import sys

import pytest
from hypothesis import given

import mechcalc
from mechcalc import Machine, MachineSpec, SpecError, load_spec, machine_names
from mechcalc.catalogue import shipped

from .machines import TRIAL, specs

MACHINES = shipped("data") / "machines"


class TestCatalogue:
    """Invented machines, each for a reason."""

    def test_there_are_at_least_five(self):
        """From a small one to a large one, one without counter carry, one with a check register."""
        built = {name: load_spec(name) for name in machine_names()}
        assert len(built) >= 5
        sizes = {name: (spec.setting_places, spec.result_places, spec.counter_places) for name, spec in built.items()}
        assert sizes["slate"] == (4, 6, 3)
        assert sizes["bench"] == (9, 13, 8)
        assert sizes["ledger"] == (10, 20, 11)
        assert [name for name, spec in built.items() if not spec.counter_carry] == ["plain"]
        assert [name for name, spec in built.items() if spec.check_register] == ["counting_room"]
        assert not built["plain"].back_transfer
        assert built["short"].carry_reach == built["short"].setting_places + 1

    @pytest.mark.parametrize("name", machine_names())
    def test_each_works(self, name):
        """It is built without leave, and 0 - 1 + 1 is 0."""
        spec = load_spec(name)
        assert not spec.allow_faulty_timing
        assert spec.name
        assert spec.note
        machine = Machine(spec)
        machine.set(1)
        machine.turn(-1)
        assert machine.result == 10 ** spec.wheels_in_reach(0) - 1
        machine.turn()
        assert (machine.result, machine.counter) == (0, 0)

    @pytest.mark.parametrize("path", sorted(MACHINES.glob("*.toml")), ids=lambda path: path.stem)
    def test_each_file_explains_itself(self, path):
        """Its head names every key that may stand in it, the rules, an example and the source."""
        head = path.read_text(encoding="utf-8").split("\n\n")[0]
        assert all(line.startswith("#") for line in head.splitlines())
        explained = set(MachineSpec.from_dict({**TRIAL.to_dict()}).to_dict()) - {"name", "note", "allow_faulty_timing"}
        assert [key for key in explained if key not in head] == []
        assert "helix_step >= pin_pitch + lever_throw; gap >= lever_throw" in head
        assert f'mechcalc.load_spec("{path.stem}")' in head
        assert "Source:" in head


class TestOwnMachines:
    """A TOML file of the user's."""

    def test_a_machine_of_ones_own(self, tmp_path):
        """By its path, as text or as a path; its name is the file's unless it gives one."""
        path = tmp_path / "attic.toml"
        path.write_text("setting_places = 2\nresult_places = 3\ncounter_places = 2\ncarry_reach = 3\n")
        assert load_spec(path) == load_spec(str(path))
        assert load_spec(path).name == "attic"
        assert load_spec(path).positions == 2

    @pytest.mark.parametrize(("content", "said"), [
        (b"setting_places = ", "is no TOML file: Invalid value"),
        (b"setting_places = 2\nsetting_places = 3\n", "is no TOML file: Cannot overwrite a value"),
        (b"\xff\xfe\x00", "is no TOML file: 'utf-8' codec can't decode"),
        (b"setting_places = " + b"9" * 5000, "is no TOML file: Exceeds the limit"),
        (b"deep = " + b"[" * 20000, "is no TOML file: "),
        (b"", "4 rules are broken:\n  - 'setting_places' is missing"),
        (b"setting_place = 2\nresult_places = 3\ncounter_places = 2\ncarry_reach = 3\n",
         "2 rules are broken:\n  - 'setting_place' is no key of a machine: did you mean 'setting_places'?"),
        (b"setting_places = 2\nresult_places = 3\ncounter_places = 2\ncarry_reach = 1\n",
         "the carry reach must cover the setting: carry reach 1, setting places 2"),
        (b"setting_places = nan\nresult_places = 3\ncounter_places = 2\ncarry_reach = 3\n",
         "setting places must be a whole number, not nan (float)"),
    ], ids=["cut off", "twice", "no text", "huge", "deep", "empty", "typo", "rule", "nan"])
    def test_a_damaged_file(self, tmp_path, content, said):
        """The message begins with the file and says what is wrong in it."""
        path = tmp_path / "attic.toml"
        path.write_bytes(content)
        with pytest.raises(SpecError) as caught:
            load_spec(path)
        assert str(caught.value).startswith(f"{path}: {said}")

    @pytest.mark.parametrize(("name", "said"), [
        ("ledgre", "'ledgre' is no machine of the catalogue: did you mean 'ledger'?"),
        ("zzz", "'zzz' is no machine of the catalogue: there are bench, counting_room, "),
        ("", "'' is no machine of the catalogue: there are "),
        ("nowhere.toml", "nowhere.toml: there is no such file"),
        (7, "a machine is asked for by name or path, not 7"),
        (None, "a machine is asked for by name or path, not None"),
    ])
    def test_no_such_machine(self, name, said):
        """With the nearest name, or all of them."""
        with pytest.raises(SpecError) as caught:
            load_spec(name)
        assert str(caught.value).startswith(said)

    def test_a_folder_is_no_machine(self, tmp_path):
        """It cannot be read as one."""
        with pytest.raises(SpecError, match="cannot be read"):
            load_spec(tmp_path / ".")


class TestSpecAsAValue:
    """Shown, copied, kept: the same spec."""

    @given(specs())
    def test_its_repr_gives_it_back(self, spec):
        """And so do plain data, a copy and a pickle."""
        assert eval(repr(spec), {"MachineSpec": MachineSpec}) == spec
        assert MachineSpec.from_dict(spec.to_dict()) == spec
        assert copy.deepcopy(spec) == pickle.loads(pickle.dumps(spec)) == spec

    def test_a_machines_repr_says_what_it_shows(self):
        """It holds no address, so lessons can be compared."""
        machine = Machine(load_spec("slate"))
        machine.set(12)
        machine.crank(100.0)
        assert repr(machine) == ("<Machine 'Slate' setting 12, result 0, counter 0, carriage 0, "
                                 "crank at 100 degrees>")


class TestImport:
    """The kit is light."""

    def test_import_loads_nothing_but_the_standard_library(self):
        """Nor does working a machine, a session and the catalogue."""
        code = ("import sys; before = set(sys.modules)\nimport mechcalc\n"
                "print(sorted(name for name in sys.modules if name.startswith('mechcalc.')))\n"
                "import mechcalc.session\n"
                "m = mechcalc.Machine(mechcalc.load_spec('slate')); m.set(7); m.turn()\n"
                "tops = {name.partition('.')[0] for name in set(sys.modules) - before}\n"
                "print(sorted(tops - set(sys.stdlib_module_names)))")
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        assert done.stdout.splitlines() == ["[]", "['mechcalc']"]

    def test_every_public_name_is_there(self):
        """`__all__`, `dir` and the names themselves agree."""
        assert all(getattr(mechcalc, name) is not None for name in mechcalc.__all__)
        assert set(mechcalc.__all__) <= set(dir(mechcalc))
        assert list(mechcalc.__all__) == sorted(mechcalc.__all__)

    def test_a_name_that_is_not_there(self):
        """As any module says it."""
        with pytest.raises(AttributeError, match="module 'mechcalc' has no attribute 'Mashine'"):
            _ = mechcalc.Mashine
