/* Writes templates/*.xlsx from the plans in src/workbook/template. With --check it writes nothing and fails when one is stale. */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  DEMONSTRATION_FILE,
  type DemoJob,
  demonstrationEntries,
  demonstrationPlan,
  TEMPLATES,
} from "../workbook/index.js";
import { writeTemplate } from "../workbook/plan-file/index.js";
import { calculatePlan } from "./templates/calculate-plan.js";

const FOLDER = "templates";
const DEMO_JOB = join("shared", "demo", "demo-house.json");

/** The blank templates and the demonstration, by file. */
export async function templateFiles(): Promise<ReadonlyMap<string, Uint8Array>> {
  const files = new Map<string, Uint8Array>();
  for (const [template, plan] of Object.entries(TEMPLATES)) {
    files.set(join(FOLDER, `${template}.xlsx`), await writeTemplate(plan(""), {}, calculatePlan));
  }
  const plan = demonstrationPlan();
  const job = JSON.parse(readFileSync(DEMO_JOB, "utf8")) as DemoJob;
  const demonstration = await writeTemplate(plan, demonstrationEntries(plan, job), calculatePlan);
  files.set(join(FOLDER, `${DEMONSTRATION_FILE}.xlsx`), demonstration);
  return files;
}

/** Whether a file holds other bytes than it should, or is not there. */
export function isStale(path: string, wanted: Uint8Array): boolean {
  try {
    return !readFileSync(path).equals(wanted);
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === "ENOENT") return true;
    throw cause;
  }
}

if (process.argv[1]?.endsWith("build-templates.js")) {
  const files = await templateFiles();
  const stale = [...files].filter(([path, bytes]) => isStale(path, bytes)).map(([path]) => path);
  if (process.argv.includes("--check")) {
    if (stale.length > 0) {
      console.error(`Stale: ${stale.join(", ")}. Run "npm run templates" and commit the result.`);
      process.exitCode = 1;
    }
  } else {
    mkdirSync(FOLDER, { recursive: true });
    for (const path of stale) writeFileSync(path, files.get(path) as Uint8Array);
    console.log(stale.length === 0 ? "Nothing to change." : `Wrote ${stale.join(", ")}.`);
  }
}
