#!/usr/bin/env python3
"""Folders are the architecture: checks that no layer reaches upward.

Order, top first; a layer may include any layer below it, never one above:

    app live report history practice simulate assess listen band sound guitar roadmap chart settings
    midi yaml harmony time files text

Of the libraries from outside, only `live` may include the device libraries, and only fmt may show
in a public header of the others. Compiled, compline_core must not call a device library either.

    check_layers.py PROJECT                 the includes of include/ and src/
    check_layers.py PROJECT --library FILE  also the symbols that this static library needs
    check_layers.py --self-test             plants one violation of each rule and expects to see it

Two parts are kept apart within or beside a layer: the simulated guitarist shares nothing with the
judge that he is to test, and reading a take knows nothing of verdicts.

Status 0: all well. 1: violations, one a line as file:line: what, and what to do.
"""

import pathlib
import re
import subprocess
import sys
import tempfile

from checks import plant, run, verdict

ORDER = ("app live report history practice simulate assess listen band sound guitar roadmap chart settings "
         "midi yaml harmony time files text").split()
OUTSIDE_CORE = {"app", "live"}
SOURCE_SUFFIXES = {".hpp", ".cpp", ".h", ".cc"}

DEVICE_HEADER = re.compile(r"^(rtaudio|rtmidi|jack|alsa|pulse)/|^Rt(Audio|Midi)\.h$")
DEVICE_SYMBOL = re.compile(r"\b(RtAudio|RtMidi|RtApi|Midi(In|Out)Api|jack_|snd_(pcm|seq|ctl|lib)_|pa_)\w*")
# Outside libraries by the first folder of their headers. C and C++ headers have no folder.
SYSTEM_FOLDERS = {"sys", "bits", "linux", "netinet", "arpa"}
SINGLE_FILE_LIBRARIES = {"sndfile.h", "sndfile.hh", "sqlite3.h", "nlohmann/json.hpp"}

# What must not be included where, by the beginning of the file's path.
GUITARIST = ("the guitarist shares nothing with the judge that he is to test",
             re.compile(r"^compline/(assess/|harmony/palette\.hpp)"))
READING = ("reading knows nothing of verdicts",
           re.compile(r"^(compline/assess/assessment|judge|habits|own_time|time_keeping)\.hpp$"))
APART = {"src/simulate/": GUITARIST, "include/compline/simulate/": GUITARIST}
APART |= {f"src/assess/{part}.": READING for part in
          "entry_times fit grid landing player reader reading shifts sounding target units".split()}

INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]')
OURS = re.compile(r"^compline/([a-z_]+)/")


def layer_of(path, root):
    """The layer that a file belongs to: include/compline/X/... or src/X/..."""
    parts = path.relative_to(root).parts
    at = 2 if parts[0] == "include" else 1
    return parts[at] if len(parts) > at + 1 else None


def included_layer(delimiter, target, path, root):
    ours = OURS.match(target)
    if ours:
        return ours.group(1)
    if delimiter == '"' and (path.parent / target).exists():
        here = (path.parent / target).resolve()
        return layer_of(here, root) if root in here.parents else None
    return None


def is_outside_library(target):
    if target in SINGLE_FILE_LIBRARIES:
        return True
    return "/" in target and target.split("/")[0] not in SYSTEM_FOLDERS | {"compline"}


def faults_of_include(layer, delimiter, target, path, root):
    where = path.relative_to(root).as_posix()
    for beginning, (why, barred) in APART.items():
        if where.startswith(beginning) and barred.search(target):
            yield f"includes {target}; {why}"
            return
    below = included_layer(delimiter, target, path, root)
    if below is not None:
        if below not in ORDER:
            yield f"includes {target}, but there is no layer {below}"
        elif ORDER.index(below) < ORDER.index(layer):
            yield (f"{layer} includes {target} of {below}, a layer above it; move what it needs "
                   f"down, or this code up")
        return
    if DEVICE_HEADER.search(target) and layer != "live":
        yield f"includes {target}; only the layer live may know device libraries"
        return
    public = path.relative_to(root).parts[0] == "include"
    if public and delimiter == "<" and layer not in OUTSIDE_CORE:
        if is_outside_library(target) and not target.startswith("fmt/"):
            yield f"a public header includes {target}; of the libraries only fmt may show there"


def sources(root):
    for top in ("include/compline", "src"):
        for path in sorted((root / top).rglob("*")):
            if path.suffix in SOURCE_SUFFIXES:
                yield path


def check_file(path, root):
    layer = layer_of(path, root)
    where = path.relative_to(root)
    if layer not in ORDER:
        yield f"{where}:1: this file is in no layer; the layers are: {' '.join(ORDER)}"
        return
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        include = INCLUDE.match(line)
        if include:
            for fault in faults_of_include(layer, include.group(1), include.group(2), path, root):
                yield f"{where}:{number}: {fault}"


def check_includes(root):
    """The faults found and the number of files read."""
    files = list(sources(root))
    return [fault for path in files for fault in check_file(path, root)], len(files)


def check_library(library, nm):
    """What a static library needs from outside, read with nm."""
    listing = subprocess.run([nm, "--undefined-only", "--demangle", str(library)],
                             check=True, capture_output=True, text=True).stdout
    member, faults = "", []
    for line in listing.splitlines():
        if line.endswith(":"):
            member = line[:-1]
        elif DEVICE_SYMBOL.search(line):
            faults.append(f"{pathlib.Path(library).name}: {member} calls {line.split(' U ')[-1].strip()}; "
                          "core opens no device")
    return faults


# --- Self-test: each rule must be able to fail -------------------------------------------------

PLANTED = {
    "src/time/up.cpp": "#include <compline/harmony/pitch.hpp>",
    "include/compline/chart/up.hpp": "  #  include <compline/live/devices.hpp>",
    "src/midi/sideways.cpp": '#include "../band/inner.hpp"',
    "src/report/device.cpp": "#include <RtMidi.h>",
    "include/compline/sound/device.hpp": "#include <jack/jack.h>",
    "src/app/device.cpp": "#include <rtaudio/RtAudio.h>",
    "include/compline/chart/library.hpp": "#include <yaml-cpp/yaml.h>",
    "include/compline/sound/library.hpp": "#include <sndfile.h>",
    "src/nowhere/x.cpp": "",
    "src/time/unknown.cpp": "#include <compline/tempo/x.hpp>",
    "src/simulate/hand.cpp": "#include <compline/harmony/palette.hpp>",
    "include/compline/simulate/play.hpp": "#include <compline/assess/assessment.hpp>",
    "src/assess/reader.cpp": "#include <compline/assess/assessment.hpp>",
    "src/assess/units.hpp": '#include "judge.hpp"',
}
ALLOWED = {
    "src/band/inner.hpp": "#include <compline/sound/mixer.hpp>",
    "src/chart/reader.cpp": "#include <yaml-cpp/yaml.h>\n#include <sys/stat.h>\n#include <vector>",
    "include/compline/live/devices.hpp": "#include <string>",
    "src/live/devices.cpp": "#include <RtAudio.h>\n#include <jack/jack.h>",
    "include/compline/harmony/text.hpp": "#include <fmt/format.h>\n#include <sys/types.h>",
    "src/app/main.cpp": "#include <CLI/CLI.hpp>\n#include <compline/time/units.hpp>",
    "src/simulate/road.cpp": "#include <compline/chart/changes.hpp>",
    "src/assess/reading.cpp": "#include <compline/assess/read_as.hpp>",
    "src/assess/judge.cpp": "// #include <compline/app/x.hpp>\n#include <compline/listen/strum.hpp>",
}


def self_test(given):
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder).resolve()
        plant(root, ALLOWED)
        wrong = [f"false alarm: {fault}" for fault in check_includes(root)[0]]
        plant(root, PLANTED)
        faults = check_includes(root)[0]
    for name in PLANTED:
        if sum(fault.startswith(f"{name}:1:") for fault in faults) != 1:
            wrong.append(f"not noticed: {name}: {PLANTED[name]}")
    if given.library and not check_library(given.library, given.nm):
        wrong.append(f"not noticed: {given.library} calls a device library")
    return verdict(wrong, f"all {len(PLANTED)} planted violations noticed, no false alarm")


def look(project, given):
    faults, files = check_includes(project)
    if files == 0:
        faults.append(f"{project}: no source files found")
    if given.library:
        faults += check_library(given.library, given.nm)
    return faults, f"{files} files, no layer includes upward"


if __name__ == "__main__":
    sys.exit(run("Checks that no layer includes upward.", look, self_test,
                 (("--library", None), ("--nm", "nm"))))
