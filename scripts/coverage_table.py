#!/usr/bin/env python3
"""Adds up what llvm-cov exports, room by room:  scripts/coverage_table.py EXPORT.json [--write]

--write puts the table between the marks of tests/README.md."""
import json
import pathlib
import re
import sys

REPOSITORY = pathlib.Path(__file__).resolve().parents[1]
PAGE = REPOSITORY / "tests/README.md"
MARKS = re.compile(r"(<!-- coverage -->\n).*?(<!-- end of coverage -->)", re.S)
KINDS = ("lines", "branches")


def sums_by_room(export):
    rooms = {}
    for data in export["data"]:
        for file in data["files"]:
            match = re.search(r"/src/(\w+)/[^/]*\.(?:cc|h)$", file["filename"])
            if not match or "/tests/" in file["filename"]:
                continue
            room = rooms.setdefault(match.group(1), {kind: [0, 0] for kind in KINDS})
            for kind in KINDS:
                room[kind][0] += file["summary"][kind]["covered"]
                room[kind][1] += file["summary"][kind]["count"]
    return rooms


def percent(covered, count):
    return f"{100 * covered / count:.1f} %" if count else "-"


def table(rooms):
    lines = ["| room | lines | reached | branches | reached |", "|---|---|---|---|---|"]
    total = {kind: [sum(room[kind][at] for room in rooms.values()) for at in (0, 1)] for kind in KINDS}
    for name, room in [*sorted(rooms.items()), ("all", total)]:
        (lines_in, lines_all), (ways_in, ways_all) = room["lines"], room["branches"]
        lines.append(f"| {name} | {lines_all} | {percent(lines_in, lines_all)} | {ways_all} | {percent(ways_in, ways_all)} |")
    return "\n".join(lines) + "\n"


def main():
    text = table(sums_by_room(json.loads(pathlib.Path(sys.argv[1]).read_text(encoding="utf-8"))))
    print(text, end="")
    if "--write" in sys.argv[2:]:
        PAGE.write_text(MARKS.sub(lambda marks: marks.group(1) + text + marks.group(2), PAGE.read_text(encoding="utf-8")),
                        encoding="utf-8")


if __name__ == "__main__":
    main()
