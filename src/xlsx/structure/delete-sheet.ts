import { changeReferences, type FoundReference, type ReferenceChange } from "../formula/change-references.js";
import { scanFormula } from "../formula/scan-formula.js";
import { relationshipsOf } from "../package/read-part.js";
import type { WorkbookEdit } from "../patch/edits.js";
import type { PatchOptions } from "../patch/patch-workbook.js";
import { findSheetEntry, readSheet } from "../read/read-sheet.js";
import type { SheetEntry, Workbook } from "../workbook.js";
import { withoutCalculationOrder, withParts } from "./restructure.js";
import { type FormulaHolder, formulasRewritten } from "./rewrite-formulas.js";
import {
  acrossSheets,
  cellsOfHolders,
  edits,
  macroNotice,
  namedInTexts,
  requireSheet,
  same,
  whereOf,
} from "./sheets-common.js";
import { type Restructured, refused, sheetOrder } from "./structure-context.js";
import { sheetListAfter } from "./workbook-part.js";

/** What refers to a sheet from elsewhere, and is lost with it. */
export interface SheetDependent {
  /** In words: a cell, a name, or what else. */
  readonly place: string;
  readonly formula: string;
}

function goneWith(workbook: Workbook, entry: SheetEntry): (formula: string, own: string | undefined) => string {
  const order = sheetOrder(workbook);
  const tables = new Set(
    entry.kind === "worksheet" ? readSheet(workbook, entry.name).tables.map(({ name }) => name.toLowerCase()) : [],
  );
  const spelled = (name: string): string => findSheetEntry(workbook, name)?.name ?? name;
  const change = ({ sheet, lastSheet }: FoundReference): ReferenceChange | undefined => {
    if (sheet === undefined) return undefined;
    if (lastSheet === undefined || same(sheet, lastSheet)) return same(sheet, entry.name) ? "gone" : undefined;
    if (!same(sheet, entry.name) && !same(lastSheet, entry.name)) return undefined;
    const left = order(sheet, lastSheet).filter((one) => !same(one, entry.name));
    const isTurned = order(sheet, lastSheet)[0] !== sheet.toLowerCase();
    const [first, last] = [left[0], left.at(-1)].map((one) => spelled(one ?? ""));
    if (left.length === 0 || first === undefined || last === undefined) return "gone";
    return isTurned ? { sheet: last, lastSheet: first } : { sheet: first, lastSheet: last };
  };
  return (formula) => {
    const withoutSheet = formula.includes("!") ? changeReferences(formula, change) : formula;
    if (tables.size === 0) return withoutSheet;
    const tokens = scanFormula(withoutSheet);
    const isLost = (at: number): boolean => {
      const token = tokens[at];
      const next = tokens[at + 1]?.text;
      return token?.kind === "name" && tables.has(token.text.toLowerCase()) && next !== "!" && next !== "(";
    };
    return tokens
      .map(({ kind, text }, at) => (isLost(at) ? "#REF!" : kind === "bracket" && isLost(at - 1) ? "" : text))
      .join("");
  };
}

/**
 * Lists what refers to a sheet from elsewhere, to be shown before the sheet is deleted.
 *
 * @param workbook - As opened
 * @param sheet - The sheet's name, in any case
 */
export function dependentsOfSheet(workbook: Workbook, sheet: string): readonly SheetDependent[] {
  const { entry } = requireSheet(workbook, sheet);
  const gone = goneWith(workbook, entry);
  const own = ownParts(workbook, entry);
  const dependents: SheetDependent[] = [];
  formulasRewritten(
    {
      ...workbook,
      archive: { ...workbook.archive, entries: workbook.archive.entries.filter(({ name }) => !own.has(name)) },
    },
    (formula, holder) => {
      if (gone(formula, holder.sheet) !== formula) dependents.push({ place: whereOf(holder), formula });
      return formula;
    },
    (name) => name === entry.name,
  );
  for (const { name, sheet: scope, refersTo } of workbook.names) {
    if (scope === entry.name || gone(refersTo, scope) === refersTo) continue;
    dependents.push({ place: `the name ${name}`, formula: refersTo });
  }
  return dependents;
}

/** The parts that only the sheet leads to, its own among them. */
function ownParts(workbook: Workbook, entry: SheetEntry): ReadonlySet<string> {
  const { archive, workbookPart } = workbook;
  const reachable = (from: string, isClosed: (partName: string) => boolean): ReadonlySet<string> => {
    const reached = new Set<string>();
    const open = [from];
    for (let part = open.pop(); part !== undefined; part = open.pop()) {
      if (reached.has(part) || isClosed(part)) continue;
      reached.add(part);
      for (const { target, isExternal } of relationshipsOf(archive, part)) if (!isExternal) open.push(target);
    }
    return reached;
  };
  const others = reachable("", (part) => part === entry.partName);
  const own = reachable(entry.partName, (part) => part === workbookPart || others.has(part));
  return new Set([...own].filter((part) => archive.byName.has(part.toLowerCase())));
}

/**
 * Deletes a sheet with its tables, charts and notes. What refers to it from elsewhere becomes #REF!: list it with
 * `dependentsOfSheet` first.
 *
 * @param workbook - As opened; it stays as it is
 * @throws {WorkbookFileError} For the last sheet in view, or where the structure is protected, before anything is changed
 */
export function deleteSheet(
  workbook: Workbook,
  { sheet }: { readonly sheet: string },
  options: PatchOptions = {},
): Restructured {
  const { entry, index } = requireSheet(workbook, sheet);
  if (!workbook.sheets.some((other) => other !== entry && other.visibility === "visible")) {
    throw refused(
      workbook,
      `sheet “${entry.name}”`,
      "is the only one in view",
      "A workbook needs one: add another first.",
    );
  }
  const gone = goneWith(workbook, entry);
  const own = ownParts(workbook, entry);
  const order = workbook.sheets.map((_, place) => place).filter((place) => place !== index);
  const list = sheetListAfter(workbook, {
    order,
    names: new Map(),
    refersTo: ({ sheet: scope, refersTo }) => (scope === entry.name ? undefined : gone(refersTo, scope)),
  });
  const lost: FormulaHolder[] = [];
  const rewrites = formulasRewritten(
    workbook,
    (formula, holder) => {
      const after = gone(formula, holder.sheet);
      if (after !== formula) lost.push(holder);
      return after;
    },
    (name) => name === entry.name,
  ).filter(([partName]) => !own.has(partName));
  const across = acrossSheets(
    workbook,
    order.map((place) => workbook.sheets[place]?.name ?? ""),
  );
  const removals = [...own].map((partName): WorkbookEdit => ({ kind: "removePart", partName }));
  return {
    workbook: withParts(
      workbook,
      [...edits([...rewrites, [workbook.workbookPart, list]]), ...removals, ...withoutCalculationOrder(workbook)],
      options,
    ),
    outdated: cellsOfHolders([...lost, ...across]).filter((cell) => cell.sheet !== entry.name),
    notices: [...namedInTexts(workbook, entry.name), ...macroNotice(workbook)],
  };
}
