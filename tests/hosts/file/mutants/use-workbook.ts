import { readFile, stat, writeFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { calcCommand } from "../../../../src/cli/calc.js";
import { checkCommand } from "../../../../src/cli/check.js";
import type { Command } from "../../../../src/cli/command.js";
import { handoffCommand } from "../../../../src/cli/handoff.js";
import { calculateXlsx, type XlsxCalculation } from "../../../../src/engine/index.js";
import { fileHost, openWorkbookFile, saveWorkbookCopy, zlibCodec } from "../../../../src/hosts/file/index.js";
import { readingOf } from "../../../../src/hosts/file/rollup/kept-readings.js";
import { readJobFile } from "../../../../src/hosts/file/rollup/read-job-file.js";
import { type Finding, placeOf, sentencesOf } from "../../../../src/workbook/finding.js";
import { handoffFormula } from "../../../../src/workbook/handoff/handoff-formula.js";
import { checkedFile, checkWorkbook, HostError, handoffOf } from "../../../../src/workbook/index.js";
import { openJob, readOutlets } from "../../../../src/workbook/rollup/index.js";
import { cellAt, cellsOf, openWorkbook, patchWorkbook, readSheet, type Workbook } from "../../../../src/xlsx/index.js";
import { findEntry } from "../../../../src/xlsx/zip/archive.js";
import { changedEntries } from "../../../xlsx/raw-entries.js";

/** Far beyond what any of these small workbooks needs [ms of the processor]. */
const MOST_MS = 20_000;

/** What a person can do nothing with, wherever it stands in a message. */
const NONSENSE =
  /\[object|\bundefined\b(?! entity)|failed unexpectedly|fault of Vanesheet|Cannot read|is not a function|odoo|support ticket/;

/** Takes note of what must not be. */
interface Faults {
  readonly found: string[];
  /** Does one thing that a host does. A refusal in the project's own words ends it, and nothing else may. */
  readonly during: (doing: string, work: () => Promise<void> | void) => Promise<boolean>;
  readonly wrong: (doing: string, what: string) => void;
}

/** Says why an error is not one that a person can use, or nothing. */
function faultOfRefusal(thrown: unknown, fileName: string): string | undefined {
  if (!(thrown instanceof HostError))
    return thrown instanceof Error ? (thrown.stack ?? thrown.message) : String(thrown);
  const { message } = thrown;
  const namesPlace = message.includes(fileName.replace(/\.xlsx$/, "")) || /![A-Z]{1,3}\d/.test(message);
  if (!namesPlace) return `names neither file nor cell: ${message}`;
  if (!message.trimEnd().endsWith(".")) return `does not end as a sentence: ${message}`;
  if (message.length > 2000) return `is too long: ${message.slice(0, 200)}…`;
  return NONSENSE.test(message) ? `makes no sense: ${message}` : undefined;
}

function takeNote(fileName: string): Faults {
  const found: string[] = [];
  const wrong = (doing: string, what: string) => {
    found.push(`${doing}: ${what}`);
  };
  return {
    found,
    wrong,
    async during(doing, work) {
      const start = process.cpuUsage();
      let isDone = false;
      try {
        await work();
        isDone = true;
      } catch (thrown) {
        const fault = faultOfRefusal(thrown, fileName);
        if (fault !== undefined) wrong(doing, fault);
      }
      const { user, system } = process.cpuUsage(start);
      const milliseconds = (user + system) / 1000;
      if (milliseconds > MOST_MS) wrong(doing, `took ${Math.round(milliseconds)} ms`);
      return isDone;
    },
  };
}

const isFiniteValue = (value: unknown): boolean => typeof value !== "number" || Number.isFinite(value);

/** Opens a file that we wrote, reads all of it, and looks for numbers that are none. */
function requireSound(bytes: Uint8Array, before: Workbook, faults: Faults, doing: string): Workbook | undefined {
  try {
    const workbook = openWorkbook(bytes, before.fileName, before.archive.codec);
    for (const { name, kind } of workbook.sheets) {
      if (kind !== "worksheet") continue;
      for (const { value, address } of cellsOf(readSheet(workbook, name))) {
        if (!isFiniteValue(value)) faults.wrong(doing, `wrote ${String(value)} to ${name}!${address}`);
      }
    }
    return workbook;
  } catch (cause) {
    faults.wrong(doing, `what was saved does not open again: ${String(cause)}`);
    return undefined;
  }
}

/** Says so where a part changed that no edit named. */
function requireUntouched(
  before: Uint8Array,
  after: Uint8Array,
  touched: ReadonlySet<string>,
  faults: Faults,
  doing: string,
) {
  if (before === after) return;
  const others = changedEntries(before, after).filter((name) => !touched.has(name.toLowerCase()));
  if (others.length > 0) faults.wrong(doing, `changed ${others.join(", ")}, which nobody touched`);
}

const partOf = (workbook: Workbook, sheet: string): string =>
  (workbook.sheets.find(({ name }) => name === sheet)?.partName ?? "").toLowerCase();

function calculate(workbook: Workbook, faults: Faults): XlsxCalculation {
  const calculation = calculateXlsx(workbook);
  for (const { sheet, address, value } of calculation.edits) {
    if (!isFiniteValue(value)) faults.wrong("calculating", `${sheet}!${address} is ${String(value)}`);
  }
  for (const { sheet, address, message } of calculation.errors) {
    if (NONSENSE.test(message)) faults.wrong("calculating", `${sheet}!${address} says ${message}`);
  }
  return calculation;
}

/** Looks whether what was saved shows what was calculated. */
function requireResults(saved: Workbook, { edits }: XlsxCalculation, faults: Faults) {
  for (const { sheet, address, value } of new Map(
    edits.map((edit) => [`${edit.sheet}!${edit.address}`, edit]),
  ).values()) {
    const stored = cellAt(readSheet(saved, sheet), address)?.value ?? null;
    const isError = typeof value === "object" && value !== null && typeof stored === "object" && stored !== null;
    if (isError || stored === value) continue;
    faults.wrong("saving a copy", `${sheet}!${address} holds ${String(stored)} instead of ${String(value)}`);
  }
}

function check(workbook: Workbook, calculation: XlsxCalculation, faults: Faults) {
  for (const { sheet, cell, problem, action } of checkWorkbook(checkedFile(workbook, calculation)).findings) {
    const isClear = cell !== "" && problem !== "" && action !== "" && !NONSENSE.test(problem + action);
    if (!isClear) faults.wrong("checking", `${sheet}!${cell}: ${problem} ${action}`);
  }
}

function handOff(calculated: Workbook, faults: Faults) {
  const { edits, plain, values } = handoffOf(calculated);
  const { bytes } = calculated.archive;
  const after = patchWorkbook(calculated, edits);
  const copy = requireSound(after, calculated, faults, "handing off");
  if (copy === undefined || edits.length === 0) return;
  const isNoted = copy.sheets.at(-1)?.name.startsWith("Hand-off note") === true;
  if (!isNoted) faults.wrong("handing off", "there is no sheet that says what was replaced");
  const left = handoffOf(copy);
  const filling = copy.sheets.flatMap(({ name, kind }) =>
    kind === "worksheet" ? readSheet(copy, name).tables.flatMap(({ columns }) => columns) : [],
  );
  const isFilledByUs = filling.some(
    ({ calculatedFormula = "" }) => handoffFormula(calculatedFormula).kind !== "unchanged",
  );
  if (left.plain.length + left.values.length > 0 || isFilledByUs)
    faults.wrong("handing off", "the copy still calls our functions");
  const named = edits.map((edit) =>
    "partName" in edit ? edit.partName.toLowerCase() : partOf(calculated, edit.sheet),
  );
  const replaced = edits.find(
    (edit) => edit.kind === "part" && edit.contentType !== undefined && findEntry(calculated.archive, edit.partName),
  );
  if (replaced !== undefined) faults.wrong("handing off", "its note takes the place of another part");
  const lists = calculated.archive.entries
    .map(({ name }) => name.toLowerCase())
    .filter((name) => name.endsWith(".rels"));
  const chain = calculated.relationships.find(({ kind }) => kind === "calcChain")?.target ?? "";
  const touched = new Set([...named, ...lists, "[content_types].xml", chain.toLowerCase()]);
  requireUntouched(bytes, after, touched, faults, "handing off");
  if (plain.length + values.length === 0) faults.wrong("handing off", "nothing was replaced, and yet there are edits");
}

function findingFaults(findings: readonly Finding[], faults: Faults) {
  for (const finding of findings) {
    const said = sentencesOf(finding);
    const isClear = finding.file !== "" && !NONSENSE.test(said);
    if (!isClear) faults.wrong("rolling up", `${finding.file} ${placeOf(finding)}: ${said}`);
  }
}

async function rollUp(path: string, bytes: Uint8Array, faults: Faults) {
  const file = basename(path);
  const opened = openJob(bytes, file);
  findingFaults(opened.findings, faults);
  if (opened.value !== null) {
    const { value, findings } = readOutlets(opened.value, new Map());
    findingFaults(findings, faults);
    for (const outlet of value) {
      const odd = Object.entries(outlet).filter(([, one]) => !isFiniteValue(one));
      if (odd.length > 0) faults.wrong("rolling up", `an outlet holds ${String(odd[0])}`);
    }
  }
  const { size, mtimeMs } = await stat(path);
  const request = { path, file, bytes: size, modifiedMs: mtimeMs, isOpenElsewhere: false, knownSha256: "" };
  const answer = await readJobFile(request, zlibCodec);
  if (answer.kind === "read") findingFaults(readingOf(answer.spelled).findings, faults);
}

/** What a person does with the file as a host: looks at all of it, types a reading, adds a sheet, saves. */
async function useHost(folder: string, bytes: Uint8Array, choice: number, faults: Faults) {
  const path = join(folder, "copy of mutant.xlsx");
  await writeFile(path, bytes);
  const host = fileHost(await openWorkbookFile(path), calculateXlsx);
  const sheets = await host.sheets();
  await host.names();
  const used = sheets.flatMap(({ name, usedRange }) => (usedRange === null ? [] : [{ sheet: name, range: usedRange }]));
  for (const address of used) {
    await faults.during("reading a block", async () => {
      const [block] = await host.read([address]);
      const odd = block?.values.flat().find((value) => !isFiniteValue(value));
      if (odd !== undefined) faults.wrong("reading a block", `${address.sheet} holds ${String(odd)}`);
    });
  }
  const sheet = sheets[choice % sheets.length]?.name ?? "";
  const range = ["A1", "C7", "E12", "H30", "XFD1048576"][choice % 5] ?? "A1";
  await faults.during("writing", () =>
    host.write([{ address: { sheet, range }, cells: [[choice % 2 === 0 ? 425 : "=1+1"]] }]),
  );
  const addsSheet = choice % 16 === 0;
  if (addsSheet) await faults.during("adding a sheet", () => host.addTemplate("face-sweep").then(() => undefined));
  await host.save();
  const before = openWorkbook(bytes, "copy of mutant.xlsx");
  const after = new Uint8Array(await readFile(path));
  if (requireSound(after, before, faults, "saving") === undefined || addsSheet) return;
  const parts = new Set([
    ...before.sheets.map(({ partName }) => partName.toLowerCase()),
    ...metadataParts(before, after),
  ]);
  requireUntouched(bytes, after, parts, faults, "saving");
}

/** A new formula may need the list of the order in which to calculate taken out. */
function metadataParts(before: Workbook, after: Uint8Array): readonly string[] {
  const chain = before.relationships.find(({ kind }) => kind === "calcChain")?.target;
  if (
    chain === undefined ||
    openWorkbook(after, before.fileName).relationships.some(({ kind }) => kind === "calcChain")
  )
    return [];
  const lists = before.archive.entries.map(({ name }) => name.toLowerCase()).filter((name) => name.endsWith(".rels"));
  return [chain.toLowerCase(), "[content_types].xml", ...lists];
}

async function runCommand(command: Command, path: string, options: Record<string, string | boolean>) {
  const { log } = console;
  const lines: string[] = [];
  console.log = (...words: unknown[]) => lines.push(words.join(" "));
  try {
    await command.run({ positionals: [path], options });
  } finally {
    console.log = log;
  }
  const nonsense = lines.find((line) => NONSENSE.test(line));
  if (nonsense !== undefined) throw new Error(`it printed: ${nonsense.slice(0, 400)}`);
}

async function typeCommand(folder: string, path: string, choice: number) {
  const out = { output: join(folder, "out of mutant.xlsx"), replace: true };
  const commands: readonly (() => Promise<void>)[] = [
    () => runCommand(calcCommand, path, out),
    () => runCommand(calcCommand, path, { "dry-run": true, json: true }),
    () => runCommand(checkCommand, path, {}),
    () => runCommand(checkCommand, path, { json: true }),
    () => runCommand(handoffCommand, path, out),
    () => runCommand(handoffCommand, path, { ...out, json: true }),
  ];
  await commands[choice % commands.length]?.();
}

/**
 * Does with a file what the file host and the command line do.
 *
 * @param folder - Where files may be written
 * @param bytes - The file, sound or not
 * @param choice - Which cell is written and which command is typed
 * @returns What must not be: errors that are not in the project's own words, hangs, numbers that are none, lost parts
 */
export async function useWorkbook(folder: string, bytes: Uint8Array, choice: number): Promise<readonly string[]> {
  const { error } = console;
  const printed: string[] = [];
  console.error = (...words: unknown[]) => printed.push(`it printed an error: ${words.join(" ")}`);
  try {
    return [...(await faultsInUse(folder, bytes, choice)), ...printed];
  } finally {
    console.error = error;
  }
}

async function faultsInUse(folder: string, bytes: Uint8Array, choice: number): Promise<readonly string[]> {
  const path = join(folder, "mutant.xlsx");
  await writeFile(path, bytes);
  const faults = takeNote("mutant.xlsx");
  let workbook: Workbook | undefined;
  await faults.during("opening", async () => {
    ({ workbook } = await openWorkbookFile(path));
  });
  await faults.during("rolling up", () => rollUp(path, bytes, faults));
  if (workbook !== undefined) await useOpened(folder, bytes, workbook, choice, faults);
  await faults.during("typing a command", () => typeCommand(folder, path, choice));
  if (!(await readFile(path)).equals(bytes)) faults.wrong("afterwards", "the original file has changed");
  return faults.found;
}

async function useOpened(folder: string, bytes: Uint8Array, workbook: Workbook, choice: number, faults: Faults) {
  let calculation: XlsxCalculation | undefined;
  await faults.during("calculating", () => {
    calculation = calculate(workbook, faults);
  });
  if (calculation === undefined) return;
  const settled = calculation;
  await faults.during("checking", () => check(workbook, settled, faults));
  let calculated: Workbook | undefined;
  await faults.during("saving a copy", async () => {
    const after = patchWorkbook(workbook, settled.edits);
    const touched = new Set(settled.edits.map(({ sheet }) => partOf(workbook, sheet)));
    await saveWorkbookCopy(join(folder, "out of mutant.xlsx"), after, "replace");
    calculated = requireSound(after, workbook, faults, "saving a copy");
    requireUntouched(bytes, after, touched, faults, "saving a copy");
    if (calculated !== undefined) requireResults(calculated, settled, faults);
  });
  const results = calculated;
  if (results !== undefined) await faults.during("handing off", () => handOff(results, faults));
  await faults.during("using the host", () => useHost(folder, bytes, choice, faults));
}
