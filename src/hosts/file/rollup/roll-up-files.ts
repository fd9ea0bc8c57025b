import { type Finding, findingOf } from "../../../workbook/finding.js";
import { HostError } from "../../../workbook/host.js";
import {
  chosenOf,
  EVERY_JOB,
  type JobFilter,
  type OutletRecord,
  type RollUp,
  type RollUpSettings,
  rollUp,
} from "../../../workbook/rollup/index.js";
import { fileProblem } from "../file-problem.js";
import { collectAlone } from "./collect-alone.js";
import { type FoundWorkbook, findWorkbooks } from "./find-workbooks.js";
import { countedOutlets, outletsOfAll } from "./go-through-outlets.js";
import { type KeptReading, type KeptReadings, openKeptReadings, readingOf } from "./kept-readings.js";
import { mergeParts, partPlaces } from "./merge-parts.js";
import type { PartContent } from "./part-files.js";
import type { ReadRequest } from "./read-answer.js";
import { readInWorkers } from "./read-in-workers.js";

export interface RollUpFilesOptions {
  /** Folders, workbooks and parts of a roll-up, as a person names them. */
  readonly places: readonly string[];
  /** Real paths of files and folders that are no jobs, such as the summary itself. */
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
  readonly settings: RollUpSettings;
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
  /** How many of them came in parts that another run wrote. */
  readonly inParts: number;
  /** Goes through the outlets of every job that counts, a workbook at a time. */
  readonly outlets: () => AsyncGenerator<{ readonly file: string; readonly outlet: OutletRecord }>;
  /** Everything that a part of a larger roll-up holds, whatever the filter. */
  readonly part: () => PartContent;
  /** Ends the work; outlets can no longer be gone through. */
  readonly close: () => Promise<void>;
}

/**
 * Rolls up the workbooks in folders. What earlier runs read and is still as it was is not read again, and every reading
 * is kept as soon as it is there, so that a run that was cut off goes on where it stopped.
 */
export async function rollUpFiles(options: RollUpFilesOptions): Promise<RolledUpFiles> {
  const { places, passedOver, report } = options;
  collectAlone();
  report(0, 1, "looking for workbooks");
  const named = await partPlaces(places);
  const { value: found, findings: unlisted } = await findWorkbooks(named.others, passedOver);
  const [kept, changed, passing] = await readAndKeep(found, options);
  const readings = found.flatMap((workbook) => {
    const reading = passing.get(workbook.path) ?? kept.get(workbook.path);
    return reading === undefined ? [] : [underItsName(reading, workbook)];
  });
  if (named.parts.length > 0) report(0, 1, "reading parts");
  const known = new Map(found.map(({ file, path }) => [file, kept.get(path)?.sha256 ?? ""]));
  const merged = await mergeParts(named.parts, known);
  const figures = [...readings.flatMap((reading) => reading.figures), ...merged.figures];
  const ofWorkbooks = [
    ...unlisted,
    ...readings.flatMap((reading) => reading.findings),
    ...openElsewhere(found),
    ...merged.findings,
  ];
  const { value, findings } = rollUp(figures, options.filter, options.settings);
  const everyOutlet = () => outletsOfAll(found, kept, merged);
  const workbooks = found.length + merged.workbooks;
  return {
    value,
    findings: byFile([...ofWorkbooks, ...findings]),
    found: workbooks,
    read: changed.length,
    inParts: merged.workbooks,
    outlets: () => countedOutlets(value, everyOutlet, options),
    part: () => ({
      workbooks,
      figures,
      counting: new Set(chosenOf(figures, options.settings)),
      findings: byFile([...ofWorkbooks, ...rollUp(figures, EVERY_JOB, options.settings).findings]),
      everyOutlet,
    }),
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
  await readInWorkers(requests, workers, mostSeconds, async (answer, { file, path }) => {
    if (answer.kind === "unchanged") await kept.touch(answer.path, answer.modifiedMs);
    else if (answer.isLasting) await kept.add(answer.spelled);
    else passing.set(path, readingOf(answer.spelled));
    done += 1;
    report(done, requests.length, file);
  });
  return passing;
}

/** A reading under the name that its workbook has in this run. */
function underItsName(reading: KeptReading, { file }: FoundWorkbook): KeptReading {
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

function byFile(findings: readonly Finding[]): readonly Finding[] {
  return findings.toSorted((one, other) => (one.file < other.file ? -1 : one.file > other.file ? 1 : 0));
}
