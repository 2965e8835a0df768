"""What a class costs, as ratios within one run: python -m tests.benchmarks.worksheets

Run on demand, never by the test suite. The unit is cranking one of the sheet's own calculations, so that what is
printed says the same on a slow machine as on a fast one: where the time goes, and that a class of thirty costs about
thirty times one sheet.
"""

from __future__ import annotations

from pathlib import Path
from time import perf_counter

from mechcalc.preparing import load_sheet, make_worksheets, mark_answers, read_class
from mechcalc.preparing.sheets import key_html, key_pdf, sheets_html, sheets_pdf
from mechcalc.preparing.sheets.worksheets import assemble, problem_of

DATA = Path(__file__).parents[2] / "data" / "class"
REPEATS = 3


def best(work) -> float:
    """Seconds of the quickest of several runs."""
    times = []
    for _ in range(REPEATS):
        begin = perf_counter()
        work()
        times.append(perf_counter() - begin)
    return min(times)


def main() -> None:
    """Print the ratios."""
    learners = read_class(DATA / "class_list.csv")
    sheet, first = load_sheet(DATA / "multiplying.toml"), load_sheet(DATA / "first_sheet.toml")
    made = make_worksheets(sheet, learners, seed=2026)
    marked = make_worksheets(first, learners, seed=2026)
    numbers = tuple(tuple(problem.numbers for problem in one.problems) for one in made.variants)
    unit = best(lambda: problem_of(sheet.machine, sheet.items[0], 1, numbers[0][0]))
    steps = {
        "finding numbers and cranking, 30 sheets": lambda: make_worksheets(sheet, learners, seed=2026),
        "finding numbers and cranking, 1 sheet": lambda: make_worksheets(sheet, 1, seed=2026),
        "cranking alone, 30 sheets": lambda: assemble(sheet, 2026, learners.learners, numbers),
        "sheets as HTML": lambda: sheets_html(made), "sheets as PDF": lambda: sheets_pdf(made),
        "key as HTML": lambda: key_html(made), "key as PDF": lambda: key_pdf(made),
        "marking 279 answers": lambda: mark_answers(DATA / "answers.csv", marked)}
    print(f"unit: one calculation cranked, {len(made)} sheets of {len(sheet.items)} items")
    for name, work in steps.items():
        print(f"{name:<42}{best(work) / unit:10.0f}")


if __name__ == "__main__":
    main()
