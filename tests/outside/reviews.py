#!/usr/bin/env python3
"""When a tune comes back, held against the system's `date` for the days, and the gaps against what is said of them.

The gaps are a rule of thumb among players: the next day, 3 days, a week, two weeks, a month, then every two to three
months. That rule is from memory. Studies bear on it as far as check_gaps says and no further; their figures are from
memory of abstracts and summaries, none was read whole, and none of them measured tunes. N. J. Cepeda and others,
Psychological Science 19 (2008), facts learnt and gone over once: the best single gap is about 20 to 40 % of a week when
they are wanted a week later, and falls to 5 to 10 % of a year when they are wanted a year later. S. H. K. Kang and others,
Psychonomic Bulletin & Review (2014), words: growing and equal gaps ended the same; growing ones held more on the way.
A. L. Simmons, Journal of Research in Music Education 59:4 (2012), nine notes on a keyboard: more right at the second
session where it came a day later, not where it came 5 minutes or 6 hours later. So the studies support days rather than
minutes, and gaps that grow; they do not say which days. Another, M. Wiseheart and others, PLoS ONE (2017), found no
effect of gaps up to 15 minutes at the piano.
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
    checks.equal("the next day, 3 days, a week, two weeks, a month (rule of thumb, from memory)", gaps[:5],
                 [1, 3, 7, 14, 30])
    checks.that("then every two to three months (rule of thumb, from memory)", all(60 <= gap <= 92 for gap in gaps[5:]),
                gaps)
    checks.that("at least a day between two sessions (Simmons 2012)", gaps[0] >= 1, gaps)
    checks.that("gaps grow; equal ones would end as well (Kang and others 2014)",
                all(a < b for a, b in zip(gaps, gaps[1:])), gaps)
    # A single gap and a single day on which it is wanted were studied, no row of gaps. None of these gaps is the best
    # one for a week: the first is shorter and the second longer. For a year one of them is among the best, which the
    # rule of thumb did not aim at.
    best_for_a_week = (0.2 * 7, 0.4 * 7)
    best_for_a_year = (0.05 * 365, 0.1 * 365)
    checks.that("no gap is the best single one for a week; it lies between the first two (Cepeda and others 2008)",
                gaps[0] < best_for_a_week[0] and gaps[1] > best_for_a_week[1], gaps)
    checks.equal("the gaps that are the best single one for a year (Cepeda and others 2008)",
                 [gap for gap in gaps if best_for_a_year[0] <= gap <= best_for_a_year[1]], [30])


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
