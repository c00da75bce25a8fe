#!/usr/bin/env python3
"""Writes the seeds of take_fuzz: small takes of both versions, and texts of takes.

Usage: make_fuzz_seeds.py FOLDER
"""

import json
import pathlib
import shutil
import struct
import sys

TAKES_1 = pathlib.Path(__file__).parent / "takes-1"
CHART = ("title: Six Steps\nkey: F\ntempo: 120\nsections:\n"
         "  A: F7 | Bb7 | Cm7 F7 | D7\n  B: Gm7 | C7 | F7 | D7\nform: [A, B, A]\n")
PLAIN = {
    "schema": "compline.take/2", "program": "compline 1.0.0", "rules": 2,
    "made": "2027-01-05T19:30:00+01:00",
    "asked": {"tempo_bpm": 96.0, "way": [{"bars": [1, 6], "times": 3}], "count_in_bars": 2},
    "band": {"seed": 1}, "stage": {}, "calibration": {"constant_ms": 0.0, "cycles": 0.0},
    "settings": {"rhythm": "free", "strictness": "working", "against": "own"},
    "chart_hash": "0123456789abcdef", "chart": CHART}
FULL = PLAIN | {
    "asked": {"tempo_bpm": 132.5,
              "way": [{"bars": [1, 4], "name": "vamp", "manner": {
                           "feel": "ballad", "drums": "brushes", "bass": "two-feel", "phrasing": "even"}},
                      {"bars": [3, 6], "times": 2, "silent": True}],
              "goes_on": True, "held_ending": True, "manner": {"plain_bass": True},
              "swing": 1.75, "count_in_bars": 1, "click": {"ticks": [960, 2880], "every": 2},
              "silence": {"playing": 4, "silent": 2, "drums_alone": True, "times_through": True}},
    "band": {"hihat_beats": [2, 4], "fills": True, "crash": True, "seed": 7,
             "melody": [[0.5, 1.25, 60, 80]]},
    "stage": {"bass": {"gain": 0.5, "pan": -0.25, "behind_ms": 8.0}, "ride": {"behind_ms": -3.3}},
    "voicings": "shells", "midi_pickup": "cycles=1.5", "calibration":
    {"constant_ms": 7.25, "cycles": 1.5},
    "settings": {"rhythm": "1 2&", "strictness": "written", "against": "beat",
                 "tolerance_ms": 37.5}}
MACHINE = {"output": "JACK: system", "input": "", "rate_hz": 48000, "period_frames": 256,
           "latency_ms": 5.333, "worst_callback_ms": 0.04, "xruns": 1, "dropped_events": 0,
           "late_strokes": 0, "garbled_bytes": 0}
DECISIONS = [{"from_bar": 7, "tempo_bpm": 100.0}, {"from_bar": 9, "left_alone": True},
             {"from_bar": 13, "stopped": True}]
LADDER = PLAIN | {"asked": {"tempo_bpm": 96.0, "way": [{"bars": [5, 8]}], "goes_on": True,
                            "count_in_bars": 1, "ladder_bpm": [96.0, 132.0]}}
CLIMBED = [{"from_bar": 5, "ladder": {"time_through": 1, "tempo_bpm": 96.0, "judged": "clean", "due": 4,
                                      "struck": 4, "right": 4, "next": "faster", "next_bpm": 100.0,
                                      "above_bpm": 100.0}},
           {"from_bar": 5, "paused": True}, {"from_bar": 5, "tempo_bpm": 100.0},
           {"from_bar": 5, "waited_beats": 4, "way": [{"bars": [5, 8]}], "goes_on": True}]


def dumped(value):
    return json.dumps(value, separators=(",", ":"))


def number(value):
    """A variable-length quantity."""
    digits = [value & 0x7F]
    while value := value >> 7:
        digits.insert(0, value & 0x7F | 0x80)
    return bytes(digits)


def meta(kind, data, wait=0):
    return number(wait) + bytes([0xFF, kind]) + number(len(data)) + data


def chunk(events):
    body = b"".join(events) + meta(0x2F, b"")
    return b"MTrk" + struct.pack(">I", len(body)) + body


def take(info, decisions):
    bar = 4 * 15360
    conductor = [meta(0x51, (625000).to_bytes(3, "big")), meta(0x01, dumped(info).encode()),
                 meta(0x06, b"compline:start", 2 * bar)]
    notes = [number(2 * bar) + bytes([0x90, 60, 80]), number(bar) + bytes([0x80, 60, 64])]
    notes += [meta(0x01, f"compline:decided {dumped(d)}".encode(), 960) for d in decisions]
    notes += [meta(0x01, b"compline:interrupted"),
              meta(0x01, f"compline:ended {dumped(MACHINE)}".encode(), bar)]
    return b"MThd" + struct.pack(">IHHH", 6, 1, 2, 15360) + chunk(conductor) + chunk(notes)


def main():
    folder = pathlib.Path(sys.argv[1])
    folder.mkdir(parents=True, exist_ok=True)
    for name in ("cut-short", "no-band"):
        shutil.copyfile(TAKES_1 / f"{name}.mid", folder / f"version-1-{name}.mid")
        data = (TAKES_1 / f"{name}.mid").read_bytes()
        begin = data.index(b'{"')
        text = json.JSONDecoder().raw_decode(data[begin:].decode("latin-1"))[0]
        (folder / f"version-1-{name}.txt").write_text(dumped(text))
    for name, info, decisions in (("plain", PLAIN, DECISIONS), ("full", FULL, DECISIONS),
                                  ("ladder", LADDER, CLIMBED)):
        (folder / f"{name}.mid").write_bytes(take(info, decisions))
        (folder / f"{name}.txt").write_text(dumped(info))
    for i, decision in enumerate(DECISIONS + CLIMBED[:1]):
        (folder / f"decided-{i + 1}.txt").write_text(f"compline:decided {dumped(decision)}")
    (folder / "ended.txt").write_text(f"compline:ended {dumped(MACHINE)}")
    (folder / "ended-not-live.txt").write_text("compline:ended {}")


if __name__ == "__main__":
    main()
