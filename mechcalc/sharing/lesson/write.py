"""A lesson to a file, HTML or PDF.

Only this file puts page and printer together.
"""

from __future__ import annotations

from os import PathLike
from pathlib import Path

from mechcalc.errors import InputError
from mechcalc.numbers import shown
from mechcalc.sharing.lesson.browser import NONE_HERE, browser, printed
from mechcalc.sharing.lesson.page import SIZES, lesson_page
from mechcalc.sharing.lesson.views import pictures
from mechcalc.whole_files import write_whole


def handout(lesson: str | PathLike[str], path: str | PathLike[str], *, solutions: bool = False, teacher: bool = False,
            paper: str = "a4") -> Path:
    """Write a lesson for paper, with the outputs that its notebook holds; stills stand in for live views.

    Parameters
    ----------
    lesson : str or path
        A lesson of the kit, by its name or the beginning of it; or the path of a notebook.
    path : path
        Its ending, ``.pdf`` or ``.html``, says as what. A PDF is printed by the system's browser.
    solutions : bool
        Whether the solutions of the exercises are printed.
    teacher : bool
        Whether the page for the teacher is.
    paper : str
        ``"a4"`` or ``"letter"``.

    Returns
    -------
    Path
        The file written.

    Raises
    ------
    InputError
        No such lesson, or no notebook; another ending; no browser for a PDF; a file that cannot be written.

    Notes
    -----
    To picture a live view, the section that shows it is run. The picture is of what the notebook showed, or there is
    none: fingerprints are compared.
    """
    path = Path(path)
    if path.suffix.lower() not in (".pdf", ".html"):
        raise InputError(f"{path}: the file's ending says what is written, .html or .pdf")
    if paper not in SIZES:
        raise InputError(f"the paper {shown(paper)} is none: {' or '.join(SIZES)}")
    if path.suffix.lower() == ".pdf" and browser() is None:
        raise InputError(NONE_HERE)
    source = notebook_of(lesson)
    notebook = _read(source)
    page = lesson_page(notebook, pictures(notebook, source.parent), solutions=solutions, teacher=teacher, paper=paper)
    data = page.encode() if path.suffix.lower() == ".html" else printed(page)
    try:
        write_whole(path, data)
    except OSError as error:
        raise InputError(f"{path} cannot be written: {error.strerror}") from None
    return path


def notebook_of(lesson: str | PathLike[str]) -> Path:
    """The file of a lesson."""
    from mechcalc.setup.lessons import find_lesson
    here = Path(lesson)
    if here.suffix == ".ipynb" and here.is_file():
        return here
    return find_lesson(str(lesson)).path


def _read(path: Path):  # type: ignore[no-untyped-def]
    import nbformat
    try:
        return nbformat.read(path, as_version=4)
    except Exception as error:  # nbformat raises much, all of it meaning the same
        raise InputError(f"{path} cannot be read as a notebook: {str(error).splitlines()[0]}") from None
