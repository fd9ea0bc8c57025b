import {
  isOfTechnician,
  type JobFilter,
  type OutletRecord,
  outletRenamer,
  type RollUp,
  type RollUpSettings,
} from "../../../workbook/rollup/index.js";
import type { FoundWorkbook } from "./find-workbooks.js";
import type { KeptReadings } from "./kept-readings.js";
import type { MergedParts } from "./merge-parts.js";
import type { PartContent } from "./part-files.js";

/** Goes through the outlets of every workbook, also of those that do not count. */
export async function* outletsOfAll(
  found: readonly FoundWorkbook[],
  kept: KeptReadings,
  { parts }: MergedParts,
): ReturnType<PartContent["everyOutlet"]> {
  for (const { file, path } of found) {
    const outlets = await kept.outlets(path);
    if (outlets.length > 0) yield { file, outlets };
  }
  for (const { nameOf, everyOutlet } of parts) {
    for await (const { file, outlets } of everyOutlet()) {
      const name = nameOf(file);
      if (name !== null) yield { file: name, outlets };
    }
  }
}

/** Goes through the outlets of the jobs that count, under the names that they count as. */
export async function* countedOutlets(
  { jobs }: RollUp,
  everyOutlet: PartContent["everyOutlet"],
  { filter, settings }: { readonly filter: JobFilter; readonly settings: RollUpSettings },
): AsyncGenerator<{ readonly file: string; readonly outlet: OutletRecord }> {
  const renamed = outletRenamer(settings.names);
  const counted = new Map<string, Set<string>>();
  for (const { file, jobNumber } of jobs) {
    counted.set(file, (counted.get(file) ?? new Set()).add(jobNumber.toLowerCase()));
  }
  for await (const { file, outlets } of everyOutlet()) {
    const numbers = counted.get(file);
    if (numbers === undefined) continue;
    for (const outlet of outlets.map(renamed)) {
      if (numbers.has(outlet.jobNumber.toLowerCase()) && isOfTechnician(outlet, filter)) yield { file, outlet };
    }
  }
}
