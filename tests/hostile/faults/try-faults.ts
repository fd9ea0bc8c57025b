/*
 * Lets every call go wrong by which a command changes a folder, in every way, and looks at what is left:
 * node build/tests/hostile/faults/try-faults.js [words of titles or of faults]
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { builtShim, cleared, FAULTS, type Fault, faultsAfter, hitsOn, prepared } from "./try-fault.js";
import { writingCommands } from "./writing-commands.js";

const words = process.argv.slice(2);
const chosen = <T extends string>(all: readonly T[]) => {
  const named = all.filter((one) => words.includes(one));
  return named.length === 0 ? all : named;
};
const faults = chosen(Object.keys(FAULTS) as Fault[]);
const titles = chosen(writingCommands.map(({ title }) => title));

const folder = mkdtempSync(join(tmpdir(), "faults-"));
let [tries, bad] = [0, 0];
try {
  const shim = builtShim(folder);
  if (shim === undefined) throw new Error("This needs Linux and a C compiler (cc).");
  for (const command of writingCommands.filter(({ title }) => titles.includes(title))) {
    const ready = await prepared(shim, command);
    let [triesHere, badHere] = [0, 0];
    for (const hit of hitsOn(ready.calls, faults)) {
      const found = await faultsAfter(shim, ready, hit);
      triesHere += 1;
      if (found.length > 0) badHere += 1;
      for (const one of found) console.log(`BAD ${command.title}, ${hit.fault}: ${one}`);
    }
    console.log(`${command.title}: ${ready.calls.length} calls, ${triesHere} faults, ${badHere} handled wrongly`);
    [tries, bad] = [tries + triesHere, bad + badHere];
    cleared(ready);
  }
} finally {
  rmSync(folder, { recursive: true });
}
console.log(`${tries} faults, ${bad} handled wrongly.`);
if (bad > 0) process.exitCode = 1;
