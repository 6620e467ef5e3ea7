#!/usr/bin/env python3
"""Holds the arrows between the rooms: an include points strictly down, and foreign libraries stay where they belong.

    scripts/check_layers.py [REPOSITORY]

Prints `file:line: ...` for each include that does not, and checks that the map in DEVELOPERS.md is the same as the table
here. Exit 1 when anything is wrong.
"""
import pathlib
import re
import sys

# Room -> rooms its files may include, beside their own.
ROOMS = {
    "base": "",
    "music": "base",
    "tune": "base music",
    "instruments": "base music",
    "abc": "base music tune",
    "analysis": "base music tune",
    "hands": "base music tune instruments analysis",
    "repertoire": "base music tune instruments analysis hands",
    "people": "base music tune",
    "collection": "base music tune people",
    "library": "base music tune people collection",
    "planner": "base music tune",
    "syllabus": "base music tune planner",
    "reader": "base music tune collection abc analysis",
    "answers": "base music tune people collection instruments abc analysis hands repertoire planner syllabus",
    "importer": "base music tune people collection abc analysis reader library",
    "report": "base music tune people collection instruments hands repertoire planner syllabus answers",
    "paper": "base music tune instruments planner repertoire syllabus answers report",
    "page": "base music tune people collection instruments abc analysis hands repertoire planner syllabus reader answers report",
    "guide": "base report",
    "cli": "base music tune people collection instruments abc analysis hands repertoire library planner syllabus reader answers importer report paper page guide",
}
ALLOWED = {room: set(words.split()) | {room} for room, words in ROOMS.items()}

# Room -> its folders -> folders of the room their files may include, beside their own and what lies in none.
FOLDERS = {"report": {"words": "", "pages": "words", "writers": "words"}}

# Headers of foreign libraries -> the only rooms that may include them.
FOREIGN = (
    (re.compile(r"^sqlite3(ext)?\.h$"), {"library"}),
    (re.compile(r"^CLI/"), {"cli"}),
    (re.compile(r"^nlohmann/"), {"answers", "page", "people", "report", "repertoire", "syllabus"}),
    (re.compile(r"^toml\+\+/"), {"instruments"}),
    (re.compile(r"^catch2/"), set()),
    (re.compile(r"^schema/"), {"library"}),
)
INCLUDE = re.compile(r'^\s*#\s*include\s*(["<])([^">]+)[">]')
MAP_HEADING = "## The map"


def wrong_folder(room, folder, target):
    """What is wrong with an include of its own room in a folder of it, or nothing."""
    parts = target.split("/")
    other = parts[1] if len(parts) > 2 else folder
    if other != folder and other not in FOLDERS[room][folder].split():
        return f"{room}/{folder} may not include {room}/{other} ({target}): includes point strictly down"
    return None


def wrong_includes(source):
    for path in sorted(source.rglob("*")):
        if path.suffix not in (".h", ".cc", ".cpp", ".hpp", ".in"):
            continue
        parts = path.relative_to(source).parts
        where = f"{path.relative_to(source.parent)}"
        if len(parts) < 2 or parts[0] not in ROOMS:
            yield f"{where}:1: lies in no room that scripts/check_layers.py knows"
            continue
        room = parts[0]
        folder = parts[1] if room in FOLDERS and len(parts) > 2 else None
        if folder is not None and folder not in FOLDERS[room]:
            yield f"{where}:1: lies in no folder of {room} that scripts/check_layers.py knows"
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8").split("\n"), 1):
            match = INCLUDE.match(line)
            if not match:
                continue
            quote, target = match.groups()
            first = target.split("/")[0]
            if first in ROOMS:
                if first not in ALLOWED[room]:
                    yield f"{where}:{number}: {room} may not include {first} ({target}): includes point strictly down"
                elif quote == "<":
                    yield f"{where}:{number}: our own header {target} is included with <>"
                elif folder is not None and first == room and (fault := wrong_folder(room, folder, target)):
                    yield f"{where}:{number}: {fault}"
                continue
            for pattern, rooms in FOREIGN:
                if pattern.match(target) and room not in rooms:
                    belongs = f"belongs to {' and '.join(sorted(rooms))}" if rooms else "belongs to the tests"
                    yield f"{where}:{number}: {target} {belongs}, not to {room}"
            if quote == '"' and not any(p.match(target) for p, _ in FOREIGN):
                yield f"{where}:{number}: {target} names no room: write it as \"{room}/{target}\""


def map_lines(text):
    """(line number, words) of the fenced block after the heading."""
    lines = text.split("\n")
    if MAP_HEADING not in lines:
        return None
    at = lines.index(MAP_HEADING)
    fences = [number for number in range(at, len(lines)) if lines[number].startswith("```")][:2]
    if len(fences) < 2:
        return None
    return [(number + 1, lines[number].split()) for number in range(fences[0] + 1, fences[1]) if lines[number].strip()]


def wrong_map(repository):
    """The map's lines are `room   what it is   may include`; the last column names rooms, or `nothing`, or `everything`."""
    path = repository / "DEVELOPERS.md"
    if not path.exists():
        yield "DEVELOPERS.md:1: there is no such file, so no map of the rooms"
        return
    lines = map_lines(path.read_text(encoding="utf-8"))
    if lines is None:
        yield f"DEVELOPERS.md:1: no fenced block after the heading `{MAP_HEADING}`"
        return
    named = {}
    text = path.read_text(encoding="utf-8").split("\n")
    for number, words in lines:
        if words[0] == "room":
            continue
        named[words[0]] = number
        if words[0] not in ROOMS:
            yield f"DEVELOPERS.md:{number}: the map names a room `{words[0]}` that scripts/check_layers.py does not know"
            continue
        columns = re.split(r" {2,}", text[number - 1].strip())
        if len(columns) != 3:
            yield f"DEVELOPERS.md:{number}: expected `room   what it is   may include`, parted by two blanks or more"
            continue
        others = ALLOWED[words[0]] - {words[0]}
        last = columns[2]
        said = set(re.findall(r"\w+", last)) if last not in ("nothing", "everything") else (
            set() if last == "nothing" else set(ROOMS) - {words[0]})
        if said != others:
            yield (f"DEVELOPERS.md:{number}: the map lets {words[0]} include {' '.join(sorted(said)) or 'nothing'}; "
                   f"the table says {' '.join(sorted(others)) or 'nothing'}")
    for room in ROOMS:
        if room not in named:
            yield f"DEVELOPERS.md:1: the map does not name the room `{room}`"


def main():
    repository = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else pathlib.Path(__file__).resolve().parents[1])
    found = [*wrong_includes(repository / "src"), *wrong_map(repository)]
    for line in found:
        print(line)
    if not found:
        print(f"{len(ROOMS)} rooms, and every include points down")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
