"""Runs gamut under strace (Debian's), which can end a program at any system call, or let the call fail."""
import collections
import pathlib
import re
import tempfile

import kept

# Calls that can lose something or leave something half done.
CALLS = ("openat", "pwrite64", "write", "ftruncate", "fallocate", "fsync", "fdatasync", "unlink", "link", "rename", "fcntl", "flock", "pread64")
LINE = re.compile(r"^\d+ +(?:<\.\.\. )?(\w+)[( ]")


def counts(library, words):
    """How often each call is made once the library has been opened for the first time, and how often before that."""
    with tempfile.TemporaryDirectory() as scratch:
        log = pathlib.Path(scratch) / "calls"
        done = kept.gamut(library, *words, prefix=("strace", "-f", "-qq", "-o", str(log), "-e", "trace=" + ",".join(CALLS)))
        before, after = collections.Counter(), collections.Counter()
        opened = False
        for line in log.read_text(errors="replace").splitlines():
            found = LINE.match(line)
            if not found or "resumed" in line:
                continue
            opened = opened or library.name in line
            (after if opened else before)[found[1]] += 1
    return done, before, after


def injected(library, words, call, place, what, **options):
    """`what` is `signal=KILL` or `error=ENOSPC`; `place` is `7` for the seventh call or `7+` for that and all later ones."""
    prefix = ("strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={call}", "-e", f"inject={call}:{what}:when={place}")
    return kept.gamut(library, *words, prefix=prefix, **options)


def places(before, after, most):
    """The numbers of a call that come after the library was opened, evenly thinned out to `most` of them."""
    numbers = range(before + 1, before + after + 1)
    if most is None or len(numbers) <= most:
        return list(numbers)
    return sorted({numbers[index * (len(numbers) - 1) // (most - 1)] for index in range(most)}) if most > 1 else [numbers[-1]]
