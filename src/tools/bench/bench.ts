/*
 * `npm run bench`: runs every benchmark and writes docs/benchmarks.md. With names behind it, `npm run bench -- functions`,
 * it runs only those and prints them. Run it on a machine that does nothing else.
 */
import { readFileSync, writeFileSync } from "node:fs";
import { benchBundles } from "./bench-bundles.js";
import { benchCalc } from "./bench-calc.js";
import { benchExcel } from "./bench-excel.js";
import { benchFiles } from "./bench-files.js";
import { benchFace, benchOutlets } from "./bench-functions.js";
import { benchRollUp } from "./bench-rollup.js";
import type { BenchRow } from "./bench-row.js";
import { benchStartup } from "./bench-startup.js";
import { type BenchGroup, benchmarksPage, groupText } from "./benchmarks-page.js";

interface Benchmark {
  readonly title: string;
  readonly explanation: string;
  readonly run: () => Promise<readonly BenchRow[]> | readonly BenchRow[];
}

const BENCHMARKS: Readonly<Record<string, Benchmark>> = {
  functions: {
    title: "Cell functions",
    explanation:
      "A call with all its reading of arguments and its checks, against the bare arithmetic in one loop. Medians of many runs.",
    run: async () => [...(await benchFace()), ...(await benchOutlets())],
  },
  calc: {
    title: "Calculating workbooks",
    explanation:
      "`vanesheet calc` on workbooks of outlets, six formulas a row, against LibreOffice opening, recalculating and saving the hand-off copy, which holds the same formulas in plain words; and on plain formulas against Gnumeric doing the same with the same file. Each in a process of its own, its start included; the fastest of two runs.",
    run: () => benchCalc(),
  },
  rollup: {
    title: "Roll-up of 1,000 jobs",
    explanation:
      "1,000 generated workbooks of 200 outlets, 5 % of them bad in eighteen ways, against a plain loop over the same files with exceljs that reads the same sheet; each in a process of its own, start included. Processor time, the middle one of three pairs that take turns. The totals are checked against those counted while the files were made.",
    run: () => benchRollUp(1000),
  },
  files: {
    title: "Changing a workbook that somebody keeps",
    explanation:
      "Opening it, changing ten readings and saving it: we write only what changed, exceljs everything it understands. The fastest of three runs.",
    run: () => benchFiles(),
  },
  excel: {
    title: "Waiting in Excel",
    explanation:
      "The built add-in and the real office.js in a real browser, Excel simulated; what Excel spends on its own side is not in the figures. Medians of seven runs. office.js itself waits about a fifth of a second before it hands results back.",
    run: () => benchExcel(),
  },
  startup: {
    title: "Start of the command line",
    explanation:
      "The bundled command line from the start of the process to its end, against a Node that does nothing. Medians of 15 runs in turns.",
    run: () => benchStartup(),
  },
  bundles: {
    title: "Size of the add-in",
    explanation: "What Excel loads before the first formula shows a number, as a server sends it.",
    run: () => benchBundles("."),
  },
};

const PAGE = "docs/benchmarks.md";

/** What the page says of measurements that no program repeats: it stays. */
function measuredByHand(page: string): string {
  const start = page.indexOf("## Measured by hand");
  return start < 0 ? "" : page.slice(start);
}

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !Object.hasOwn(BENCHMARKS, name));
if (unknown.length > 0) {
  console.error(`There is no benchmark "${unknown.join('", "')}". There are: ${Object.keys(BENCHMARKS).join(", ")}.`);
  process.exit(2);
}
const groups: BenchGroup[] = [];
for (const [name, { title, explanation, run }] of Object.entries(BENCHMARKS)) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const group = { title, explanation, rows: await run() };
  groups.push(group);
  console.log(groupText(group));
}
if (asked.length === 0) {
  const page = benchmarksPage(groups, new Date().toISOString().slice(0, 10));
  writeFileSync(PAGE, `${page}\n${measuredByHand(readFileSync(PAGE, "utf8"))}`);
  console.log("Wrote docs/benchmarks.md.");
}
