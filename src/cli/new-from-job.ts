import type { UnitSystemName } from "../core/index.js";
import { patchAndCalculate, startWorkbook, usualPaper } from "../engine/calculation.js";
import { plannedTemplate } from "../engine/planned-template.js";
import { openWorkbookFile } from "../hosts/file/index.js";
import {
  fileSource,
  HostError,
  JOB_NAMES,
  missingInWords,
  namedBlock,
  sizedTemplate,
  TEMPLATES,
  visitsOf,
  visitValues,
  type WorkbookSource,
} from "../workbook/index.js";
import { type CellEdit, openWorkbook, type Paper, parseAddress } from "../xlsx/index.js";

/** What is wanted otherwise than the job has it. */
interface Wanted {
  /** Null for the job's own. */
  readonly units: UnitSystemName | null;
  readonly paper: Paper | undefined;
  readonly formulas: "functions" | "plain";
}

/** The details of a job in the cells of another workbook's sheet of job details. */
function jobEdits({ names, sheets }: WorkbookSource): readonly CellEdit[] {
  return JOB_NAMES.flatMap(({ name, refersTo }): readonly CellEdit[] => {
    const known = names.find((one) => one.name === name && one.sheet === undefined);
    const [from, to] = [namedBlock(known?.refersTo ?? ""), namedBlock(refersTo)];
    const place = from === null ? undefined : parseAddress(from.range);
    const sheet = sheets.find((one) => one.name === from?.sheet);
    if (to === null || place === undefined || sheet === undefined) return [];
    const value = sheet.valueAt(place.row, place.column);
    const isTaken = value !== null && typeof value !== "object" && !sheet.hasFormula(place.row, place.column);
    return isTaken ? [{ kind: "value", sheet: to.sheet, address: to.range, value }] : [];
  });
}

/**
 * Makes a workbook of before and after from the readings as found and as left of a job's outlets.
 *
 * @param path - The workbook of the job
 * @returns The new file, and what to tell the person
 * @throws {HostError} Where the job has no such readings, or is in other units than were asked for
 */
export async function beforeAfterOf(path: string, wanted: Wanted) {
  const { workbook: job } = await openWorkbookFile(path);
  const source = fileSource(job);
  const visits = visitsOf(source, path);
  const units = visits.units ?? wanted.units;
  if (units === null) throw new HostError(`${path} does not say its units. Add --units ip or --units si.`);
  if (wanted.units !== null && wanted.units !== units) {
    throw new HostError(`${path} is in ${units}, and readings are not converted. Leave --units out.`);
  }
  const options = { points: visits.points };
  const plan = TEMPLATES["before-after"]("", options);
  const outlets = Math.max(visits.outlets.length, 30);
  const sized = sizedTemplate(await plannedTemplate("before-after", options), "before-after", { outlets });
  const paper = wanted.paper ?? usualPaper(units);
  const bytes = startWorkbook(sized.workbook, { units, formulas: wanted.formulas, paper, outdated: sized.outdated });
  const sheet = plan.sheets.find(({ role }) => role === "work")?.name ?? "";
  const cells = Object.entries(visitValues(plan, visits)).flatMap(([address, value]): readonly CellEdit[] =>
    value === null ? [] : [{ kind: "value", sheet, address, value }],
  );
  const filled = patchAndCalculate(openWorkbook(bytes, "before-after.xlsx"), [
    ...jobEdits(source).filter((edit) => edit.kind !== "value" || edit.value !== units),
    ...cells,
  ]);
  const missing = missingInWords(visits);
  const said = `${plan.title}, ${visits.outlets.length} outlets of ${path} as they are now; later readings there do not follow.`;
  return { bytes: filled.bytes, said: missing === "" ? said : `${said}\n${missing}` };
}
