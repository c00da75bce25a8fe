#!/usr/bin/env python3
"""Writes the seeds of stream_fuzz: small streams of MIDI bytes, well-formed and not.

Usage: make_stream_seeds.py FOLDER
"""

import pathlib
import sys

SEEDS = {
    "plain": "903C50 803C00 C120 D240 E00040 B06407",
    "running-status": "903C50 4051 4352 3C00 4000 C1 20 21 22 E3 0040 1041 2042",
    "real-time": "F8 90 F8 3C FE 50 FF 40 F9 51 FD F0 F8 43 FA 12 F7 F8",
    "exclusive": "F0431200F7 903C50 F07E7F0601F7 F043 803C00 F001 F002F7",
    "common": "F145 F20102 F305 F6 903C50 F6 4051 F2 01 903C50",
    "undefined": "F401 F50203 903C50 F4 4051 F7 F0F7 F7",
    "broken": "3C50 90 903C 903C50 40 803C C1 C2 20 F2 F1 90",
}

if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    for name, data in SEEDS.items():
        (pathlib.Path(sys.argv[1]) / name).write_bytes(bytes.fromhex(data))
