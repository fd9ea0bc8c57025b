import { CellError, cellFunctions } from "../../../cells/index.js";
import type { SourceValue } from "../../source/index.js";
import {
  argumentOf,
  blockKey,
  blockOf,
  formulaIn,
  type PlacedCall,
  type PlacedRange,
  singleValue,
  spellBlock,
  type WorkbookIndex,
} from "../formulas/workbook-index.js";
import { counted, type Draft, shownNumber } from "../support/draft.js";
import { averagedBlocks, numbersIn, openingsIn } from "../support/readings.js";

const POINTS = cellFunctions.find(({ id }) => id === "TRAVERSE.POINTS");

/** A duct as calls name it: the cells of its size, and what a plan on the sheet says of it. */
interface Section {
  readonly width: SourceValue | undefined;
  readonly height: SourceValue | undefined;
  readonly rule: SourceValue | undefined;
  readonly units: SourceValue | undefined;
  /** Lines and points on a line where the plan sets them itself. */
  lines: number | undefined;
  pointsPerLine: number | undefined;
}

const PLANNING = new Set(["TRAVERSE.POINTS", "TRAVERSE.DEPTHS"]);
const IN_DUCTS = new Set(["AIRFLOW.DUCT", "WORKINGS.DUCT"]);
const MEANS = new Set(["TRAVERSE.AVERAGE", "TRAVERSE.PRESSURE"]);
const SINGLE_IS_TOO_FEW = new Set([
  "AIRFLOW.FACE",
  "AIRFLOW.DUCT",
  "WORKINGS.FACE",
  "WORKINGS.DUCT",
  "SHEET.OUTLETS",
  ...MEANS,
]);

function sizeKey(index: WorkbookIndex, call: PlacedCall): string {
  const [width, height] = (["width", "height"] as const).map((role) => {
    const argument = argumentOf(call, role);
    const block = blockOf(index, argument, call.formula);
    return block === undefined ? String(argument?.literal ?? "") : blockKey(block);
  });
  return `${width}|${height}`;
}

function numberOf(value: SourceValue | undefined): number | undefined {
  return typeof value === "number" && value > 0 ? value : undefined;
}

/** Plans by sheet and by the cells of their size. */
function sectionsOf(index: WorkbookIndex): ReadonlyMap<number, ReadonlyMap<string, Section>> {
  const sheets = new Map<number, Map<string, Section>>();
  const values = (call: PlacedCall): Section => {
    const [width, height, rule, units] = (["width", "height", "rule", "units"] as const).map((role) =>
      singleValue(index, argumentOf(call, role), call.formula),
    );
    return { width, height, rule, units, lines: undefined, pointsPerLine: undefined };
  };
  for (const call of index.calls) {
    if (!PLANNING.has(call.call.id)) continue;
    const sections = sheets.get(call.formula.sheet) ?? new Map<string, Section>();
    sheets.set(call.formula.sheet, sections);
    const key = sizeKey(index, call);
    const swapped = sections.get(key.split("|").reverse().join("|"));
    const points = numberOf(singleValue(index, argumentOf(call, "points"), call.formula));
    // Depths with width and height swapped give the places of the lines.
    if (swapped !== undefined && !sections.has(key)) {
      swapped.lines ??= points;
      continue;
    }
    const section = sections.get(key) ?? values(call);
    sections.set(key, section);
    section.pointsPerLine ??= points;
  }
  return sheets;
}

/** How many points the plan has; undefined where the size or the rule is not known. */
function plannedPoints({ width, height, rule, units, lines, pointsPerLine }: Section): number | undefined {
  if (POINTS === undefined || numberOf(width) === undefined) return undefined;
  const asked = (part: string) => {
    const tall = numberOf(height) ?? 0;
    const block = POINTS.call([[width]], [[tall]], [[rule ?? null]], [[part]], units ?? null);
    const count = Array.isArray(block) ? block[0]?.[0] : block;
    return typeof count === "number" ? count : undefined;
  };
  try {
    const [allLines, perLine] = [lines ?? asked("lines"), pointsPerLine ?? asked("line")];
    return allLines === undefined || perLine === undefined ? undefined : allLines * perLine;
  } catch (thrown) {
    if (thrown instanceof CellError) return undefined;
    throw thrown;
  }
}

function draft(
  index: WorkbookIndex,
  block: PlacedRange,
  taken: number,
  planned: Section | undefined,
  points: number,
): Draft {
  const cells = spellBlock(index, block, block.sheet);
  const shared = {
    kind: "too-few-points" as const,
    severity: "warning" as const,
    isUnfinished: true,
    sheet: block.sheet,
    range: block.range,
  };
  if (planned === undefined) {
    return {
      ...shared,
      problem: `The airflow rests on a single reading in ${cells}, and one reading says little of a whole grille.`,
      action: "Take several readings over equal parts of the grille, or one slow timed sweep over all of it.",
    };
  }
  const tall = numberOf(planned.height);
  const size = `${shownNumber(numberOf(planned.width) ?? 0)}${tall === undefined ? " round" : ` × ${shownNumber(tall)}`}`;
  return {
    ...shared,
    problem: `${cells} ${taken === 1 ? "holds" : "hold"} ${counted(taken, "reading")}, but the plan for a duct of ${size} has ${counted(points, "point")}.`,
    action: "Take the readings that are missing, or say on the sheet by which rule fewer points are enough.",
  };
}

/** The plan that applies to a call: that of its own size, else the only one on its sheet. */
function sectionFor(
  index: WorkbookIndex,
  call: PlacedCall,
  sections: ReadonlyMap<string, Section> | undefined,
): Section | undefined {
  if (IN_DUCTS.has(call.call.id)) {
    const [width, height, units] = (["width", "height", "units"] as const).map((role) =>
      singleValue(index, argumentOf(call, role), call.formula),
    );
    const alone: Section = { width, height, rule: undefined, units, lines: undefined, pointsPerLine: undefined };
    return sections?.get(sizeKey(index, call)) ?? alone;
  }
  const [only, ...more] = sections?.values() ?? [];
  return MEANS.has(call.call.id) && more.length === 0 ? only : undefined;
}

/** A mean by AVERAGE over a duct whose area comes from sizes that a plan on the sheet knows. */
function sectionOfArea(
  index: WorkbookIndex,
  call: PlacedCall,
  sections: ReadonlyMap<string, Section> | undefined,
): Section | undefined {
  const area = argumentOf(call, "area");
  const behind = formulaIn(index, blockOf(index, area, call.formula));
  const calls = [...(area?.calls ?? []).map((inner) => ({ call: inner, formula: call.formula }))];
  if (behind !== undefined)
    calls.push(...index.parsed(behind).calls.map((inner) => ({ call: inner, formula: behind })));
  return calls.map((inner) => sections?.get(sizeKey(index, inner))).find((section) => section !== undefined);
}

/** Averages of fewer points than the plan of the duct, and airflows from a single reading. */
export function checkPoints(index: WorkbookIndex): readonly Draft[] {
  const sheets = sectionsOf(index);
  const drafts = new Map<string, Draft>();
  const look = (block: PlacedRange, section: Section | undefined) => {
    const taken = numbersIn(index, block).length;
    if (taken === 0) return;
    const points = section && plannedPoints(section);
    const isFewer = points !== undefined && taken < points;
    if (!isFewer && (taken > 1 || points === 1)) return;
    const found = draft(index, block, taken, isFewer ? section : undefined, points ?? 0);
    const key = blockKey(block);
    if (isFewer || !drafts.has(key)) drafts.set(key, found);
  };
  for (const call of index.calls) {
    const { id } = call.call;
    const sections = sheets.get(call.formula.sheet);
    const readings = blockOf(index, argumentOf(call, "readings"), call.formula);
    if (readings !== undefined && SINGLE_IS_TOO_FEW.has(id)) {
      for (const block of openingsIn(readings, id)) look(block, sectionFor(index, call, sections));
    }
    if (id === "AIRFLOW") {
      for (const block of averagedBlocks(index, call)) look(block, sectionOfArea(index, call, sections));
    }
  }
  return [...drafts.values()];
}
