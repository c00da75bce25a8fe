#!/usr/bin/env python3
"""What is installed lies in its places, runs from there, and can be taken away without a trace.

    check_install.py CMAKE BUILD PROJECT

BUILD: a build folder with the program in it, which is installed below a temporary folder by
`CMAKE --install` and by PROJECT/tools/install.
Status 0: all well. 1: what is not, a line each.
"""

import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

NOBODY = 65534  # the user of that name on every Debian
LIST = "share/compline/installed"
EDITED = "share/compline/charts/five-stiles-to-the-mill.yaml"
OURS = "share/compline/charts/salt-on-the-harbour-steps.yaml"


def all_below(folder):
    return {str(path.relative_to(folder)) for path in folder.rglob("*")}


def files_below(folder):
    return {name for name in all_below(folder) if not (folder / name).is_dir()}


def due(project):
    """The files that an install has, each with where it comes from."""
    places = {f"share/compline/charts/{path.name}": path
              for path in (project / "charts").glob("*.yaml")}
    for path in (project / "src/report").glob("*.schema.json"):
        places[f"share/compline/schema/{path.name}"] = path
    for name in ("README.md", "LICENSE", "charts/README.md"):
        places[f"share/doc/compline/{name}"] = project / name
    return places


class Check:
    def __init__(self, cmake, build, project, folder):
        self.cmake, self.build, self.project, self.folder = cmake, build, project, folder
        self.due = due(project)
        self.wrong = []

    def expect(self, holds, sentence, shown=""):
        if not holds:
            self.wrong.append(f"not so: {sentence}. {shown}")

    def run(self, *words, path=None, only=None, **options):
        """`path`: a folder that comes first on the PATH; `only`: the one folder that is on it."""
        environment = dict(os.environ, COMPLINE_BUILT=str(self.build), HOME=str(self.folder))
        usual = [*([path] if path else []), "/usr/bin", "/bin", self.cmake.parent]
        environment["PATH"] = ":".join(str(entry) for entry in ([only] if only else usual))
        return subprocess.run([str(word) for word in words], capture_output=True, text=True,
                              check=False, cwd=self.folder, env=environment, **options)

    def install(self, prefix, *options, **more):
        return self.run(self.project / "tools/install", "--prefix", prefix, *options, **more)

    def expect_status(self, ran, status, sentence):
        self.expect(ran.returncode == status, sentence,
                    f"status {ran.returncode}\n{ran.stdout}{ran.stderr}")

    def expect_said(self, ran, words, sentence):
        self.expect(words in ran.stdout + ran.stderr, sentence, ran.stdout + ran.stderr)

    def cmake_puts_each_file_in_its_place(self):
        prefix = self.folder / "by-cmake"
        ran = self.run(self.cmake, "--install", self.build, "--prefix", prefix)
        self.expect_status(ran, 0, "cmake --install installs")
        there, meant = files_below(prefix), {"bin/compline", *self.due}
        self.expect(there == meant, "cmake --install puts what is due, nothing of tests or tools",
                    sorted(there ^ meant))
        for place, source in self.due.items():
            self.expect((prefix / place).read_bytes() == source.read_bytes(), f"{place} is whole")

    def runs_where_it_was_put(self):
        prefix = self.folder / "new"
        ran = self.install(prefix)
        self.expect_status(ran, 0, "tools/install installs")
        self.expect(files_below(prefix) == {"bin/compline", LIST, *self.due},
                    "tools/install puts what cmake --install puts, and its list",
                    sorted(files_below(prefix)))
        self.expect_said(ran, f"{prefix}/bin is not on your PATH",
                         "it is said that the shell does not find the program")
        line = next((line for line in ran.stdout.splitlines() if "export" in line), "false")
        ran = self.run("bash", "-c", f"{line}\ncompline show '{prefix}/{OURS}'")
        self.expect_said(ran, "Salt on the Harbour Steps",
                         "with the line that is printed, the shell finds the program and it runs")

    def is_replaced_without_leftovers(self):
        prefix = self.folder / "new"
        (prefix / OURS).rename(prefix / "share/compline/charts/older-name.yaml")
        entries = (prefix / LIST).read_text(encoding="utf-8")
        entries = entries.replace(pathlib.Path(OURS).name, "older-name.yaml")
        (prefix / LIST).write_text(entries, encoding="utf-8")
        (prefix / EDITED).write_text("mine now", encoding="utf-8")
        ran = self.install(prefix, path=prefix / "bin")
        self.expect_status(ran, 0, "an older install is replaced")
        self.expect(files_below(prefix) == {"bin/compline", LIST, *self.due},
                    "what an older install had and this one has not is gone",
                    sorted(files_below(prefix)))
        self.expect((prefix / EDITED).read_text(encoding="utf-8") == "mine now",
                    "a chart that the player changed stays as it is")
        self.expect_said(ran, EDITED, "it is named")
        self.expect_said(ran, f"{prefix}/bin is on your PATH.", "a PATH that has it is seen")

    def leaves_what_is_the_players(self):
        prefix = self.folder / "new"
        (prefix / "share/compline/charts/my-own.yaml").write_text("mine", encoding="utf-8")
        ran = self.install(prefix, "--remove")
        self.expect_status(ran, 0, "an install is removed")
        self.expect(files_below(prefix) == {EDITED, "share/compline/charts/my-own.yaml"},
                    "only what the player wrote or changed stays", sorted(all_below(prefix)))
        self.expect(not (prefix / "bin").exists(), "a folder that the install made is gone")
        self.expect_said(ran, EDITED, "a chart that was changed is named")
        ran = self.install(prefix, "--remove")
        self.expect_status(ran, 1, "there is nothing to remove a second time")
        self.expect_said(ran, f"no Compline into {prefix}.", "and that is said")

    def takes_away_what_was_broken_off(self):
        prefix = self.folder / "with a bin"
        (prefix / "bin").mkdir(parents=True)
        self.expect_status(self.install(prefix), 0, "a folder with a blank in its name will do")
        (prefix / "share/doc/compline/LICENSE").unlink()
        (prefix / "bin/compline").rename(prefix / "bin/compline.compline-unfinished")
        self.expect_status(self.install(prefix, "--remove"), 0, "half an install is removed")
        self.expect(all_below(prefix) == {"bin"},
                    "the prefix is empty again, but for the bin that was there before",
                    sorted(all_below(prefix)))

    def writes_over_nobodys_file(self):
        prefix = self.folder / "taken"
        (prefix / "bin").mkdir(parents=True)
        (prefix / "bin/compline").write_text("another program", encoding="utf-8")
        ran = self.install(prefix)
        self.expect_status(ran, 1, "a program of that name that is there stops the install")
        self.expect_said(ran, f"{prefix}/bin/compline", "it is named")
        self.expect(all_below(prefix) == {"bin", "bin/compline"}, "nothing is written then")
        listed = prefix / LIST
        listed.parent.mkdir(parents=True, exist_ok=True)
        listed.write_text(f"{'0' * 64} ../../etc/passwd\n", encoding="utf-8")
        ran = self.install(prefix, "--remove")
        self.expect_status(ran, 1, "a list with a path out of the prefix is not followed")
        self.expect_said(ran, "is damaged", "and that is said")

    def says_what_it_cannot_take(self):
        ran = self.run(self.project / "tools/install", "--uninstall")
        self.expect_status(ran, 2, "an unknown option is refused")
        self.expect_said(ran, "knows no --uninstall", "it is named")
        ran = self.run(self.project / "tools/install", "--prefix")
        self.expect_status(ran, 2, "--prefix without a folder is refused")
        (self.folder / "file").write_text("", encoding="utf-8")
        ran = self.install(self.folder / "file/below")
        self.expect_status(ran, 2, "a file is no place to install in")
        self.expect_said(ran, f"{self.folder}/file is no folder", "it is named")

    def asks_for_sudo_where_it_may_not_write(self):
        locked, few = self.folder / "locked", self.folder / "few"
        listed = locked / LIST
        listed.parent.mkdir(parents=True)
        listed.write_text("", encoding="utf-8")
        locked.chmod(0o555)
        few.mkdir()
        for name in ("bash", "dirname", "id", "realpath"):
            (few / name).symlink_to(f"/usr/bin/{name}")
        # Root may write everywhere, and nobody may not read everywhere.
        shutil.copytree(self.project / "tools", self.folder / "tools")
        player = {"user": NOBODY} if os.geteuid() == 0 else {}
        words = ("/usr/bin/bash", self.folder / "tools/install", "--prefix", locked)
        ran = self.run(*words, only=few, **player)
        self.expect_status(ran, 1, "a folder that may not be written cannot be installed in")
        self.expect_said(ran, f"{locked} cannot be written", "it is named")
        self.expect_said(ran, "--prefix ~/.local", "and where it would be possible")
        (few / "sudo").write_text('#!/usr/bin/bash\necho "asked: $*"\n', encoding="utf-8")
        (few / "sudo").chmod(0o755)
        ran = self.run(*words, "--remove", only=few, **player)
        self.expect_said(ran, f"asked: bash {self.folder}/tools/install.d/files remove {locked}\n",
                         "sudo is asked for the part that writes, and no more")
        locked.chmod(0o755)


def main():
    cmake, build, project = (pathlib.Path(word).resolve() for word in sys.argv[1:4])
    with tempfile.TemporaryDirectory() as folder:
        os.chmod(folder, 0o755)
        check = Check(cmake, build, project, pathlib.Path(folder).resolve())
        check.cmake_puts_each_file_in_its_place()
        check.runs_where_it_was_put()
        check.is_replaced_without_leftovers()
        check.leaves_what_is_the_players()
        check.takes_away_what_was_broken_off()
        check.writes_over_nobodys_file()
        check.says_what_it_cannot_take()
        check.asks_for_sudo_where_it_may_not_write()
    print("\n".join(check.wrong) or f"{len(check.due) + 1} files put in their places and taken away")
    return 1 if check.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
