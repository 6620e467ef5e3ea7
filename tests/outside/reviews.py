#!/usr/bin/env python3
"""When a tune comes back, held against the system's `date` for the days, and the gaps against what studies found.

Sources, from memory of their summaries: N. J. Cepeda and others, Psychological
Science 19 (2008): the best gap is about 20 to 40 % of a one-week interval and falls to 5 to 10 % of a year. S. H. K. Kang
and others, Psychonomic Bulletin & Review (2014): growing gaps. A. L. Simmons, Journal of Research in Music Education 59:4
(2012): a gain between sessions only a day apart or more. None of them measured tunes.
"""
import pathlib
import subprocess
import tempfile

import program

BOOK = "X:1\nT:Lamp in the Lee\nR:reel\nM:4/4\nL:1/8\nK:G\nGABd e2dB|A2AB A2GE|GABd edBA|G2E2 G4|]\n"


def later(day, days):
    return subprocess.run(["date", "-u", "-d", f"{day} + {days} days", "+%F"], capture_output=True, text=True,
                          check=True).stdout.strip()


def review(library, today):
    return program.answer("next", "Ina", "--review", "--today", today, library=library)


def check_gaps(checks, gaps):
    checks.that("a night at least between two days (Simmons 2012)", gaps[0] >= 1, gaps)
    checks.that("gaps grow (Kang and others 2014)", all(a < b for a, b in zip(gaps, gaps[1:])), gaps)
    week, year = 7, 365
    checks.that("the first two gaps lie around the best one for a week (Cepeda and others 2008)",
                gaps[0] <= 0.2 * week and gaps[1] >= 0.4 * week, gaps)
    checks.that("one of the gaps is among the best for a year (Cepeda and others 2008)",
                any(0.05 * year <= gap <= 0.1 * year for gap in gaps), gaps)


def check_a_tune(checks, library, begin):
    """Learnt on a day, played well whenever it is due, and once not."""
    program.run("player", "add", "Ina", "--notes", "G:major", library=library)
    program.run("player", "tune", "Ina", "learning", "lamp in", "--on", begin, library=library)
    gaps = review(library, begin)["gaps"]
    day = begin
    for place in range(len(gaps) + 2):
        due = later(day, gaps[min(place, len(gaps) - 1)])
        before = review(library, later(due, -1))
        checks.equal(f"{begin}, time {place + 1}: not due the day before", before["due"], 0)
        checks.equal(f"{begin}, time {place + 1}: the day is told", before["next"]["due"], due)
        checks.equal(f"{begin}, time {place + 1}: due on the day", [row["due"] for row in review(library, due)["tunes"]],
                     [due])
        program.run("player", "played", "Ina", "lamp in", "--on", due, library=library)
        day = due
    program.run("player", "played", "Ina", "lamp in", "--shaky", "lamp in", "--on", later(day, 5), library=library)
    checks.equal(f"{begin}: once it did not hold, the first gap again",
                 review(library, later(day, 6))["tunes"][0]["due"], later(day, 5 + gaps[0]))
    program.run("player", "remove", "Ina", "--yes", library=library)
    return gaps


def main():
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as folder:
        book = pathlib.Path(folder) / "book.abc"
        book.write_text(BOOK, encoding="utf-8")
        library = pathlib.Path(folder) / "library.db"
        program.run("import", book, library=library)
        for begin in ("2027-12-30", "2028-02-27", "2100-02-27"):  # a year's end, a leap day, a year without one
            gaps = check_a_tune(checks, library, begin)
        check_gaps(checks, gaps)
    return checks.exit_code()


if __name__ == "__main__":
    raise SystemExit(main())
