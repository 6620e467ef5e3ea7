"""Files that are none, as library, as input and as output: each is told in a sentence, and nothing waits, grows or is destroyed."""
import os
import pathlib
import shutil
import subprocess
import threading

import kept
import program


def ends(figures, what, library, *words, exits, seconds=20, **options):
    """It ends in time, with one of these exits and a sentence on standard error."""
    try:
        done = kept.gamut(library, *words, seconds=seconds, **options)
    except subprocess.TimeoutExpired:
        figures.take(False, what, "never ends")
        return None
    figures.take(done.returncode in exits and (done.returncode == 0 or done.stderr.strip()), what,
                 f"exit {done.returncode}: {done.stderr[-200:]!r}")
    return done


def as_library(start, scratch):
    figures = kept.Figures("a special file as library")
    folder = scratch / "odd_libraries"
    folder.mkdir()
    os.mkfifo(folder / "pipe")
    (folder / "folder").mkdir()
    (folder / "empty").touch()
    (folder / "one_byte").write_bytes(b"x")
    (folder / "text").write_text("X:1\nT:no library\nK:D\nDEF|\n")
    (folder / "loop").symlink_to("loop")
    (folder / "to_null").symlink_to("/dev/null")
    for name in ("pipe", "folder", "empty", "one_byte", "text", "loop", "to_null", "absent", "/dev/null", "/dev/zero", "/dev/full"):
        library = folder / name
        had = library.read_bytes() if library.is_file() else None
        ends(figures, f"{name}: asked", library, "tunes", exits=(3,))
        ends(figures, f"{name}: marked", library, "mark", "kettle", "--tag", "x", exits=(3,))
        if name not in ("absent",):
            ends(figures, f"{name}: imported into", library, "import", program.SAMPLE, exits=(2, 3))
        if had is not None:
            figures.take(library.read_bytes() == had, f"{name}: left as it was")
    for value in ("", ":memory:"):
        ends(figures, f"--library {value!r}", folder / "absent", "--library", value, "import", program.SAMPLE, exits=(2, 3))
    return figures


def beside_an_import(figures, name, library, folder):
    """Marks are kept while the folder that holds the library is imported."""
    done = []

    def mark():
        for number in range(10):
            told = kept.gamut(library, "mark", "kettle", "--tag", f"inside {number}")
            if told.returncode == 0:
                done.append(f"inside {number}")
            else:
                figures.take(told.returncode == 3 and b"using it" in told.stderr, f"{name}: marked", told.stderr[-200:])

    marking = threading.Thread(target=mark)
    marking.start()
    while marking.is_alive():
        ends(figures, f"{name}: the library in the imported folder", library, "import", folder, exits=(0, 1))
    marking.join()
    contents = kept.Contents(library)
    figures.take(not contents.fault, f"{name}: whole afterwards", contents.fault)
    tags = " ".join(kept.gamut(library, "mark", "kettle").stdout.decode().split())
    figures.take(all(tag in tags for tag in done), f"{name}: every mark is there")


def as_input(start, scratch):
    figures = kept.Figures("a special file as input")
    library = kept.copy(start, scratch / "odd_inputs" / "library")
    before = kept.Contents(library)
    folder = scratch / "odd_inputs" / "tunes"
    shutil.copytree(program.SAMPLE, folder)
    os.mkfifo(folder / "pipe.abc")
    (folder / "loop.abc").symlink_to("loop.abc")
    (folder / "up").symlink_to("..")
    (folder / "null.abc").symlink_to("/dev/null")
    (folder / "zero.abc").symlink_to("/dev/zero")
    (folder / "holes.abc").touch()
    os.truncate(folder / "holes.abc", 3 << 30)
    (folder / "no_text.abc").write_bytes(bytes(range(256)) * 64)
    ends(figures, "a folder of them", library, "import", folder, exits=(0, 1), seconds=60)
    for name in ("/dev/zero", "/dev/null", "/dev/full"):
        ends(figures, f"import {name}", library, "import", name, exits=(0, 1, 2, 3))
        ends(figures, f"read {name}", library, "read", name, exits=(0, 1, 2, 3))
    figures.take(kept.Contents(library).said() == before.said(), "what people said is as it was")
    inside = scratch / "library_inside"
    shutil.copytree(program.SAMPLE, inside)
    for name, make in (("library.abc", None), ("linked.abc", os.symlink), ("hard.txt", os.link)):
        home = inside / "home.db"
        own = inside / "library.abc" if make is None else home
        if make is None:
            shutil.copy(kept.copy(start, scratch / "library_inside_copy"), own)
        else:
            shutil.copy(kept.copy(start, scratch / "library_inside_copy"), home)
            make(home, inside / name)
        beside_an_import(figures, name, own, inside)
        for path in kept.beside(own):
            path.unlink()
        (inside / name).unlink(missing_ok=True)
    return figures


def as_output(start, scratch):
    figures = kept.Figures("a special file as output")
    library = kept.copy(start, scratch / "odd_outputs")
    folder = library.parent
    there = folder / "there.abc"
    there.write_text("mine\n")
    (folder / "to_there.abc").symlink_to(there)
    for target in (there, folder / "to_there.abc", folder, folder / "absent" / "x.abc", pathlib.Path("/dev/full")):
        ends(figures, f"tunebook to {target.name}", library, "tunebook", "kettle", "--output", target, exits=(2, 3))
    figures.take(there.read_text() == "mine\n", "a file that was there is as it was")
    for name, words in kept.CHANGES.items():
        copied = kept.copy(start, folder / name.replace(" ", "_"))
        before = kept.Contents(copied)
        with open("/dev/full", "wb") as full:
            done = subprocess.run([program.PROGRAM, *(kept.beside_named(copied, str(word)) for word in words)], env={**program.environment(copied), "GAMUT_TODAY": kept.TODAY},
                                  stdin=subprocess.DEVNULL, stdout=full, stderr=subprocess.PIPE, check=False)
        after = kept.Contents(copied)
        figures.take(done.returncode in (0, 3), f"{name} with a full output", f"exit {done.returncode}")
        if after.said() != before.said() and done.returncode == 3:
            figures.take(b"kept" in done.stderr, f"{name} with a full output", f"kept, and not told: {done.stderr!r}")
    return figures


def odd_files(start, scratch, _):
    return [as_library(start, scratch), as_input(start, scratch), as_output(start, scratch)]
