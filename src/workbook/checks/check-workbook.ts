import { isInRange } from "../../xlsx/index.js";
import { CHECK_KINDS, type CheckKind, type Finding } from "../finding.js";
import type { CheckReport } from "./check-report.js";
import { callsVane, indexWorkbook, type PlacedFormula, type WorkbookIndex } from "./formulas/workbook-index.js";
import { checkAirflows } from "./kinds/check-airflows.js";
import { checkAreas } from "./kinds/check-areas.js";
import { checkAverages } from "./kinds/check-averages.js";
import { checkCalibration } from "./kinds/check-calibration.js";
import { checkDesigns } from "./kinds/check-designs.js";
import { checkDesignsApart } from "./kinds/check-designs-apart.js";
import { checkErrors } from "./kinds/check-errors.js";
import { checkFactorRange } from "./kinds/check-factor-range.js";
import { checkFactorTwice } from "./kinds/check-factor-twice.js";
import { checkLists } from "./kinds/check-lists.js";
import { checkLoads } from "./kinds/check-loads.js";
import { checkNames } from "./kinds/check-names.js";
import { checkOddFormulas } from "./kinds/check-odd-formulas.js";
import { checkOwnSheets } from "./kinds/check-own-sheets.js";
import { checkPercents } from "./kinds/check-percents.js";
import { checkPoints } from "./kinds/check-points.js";
import { checkReadings } from "./kinds/check-readings.js";
import { checkReplaced } from "./kinds/check-replaced.js";
import { checkRetests } from "./kinds/check-retests.js";
import { checkRows } from "./kinds/check-rows.js";
import { checkSigns } from "./kinds/check-signs.js";
import { checkSizes } from "./kinds/check-sizes.js";
import { checkStuck } from "./kinds/check-stuck.js";
import { checkTaken } from "./kinds/check-taken.js";
import { checkTotals } from "./kinds/check-totals.js";
import { checkUnreadSizes } from "./kinds/check-unread-sizes.js";
import { checkVelocities } from "./kinds/check-velocities.js";
import { type CheckedList, checkedLists } from "./listed/checked-lists.js";
import type { CheckedWorkbook } from "./source/checked-workbook.js";
import { type Draft, spelled } from "./support/draft.js";

const CHECKS: readonly ((index: WorkbookIndex) => readonly Draft[])[] = [
  checkLists,
  checkStuck,
  checkReadings,
  checkTaken,
  checkFactorRange,
  checkFactorTwice,
  checkAreas,
  checkVelocities,
  checkDesigns,
  checkPoints,
  checkReplaced,
  checkSigns,
  checkLoads,
  checkRetests,
];

/** What only the list tells, of which a row is a part. */
const LIST_CHECKS: readonly ((index: WorkbookIndex, lists: readonly CheckedList[]) => readonly Draft[])[] = [
  checkNames,
  checkRows,
  checkUnreadSizes,
  checkSizes,
  checkAverages,
];

/** Kinds that say nothing of a row's figures. */
const NAMES: ReadonlySet<CheckKind> = new Set(["unknown-room", "unknown-system", "unknown-kind", "repeated-tag"]);

/** Kinds that leave an outlet or a room out of the sums by name. */
const UNKNOWN: ReadonlySet<CheckKind> = new Set(["unknown-room", "unknown-system", "unknown-kind"]);

/** By sheet, row and column; on one cell in the order of the kinds. */
function inOrder(a: Draft, b: Draft): number {
  return (
    a.sheet - b.sheet ||
    a.range.firstRow - b.range.firstRow ||
    a.range.firstColumn - b.range.firstColumn ||
    CHECK_KINDS.indexOf(a.kind) - CHECK_KINDS.indexOf(b.kind)
  );
}

/** Leaves out what is told already: the same of the same cell, and of a row begun and not finished all but the first. */
function onceOnly(drafts: readonly Draft[]): readonly Draft[] {
  const told = new Set<string>();
  return drafts.filter(({ kind, sheet, range, isUnfinished }) => {
    const key = `${kind}|${sheet}|${spelled(range)}`;
    const row = `unfinished|${sheet}|${range.firstRow}`;
    if (told.has(key) || (isUnfinished === true && told.has(row))) return false;
    told.add(key);
    if (isUnfinished === true) told.add(row);
    return true;
  });
}

/** Whether something in the same row is wrong already, and makes its airflow wrong. */
function isTold({ sheet, range }: Draft, others: readonly Draft[]): boolean {
  return others.some(
    (other) =>
      other.sheet === sheet &&
      other.range.firstRow <= range.firstRow &&
      other.range.lastRow >= range.firstRow &&
      !NAMES.has(other.kind),
  );
}

/** Whether a finding is at a cell that another one is about. */
function isAt({ sheet, range: { firstRow: row, firstColumn: column } }: Draft, other: Draft): boolean {
  return other.sheet === sheet && isInRange(other.range, row, column);
}

/** A finding whose cause is not known, with what its formula has in place of what its neighbors have. */
function withDifference(draft: Draft, odd: readonly Draft[]): Draft {
  const at = draft.lacksCause === true ? odd.find((other) => isAt(other, draft)) : undefined;
  return at === undefined
    ? draft
    : {
        ...draft,
        problem: `${draft.problem}${(at.difference ?? "").replace(" It has", " The formula has")}`,
        action: at.action,
      };
}

/**
 * Looks through a workbook for what makes its airflows wrong, and never stops at the first finding.
 *
 * What a cell is (a reading, a factor, an area) is learnt from the functions that take it, so that any sheet that
 * calls a VANE function can be checked. Nothing is written.
 *
 * @param workbook - As `checkedFile` or `checkedHost` shows it
 * @param today - ISO 8601; it counts where a job does not say when it was measured
 */
export function checkWorkbook(workbook: CheckedWorkbook, today = new Date().toISOString().slice(0, 10)): CheckReport {
  const index = indexWorkbook(workbook);
  const lists = checkedLists(index);
  const causes = [...CHECKS.flatMap((check) => check(index)), ...LIST_CHECKS.flatMap((check) => check(index, lists))];
  // An airflow is doubted where nothing else in its row says why it is what it is.
  const airflows = checkAirflows(index, lists).filter((draft) => !isTold(draft, causes));
  // Sums by name are compared once every name is known.
  const apart = causes.some(({ kind }) => UNKNOWN.has(kind)) ? [] : checkDesignsApart(index, lists);
  const known = [...causes, ...apart, ...airflows, ...checkTotals(index, lists), ...checkPercents(index, lists)];
  // A formula that differs is told where nothing says what is wrong with its result.
  const odd = checkOddFormulas(index);
  const told = known.map((draft) => withDifference(draft, odd));
  const others = odd.filter((draft) => !told.some((other) => isAt(draft, other)));
  const found = [...told, ...others, ...checkOwnSheets(index), ...checkCalibration(index, today)];
  const explained = new Set<PlacedFormula>(found.flatMap(({ explains }) => explains ?? []));
  const drafts = onceOnly([...found, ...checkErrors(index, explained)].sort(inOrder));
  return {
    findings: drafts.map(
      ({ kind, severity, sheet, range, problem, action }): Finding => ({
        kind,
        severity,
        leftOut: kind === "list-not-read" ? "list" : "nothing",
        file: "",
        sheet: index.sheets[sheet]?.name ?? "",
        cell: spelled(range),
        problem,
        action,
      }),
    ),
    sheetCount: index.sheets.length,
    listCount: lists.length,
    formulaCount: index.formulas.length,
    vaneFormulaCount: index.formulas.filter(callsVane).length,
  };
}
