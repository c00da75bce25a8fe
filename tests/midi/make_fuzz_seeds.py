#!/usr/bin/env python3
"""Writes the seeds of smf_fuzz: small files that between them hold every kind of event.

Usage: make_fuzz_seeds.py FOLDER
"""

import pathlib
import sys


def header(kind, tracks, division):
    return b"MThd" + b"".join(n.to_bytes(w, "big") for n, w in
                              ((6, 4), (kind, 2), (tracks, 2), (division, 2)))


def track(body, length=None):
    data = bytes.fromhex(body)
    return b"MTrk" + (len(data) if length is None else length).to_bytes(4, "big") + data


END = "00FF2F00"
TEMPO = "00FF580404021808 00FF510307A120 00FF0601 41"
NOTES = "00903C40 103C00 00C120 8100E10040 83608F3C00"
SYSEX = "00F00543120007F7 00F702F301"

SEEDS = {
    "format0": header(0, 1, 96) + track(TEMPO + NOTES + END),
    "format1": header(1, 2, 15360) + track(TEMPO + "9640FF510306EF91" + END) + track(NOTES + END),
    "format2": header(2, 2, 96) + track(NOTES + END) + track(NOTES + END),
    "sysex": header(1, 1, 480) + track(SYSEX + NOTES + END),
    "smpte": header(0, 1, 0xE728) + track(NOTES + END),
    "cut": header(1, 2, 96) + track(TEMPO + END) + track(NOTES, 100),
    "unset-length": header(1, 2, 96) + track(TEMPO + END, 0xFFFFFFFF) + track(NOTES + END, 0),
    "long-header": b"MThd" + bytes.fromhex("00000008 0001 0001 0060 0000") + b"XFIH"
                   + bytes.fromhex("00000001 00") + track(NOTES + END),
    "far": header(1, 1, 1) + track("00FF5103FFFFFF" + "FFFFFF7F903C40" * 3 + "FFFFFF7FFF2F00"),
}

if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    for name, data in SEEDS.items():
        (pathlib.Path(sys.argv[1]) / name).write_bytes(data)
