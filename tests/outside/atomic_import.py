#!/usr/bin/env python3
"""An import killed at any moment, two imports at once, and a full disk: the library is always whole.

Checked with SQLite itself (Python's sqlite3 module) and by what gamut then says of the library.
"""
import contextlib
import os
import pathlib
import random
import resource
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile
import time

import program

sys.dont_write_bytecode = True
sys.path.insert(0, str(program.REPOSITORY / "scripts"))
import make_collection  # noqa: E402

FILES, TUNES = 40, 50
KILLS = 15
SECONDS_FOR_KILLS = 20 * program.TIME_FACTOR
SEED = 20260101


def contents(library):
    """Every setting as a row without its id, by file and number."""
    listed = program.answer("tunes", "--settings", library=library)
    rows = []
    for tune in listed["tunes"]:
        tune.pop("id")
        rows.append(tune)
    assert len(rows) == listed["matched"]
    return sorted(rows, key=lambda row: (row["file"], int(row["number"])))


def settings_by_file(library):
    counts = {}
    for row in contents(library):
        counts[row["file"]] = counts.get(row["file"], 0) + 1
    return counts


def check_database(checks, label, library):
    """SQLite's own opinion, on a copy so that gamut is left to recover the file by itself."""
    with tempfile.TemporaryDirectory() as scratch:
        for path in library.parent.glob(library.name + "*"):
            shutil.copy(path, scratch)
        with contextlib.closing(sqlite3.connect(pathlib.Path(scratch) / library.name)) as database:
            checks.equal(f"{label}: integrity", database.execute("PRAGMA integrity_check").fetchall(), [("ok",)])
            checks.equal(f"{label}: references", database.execute("PRAGMA foreign_key_check").fetchall(), [])


def start_import(folder, library, **options):
    return subprocess.Popen([program.PROGRAM, "import", str(folder)], env=program.environment(library),
                            stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, **options)


def check_killed(checks, folder, scratch):
    undisturbed = scratch / "undisturbed.db"
    began = time.monotonic()
    program.run("import", folder, library=undisturbed)
    whole_seconds = time.monotonic() - began
    expected = contents(undisturbed)
    checks.equal("undisturbed: settings", len(expected), FILES * TUNES)

    rng = random.Random(SEED)
    stopped_early = partly_in = 0
    deadline = time.monotonic() + SECONDS_FOR_KILLS
    for attempt in range(KILLS):
        if time.monotonic() > deadline:
            print(f"time is up after {attempt} kills")
            break
        label = f"kill {attempt + 1}"
        library = scratch / f"killed_{attempt}" / "library.db"
        library.parent.mkdir()
        running = start_import(folder, library)
        time.sleep(rng.uniform(0, whole_seconds))
        running.send_signal(signal.SIGKILL)
        running.communicate()
        stopped_early += running.returncode == -signal.SIGKILL
        if library.exists() and library.stat().st_size > 0:
            check_database(checks, label, library)
            # A library killed before its tables were made may refuse to be read; it must still take an import.
            looked = program.run("tunes", "--limit", "1", library=library, exits=(0, 1, 3))
            if looked.returncode != 3:
                sizes = settings_by_file(library)
                checks.that(f"{label}: every file is wholly in or wholly out", set(sizes.values()) <= {TUNES}, sizes)
                partly_in += 0 < len(sizes) < FILES
        program.run("import", folder, library=library)
        checks.that(f"{label}: the next import completes it", contents(library) == expected)
        shutil.rmtree(library.parent)
    print(f"{stopped_early} imports killed before their end, {partly_in} of them with some files in")
    checks.that("enough imports were killed in the middle", stopped_early >= 5 and partly_in >= 1,
                f"{stopped_early} killed, {partly_in} with some files in")


def check_two_at_once(checks, folder, scratch):
    library = scratch / "two.db"
    for attempt in range(5):
        library.unlink(missing_ok=True)
        both = [start_import(folder, library) for _ in range(2)]
        errors = [process.communicate()[1].decode("utf-8", "replace") for process in both]
        codes = sorted(process.returncode for process in both)
        if codes == [0, 0]:  # the first was done before the second looked
            print(f"two at once, attempt {attempt + 1}: they did not meet")
            continue
        checks.equal("two at once: exit codes", codes, [0, 3])
        refused = next((text for process, text in zip(both, errors) if process.returncode == 3), "")
        checks.that("two at once: one sentence says why", refused.count("\n") == 1 and "import" in refused, repr(refused))
        checks.equal("two at once: settings", len(contents(library)), FILES * TUNES)
        return
    checks.that("two at once: the imports met", False)


def small_writes_only():
    """In the child: no file may grow beyond 1 MB, and the signal that says so becomes an error code."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1_000_000, 1_000_000))


def check_full(checks, label, big_file, folder, library, **options):
    """With no room left: exit 3, one sentence, and what was in the library is still there."""
    program.run("import", program.SAMPLE, library=library)
    before = contents(library)
    stopped = start_import(big_file, library, **options)
    errors = stopped.communicate()[1].decode("utf-8", "replace")
    checks.equal(f"{label}: exit code", stopped.returncode, 3)
    checks.that(f"{label}: one sentence", errors.count("\n") == 1 and str(library) in errors, repr(errors))
    checks.that(f"{label}: the library is as before", contents(library) == before)

    # Of a folder, files before the full moment may be in; each is whole.
    stopped = start_import(folder, library, **options)
    stopped.communicate()
    checks.equal(f"{label}, folder: exit code", stopped.returncode, 3)
    check_database(checks, f"{label}, folder", library)
    after = contents(library)
    checks.that(f"{label}, folder: nothing is lost", [row for row in after if row in before] == before)
    added = {}
    for row in after:
        if row not in before:
            added[row["file"]] = added.get(row["file"], 0) + 1
    checks.that(f"{label}, folder: files are whole", set(added.values()) <= {TUNES}, added)


def on_small_disk(big_file, folder):
    """Runs inside its own mount namespace: the small disk goes away with the process."""
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as scratch:
        if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", scratch], capture_output=True,
                          check=False).returncode != 0:
            print("no small disk could be made here: tried with a limit on the size of files only")
            return 0
        try:
            check_full(checks, "full disk", pathlib.Path(big_file), pathlib.Path(folder), pathlib.Path(scratch) / "library.db")
        finally:
            subprocess.run(["umount", scratch], check=False)
    return checks.exit_code()


def main():
    if sys.argv[1:2] == ["--on-small-disk"]:
        return on_small_disk(*sys.argv[2:])
    checks = program.Checks()
    with tempfile.TemporaryDirectory() as name:
        scratch = pathlib.Path(name)
        folder = scratch / "collection"
        make_collection.write_collection(folder, FILES, TUNES)
        big_file = scratch / "big.abc"
        big_file.write_text(make_collection.file_text(seed=2, index=0, tunes=3000), encoding="utf-8")

        check_killed(checks, folder, scratch)
        check_two_at_once(checks, folder, scratch)
        full = scratch / "full"
        full.mkdir()
        check_full(checks, "file size limit", big_file, folder, full / "library.db", preexec_fn=small_writes_only,
                   restore_signals=False)
        may_mount = os.geteuid() == 0 and shutil.which("unshare") and subprocess.run(
            ["unshare", "--mount", "true"], capture_output=True, check=False).returncode == 0
        if may_mount:
            done = subprocess.run(["unshare", "--mount", sys.executable, __file__, "--on-small-disk", big_file, folder],
                                  check=False)
            checks.equal("full disk: claims hold", done.returncode, 0)
        else:
            print("no small disk could be made here: tried with a limit on the size of files only")
    return checks.exit_code()


if __name__ == "__main__":
    sys.exit(main())
