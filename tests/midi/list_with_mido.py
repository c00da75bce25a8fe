"""Lists what mido finds in a MIDI file, one event a line, for outside_readers_test.cpp.

Usage: list_with_mido.py FILE.mid
"""

import sys

import mido


def line(track, tick, event):
    if event.type in ("note_on", "note_off"):
        return f"{track} {tick} {event.type} {event.channel + 1} {event.note} {event.velocity}"
    if event.type == "set_tempo":
        return f"{track} {tick} tempo {event.tempo}"
    if event.type == "time_signature":
        return f"{track} {tick} time_signature {event.numerator}/{event.denominator}"
    if event.type in ("marker", "text"):
        return f"{track} {tick} {event.type} {event.text}"
    if event.type == "track_name":
        return f"{track} {tick} {event.type} {event.name}"
    if event.type == "pitchwheel":
        return f"{track} {tick} bend {event.channel + 1} {event.pitch}"
    if event.type == "sysex":
        return f"{track} {tick} sysex {' '.join(str(b) for b in event.data)}"
    if event.type == "end_of_track":
        return f"{track} {tick} end"
    return f"{track} {tick} other {event}"


midi = mido.MidiFile(sys.argv[1])
print(f"format {midi.type} division {midi.ticks_per_beat} seconds {midi.length:.6f}")
for number, events in enumerate(midi.tracks, 1):
    now = 0
    for event in events:
        now += event.time
        print(line(number, now, event))
