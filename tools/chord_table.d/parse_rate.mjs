// How long tonal takes for the chord symbols in a file, one a line: seconds of each run on stdout,
// one a line, after a warm-up that lets the compiler settle. Each result is looked at.
import { readFileSync } from "node:fs";
import { Chord } from "tonal";

const symbols = readFileSync(process.argv[2], "utf8").split("\n").filter((line) => line !== "");
const runs = Number(process.argv[3] ?? 5);

function readAll() {
  let notes = 0;
  for (const symbol of symbols) notes += Chord.get(symbol).notes.length;
  return notes;
}

for (let i = 0; i < 3; ++i) if (readAll() === 0) throw new Error("nothing was read");
for (let i = 0; i < runs; ++i) {
  const start = process.hrtime.bigint();
  readAll();
  console.log(Number(process.hrtime.bigint() - start) / 1e9);
}
