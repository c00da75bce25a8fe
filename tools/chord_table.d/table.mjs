// Every chord type of tonal on seventeen roots, as JSON on stdout: what each is called, and its
// notes on every root, lowest degree first.
import { createRequire } from "node:module";
import { Chord, ChordType } from "tonal";

const { version, license } = createRequire(import.meta.url)("tonal/package.json");
const roots = "C C# Db D D# Eb E F F# Gb G G# Ab A A# Bb B".split(" ");

const types = ChordType.all().map((type) => ({
  names: type.aliases.filter((name) => name !== ""),
  degrees: type.intervals.join(" "),
  notes: Object.fromEntries(
    roots.map((root) => [root, Chord.getChord(type.aliases[0], root).notes.join(" ")]),
  ),
}));

const lines = types.map((type) => "    " + JSON.stringify(type)).join(",\n");
process.stdout.write(`{
  "source": "tonal ${version} (npm), chord types on ${roots.length} roots",
  "licence": "${license}",
  "types": [
${lines}
  ]
}
`);
