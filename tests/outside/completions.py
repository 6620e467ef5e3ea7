#!/usr/bin/env python3
"""Presses Tab: the completions of bash, zsh and fish, each asked in the shell itself, on the sample library.

bash runs the function its `complete` names; fish answers `complete -C`; zsh runs in a terminal of its own. A shell that is not
there is told as skipped; without any it is exit 77."""
import os
import pathlib
import pty
import select
import shlex
import shutil
import subprocess
import sys
import tempfile
import time

REPOSITORY = pathlib.Path(__file__).resolve().parents[2]
GAMUT = pathlib.Path(os.environ.get("GAMUT", str(REPOSITORY / "build" / "gamut"))).resolve()
SCRIPTS = REPOSITORY / "src" / "cli" / "completions"

# What is typed, what has to be offered, what must not be.
CASES = (
    ("gamut pa", {"path"}, {"tunes"}),
    ("gamut player ta", {"take-back"}, {"tag"}),
    ("gamut path --ha", {"--have"}, {"--help", "--fits"}),
    ("gamut tunes --instrument whistle-", {"whistle-d"}, {"bc21"}),
    ("gamut tunes --rhythm horn", {"hornpipe"}, {"reel"}),
    ("gamut tunes --rhythm=horn", {"hornpipe"}, {"reel"}),
    ("gamut tune --on bc", {"bc21"}, {"whistle-d"}),
    ("gamut syllabus --on tu", {"tuesday"}, {"bc21"}),
    ("gamut tunes --octave h", {"home"}, {"any"}),
    ("gamut tunes --tag thu", {"thursday"}, {"wedding"}),
    ("gamut next In", {"Ina"}, {"Uli"}),
    ("gamut next Ina --towards Fog", {"Fog Signal by Halves"}, {"Flour on the Fiddle Case"}),
    ("gamut tune fog", {"Fog Signal by Halves"}, {"Flour on the Fiddle Case"}),
    ("gamut guide by", {"by-ear"}, {"path"}),
    ("gamut help pl", {"player"}, {"path"}),
)


def run(words, **more):
    return subprocess.run(words, capture_output=True, text=True, check=False, timeout=60, **more)


def in_program(lines):
    found = []
    for typed in lines:
        done = run([str(GAMUT), "complete", *typed.split(" ")[1:]])
        found.append({line.split("\t")[0] for line in done.stdout.splitlines()})
    return found


def parted(text):
    """What stands between the lines that say `=== next`."""
    return [set(part.splitlines()) - {""} for part in text.split("=== next\n")[:-1]]


def in_bash(lines):
    script = [f"source {shlex.quote(str(SCRIPTS / 'gamut.bash'))}", 'function compopt { :; }',
              '[[ $(complete -p gamut) == *"-F _gamut"* ]] || exit 1']
    for typed in lines:
        words = shlex.join(typed.replace("=", " = ").split(" "))
        script.append(f"COMP_WORDS=({words}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); _gamut gamut\n"
                      "for one in \"${COMPREPLY[@]}\"; do eval \"printf '%s\\n' $one\"; done; echo '=== next'")
    return parted(run(["bash", "--norc", "-c", "\n".join(script)]).stdout)


def in_fish(lines):
    script = [f"source {shlex.quote(str(SCRIPTS / 'gamut.fish'))}"]
    script += [f"complete -C {shlex.quote(typed)}; echo '=== next'" for typed in lines]
    found = parted(run(["fish", "--no-config", "-c", "\n".join(script)]).stdout)
    return [{line.split("\t")[0].removeprefix("--rhythm=") for line in part} for part in found]


class Terminal:
    """A zsh that believes somebody sits before it."""

    def __init__(self):
        self.process, self.end = pty.fork()
        self.seen = b""
        if self.process == 0:
            os.environ["TERM"] = "dumb"
            os.execvp("zsh", ["zsh", "-f", "-i"])

    def type(self, text):
        os.write(self.end, text.encode())

    def wait_until(self, is_done, seconds=30):
        end = time.monotonic() + seconds
        while not is_done() and time.monotonic() < end:
            if select.select([self.end], [], [], 0.02)[0]:
                self.seen += os.read(self.end, 4096)

    def close(self):
        os.kill(self.process, 9)
        os.waitpid(self.process, 0)
        os.close(self.end)


def in_zsh(lines, enters=False, folder=None):
    """What compadd is given, when Tab is pressed in a zsh with a terminal of its own; the lines are entered then if asked."""
    found, start = [], folder or os.getcwd()
    with tempfile.TemporaryDirectory() as folder:
        told, setup = pathlib.Path(folder, "told"), pathlib.Path(folder, "setup")
        setup.write_text(f"""fpath=({shlex.quote(str(SCRIPTS))} $fpath)
autoload -Uz compinit && compinit -u -d {folder}/dump
compadd() {{
    if [[ ${{argv[-1]}} == candidates ]]; then print -rl -- "${{candidates[@]}}" '=== next' >> {told}; fi
    builtin compadd "$@"
}}
PS1='READY> '
cd {shlex.quote(str(start))}
""", encoding="utf-8")
        zsh = Terminal()
        try:
            zsh.type(f". {setup}\n")
            zsh.wait_until(lambda: b"READY> " in zsh.seen)
            for typed in lines:
                told.unlink(missing_ok=True)
                zsh.type(f"\x15{typed}\t")  # ^U: a line of its own
                zsh.wait_until(lambda: told.exists() and told.read_text().endswith("=== next\n"), 20)
                if enters:
                    zsh.type({'"': '"', "'": "'"}.get(typed.split(" ", 2)[2][0], "") + "\n")
                    zsh.wait_until(lambda: False, 1)
                found.append(parted(told.read_text())[0] if told.exists() else {f"nothing; the terminal says {zsh.seen[-300:]!r}"})
        finally:
            zsh.close()
    return found


# A title that is a command to a shell which reads it.
TRAP = """Evil $(touch PWNED) `touch PWNED` lamp's "bell"; touch PWNED"""


def runs_nothing(scratch):
    """What a stranger's title holds is never run: not when it is completed, nor when the line is entered then."""
    pathlib.Path(scratch, "trap.abc").write_text(f"X:1\nT:{TRAP}\nK:D\nDEFA d4|]\n", encoding="utf-8")
    run([str(GAMUT), "import", f"{scratch}/trap.abc"])
    if not any("touch PWNED" in title for title in in_program(["gamut tune evil"])[0]):
        yield "the program does not offer the title that is a trap"
    for current, closing in (("Evil", ""), ('"Evil', '"'), ("'Evil", "'")):
        entered = [f"source {shlex.quote(str(SCRIPTS / 'gamut.bash'))}", "function compopt { :; }",
                   f"COMP_WORDS=(gamut tune {shlex.quote(current)}); COMP_CWORD=2; _gamut gamut",
                   f"opened={shlex.quote(current[0] if closing else '')}",
                   "for one in \"${COMPREPLY[@]}\"; do eval \"printf '%s\\n' $opened$one$opened\"; done"]
        run(["bash", "--norc", "-c", "\n".join(entered)], cwd=scratch)
        if pathlib.Path(scratch, "PWNED").exists():
            yield f"bash: a title that was completed behind {current} is run"
            pathlib.Path(scratch, "PWNED").unlink()
    if shutil.which("zsh"):
        in_zsh(["gamut tune Evil", 'gamut tune "Evil', "gamut tune 'Evil"], enters=True, folder=scratch)
        if pathlib.Path(scratch, "PWNED").exists():
            yield "zsh: a title that was completed is run"
            pathlib.Path(scratch, "PWNED").unlink()


def never_fails():
    """Whatever is asked, the answer is quiet: nothing on standard error, exit 0."""
    nowhere = {**os.environ, "GAMUT_LIBRARY": "/nonexistent/library.db"}
    no_home = {name: value for name, value in os.environ.items() if name not in ("HOME", "GAMUT_LIBRARY", "XDG_DATA_HOME")}
    for words in ([], ["tune", ""], ["--", ""], ["tunes", "--tag", ""], ["nonsense", "--x", "\"", ""], ["tunes", "--library", "/etc/passwd", "--tag", ""],
                  ["tune", "\\"], ["="], ["path", "--by", "=", ""]):
        for environment in (nowhere, no_home):
            done = run([str(GAMUT), "complete", *words], env=environment)
            if done.returncode != 0 or done.stderr:
                yield f"gamut complete {words}: exit {done.returncode} {done.stderr}"


def main():
    shells = {"the program": in_program}
    for name, ask in (("bash", in_bash), ("zsh", in_zsh), ("fish", in_fish)):
        if shutil.which(name):
            shells[name] = ask
        else:
            print(f"skipped: {name} is not installed")
    with tempfile.TemporaryDirectory() as scratch:
        os.environ.update(PATH=f"{GAMUT.parent}:{os.environ['PATH']}", GAMUT_LIBRARY=f"{scratch}/library.db", HOME=scratch, LC_ALL="C.UTF-8")
        for words in (["import", str(REPOSITORY / "sample-library")], ["player", "add", "Ina"], ["player", "add", "Uli"],
                      ["mark", "kettle", "--tag", "thursday", "--tag", "wedding"]):
            run([str(GAMUT), *words])
        wrong = list(never_fails())
        for name, ask in shells.items():
            answers = ask([typed for typed, _, _ in CASES])
            if len(answers) != len(CASES):
                wrong.append(f"{name}: {len(answers)} answers to {len(CASES)} lines")
            for (typed, wanted, unwanted), offered in zip(CASES, answers):
                if not wanted <= offered or unwanted & offered:
                    wrong.append(f"{name}: {typed!r} offers {sorted(offered)[:12]}, wanted {sorted(wanted)}")
        pathlib.Path(scratch, "a file.abc").write_text("X:1\nK:D\n")
        offered = run(["bash", "--norc", "-c", f"source {SCRIPTS}/gamut.bash; compopt() {{ :; }}; COMP_WORDS=(gamut read a); COMP_CWORD=2; "
                       "_gamut gamut; printf '%s\\n' \"${COMPREPLY[@]}\""], cwd=scratch).stdout.splitlines()
        if offered != ["a file.abc"]:
            wrong.append(f"bash: files are {offered}")
        wrong += runs_nothing(scratch)
        for line in wrong:
            print(line)
        print(f"{len(CASES)} lines in {', '.join(shells)}; {len(wrong)} wrong")
        return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
