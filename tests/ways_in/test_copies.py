"""What happens to a learner's files when the lessons are brought over again."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest
from hypothesis import given, strategies as st

from mechcalc.setup.clone import SetupError
from mechcalc.setup.copies import OURS, RECORD, bring_over

NAME, BESIDE = "tens_carry.ipynb", "tens_carry.new-version.ipynb"


@pytest.fixture
def source(tmp_path):
    folder = tmp_path / "lessons"
    (folder / "teacher").mkdir(parents=True)
    (folder / NAME).write_bytes(b"one")
    (folder / "teacher" / "notes.md").write_bytes(b"aims")
    (folder / ".ipynb_checkpoints").mkdir()
    (folder / ".ipynb_checkpoints" / NAME).write_bytes(b"stale")
    return folder


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "mine"


def held(folder: Path) -> dict[str, bytes]:
    """Every file of the learner's folder, the kit's own corner apart."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*"))
            if path.is_file() and OURS not in path.parts}


class TestRules:
    """The table at the head of `mechcalc.setup.copies`, line by line."""

    def test_first_time_everything_is_copied(self, source, folder):
        """Sub-folders too; hidden folders stay behind."""
        report = bring_over(source, folder)
        assert held(folder) == {NAME: b"one", "teacher/notes.md": b"aims"}
        assert report.copied == ["teacher/notes.md", NAME] or report.copied == [NAME, "teacher/notes.md"]
        assert bring_over(source, folder).lines() == []

    def test_an_unchanged_copy_follows_the_original(self, source, folder):
        """Nobody has worked in it, so nothing is lost."""
        bring_over(source, folder)
        (source / NAME).write_bytes(b"two")
        assert bring_over(source, folder).updated == [NAME]
        assert held(folder)[NAME] == b"two"

    def test_a_changed_copy_is_kept_while_the_original_stands_still(self, source, folder):
        """And nothing is put beside it."""
        bring_over(source, folder)
        (folder / NAME).write_bytes(b"my answer")
        report = bring_over(source, folder)
        assert (report.kept, report.beside) == ([NAME], {})
        assert held(folder) == {NAME: b"my answer", "teacher/notes.md": b"aims"}

    def test_a_changed_copy_gets_the_new_original_beside_it(self, source, folder):
        """Once: a learner who throws the new version away is not given it again."""
        bring_over(source, folder)
        (folder / NAME).write_bytes(b"my answer")
        (source / NAME).write_bytes(b"two")
        report = bring_over(source, folder)
        assert report.lines() == [f"There is a new version of {NAME}; yours is kept, and the new one is beside it as "
                                  f"{BESIDE}."]
        assert held(folder)[NAME] == b"my answer"
        assert held(folder)[BESIDE] == b"two"
        (folder / BESIDE).unlink()
        assert bring_over(source, folder).lines() == []
        assert BESIDE not in held(folder)

    def test_what_lies_beside_is_not_written_over_either(self, source, folder):
        """A third original takes the next free name."""
        bring_over(source, folder)
        (folder / NAME).write_bytes(b"my answer")
        (folder / BESIDE).write_bytes(b"notes of mine")
        (source / NAME).write_bytes(b"two")
        assert bring_over(source, folder).beside == {NAME: "tens_carry.new-version-2.ipynb"}
        assert held(folder)[BESIDE] == b"notes of mine"

    def test_a_deleted_copy_comes_back(self, source, folder):
        """That is the way to start a lesson afresh."""
        bring_over(source, folder)
        (folder / NAME).unlink()
        assert bring_over(source, folder).copied == [NAME]

    def test_a_new_version_taken_over_follows_again(self, source, folder):
        """A learner who copies the new version over the old one has an unchanged copy."""
        bring_over(source, folder)
        (folder / NAME).write_bytes(b"my answer")
        (source / NAME).write_bytes(b"two")
        bring_over(source, folder)
        (folder / BESIDE).replace(folder / NAME)
        (source / NAME).write_bytes(b"three")
        assert bring_over(source, folder).updated == [NAME]

    @pytest.mark.parametrize("damage", [b"", b"{", b"[]", b'{"kind": "mechcalc copies", "version": 1, "files": 3}',
                                        b"\xff"])
    def test_without_a_record_every_copy_counts_as_changed(self, source, folder, damage):
        """A damaged record costs nobody any work."""
        bring_over(source, folder)
        (folder / NAME).write_bytes(b"my answer")
        (folder / RECORD).write_bytes(damage)
        report = bring_over(source, folder)
        assert report.beside == {NAME: BESIDE}
        assert held(folder)[NAME] == b"my answer"

    def test_a_link_is_never_replaced(self, source, folder, tmp_path):
        """The learner keeps that file somewhere else."""
        bring_over(source, folder)
        (tmp_path / "elsewhere").write_bytes(b"one")
        (folder / NAME).unlink()
        (folder / NAME).symlink_to(tmp_path / "elsewhere")
        (source / NAME).write_bytes(b"two")
        assert bring_over(source, folder).beside == {NAME: BESIDE}
        assert (tmp_path / "elsewhere").read_bytes() == b"one"


class TestRefusals:
    """Each with its reason, and nothing written."""

    @pytest.mark.parametrize("where", [".", "sub", ".."])
    def test_the_originals_stay_clean(self, source, where):
        with pytest.raises(SetupError, match="is no place for working copies: it holds the originals, or lies among"):
            bring_over(source, source / where)
        assert not (source / where / OURS).exists()

    def test_no_lessons(self, tmp_path):
        with pytest.raises(SetupError, match="there are no lessons in"):
            bring_over(tmp_path / "nothing", tmp_path / "mine")

    def test_a_file_where_the_folder_should_be(self, source, tmp_path):
        (tmp_path / "mine").write_text("x")
        with pytest.raises(SetupError, match="the lessons could not be copied to"):
            bring_over(source, tmp_path / "mine")

    def test_a_folder_where_a_lesson_should_be(self, source, folder):
        (folder / NAME).mkdir(parents=True)
        with pytest.raises(SetupError, match="is a folder; a lesson of that name is to go there"):
            bring_over(source, folder)


NAMES = st.sampled_from([NAME, BESIDE, "subtraction.ipynb"])
ACTS = st.lists(st.tuples(st.sampled_from(["write", "delete", "release", "withdraw", "damage", "bring"]), NAMES),
                max_size=25)


class TestNothingIsLost:
    """Whatever the order of work, releases and accidents."""

    @given(ACTS)
    def test_what_a_learner_wrote_stays_where_it_was(self, acts):
        """And bringing over twice is the same as once."""
        with tempfile.TemporaryDirectory() as made:
            source, folder = Path(made) / "lessons", Path(made) / "mine"
            source.mkdir()
            folder.mkdir()
            (source / NAME).write_bytes(b"original")
            for number, (act, name) in enumerate([*acts, ("bring", NAME)]):
                if act == "write":
                    (folder / name).write_bytes(b"learner %d" % number)
                elif act == "delete":
                    (folder / name).unlink(missing_ok=True)
                elif act == "release" and name != BESIDE:
                    (source / name).write_bytes(b"original %d" % number)
                elif act == "withdraw" and name != NAME:
                    (source / name).unlink(missing_ok=True)
                elif act == "damage" and (folder / RECORD).exists():
                    (folder / RECORD).write_bytes(b"?")
                elif act == "bring":
                    self.bring_and_compare(source, folder)

    def bring_and_compare(self, source, folder):
        before = held(folder)
        bring_over(source, folder)
        after = held(folder)
        written = {name: content for name, content in before.items() if content.startswith(b"learner")}
        assert {name: after.get(name) for name in written} == written
        assert set(before) <= set(after)
        assert bring_over(source, folder).lines() == []
        assert held(folder) == after
