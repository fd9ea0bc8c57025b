import { type Finding, findingOf, hasError } from "../../../workbook/finding.js";
import { jobFigures, type OutletsRead, readOutlets } from "../../../workbook/rollup/index.js";
import type { ArchiveCodec } from "../../../xlsx/index.js";
import { openWorkbookFile, type WorkbookFile } from "../open-workbook-file.js";
import { answer, failed, type ReadAnswer, type ReadRequest } from "./read-answer.js";

/** Findings about one workbook beyond this are counted, not listed. */
const MOST_FINDINGS = 100;

/** Reads one workbook for the roll-up; whatever is wrong with it is a finding. */
export async function readJobFile(request: ReadRequest, codec: ArchiveCodec): Promise<ReadAnswer> {
  try {
    const opened = await openWorkbookFile(request.path, codec);
    const { sha256, modifiedMs, bytes } = opened.identity;
    if (sha256 === request.knownSha256) return { kind: "unchanged", path: request.path, modifiedMs };
    const { value: outlets, findings } = await outletsOf(opened);
    const { file, path } = request;
    return answer(
      {
        path,
        bytes,
        modifiedMs,
        sha256,
        figures: jobFigures({ file, modifiedMs, contentHash: sha256 }, outlets),
        findings: shortened(findings, file),
      },
      outlets,
      true,
    );
  } catch (cause) {
    return failed(request, cause);
  }
}

/** Reads the outlets; where formulas have no stored result, calculates them first. */
async function outletsOf({ workbook }: WorkbookFile): Promise<OutletsRead> {
  const stored = readOutlets(workbook, new Map());
  if (!stored.findings.some(({ kind }) => kind === "not-calculated")) return stored;
  return calculatedOutlets(workbook);
}

async function calculatedOutlets(workbook: WorkbookFile["workbook"]): Promise<OutletsRead> {
  const { calculatedResults } = await import("../../../engine/calculation.js");
  const results = calculatedResults(workbook);
  const { value, findings } = readOutlets(workbook, results);
  const problem = `Of its formulas ${results.size} had no stored result, or an old one, and were calculated for this roll-up.`;
  const calculated = findingOf(workbook.fileName, "noted", "nothing", problem, "");
  return { value, findings: [calculated, ...findings] };
}

function shortened(findings: readonly Finding[], file: string): readonly Finding[] {
  const named = findings.map((finding) => ({ ...finding, file }));
  if (named.length <= MOST_FINDINGS) return named;
  const problem = `${named.length - MOST_FINDINGS} more findings of this workbook are not listed.`;
  const rest = findingOf(file, "noted", "nothing", problem, "");
  // What is not listed may be what leaves an outlet out.
  return [
    ...named.slice(0, MOST_FINDINGS),
    hasError(named.slice(MOST_FINDINGS)) ? { ...rest, severity: "error" } : rest,
  ];
}
