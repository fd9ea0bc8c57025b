import { type Finding, findingOf } from "../../../workbook/finding.js";
import { HostError } from "../../../workbook/host.js";
import {
  isOfTechnician,
  type JobFilter,
  type OutletRecord,
  type RollUp,
  rollUp,
} from "../../../workbook/rollup/index.js";
import { fileProblem } from "../file-problem.js";
import { type FoundWorkbook, findWorkbooks } from "./find-workbooks.js";
import { type KeptReading, type KeptReadings, openKeptReadings } from "./kept-readings.js";
import { readInWorkers } from "./read-in-workers.js";
import type { ReadRequest } from "./read-job-file.js";

export interface RollUpFilesOptions {
  /** Folders and workbooks, as a person names them. */
  readonly places: readonly string[];
  /** Real paths of files that are no jobs, such as the summary itself. */
  readonly passedOver: ReadonlySet<string>;
  /** The file in which readings are kept from run to run. */
  readonly keptIn: string;
  /** Of everything that bears on a reading; what another version kept is not used. */
  readonly version: string;
  /** Whether to read every workbook anew. */
  readonly isFresh: boolean;
  readonly workers: number;
  /** Which of the jobs to roll up. */
  readonly filter: JobFilter;
  /** After so long a workbook is given up [s]. */
  readonly mostSeconds: number;
  readonly report: (done: number, total: number, doing: string) => void;
}

export interface RolledUpFiles {
  readonly value: RollUp;
  /** In the order of the files; those that are left out whole are all among them. */
  readonly findings: readonly Finding[];
  /** How many workbooks were found, and how many of them had to be read. */
  readonly found: number;
  readonly read: number;
  /** Goes through the outlets of every job that counts, a workbook at a time. */
  readonly outlets: () => AsyncGenerator<{ readonly file: string; readonly outlet: OutletRecord }>;
  /** Ends the work; outlets can no longer be gone through. */
  readonly close: () => Promise<void>;
}

/**
 * Rolls up the workbooks in folders. What earlier runs read and is still as it was is not read again, and every reading
 * is kept as soon as it is there, so that a run that was cut off goes on where it stopped.
 */
export async function rollUpFiles(options: RollUpFilesOptions): Promise<RolledUpFiles> {
  const { places, passedOver, report } = options;
  report(0, 1, "looking for workbooks");
  const { value: found, findings: unlisted } = await findWorkbooks(places, passedOver);
  const [kept, changed, passing] = await readAndKeep(found, options);
  const readings = found.flatMap((workbook) => {
    const reading = passing.get(workbook.path) ?? kept.get(workbook.path);
    return reading === undefined ? [] : [named(reading, workbook)];
  });
  const { value, findings } = rollUp(
    readings.flatMap(({ figures }) => figures),
    options.filter,
  );
  const inFiles = [
    ...unlisted,
    ...readings.flatMap((reading) => reading.findings),
    ...findings,
    ...openElsewhere(found),
  ];
  return {
    value,
    findings: inFiles.toSorted((one, other) => (one.file < other.file ? -1 : one.file > other.file ? 1 : 0)),
    found: found.length,
    read: changed.length,
    outlets: () => countedOutlets(value, found, kept, options.filter),
    close: () => kept.close(new Set(found.map(({ path }) => path))),
  };
}

/** Whatever keeps readings from being kept, such as a full disk, is said of the file that keeps them. */
async function readAndKeep(
  found: readonly FoundWorkbook[],
  options: RollUpFilesOptions,
): Promise<readonly [KeptReadings, readonly FoundWorkbook[], ReadonlyMap<string, KeptReading>]> {
  try {
    const kept = await openKeptReadings(options.keptIn, options.version, options.isFresh);
    const changed = found.filter((workbook) => !isKept(kept, workbook));
    return [kept, changed, await readChanged(changed, kept, options)];
  } catch (cause) {
    throw cause instanceof HostError ? cause : fileProblem(options.keptIn, cause, "writing");
  }
}

function isKept(kept: KeptReadings, { path, bytes, modifiedMs }: FoundWorkbook): boolean {
  const reading = kept.get(path);
  return reading !== undefined && reading.bytes === bytes && reading.modifiedMs === modifiedMs;
}

/** Reads what changed and keeps it; returns the readings that are not worth keeping. */
async function readChanged(
  changed: readonly FoundWorkbook[],
  kept: KeptReadings,
  { workers, mostSeconds, report }: RollUpFilesOptions,
): Promise<ReadonlyMap<string, KeptReading>> {
  const passing = new Map<string, KeptReading>();
  const requests = changed.map(
    (workbook): ReadRequest => ({ ...workbook, knownSha256: kept.get(workbook.path)?.sha256 ?? "" }),
  );
  let done = 0;
  await readInWorkers(requests, workers, mostSeconds, async (answer, { file }) => {
    if (answer.kind === "unchanged") await kept.touch(answer.path, answer.modifiedMs);
    else if (answer.isLasting) await kept.add(answer.reading, answer.spelled);
    else passing.set(answer.reading.path, answer.reading);
    done += 1;
    report(done, requests.length, file);
  });
  return passing;
}

/** A reading under the name that its workbook has in this run. */
function named(reading: KeptReading, { file }: FoundWorkbook): KeptReading {
  return {
    ...reading,
    figures: reading.figures.map((job) => ({ ...job, file })),
    findings: reading.findings.map((finding) => ({ ...finding, file })),
  };
}

function openElsewhere(found: readonly FoundWorkbook[]): readonly Finding[] {
  return found
    .filter((workbook) => workbook.isOpenElsewhere)
    .map(({ file }) =>
      findingOf(
        file,
        "noted",
        "nothing",
        "It looks open in another program; what was saved last counts.",
        "Save it there and run the roll-up again.",
      ),
    );
}

async function* countedOutlets(
  { jobs }: RollUp,
  found: readonly FoundWorkbook[],
  kept: KeptReadings,
  filter: JobFilter,
): ReturnType<RolledUpFiles["outlets"]> {
  const counted = new Map<string, Set<string>>();
  for (const { file, jobNumber } of jobs) {
    counted.set(file, (counted.get(file) ?? new Set()).add(jobNumber.toLowerCase()));
  }
  for (const { file, path } of found) {
    const numbers = counted.get(file);
    if (numbers === undefined) continue;
    for (const outlet of await kept.outlets(path)) {
      if (numbers.has(outlet.jobNumber.toLowerCase()) && isOfTechnician(outlet, filter)) yield { file, outlet };
    }
  }
}
