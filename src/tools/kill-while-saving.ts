/*
 * Ends a process at random moments while it saves a workbook over and over, and looks at what is left: the file has to be
 * the old one or the new one, whole, each time. Every other time it is killed outright, in between by Ctrl-C's signal,
 * which may leave no temporary file.
 *
 * node build/src/tools/kill-while-saving.js [times]
 */
import { spawn } from "node:child_process";
import { randomInt } from "node:crypto";
import { once } from "node:events";
import { copyFile, mkdtemp, readdir, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { openWorkbookFile, saveWorkbookFile } from "../hosts/file/index.js";
import { cellAt, patchWorkbook, readSheet, type Workbook } from "../xlsx/index.js";

const TEMPLATE = new URL("../../../templates/room-balance.xlsx", import.meta.url);
const SHEET = "Job";
/** Two text cells that every save changes together: half a file would show. */
const CELLS = ["B5", "B7"] as const;
const LONGEST_MS = 400;

type Signal = "SIGKILL" | "SIGINT";

interface Left {
  readonly signal: Signal;
  readonly isNew: boolean;
  readonly isWhole: boolean;
  readonly leftovers: number;
  /** What the next save of the file has not cleaned up. */
  readonly stayed: number;
}

function marked(workbook: Workbook, mark: string): Uint8Array {
  const edits = CELLS.map((address) => ({ kind: "value", sheet: SHEET, address, value: mark }) as const);
  return patchWorkbook(workbook, edits);
}

/** The life of the process that is killed; it ends with the one that would kill it, whose pipe closes then. */
async function saveForEver(path: string): Promise<never> {
  process.stdin.resume().once("end", () => process.exit());
  let file = await openWorkbookFile(path);
  console.log("ready");
  for (let save = 1; ; save += 1) file = await saveWorkbookFile(file, marked(file.workbook, `save ${save}`));
}

async function look(folder: string, path: string, signal: Signal): Promise<Left> {
  const leftovers = (await readdir(folder)).length - 1;
  const file = await openWorkbookFile(path);
  const { workbook } = file;
  for (const { name } of workbook.sheets) readSheet(workbook, name);
  const [first, second] = CELLS.map((address) => cellAt(readSheet(workbook, SHEET), address)?.value ?? null);
  await saveWorkbookFile(file, marked(workbook, "the next save"));
  const stayed = (await readdir(folder)).length - 1;
  return { signal, isNew: first !== null, isWhole: first === second, leftovers, stayed };
}

async function killOnce(signal: Signal): Promise<Left> {
  const folder = await mkdtemp(join(tmpdir(), "vanesheet-kill-"));
  try {
    const path = join(folder, "job.xlsx");
    await copyFile(TEMPLATE, path);
    const child = spawn(process.execPath, [fileURLToPath(import.meta.url), "--save", path], {
      stdio: ["pipe", "pipe", "inherit"],
    });
    await once(child.stdout, "data");
    await setTimeout(randomInt(LONGEST_MS));
    child.kill(signal);
    await once(child, "exit");
    return await look(folder, path, signal);
  } finally {
    await rm(folder, { recursive: true });
  }
}

/** Kills a saving process so many times and counts what was left. */
async function killWhileSaving(times: number): Promise<void> {
  const left: Left[] = [];
  while (left.length < times) left.push(await killOnce(left.length % 2 === 0 ? "SIGKILL" : "SIGINT"));
  const count = (is: (one: Left) => boolean) => left.filter(is).length;
  const interrupted = count(({ signal, leftovers }) => signal === "SIGINT" && leftovers > 0);
  console.log(
    `${times} kills: ${count(({ isNew }) => !isNew)} left the old file, ${count(({ isNew }) => isNew)} a new one, ${count(({ isWhole }) => !isWhole)} of them not whole; ${count(({ leftovers }) => leftovers > 0)} left a temporary file beside it, ${interrupted} of them at Ctrl-C; ${count(({ stayed }) => stayed > 0)} stayed after the next save.`,
  );
  if (interrupted > 0 || left.some(({ isWhole, stayed }) => !isWhole || stayed > 0)) process.exitCode = 1;
}

const [role, path] = process.argv.slice(2);
if (role === "--save" && path !== undefined) await saveForEver(path);
else await killWhileSaving(Number(role ?? 100));
