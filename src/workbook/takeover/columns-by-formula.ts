import { formatAddress } from "../../xlsx/address.js";
import { LEAST_FACTOR } from "../checks/thresholds.js";
import type { ListColumnKey, StatedForRows } from "../lists/index.js";
import type { SheetSource } from "../source/index.js";
import { type Draft, quotedHeading } from "./column-draft.js";
import { contentWord } from "./content-words.js";
import { type RowFormula, rowFormulaAt } from "./row-formula.js";

/** What the formulas of the airflows show: which cells they average, what they multiply. */
export function byFormulas(source: SheetSource, drafts: readonly Draft[]): readonly RowFormula[] {
  const airflows = drafts.filter(({ content }) => ["airflow", "found", "left"].includes(content?.key ?? ""));
  const formulas: RowFormula[] = [];
  for (const { heading, values, content } of airflows) {
    const formula = values.formulaRow === 0 ? undefined : rowFormulaAt(source, values.formulaRow, heading.column);
    if (formula === undefined) continue;
    formulas.push(formula);
    const state = content?.key === "found" || content?.key === "left" ? content.key : "now";
    for (const draft of drafts) {
      const { column } = draft.heading;
      if (formula.averaged.has(column) && draft.content?.key !== "reading") {
        const isOpen = draft.content === null || draft.heading.read?.isWhole !== true;
        if (!isOpen) continue;
        draft.content = { key: "reading", state, holds: "velocity" };
        draft.reason = `the airflow's formula averages it (${quotedHeading(draft.heading.shown)})`;
        draft.question = "";
      }
      if (formula.averaged.has(column) && draft.content?.key === "reading" && draft.content.state !== state) {
        draft.content = { ...draft.content, state };
      }
    }
    const sizes = drafts.filter(
      ({ heading: one, content: known, values: held }) =>
        known === null &&
        formula.columns.has(one.column) &&
        !formula.averaged.has(one.column) &&
        held.numbers.length > 0,
    );
    const hasSize = drafts.some(({ content: known }) => ["width", "size", "diameter"].includes(known?.key ?? ""));
    if (formula.constants.includes(144) && !hasSize && sizes.length === 2) {
      sizes.forEach((draft, index) => {
        draft.content = { key: index === 0 ? "width" : "height" };
        draft.reason = `the airflow's formula multiplies it and divides by 144 (${quotedHeading(draft.heading.shown)})`;
        draft.question = `Is this ${contentWord(draft.content)}?`;
      });
    }
  }
  return formulas;
}

/** Percents that no heading names: a quotient of the airflow and the design. */
export function percentByFormula(source: SheetSource, drafts: readonly Draft[]): void {
  const columnOf = (key: ListColumnKey) => drafts.find(({ content }) => content?.key === key)?.heading.column;
  const design = columnOf("design");
  for (const draft of drafts) {
    if (draft.content !== null || draft.values.formulaRow === 0 || design === undefined) continue;
    const quotient = rowFormulaAt(source, draft.values.formulaRow, draft.heading.column)?.quotient;
    const state = (["airflow", "found", "left"] as const).find((key) => columnOf(key) === quotient?.[0]);
    if (quotient?.[1] !== design || state === undefined) continue;
    draft.content = { key: state === "airflow" ? "percent" : `${state}Percent` };
    draft.reason = "its formula divides the airflow by the design";
    draft.question = "";
  }
}

/** Numbers by which a formula turns the product of two lengths into an area. */
const AREA_DIVISORS = [144, 1_000_000, 10_000];
const SIZE_KEYS = ["width", "height", "size", "diameter"];
const AREA_KEYS = ["area", "freeArea", "effectiveArea"];

const isPartOfOne = (value: number) => value > LEAST_FACTOR && value <= 1;

/** What a formula multiplies with a size is no area, but the part of it that is free: 0.72 of 12 × 6. */
export function factorsByFormula(drafts: readonly Draft[], formulas: readonly RowFormula[]): void {
  const sizes = drafts.filter(({ content }) => SIZE_KEYS.includes(content?.key ?? ""));
  for (const draft of drafts) {
    const { content, heading, values } = draft;
    if (!AREA_KEYS.includes(content?.key ?? "") || values.numbers.length === 0) continue;
    const timesSize = formulas.some(
      ({ columns, constants }) =>
        columns.has(heading.column) &&
        (sizes.some((size) => columns.has(size.heading.column)) ||
          AREA_DIVISORS.some((divisor) => constants.includes(divisor))),
    );
    if (!timesSize || !values.numbers.every(isPartOfOne)) continue;
    draft.content = { key: "factor" };
    draft.reason = `the airflow's formula multiplies it with the size (${quotedHeading(heading.shown)})`;
    draft.question = "";
  }
}

/** Columns that the airflow's formula takes and that nobody knows: left out in silence, every airflow would differ. */
export function askUnknownOperands(drafts: readonly Draft[], formulas: readonly RowFormula[]): void {
  for (const draft of drafts) {
    const { content, heading, values } = draft;
    if (content !== null || draft.question !== "" || values.numbers.length === 0) continue;
    if (!formulas.some(({ columns, averaged }) => columns.has(heading.column) && !averaged.has(heading.column)))
      continue;
    draft.reason = draft.reason === "" ? "no words of its heading are known" : draft.reason;
    draft.question = "The airflow's formula takes this column. What does it hold?";
  }
}

/** The factor that formulas apply without a column for it. */
export function statedFactor(
  source: SheetSource,
  formulas: readonly RowFormula[],
  drafts: readonly Draft[],
): { readonly stated: StatedForRows; readonly reason: string } {
  const areas = ["factor", "freeArea", "effectiveArea"];
  if (drafts.some(({ content }) => areas.includes(content?.key ?? ""))) return { stated: {}, reason: "" };
  const isFactor = (value: unknown) => typeof value === "number" && isPartOfOne(value);
  const factorCells = formulas.flatMap(({ fixedCells }) =>
    fixedCells.filter(({ row, column }) => isFactor(source.valueAt(row, column))),
  );
  const [factorCell] = factorCells;
  if (
    factorCell !== undefined &&
    factorCells.every(({ row, column }) => row === factorCell.row && column === factorCell.column)
  ) {
    const at = formatAddress(factorCell.row, factorCell.column);
    return { stated: { factorCell }, reason: `the airflow's formula multiplies by ${at}` };
  }
  const factors = formulas.flatMap(({ constants }) => constants.filter((one) => isPartOfOne(one) && one < 1));
  const [factor] = factors;
  if (factor !== undefined && factors.every((one) => one === factor)) {
    return { stated: { factor }, reason: `the airflow's formula multiplies by ${factor}` };
  }
  const isSized = drafts.some(({ content }) => ["width", "size", "diameter", "area"].includes(content?.key ?? ""));
  return isSized && formulas.length > 0 && factors.length === 0
    ? { stated: { factor: 1 }, reason: "the airflow's formula applies no factor" }
    : { stated: {}, reason: "" };
}
