import { balanceRows } from "./simulate-balance.js";
import { COVERAGE_CASES, changeRates, coverageOf } from "./simulate-coverage.js";

/*
 * Prints how far stated confidence holds in simulations: `npm run simulate`, or with the number of draws, jobs and the
 * seed: `npm run simulate -- 100000 150 1`. The tables stand in docs/method.md.
 */

const [draws = 100_000, jobs = 150, seed = 1] = process.argv.slice(2).map(Number);
const lines: string[] = [];
const print = (...cells: readonly string[]) => lines.push(`| ${cells.join(" | ")} |`);

print("measurement", "± (95 %) holds", "why");
print("---", "---", "---");
COVERAGE_CASES.forEach((one, index) => {
  print(one.title, `${coverageOf(one, draws, seed + index).toFixed(1)} %`, one.why);
});

for (const [afterPercent, stepPercent] of [
  [5, 0],
  [10, 0],
  [5, 1],
  [5, 5],
  [5, 15],
] as const) {
  const display = stepPercent === 0 ? "" : ` The display has steps of ${stepPercent} %.`;
  lines.push("", `Sweeps scatter by 5 % before and ${afterPercent} % after.${display}`, "");
  print("sweeps each", "changed, where nothing did", "found: +10 %", "+15 %", "+25 %");
  print("---", "---", "---", "---", "---");
  for (const sweeps of [1, 2, 3, 4, 5, 6, 8, 10]) {
    const { falsePercent, foundPercent } = changeRates(sweeps, afterPercent, stepPercent, draws / 10, seed + sweeps);
    print(`${sweeps}`, `${falsePercent.toFixed(1)} %`, ...foundPercent.map((found) => `${found.toFixed(0)} %`));
  }
}

lines.push("");
print(
  "network",
  "method",
  "limits",
  "readings repeat to",
  "done",
  "stopped",
  "endless",
  "within at done",
  "whole jobs",
  "readings each",
  "moves each",
);
print(...new Array<string>(11).fill("---"));
for (const row of balanceRows(jobs, seed)) {
  const percent = (value: number) => `${value.toFixed(1)} %`;
  print(
    row.kind,
    row.method,
    `−${row.minusPercent} / +${row.plusPercent} %`,
    `${row.repeatPercent} %`,
    percent(row.donePercent),
    percent(row.noiseFloorPercent),
    percent(row.endlessPercent),
    percent(row.withinAtDonePercent),
    percent(row.wholeJobsPercent),
    row.readingsEach.toFixed(1),
    row.movesEach.toFixed(2),
  );
}
process.stdout.write(`${lines.join("\n")}\n`);
