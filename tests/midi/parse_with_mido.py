#!/usr/bin/env python3
"""Prints the channel messages that mido's parser finds in a stream of bytes, in hexadecimal.

Usage: parse_with_mido.py FILE
"""

import pathlib
import sys

import mido

if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    for message in mido.parse_all(pathlib.Path(sys.argv[1]).read_bytes()):
        if message.bytes()[0] < 0xF0:
            print(message.hex())
