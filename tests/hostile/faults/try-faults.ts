/*
 * Lets every call go wrong by which a command changes a folder, in every way, and looks at what is left:
 * node build/tests/hostile/faults/try-faults.js [titles or faults]
 *
 * With a number of times it ends each command at so many random moments instead, killed and by Ctrl-C in turn:
 * node build/tests/hostile/faults/try-faults.js 50 [titles]
 */
import { randomInt } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { builtShim, cleared, FAULTS, type Fault, faultsAfter, type Hit, hitsOn, prepared } from "./try-fault.js";
import { writingCommands } from "./writing-commands.js";

const words = process.argv.slice(2);
const times = Number(words.find((word) => /^\d+$/.test(word)) ?? 0);
const chosen = <T extends string>(all: readonly T[]) => {
  const named = all.filter((one) => words.includes(one));
  return named.length === 0 ? all : named;
};
const faults = chosen(Object.keys(FAULTS) as Fault[]);
const titles = chosen(writingCommands.map(({ title }) => title));

/** Random moments, some of them after the end. */
function momentsOf(durationMs: number): readonly Hit[] {
  return Array.from({ length: times }, (_, index) => ({
    fault: index % 2 === 0 ? "killed" : "Ctrl-C",
    afterMs: randomInt(Math.ceil(durationMs * 1.1)),
  }));
}

const folder = mkdtempSync(join(tmpdir(), "faults-"));
let [tries, bad] = [0, 0];
try {
  const shim = builtShim(folder);
  if (shim === undefined) throw new Error("This needs Linux and a C compiler (cc).");
  for (const command of writingCommands.filter(({ title }) => titles.includes(title))) {
    const ready = await prepared(shim, command);
    let [triesHere, badHere] = [0, 0];
    for (const hit of times > 0 ? momentsOf(ready.durationMs) : hitsOn(ready.calls, faults)) {
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
