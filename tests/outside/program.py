"""Runs gamut for the tests in this folder, and finds what they compare it with.

GAMUT             the program; default: build/gamut
GAMUT_SHARED      folder with the published collections and worked cases; default: `shared` beside the repository
GAMUT_TIME_FACTOR stretches time budgets, for slow builds; default: 1
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
SAMPLE = REPOSITORY / "sample-library"
PROGRAM = os.environ.get("GAMUT", str(REPOSITORY / "build" / "gamut"))
TIME_FACTOR = float(os.environ.get("GAMUT_TIME_FACTOR", "1"))
SKIPPED = 77  # the exit code CTest reads as "skipped"


def environment(library=None):
    """Only what gamut may depend on, so that no setting of the person running the tests leaks in."""
    kept = {name: os.environ[name] for name in ("PATH", "TMPDIR", "ASAN_OPTIONS", "UBSAN_OPTIONS") if name in os.environ}
    kept.update(LC_ALL="C.UTF-8", TZ="UTC", NO_COLOR="1", COLUMNS="80", HOME="/nonexistent")
    if library is not None:
        kept["GAMUT_LIBRARY"] = str(library)
    return kept


def run(*words, library=None, exits=(0,), **options):
    """The finished process, with bytes for output. Raises AssertionError on any other exit code."""
    command = [PROGRAM, *map(str, words)]
    done = subprocess.run(command, capture_output=True, env=environment(library), check=False, **options)
    if done.returncode not in exits:
        raise AssertionError(f"{' '.join(command)}: exit {done.returncode}, expected {exits}\n"
                             + done.stderr.decode("utf-8", "replace")[-4000:])
    return done


def answer(*words, library=None, exits=(0, 1), **options):
    """The JSON object that `gamut WORDS --json` prints."""
    value = json.loads(run(*words, "--json", library=library, exits=exits, **options).stdout)
    assert value["version"] == 1, value["version"]
    return value


def melodies(path):
    """The tunes of one ABC file as `gamut read` understands them. An unreadable part is no error here."""
    return answer("read", "--as", "melody", path)["tunes"]


def midi_numbers(entries, graces):
    """The sounding notes of a `pitches` list as a set: `67`, `g62` a grace note, `60+64` a chord, `(62)` a tie going on."""
    found = set()
    for entry in entries:
        if entry.startswith("g"):
            if not graces:
                continue
            entry = entry[1:]
        found.update(int(head) for head in entry.replace("(", "").replace(")", "").split("+"))
    return found


def shared(*parts):
    """A path among the published material. Ends the test as skipped where there is none."""
    top = pathlib.Path(os.environ.get("GAMUT_SHARED", REPOSITORY.parent / "shared"))
    path = top.joinpath(*parts)
    if not path.exists():
        print(f"skipped: {'/'.join(parts)} is not among the files beside this repository (GAMUT_SHARED says where)")
        sys.exit(SKIPPED)
    return path


# Starts a program and measures it from a process that is itself small: what a child held before it became the program counts
# as its own peak, so it must not be started from a test that has held much.
LAUNCHER = """
import json, resource, subprocess, sys
seconds = int(sys.argv[3])
with open(sys.argv[1], "wb") as output, open(sys.argv[2], "wb") as errors:
    code = subprocess.call(sys.argv[4:], stdout=output, stderr=errors, stdin=subprocess.DEVNULL,
                           preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds)))
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(json.dumps([code, used.ru_utime + used.ru_stime, used.ru_maxrss * 1024]))
"""


class Measured:
    """A finished run: exit code, processor seconds (a busy machine then does not count), peak memory in bytes, and what it
    printed. After `most_seconds` of processor it is killed."""

    def __init__(self, words, most_seconds, library=None):
        with tempfile.TemporaryDirectory() as scratch:
            files = [pathlib.Path(scratch) / name for name in ("output", "errors")]
            done = subprocess.run([sys.executable, "-S", "-c", LAUNCHER, *files, str(most_seconds), PROGRAM, *map(str, words)],
                                  check=True, stdout=subprocess.PIPE, env=environment(library))
            self.code, self.seconds, self.peak = json.loads(done.stdout)
            self.output, self.errors = (path.read_bytes() for path in files)


class Checks:
    """Counts claims, prints those that do not hold, and gives the exit code."""

    def __init__(self):
        self.held = 0
        self.broken = 0

    def that(self, claim, holds, *details):
        if holds:
            self.held += 1
        else:
            self.broken += 1
            print(f"does not hold: {claim}")
            for detail in details:
                print(f"    {detail}")
        return holds

    def equal(self, claim, found, expected):
        return self.that(claim, found == expected, f"expected {expected!r}", f"found    {found!r}")

    def exit_code(self):
        print(f"{self.held} hold, {self.broken} do not")
        return 1 if self.broken or not self.held else 0
