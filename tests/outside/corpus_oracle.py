#!/usr/bin/env python3
"""Three published collections against an independent reading of them: the notes of every tune, row by row.

Sources: Francis O'Neill, O'Neill's Music of Ireland, Chicago 1903; James Aird, A Selection of Scotch, English, Irish and
Foreign Airs, Glasgow, volumes 1 to 3 (vol. 1: 1778); W. B. Ryan, Ryan's Mammoth Collection, Boston 1883; all in the ABC
encodings of the corpus that comes with the Python package music21. The expected note sets were made by two other readers of
ABC that had to agree; where they did not, the table says in its column `cause` how the row was settled.
"""
import csv
import hashlib
import sys

import program

COLLECTIONS = (("oneills", "oneills.tsv"), ("airds-1-3", "airds-1-3.tsv"), ("ryans", "ryans.tsv"))

# (name_of(file), ordinal) -> why gamut reads this tune differently.
READ_DIFFERENTLY = {
}


def name_of(file):
    """Files of the third book are named by their titles, which do not belong here."""
    return hashlib.sha256(file.encode("utf-8")).hexdigest()[:12]


def numbers(text):
    return [int(word) for word in text.split()]


def main():
    passed = failed = not_binding = 0
    exceptions_met = set()
    for folder, table_name in COLLECTIONS:
        with open(program.shared("corpus", "oracle", table_name), encoding="utf-8", newline="") as table:
            rows = list(csv.DictReader(table, delimiter="\t", quoting=csv.QUOTE_NONE))
        tunes_of = {}
        for row in rows:
            name, ordinal = row["file"], int(row["ordinal"])
            if name not in tunes_of:
                tunes_of[name] = program.melodies(program.shared("corpus", folder, name))
                expected_count = sum(other["file"] == name for other in rows)
                if len(tunes_of[name]) != expected_count:
                    failed += 1
                    print(f"{name}: {expected_count} tunes expected, {len(tunes_of[name])} read")
            if ordinal > len(tunes_of[name]):
                failed += 1
                continue
            entries = tunes_of[name][ordinal - 1]["pitches"]
            wrong = []
            for column, graces in (("pitches", False), ("pitches_grace", True)):
                found = sorted(program.midi_numbers(entries, graces))
                if found != numbers(row[column]):
                    extra = sorted(set(found) - set(numbers(row[column])))
                    lacking = sorted(set(numbers(row[column])) - set(found))
                    wrong.append(f"{column}: too many {extra}, lacking {lacking}")
            if not wrong:
                passed += 1
            elif "key-suspect" in row["cause"]:
                not_binding += 1
                print(f"not binding: {name} {ordinal} {row.get('title', '')}: {row['cause']}")
            elif (name_of(name), ordinal) in READ_DIFFERENTLY:
                not_binding += 1
                exceptions_met.add((name_of(name), ordinal))
                print(f"not binding: {name} {ordinal} {row.get('title', '')}: {READ_DIFFERENTLY[name_of(name), ordinal]}")
            else:
                failed += 1
                print(f"{name} {ordinal} X:{row['x']} {row.get('title', '')}: {row['cause']}")
                for line in wrong:
                    print(f"    {line}")
    for name, ordinal in sorted(set(READ_DIFFERENTLY) - exceptions_met):
        failed += 1
        print(f"{name} {ordinal} is listed as read differently, but agrees: take it off the list")
    print(f"{passed} passed, {failed} failed, {not_binding} not binding")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
