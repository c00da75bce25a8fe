#!/usr/bin/env python3
"""Writes the seeds of listener_fuzz: small takes with settings, as that target decides by bytes.

Usage: make_fuzz_seeds.py FOLDER
"""

import base64
import pathlib
import sys

STANDARD, CAPO, FOUR_STRINGS, EIGHT_STRINGS = range(4)
START = 64  # in 255ths of twenty seconds, from 5 s before bar 1: just before it


def settings(neck=STANDARD, strings=None, one_channel=0, bend_range=2, delay=(128, 0),
             cleaning=None, rhythm=0, strictness=1, tolerance=None, pushes=1):
    """strings: (first channel, low string first); cleaning: six bytes; tolerance: one."""
    chosen = [neck]
    chosen += [0] if strings is None else [1, strings[0] - 1, strings[1]]
    chosen += [one_channel, bend_range, *delay]
    chosen += [0] if cleaning is None else [1, *cleaning]
    chosen += [rhythm, strictness]
    chosen += [0] if tolerance is None else [1, tolerance]
    return bytes(chosen + [pushes, 30, START])


def message(wait, status, data1, data2=None):
    """wait: (byte ** 4) microseconds: 10 is 10 ms, 26 about half a second."""
    return bytes([wait, status - 0x80, data1] + ([] if data2 is None else [data2]))


def strum(wait, notes, length=24):
    """notes: string -> note number, each on its own channel."""
    on = [message(wait if i == 0 else 7, 0x90 + s - 1, n, 80) for i, (s, n) in enumerate(notes)]
    off = [message(length if i == 0 else 0, 0x80 + s - 1, n, 0) for i, (s, n) in enumerate(notes)]
    return b"".join(on + off)


C_MAJ7 = [(5, 48), (4, 52), (3, 59), (2, 64)]
A_7 = [(6, 45), (4, 55), (3, 61)]
D_M7 = [(5, 50), (4, 53), (3, 60)]
G_7 = [(6, 43), (4, 53), (3, 59)]
TUNE = [C_MAJ7, A_7, D_M7, G_7]


def played(chords):
    return b"".join(strum(26, chord) for chord in chords)


def vibrato(channel):
    return b"".join(message(6, 0xE0 + channel - 1, 0, 64 + b) for b in (1, 2, 1, 0, -1, -2, 0))


def bend_range(channel, semitones):
    return b"".join(message(0, 0xB0 + channel - 1, c, v)
                    for c, v in ((101, 0), (100, 0), (6, semitones), (38, 0)))


SEEDS = {
    "strums": settings() + played(TUNE * 2),
    "one-channel": settings(one_channel=1) + played([[(1, n) for _, n in c] for c in TUNE]),
    "low-string-first": settings(strings=(11, 1), delay=(130, 20))
                        + played([[(17 - s, n) for s, n in c] for c in TUNE]),
    "slides": settings(bend_range=12) + bend_range(5, 12) + message(26, 0x94, 50, 80)
              + vibrato(5) + message(9, 0xE4, 0, 75) + message(9, 0xE4, 0, 84)
              + message(20, 0x84, 50, 0) + message(0, 0xE4, 0, 64) + played(TUNE),
    "rough": settings(cleaning=(38, 45, 43, 43, 26, 64), tolerance=30)
             + message(26, 0x94, 72, 80) + message(13, 0x94, 60, 80) + message(13, 0x94, 60, 70)
             + message(5, 0x93, 50, 10) + message(13, 0x83, 50, 0) + message(22, 0x84, 60, 0)
             + message(5, 0x94, 45, 20) + message(18, 0x84, 45, 0),
    "capo": settings(neck=CAPO, rhythm=1, strictness=0) + played(TUNE),
    "eight-strings": settings(neck=EIGHT_STRINGS, strings=(1, 0), rhythm=2) + played(TUNE),
    "four-strings": settings(neck=FOUR_STRINGS, strings=(1, 0), strictness=2)
                    + played([[(s - 2, n + 12) for s, n in c if s > 2] for c in TUNE]),
    "unended": settings() + message(26, 0x90, 64, 80) + message(26, 0x91, 60, 80)
               + message(26, 0xB0, 123, 0) + message(26, 0xE1, 127, 127) + message(0, 0xE1, 0, 0),
}

# What the fuzzer found once: no note may end before it begins, lie beyond all notes, or be on a
# string that the neck has not.
FOUND = {
    "early": "00000002000000000100011e401a14325012043200",
    "beyond": "00000018800000000100011e401a647f7f1a147850",
    "slow-flicker": base64.b64decode(
        "AAEKAQACghQAAAEAAQ07AAAOQAAaGi1QBxwFAAAAAAAAAC0AAAw3AAANPQAaGzJQBxw1UAcdPFAYCzIAAAw1AAAN"
        "PAAaGitQBxw1UAcdO1AYCisAAAw1AAANAAANOwAADkAAGhotUAccNwAA88L/5eTNr+4cNVAHHTxQGAsyAAAwDFAH"
        "HTtQOAorqqqqqqqqADQAAA07AAAOQAAaGi1QABoaLVAHHAAMNQAAGAotAAAMNwAADT0AGitQBxw1UAcdAQAAGIAA"
        "AAw1OwA=").hex(),
    "no-such-string": "020100000002800000000100011e401a143250",
}
SEEDS.update({name: bytes.fromhex(data) for name, data in FOUND.items()})

if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    for name, data in SEEDS.items():
        (pathlib.Path(sys.argv[1]) / name).write_bytes(data)
