#!/usr/bin/env python3
"""One word for one thing: checks what types and constants are called, and that words nobody plays by
stay out.

A type (struct, class, enum, concept or alias, file-local and nested ones too) has a name that no
other layer gives to a type of its own: who reads `Landing` need not ask whose. An alias that only
imports (`using Note = listen::Note;`), that is one letter in a table, or that stands for JSON as its
library has it is none of its own.

    check_names.py PROJECT      include/ and src/ for types, also tests/ and tools/ for words
    check_names.py --self-test  plants a violation of each rule and expects to see it

Status 0: all well. 1: violations, one a line as file:line: what, and what to do.
"""

import pathlib
import re
import sys
import tempfile

from check_layers import SOURCE_SUFFIXES, layer_of, sources
from checks import plant, run, verdict

# Names that types of several layers share, each with its reason.
EXCEPTIONS = {
    "Kind": "an enum within a class: GridPoint::Kind, Message::Kind",
}

DEFINITION = re.compile(
    r"\b(?:struct|class|union|enum(?:\s+(?:class|struct))?)\s+"
    r"(?:\[\[[^\]]*\]\]\s*|alignas\([^)]*\)\s*)*"
    r"(?P<type>[A-Z]\w*)(?:\s+final)?\s*(?::(?!:)[^;{}()]*)?\{"
    r"|\bconcept\s+(?P<concept>[A-Z]\w*)\s*="
    r"|\busing\s+(?P<alias>[A-Z]\w*)\s*=(?P<of>[^;]*);")

INLINE_FUNCTION = re.compile(
    r"^(?:\[\[nodiscard\]\] )?(?:inline|inline constexpr|constexpr inline|constexpr)\s[^;={}()]*?"
    r"\b(?P<name>[a-z]\w*)\((?P<arguments>[^(){}]*)\)", re.M)

CONSTANT = re.compile(
    r"^(?:inline )?(?:constexpr|const) [^=(){};]*?\b(?P<name>[a-z]\w*)(?:\[[^\]]*\])?(?: =|\{)", re.M)

# What is not said, where it may stand all the same (a folder, or what else is on the line), and
# what is said instead.
BARRED = [
    (r"\bstir(?:s|red|ring|red_)?\b", r"\b[Bb]rush|\b[Hh]and\b|swells",
     "brushes stir; a bass line is written again: retry"),
    (r"\bgot_to_alike\b|\bgot to alike\b", None, "same_way_in"),
    (r"\b[Ss]tock(?:ing|ed)\b", None, "stops are made: StopMaker"),
    (r"[Gg]arbled", r'"garbled_bytes"|\\"garbled_bytes',
     "bytes that make no message are unreadable"),
    (r"\b(?:is|are|was|were|be|been) told (?:from|by|in|as|at|once|twice|again|besides)\b", None,
     "things are told apart, notes are sent, mistakes are named"),
    (r"\bTold\b(?! the share)|\b[a-z]*told_(?!apart\b)\w*|\b[Uu]ntold\b", None,
     "sent, reported or named; two things are told apart"),
    (r"\bhalf_beats?\b", None, "an eighth: time::eighth_note"),
    (r"\bdouble beat(?: = 1)?;", r"^(?:tests|tools)/", "a bare number is no beat: time::BeatOfBar"),
]

COMMENT_OR_STRING = re.compile(
    r"//[^\n]*|/\*.*?\*/|R\"(?P<mark>[^()\\\s]{0,16})\(.*?\)(?P=mark)\"|\"(?:\\.|[^\"\\\n])*\""
    r"|(?<![0-9A-Za-z_])'(?:\\.|[^'\\\n])+'", re.S)


def code_of(text):
    """The text without comments and strings, line for line."""
    return COMMENT_OR_STRING.sub(lambda found: re.sub(r"[^\n]", " ", found.group(0)), text)


def types_in(text):
    """(name, line) of each type that is defined there."""
    code = code_of(text)
    for found in DEFINITION.finditer(code):
        name = found.group("type") or found.group("concept") or found.group("alias")
        imports = found.group("alias") and re.search(rf"(?:^|::)\s*{name}\s*$", found.group("of"))
        shorthand = found.group("alias") and len(name) == 1
        imports = imports or (found.group("alias") and "nlohmann::" in found.group("of"))
        if not imports and not shorthand:
            yield name, code.count("\n", 0, found.start()) + 1


def homes_of_types(root):
    """name -> layer -> the first place where it is defined."""
    homes = {}
    for path in sources(root):
        where = path.relative_to(root).as_posix()
        for name, line in types_in(path.read_text(encoding="utf-8")):
            homes.setdefault(name, {}).setdefault(layer_of(path, root), f"{where}:{line}")
    return homes


def check_types(root):
    homes = homes_of_types(root)
    for name, layers in sorted(homes.items()):
        if len(layers) < 2 or name in EXCEPTIONS:
            continue
        first, *others = layers.items()
        for layer, place in others:
            yield (f"{place}: {layer} defines {name}, as {first[0]} does ({first[1]}); "
                   "say by its name what it is here")
    for name in EXCEPTIONS:
        if len(homes.get(name, {})) < 2:
            yield f"{pathlib.Path(__file__).name}:1: {name} is no exception any more: take it out"


def worded_files(root):
    for top in ("include", "src", "tests", "tools"):
        for path in sorted((root / top).rglob("*")):
            if path.suffix in SOURCE_SUFFIXES:
                yield path


def check_words(root):
    for path in worded_files(root):
        where = path.relative_to(root).as_posix()
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            for barred, unless, instead in BARRED:
                found = re.search(barred, line)
                if found and not (unless and re.search(unless, f"{where}: {line}", re.M)):
                    yield f"{where}:{number}: \"{found.group(0)}\": {instead}"


def inline_functions_in(text):
    """(namespace, name, types of its arguments), line, of each that stands free in a header."""
    code = code_of(text)
    space = re.search(r"^namespace ([\w:]+) \{", code, re.M)
    for found in INLINE_FUNCTION.finditer(code):
        arguments = re.sub(r"\s+", " ", found.group("arguments")).strip()
        types = re.sub(r"(?:\b\w+)?(?: ?= ?[^,]+)?(,|$)", r"\1", arguments)
        yield ((space.group(1) if space else "", found.group("name"), types),
               code.count("\n", 0, found.start()) + 1)


def check_functions(root):
    homes = {}
    for path in worded_files(root):
        if path.suffix not in {".hpp", ".h"}:
            continue
        where = path.relative_to(root).as_posix()
        for function, line in inline_functions_in(path.read_text(encoding="utf-8")):
            place = f"{where}:{line}"
            home = homes.setdefault(function, place)
            if home.split(":")[0] != where:
                yield (f"{place}: {function[1]}({function[2]}) is inline here and in {home}: to the "
                       "linker they are one; give one of them another name")


def constants_in(code, of_a_file):
    """(name, line) of each constant that stands free: of a header, or of one file alone."""
    inner = r"^namespace \{\n.*?^\}" if of_a_file else r"\A.*\Z"
    for space in re.finditer(inner, code, re.M | re.S):
        free = re.sub(r"^namespace \w+ \{\n.*?^\}", lambda found: re.sub(r"[^\n]", " ", found.group(0)),
                      space.group(0), flags=re.M | re.S)
        for found in CONSTANT.finditer(free):
            yield found.group("name"), code.count("\n", 0, space.start() + found.start()) + 1


def check_constants(root):
    """Files that are compiled together see each other's: a constant of one file would hide that of a
    header from the files behind it, and no compiler says so."""
    in_headers = {}
    for path in sources(root):
        if path.suffix in {".hpp", ".h"}:
            for name, line in constants_in(code_of(path.read_text(encoding="utf-8")), False):
                in_headers[layer_of(path, root), name] = f"{path.relative_to(root).as_posix()}:{line}"
    for path in sources(root):
        if path.suffix not in {".hpp", ".h"}:
            for name, line in constants_in(code_of(path.read_text(encoding="utf-8")), True):
                home = in_headers.get((layer_of(path, root), name))
                if home:
                    yield (f"{path.relative_to(root).as_posix()}:{line}: {name} hides the one in {home} "
                           "from files that are compiled with this one; give it another name")


def check(root):
    return [*check_types(root), *check_words(root), *check_functions(root), *check_constants(root)]


# --- Self-test: each rule must be able to fail -------------------------------------------------

PLANTED = {
    "src/sound/loud.cpp": "namespace compline::sound {\nnamespace {\nconstexpr int loudest = 3;\n}\n}",
    "src/band/place.hpp": "struct Place {\n};",
    "src/listen/final.hpp": "class Grip final : public Shape {",
    "include/compline/chart/enum.hpp": "enum class [[nodiscard]] Verdict : int { right };",
    "src/report/alias.cpp": "using Row = std::vector<int>;",
    "src/live/nested.hpp": "struct Rig {\n    struct Entry\n    {\n    };\n};",
    "src/band/line.cpp": "void stir(int from);",
    "src/report/parts.hpp": "bool got_to_alike = false;",
    "src/guitar/stock.cpp": "// Stocking the stops.",
    "src/midi/bytes.hpp": "std::uint64_t garbled() const;",
    "tests/harmony/key_test.cpp": "TEST_CASE(\"the key's own tones are told from others\") {",
    "tools/told.cpp": "struct Told;",
    "tests/assess/half.cpp": "constexpr Ticks half_beat{480};",
    "src/chart/due.hpp": "    double beat = 1;  ///< from 1",
    "src/simulate/one.hpp": "namespace compline::simulate {\ninline double between(Chance& chance, "
                            "double from, double to) {\n}",
}
ALLOWED = {
    "include/compline/sound/loud.hpp": "namespace compline::sound {\ninline constexpr int loudest = 9;\n"
                                       "namespace weight {\ninline constexpr int softest = 1;\n}\n}",
    "src/sound/soft.cpp": "namespace compline::sound {\nnamespace {\nconstexpr int softest = 3;\n}\n}",
    "src/band/loud.cpp": "namespace compline::band {\nnamespace {\nconstexpr int loudest = 3;\n}\n}",
    "src/simulate/another.hpp": "namespace compline::simulate {\ninline Seconds between(Chance& a, "
                                "double low_ms, double high_ms) {\n}\n"
                                "inline int between(int from, int to) {\n}",
    "src/simulate/others.hpp": "namespace compline::tests {\ninline int between(int a, int b) {\n}",
    "include/compline/guitar/place.hpp": "struct Place {\n    int string;\n};\nclass Grip { };",
    "src/assess/place.cpp": "struct Place;\nvoid f(struct Place* p);\n// struct Row { };\n"
                            "enum class Verdict { a };",
    "src/band/letter.cpp": "using Q = Quality;",
    "src/midi/letter.cpp": "using Q = Quarter;",
    "src/practice/text.cpp": "using Json = nlohmann::ordered_json;",
    "src/report/values.hpp": "using Json = nlohmann::ordered_json;",
    "src/band/import.cpp": "using Note = listen::Note;\nauto s = \"struct Row { };\";",
    "include/compline/listen/note.hpp": "struct Note {\n};",
    "src/chart/row.cpp": "struct Row { int n; };",
    "src/time/entry.hpp": "class Minimum {\n    struct Entry {\n    };\n};",
    "src/midi/kind.hpp": "struct Message {\n    enum class Kind { on };\n};",
    "src/assess/kind.hpp": "struct GridPoint {\n    enum class Kind { own };\n};",
    "src/sound/brush.hpp": "int sweep;  ///< a brush stirred",
    "tests/assess/played.hpp": "    double beat;",
    "src/practice/take.cpp": "json[\"garbled_bytes\"] = 1;",
    "src/live/player.cpp": "// The player is told; two are told apart; unless told otherwise.\n"
                           "bool told_apart = false;",
}


def self_test(_):
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder).resolve()
        idle = sum("is no exception any more" in fault for fault in check(root))
        plant(root, ALLOWED)
        wrong = [f"false alarm: {fault}" for fault in check(root)]
        plant(root, PLANTED)
        faults = check(root)
    if idle != len(EXCEPTIONS):
        wrong.append("not noticed: exceptions that nothing needs")
    for name, text in PLANTED.items():
        if not any(fault.startswith(f"{name}:") or f"({name}:" in fault for fault in faults):
            wrong.append(f"not noticed: {name}: {text}")
    return verdict(wrong, f"all {len(PLANTED)} planted violations noticed, no false alarm")


def look(project, _):
    faults, types = check(project), homes_of_types(project)
    if not types:
        faults.append(f"{project}: no types found")
    return faults, f"{len(types)} names of types, one layer each"


if __name__ == "__main__":
    sys.exit(run("Checks that one word names one thing.", look, self_test))
