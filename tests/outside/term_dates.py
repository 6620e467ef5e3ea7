#!/usr/bin/env python3
"""Terms on dates, held against what is not ours: the system's `date` for the calendar, a general reader of iCalendar
(python3-icalendar) for the events, and for the plan a collection whose answers were worked out by hand.

Sources: RFC 5545 for the events. The acceptance file is invented material.
"""
import datetime
import json
import pathlib
import subprocess
import sys
import tempfile

import program

sys.path.append("/usr/lib/python3/dist-packages")  # where Debian's packages are, should another python3 come first
try:
    import icalendar
except ImportError:
    icalendar = None

FOURTEEN = "G:major&D:major A3..B5"
TERM = ["syllabus", "Tuesdays", "--from", "2027-01-12", "--on", "tuesday", "--lessons", "8", "--break", "2027-02-16",
        "--have", FOURTEEN, "--today", "2026-12-01"]
DATES = ["2027-01-12", "2027-01-19", "2027-01-26", "2027-02-02", "2027-02-09", "2027-02-23", "2027-03-02", "2027-03-09"]
DAYS = ["sunday", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday"]


def date(*words):
    return subprocess.run(["date", "-u", *words], capture_output=True, text=True, check=True).stdout.strip()


def check_calendar(checks, library):
    """Every lesson lies on its weekday, a week after the one before, by the `date` program."""
    for year in (1999, 2000, 2023, 2024, 2027, 2100, 2400):
        for on in DAYS:
            begin = f"{year}-02-20"
            plan = program.answer("syllabus", "any", "--replace", "--from", begin, "--on", on, "--lessons", 4, "--steps", 0,
                                  "--have", FOURTEEN, library=library)
            found = [lesson["date"] for lesson in plan["lessons"]]
            first = next(day for day in (date("-d", f"{begin} + {wait} days", "+%F") for wait in range(7))
                         if int(date("-d", day, "+%w")) == DAYS.index(on))
            expected = [date("-d", f"{first} + {week} weeks", "+%F") for week in range(4)]
            checks.equal(f"dates from {begin} on {on}", found, expected)


def notes_known(plan, upto):
    known = set(plan["have"])
    for lesson in plan["lessons"][:upto + 1]:
        known.update(lesson["new_notes"])
    return known


def days_between(lesson, other):
    return (datetime.date.fromisoformat(other["date"]) - datetime.date.fromisoformat(lesson["date"])).days


def check_rules(checks, plan):
    lessons = plan["lessons"]
    checks.equal("dates", [lesson["date"] for lesson in lessons], DATES)
    held = [at for at, lesson in enumerate(lessons) if lesson["state"] != "lost"]
    brought = [at for at in held if lessons[at]["new_notes"]]
    for a, b in zip(brought, brought[1:]):
        checks.that("one new note a fortnight at most", days_between(lessons[a], lessons[b]) >= 14, lessons[a], lessons[b])
    for at in held:
        checks.that("one new tune a lesson at most", len(lessons[at]["new_tunes"]) <= 1)
        checks.that("one note at a time", len(lessons[at]["new_notes"]) <= 1)
        for tune in lessons[at]["new_tunes"]:
            checks.that("no tune before its notes", set(tune["notes"]) <= notes_known(plan, at), tune)
            after = held[held.index(at) + 1]
            checks.that("each tune returns in the following lesson",
                        tune["id"] in [back["id"] for back in lessons[after]["again"]], tune, lessons[after])
    for at in held:
        following = held.index(at) + 1
        after = held[following] if following < len(held) else at
        third_week = [day for day in range(after + 1, len(lessons)) if 14 <= days_between(lessons[at], lessons[day]) <= 21]
        if not third_week or any(lessons[day]["state"] == "lost" for day in third_week):
            continue
        for tune in lessons[at]["new_tunes"]:
            waits = [days_between(lessons[at], lessons[back]) for back in held
                     if tune["id"] in [one["id"] for one in lessons[back]["again"]]]
            checks.that("each tune returns once more, two to three weeks after it was new",
                        len(waits) == 2 and 14 <= waits[1] <= 21, tune["title"], waits)
    checks.equal("nothing new in the last lesson", (lessons[held[-1]]["new_tunes"], lessons[held[-1]]["new_notes"]), ([], []))
    taught = [tune["id"] for at in held for tune in lessons[at]["new_tunes"]]
    checks.equal("no tune is new twice", len(set(taught)), len(taught))
    checks.equal("the closing sets hold every tune once", sorted(tune["id"] for one in plan["closing"] for tune in one["tunes"]),
                 sorted(taught))
    return taught


def check_acceptance(checks, library):
    first = program.run(*TERM, "--json", library=library).stdout
    plan = json.loads(first)
    checks.equal("seven new tunes", len(check_rules(checks, plan)), 7)
    checks.equal("C5 comes first", next(lesson["new_notes"] for lesson in plan["lessons"] if lesson["new_notes"]), ["C5"])
    checks.equal("all wishes are met", plan["unmet"], [])
    checks.equal("proven the best", plan["proof"], "optimal")
    checks.equal("the same command twice", program.run(*TERM, "--json", library=library).stdout, first)
    checks.equal("and with --replace", program.run(*TERM, "--replace", "--json", library=library).stdout, first)
    kept = [line for line in program.run("syllabus", "Tuesdays", "--csv", library=library).stdout.split(b"\r\n")]
    lost = program.answer("syllabus", "Tuesdays", "--lost", "4", "--today", "2027-02-02", library=library)
    now = [line for line in program.run("syllabus", "Tuesdays", "--csv", library=library).stdout.split(b"\r\n")]
    checks.equal("lessons 1 to 3 are unchanged to the letter", now[:4], kept[:4])
    checks.equal("and so in every part", lost["lessons"][:3], plan["lessons"][:3])
    checks.equal("lesson 4 is lost", lost["lessons"][3]["state"], "lost")
    checks.equal("six new tunes are left", len(check_rules(checks, lost)), 6)
    checks.that("what was to come moves on", plan["lessons"][3]["new_tunes"][0]["id"] in
                [tune["id"] for lesson in lost["lessons"][4:] for tune in lesson["new_tunes"]])


def check_events(checks, library):
    """After check_acceptance: lesson 4 is lost."""
    plan = program.answer("syllabus", "Tuesdays", library=library)
    data = program.run("syllabus", "Tuesdays", "--ics", library=library).stdout
    for line in data.split(b"\r\n"):
        checks.that("3.1: no line is longer than 75 octets", len(line) <= 75, line)
    calendar = icalendar.Calendar.from_ical(data)
    events = [part for part in calendar.walk() if part.name == "VEVENT"]
    checks.equal("the version", str(calendar["VERSION"]), "2.0")
    checks.equal("a lesson an event", [event["DTSTART"].dt.isoformat() for event in events], DATES)
    checks.equal("all of different uid", len({str(event["UID"]) for event in events}), 8)
    checks.equal("the lost one is cancelled", [str(event["STATUS"]) == "CANCELLED" for event in events],
                 [lesson["state"] == "lost" for lesson in plan["lessons"]])
    for event, lesson in zip(events, plan["lessons"]):
        checks.equal("the sequence goes up with each new plan", int(event["SEQUENCE"]), 1)
        for tune in lesson["new_tunes"]:
            checks.that("what is new is told", tune["title"] in str(event["DESCRIPTION"]), str(event["DESCRIPTION"]))
    data = program.run("syllabus", "Tuesdays", "--ics", "--at", "23:30", "--for-minutes", "45", library=library).stdout
    event = next(part for part in icalendar.Calendar.from_ical(data).walk() if part.name == "VEVENT")
    checks.equal("a local time, without a zone", event["DTSTART"].dt, datetime.datetime(2027, 1, 12, 23, 30))
    checks.equal("that ends the next day", event["DTEND"].dt, datetime.datetime(2027, 1, 13, 0, 15))
    odd = "Commas, semicolons; a \\ and ♯ " + "é" * 25
    program.run("syllabus", odd, *TERM[2:], library=library)
    data = program.run("syllabus", odd, "--ics", library=library).stdout
    event = next(part for part in icalendar.Calendar.from_ical(data).walk() if part.name == "VEVENT")
    checks.that("odd signs come through", str(event["SUMMARY"]).startswith(odd + ", lesson 1"), str(event["SUMMARY"]))


def main():
    acceptance = program.shared("trade", "acceptance.abc")
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as scratch:
        library = pathlib.Path(scratch) / "library.db"
        program.run("import", acceptance, library=library, exits=(0, 1))
        check_calendar(checks, library)
        check_acceptance(checks, library)
        if icalendar is not None:
            check_events(checks, library)
    if icalendar is None:
        print("skipped: python3-icalendar is not here, so the events were read by nobody")
        return checks.exit_code() or program.SKIPPED
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
