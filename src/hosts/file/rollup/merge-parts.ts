import { type Finding, findingOf } from "../../../workbook/finding.js";
import { isOfOneWorkbook, type JobFigures, notOpened } from "../../../workbook/rollup/index.js";
import type { ReadPart } from "./part-files.js";
import { isPart } from "./part-names.js";

/** A part, and under which name each of its workbooks counts in this run; null where it counts already. */
export interface MergedPart extends ReadPart {
  readonly nameOf: (file: string) => string | null;
}

/** Parts beside what was read here. */
export interface MergedParts {
  readonly parts: readonly MergedPart[];
  readonly figures: readonly JobFigures[];
  readonly findings: readonly Finding[];
  readonly workbooks: number;
}

/** Parts the places that a person names: folders that hold a part, and the others. */
export async function partPlaces(
  places: readonly string[],
): Promise<{ readonly parts: readonly string[]; readonly others: readonly string[] }> {
  const are = await Promise.all(places.map(isPart));
  return { parts: places.filter((_, index) => are[index]), others: places.filter((_, index) => !are[index]) };
}

/**
 * Reads parts and puts them beside the workbooks that were read here. A workbook of the same name and content counts
 * once, of the same name and another content under a name with its part; both are said. A part that cannot be read is a
 * finding.
 *
 * @param known - By the names of the workbooks that were read here, their digests
 */
export async function mergeParts(places: readonly string[], known: ReadonlyMap<string, string>): Promise<MergedParts> {
  const taken = new Map(known);
  const parts: MergedPart[] = [];
  const findings: Finding[] = [];
  for (const place of [...new Set(places)].toSorted()) {
    // What reads Parquet is loaded for those who have parts.
    const { readPart } = await import("./part-files.js");
    const part = await readPart(place).catch((cause: unknown) => notOpened(place, cause));
    if ("kind" in part) findings.push(part);
    else {
      const names = namesIn(part, taken);
      findings.push(...names.findings);
      parts.push({ ...part, nameOf: (file) => names.value.get(file) ?? (names.value.has(file) ? null : file) });
    }
  }
  return {
    parts,
    figures: parts.flatMap(({ figures, nameOf }) =>
      figures.flatMap((job) => {
        const file = nameOf(job.file);
        return file === null ? [] : [{ ...job, file }];
      }),
    ),
    findings: [
      ...findings,
      ...parts.flatMap((part) =>
        part.findings.filter(isOfOneWorkbook).flatMap((finding) => {
          const file = part.nameOf(finding.file);
          return file === null ? [] : [{ ...finding, file }];
        }),
      ),
    ],
    workbooks: parts.reduce((sum, { workbooks }) => sum + workbooks, 0),
  };
}

/** Gives the workbooks of a part their names, and takes them. */
function namesIn(
  { folder, figures }: ReadPart,
  taken: Map<string, string>,
): { readonly value: ReadonlyMap<string, string | null>; readonly findings: readonly Finding[] } {
  const names = new Map<string, string | null>();
  const findings: Finding[] = [];
  for (const [file, contentHash] of new Map(figures.map((job) => [job.file, job.contentHash]))) {
    const other = taken.get(file);
    if (other === undefined) names.set(file, file);
    else if (other === contentHash && other !== "") {
      names.set(file, null);
      const problem = `The part ${folder} holds the same workbook; it counts once.`;
      findings.push(findingOf(file, "noted", "nothing", problem, ""));
    } else names.set(file, `${folder}: ${file}`);
    const name = names.get(file);
    if (typeof name === "string") taken.set(name, contentHash);
  }
  return { value: names, findings };
}
