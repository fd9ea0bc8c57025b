import { extname } from "node:path";
import {
  type EarlierFinding,
  type EarlierRollUp,
  earlierJob,
  type JobFigures,
  jobFigures,
  readSummary,
  rollUp,
} from "../../../workbook/rollup/index.js";
import { openWorkbookFile } from "../open-workbook-file.js";
import { openTable } from "./parquet-tables.js";
import { notOurs, tidyOutlets } from "./read-tidy.js";
import { FINDINGS_NOTE } from "./write-outlets.js";

/**
 * Reads an earlier roll-up from its summary or from its Parquet file of outlets.
 *
 * @throws {WorkbookFileError} When the file cannot be read
 * @throws {HostError} When it is no roll-up
 */
export async function readEarlier(path: string): Promise<EarlierRollUp> {
  if (extname(path).toLowerCase() !== ".parquet") return readSummary((await openWorkbookFile(path)).workbook);
  const table = await openTable(path);
  const figures: JobFigures[] = [];
  for await (const { file, outlets } of tidyOutlets(table)) {
    figures.push(...jobFigures({ file, modifiedMs: 0, contentHash: "" }, outlets));
  }
  const note = table.notes[FINDINGS_NOTE];
  if (note === undefined) throw notOurs(table, "it does not tell what was found wanting");
  return { jobs: rollUp(figures).value.jobs.map(earlierJob), findings: JSON.parse(note) as readonly EarlierFinding[] };
}
