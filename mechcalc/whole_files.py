"""Writing a file so that it is there whole, or is what it was before.

Only this file writes files in one step. The new content goes to a file beside the old one, is brought to the disk, and
takes the old one's name; whatever goes wrong before that leaves the old file alone.
"""

from __future__ import annotations

import contextlib
import os
import tempfile
from collections.abc import Iterator
from pathlib import Path


def write_whole(path: Path, data: bytes) -> None:
    """Put `data` in the place of whatever is at `path`.

    Raises
    ------
    OSError
        It cannot be written; then nothing has changed.
    """
    temporary = _beside(path, data)
    try:
        os.replace(temporary, path)
    except BaseException:
        os.unlink(temporary)
        raise


def write_new(path: Path, data: bytes) -> None:
    """Put `data` at `path`, where there must be nothing yet; a file that somebody else is quicker to put there stays.

    Raises
    ------
    FileExistsError
        There is something at `path`; it stays.
    OSError
        It cannot be written; then nothing has changed.
    """
    temporary = _beside(path, data)
    try:
        os.link(temporary, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without second names: the name is taken first, and the content follows
        with open(path, "xb"):
            os.replace(temporary, path)
        return
    finally:
        with contextlib.suppress(FileNotFoundError):
            os.unlink(temporary)


@contextlib.contextmanager
def made_whole(*paths: Path) -> Iterator[tuple[Path, ...]]:
    """For files that somebody else writes bit by bit: the names to write to. They take the place of `paths` together,
    once all has gone well; on an error or an interruption they are removed, and what was there stays.

    Raises
    ------
    OSError
        Nothing can be written there.
    """
    made: list[Path] = []
    try:
        for path in paths:
            handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.stem}.", suffix=path.suffix)
            os.close(handle)
            made.append(Path(name))
        yield tuple(made)
        for temporary in made:
            with open(temporary, "rb+") as file:
                os.fsync(file.fileno())
            os.chmod(temporary, 0o666 & ~_umask())
        for temporary, path in zip(made, paths, strict=True):
            os.replace(temporary, path)
    finally:
        for temporary in made:
            temporary.unlink(missing_ok=True)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _beside(path: Path, data: bytes) -> str:
    """The name of a new file beside `path` that holds `data`, on the disk."""
    handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(temporary, 0o666 & ~_umask())  # as any other file, and not for its owner alone
    except BaseException:
        os.unlink(temporary)
        raise
    return temporary
