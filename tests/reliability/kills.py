"""Every changing command, killed at every system call; and every such call failing, once or from then on.

After each try the library is whole, holds what it held before or what it should hold after, and never denies what was answered.
"""
import pathlib
import random
import subprocess
import tempfile

import kept
import program
import traced

FAULTS = {"pwrite64": ("ENOSPC", "EIO"), "write": ("ENOSPC",), "fsync": ("EIO",), "fdatasync": ("EIO",), "ftruncate": ("EIO", "ENOSPC"),
          "fallocate": ("ENOSPC",), "openat": ("EACCES", "EMFILE"), "unlink": ("EIO",), "link": ("EIO",), "rename": ("EIO",), "fcntl": ("ENOLCK", "EIO"),
          "pread64": ("EIO",), "flock": ("EIO",)}


class Scene:
    """One change on a library, with the library before and after it."""

    def __init__(self, name, words, start, scratch):
        self.name, self.words, self.start = name, words, start
        self.before = kept.Contents(start)
        changed = kept.copy(start, scratch / "changed")
        self.done, self.calls_before, self.calls_after = traced.counts(changed, words)
        self.after = kept.Contents(changed)
        self.saved = kept.Saved(changed)
        # An import is many transactions: on the way it may have done a part, and the next one does the rest.
        self.is_import = words[0] == "import"

    def judge(self, figures, what, library, done):
        found = kept.Contents(library)
        if not figures.take(not found.fault, what, found.fault):
            return
        if done.returncode >= 0 and done.returncode not in (0, 1, 2, 3) and done.returncode != 137:
            figures.take(False, what, f"exit {done.returncode}: {done.stderr[-200:]!r}")
            return
        if self.is_import:
            figures.take(found.said() == self.before.said() or found.said() == self.after.said(), what, "what people said has changed")
            again = kept.gamut(library, *self.words)
            settled = kept.Contents(library)
            figures.take(again.returncode in (0, 1) and settled.said() == self.after.said() and
                         len(settled.tables.get("setting", ())) == len(self.after.tables["setting"]), what,
                         f"not mended by the next import: {settled.differences(self.after)}")
            return
        is_before, is_after = found == self.before, found == self.after
        if self.name in kept.IN_STEPS and not is_before and not is_after:
            again = kept.gamut(library, *self.words)
            settled = kept.Contents(library)
            figures.take(again.returncode in (0, 1) and settled.kept().keys() == self.after.kept().keys() and
                         without_ids(settled) == without_ids(self.after), what,
                         f"done again, it is not what it should be: {settled.differences(self.after)}")
            return
        figures.take(is_before or is_after, what, f"neither as before nor as after: {found.differences(self.before)}")
        if is_after and not is_before:
            checked = kept.gamut(library, "library", "check")
            figures.take(checked.returncode == 0, what, f"library check: {checked.stdout[-300:]!r}")
        saved = kept.Saved(library)
        if self.saved.is_there and (saved.is_there or done.returncode == 0):
            figures.take(saved == self.saved, what, "what was written beside the library is not whole")
        if done.returncode == 0:
            figures.take(is_after, what, "answered 0 and kept nothing")
        elif done.returncode in (1, 2, 3) and is_after and not is_before and self.done.returncode == 0 and done.stderr:
            figures.take(b"kept" in done.stderr, what, f"kept, but the answer denies it: {done.stderr[-200:]!r}")
        elif done.returncode < 0 or done.returncode == 137:  # killed: what stands on the screen must be kept
            figures.take(is_after or not done.stdout.strip(), what, "answered before it was kept")


def without_ids(contents):
    """Events have the ranks of sayings as ids, which are others when it was said in two goes; so have sums over them."""
    kept_rows = contents.kept()
    kept_rows.pop("kept_sum", None)
    kept_rows["player_event"] = sorted(row.split(", ", 1)[1] for row in kept_rows["player_event"])
    return kept_rows


def scenes(start, scratch, most):
    is_short = kept.is_short(most)
    for name, words in kept.CHANGES.items():
        if is_short and name not in kept.IN_SHORT:
            continue
        yield Scene(name, words, start, scratch / name.replace(" ", "_"))
    fresh = scratch / "fresh" / "library.db"
    fresh.parent.mkdir()
    yield Scene("import", ("import", program.SAMPLE), fresh, scratch / "first_import")
    for version, library in kept.old_libraries(start, scratch / "old"):
        if is_short and version not in kept.OLD_IN_SHORT:
            continue
        yield Scene(f"import into a library of version {version}", ("import", program.SAMPLE), library, scratch / f"from_{version}")


def try_all(figures, scene, tries, most):
    number = kept.TRIES_IN_SHORT if kept.is_short(most) else kept.TRIES_OF_SCENE
    if number is not None:
        tries = random.Random(scene.name).sample(tries, min(len(tries), number))
    for call, place, what in tries:
        with tempfile.TemporaryDirectory() as scratch:
            library = pathlib.Path(scratch) / "library.db"
            kept.copy(scene.start, library.parent)
            label = f"{scene.name}, {what} at {call} {place}"
            try:
                done = traced.injected(library, scene.words, call, place, what)
            except subprocess.TimeoutExpired:
                figures.take(False, label, "never ends")
                continue
            scene.judge(figures, label, library, done)


def kills(start, scratch, most):
    figures = kept.Figures("killed at a system call")
    for scene in scenes(start, scratch / "kills", most):
        try_all(figures, scene, [(call, place, "signal=KILL") for call, number in scene.calls_after.items()
                                 for place in traced.places(scene.calls_before[call], number, most)], most)
    return [figures]


def faults(start, scratch, most):
    figures = kept.Figures("disk full or failing at a call")
    for scene in scenes(start, scratch / "faults", most):
        try_all(figures, scene, [(call, f"{place}{ever}", f"error={error}") for call, number in scene.calls_after.items()
                                 for error in FAULTS[call] for ever in ("", "+")
                                 for place in traced.places(scene.calls_before[call], number, most)], most)
    return [figures]
