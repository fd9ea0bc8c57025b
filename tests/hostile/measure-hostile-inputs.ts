/*
 * Runs every hostile input through its command and measures each: node build/tests/hostile/measure-hostile-inputs.js
 * [a group: workbook, calculation, formula, log or name] [words of titles] [--from N]
 *
 * Each line begins with a number; --from goes on at the one of that number.
 */
import { parseArgs } from "node:util";
import { hostileInputs } from "./hostile-inputs.js";
import { type Tried, tryInput } from "./try-input.js";

const { values, positionals: words } = parseArgs({ allowPositionals: true, options: { from: { type: "string" } } });
const first = Number(values.from ?? 1);
if (!(Number.isInteger(first) && first >= 1))
  throw new Error(`--from takes a number of 1 or more, not “${values.from}”.`);
const wanted = hostileInputs.filter(({ title, group }) =>
  words.every((word) => group === word || title.includes(word)),
);
const tried: Tried[] = [];
for (const [index, input] of wanted.entries()) {
  if (index + 1 < first) continue;
  const one = await tryInput(input);
  tried.push(one);
  const mark = one.faults.length === 0 ? "ok  " : "BAD ";
  console.log(
    `${index + 1} ${mark}${one.seconds.toFixed(1)} s ${one.megabytes.toFixed(0)} MB ${one.status} ${JSON.stringify(one.title)}: ${one.said}`,
  );
  for (const fault of one.faults) console.log(`      ${fault}`);
}
const most = (of: (one: Tried) => number) => Math.max(0, ...tried.map(of).filter((value) => !Number.isNaN(value)));
const bad = tried.filter(({ faults }) => faults.length > 0);
console.log(
  `${tried.length} inputs, ${bad.length} with faults; the slowest ${most(({ seconds }) => seconds).toFixed(1)} s, the largest ${most(({ megabytes }) => megabytes).toFixed(0)} MB.`,
);
if (bad.length > 0) process.exitCode = 1;
