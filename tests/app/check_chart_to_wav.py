#!/usr/bin/env python3
"""The smallest whole use of the core (tools/chart_to_wav.d) plays what the program plays.

    check_chart_to_wav.py CHART_TO_WAV COMPLINE CHARTS

CHARTS: a folder of charts, of which three without a road map of their own are played.
Status 0: all well. 1: what is not, a line each.
"""

import pathlib
import subprocess
import sys
import tempfile

CHARTS = ("blue-kettle-on-the-back-stairs", "five-stiles-to-the-mill", "salt-on-the-harbour-steps")
WRONG = "title: Wrong\nkey: C\ntempo: 120\nform: [A]\nsections:\n  A: C7 | H7\n"


def run(*words):
    words = [str(word) for word in words]
    return subprocess.run(words, capture_output=True, text=True, check=False)


class Check:
    def __init__(self, tool, program, charts, folder):
        self.tool, self.program, self.charts, self.folder = tool, program, charts, folder
        self.wrong = []

    def expect(self, holds, sentence, shown=""):
        if not holds:
            self.wrong.append(f"not so: {sentence}. {shown}")

    def rendered(self, chart, *options):
        """The bytes that `compline render` writes."""
        out = self.folder / "rendered.wav"
        ran = run(self.program, "render", chart, out, "--replace", *options)
        self.expect(ran.returncode == 0, f"compline renders {chart.name}", ran.stderr)
        return out.read_bytes() if out.exists() else b""

    def plays_the_same(self, name):
        chart, out = self.charts / f"{name}.yaml", self.folder / f"{name}.wav"
        ran = run(self.tool, chart, out)
        self.expect(ran.returncode == 0, f"chart_to_wav plays {name}", ran.stderr)
        written = out.read_bytes() if out.exists() else b""
        self.expect(len(written) > 1_000_000, f"{name} is a WAV file of some length")
        self.expect(written == self.rendered(chart), f"{name} has the bytes that render writes")
        other = self.rendered(chart, "--seed", 2)
        self.expect(written != other, "another bass line makes another file")

    def says_what_is_wrong(self):
        chart, out = self.folder / "wrong.yaml", self.folder / "never.wav"
        chart.write_text(WRONG, encoding="utf-8")
        ran = run(self.tool, chart, out)
        self.expect(ran.returncode == 1 and "wrong.yaml:6:11:" in ran.stderr and "H7" in ran.stderr,
                    "a chart that cannot be read is named, with the place and what is there",
                    ran.stderr)
        ran = run(self.tool, self.folder / "nowhere.yaml", out)
        self.expect(ran.returncode == 1 and "nowhere.yaml" in ran.stderr,
                    "a missing chart is named", ran.stderr)
        self.expect(not out.exists(), "nothing is written then")
        self.expect(run(self.tool, chart).returncode == 2, "one word is too few")

    def keeps_what_is_there(self):
        out = self.folder / "mine.wav"
        out.write_text("mine", encoding="utf-8")
        ran = run(self.tool, self.charts / f"{CHARTS[0]}.yaml", out)
        self.expect(ran.returncode == 1 and "mine.wav" in ran.stderr, "a file in the way is named",
                    ran.stderr)
        self.expect(out.read_text(encoding="utf-8") == "mine", "a file that is there is kept")


def main():
    tool, program, charts = (pathlib.Path(word) for word in sys.argv[1:4])
    with tempfile.TemporaryDirectory() as folder:
        check = Check(tool, program, charts, pathlib.Path(folder))
        for name in CHARTS:
            check.plays_the_same(name)
        check.says_what_is_wrong()
        check.keeps_what_is_there()
    print("\n".join(check.wrong) or f"{len(CHARTS)} charts, byte for byte")
    return 1 if check.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
