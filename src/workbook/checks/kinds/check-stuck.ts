import { cellFunctions, storedName, typedName } from "../../../cells/index.js";
import { scanFormula } from "../../../xlsx/index.js";
import { formulaTrouble } from "../../repair/index.js";
import { callsVane, type PlacedFormula, type WorkbookIndex } from "../formulas/workbook-index.js";
import { coveringRanges, type Draft, grouped, spelled } from "../support/draft.js";

const TYPED_NAMES = new Set(cellFunctions.map((declaration) => typedName(declaration).toUpperCase()));
const STORED_NAMES = new Set(cellFunctions.map((declaration) => storedName(declaration).toUpperCase()));
const OUR_NAME = /^(?:_xldudf_VANE_|VANE\.)/i;
const UNREAD = "#NAME?";

type Trouble = { readonly kind: "stuck" | "typed" } | { readonly kind: "unknown"; readonly functionName: string };

/** What is wrong with a formula as a file stores it: a call spelled as typed is not read by Excel as one of ours. */
function storedTrouble(formula: string, shownError: string | null): Trouble | null {
  const names = scanFormula(formula).flatMap(({ kind, text }) =>
    kind === "name" && OUR_NAME.test(text) ? [text] : [],
  );
  const unknown = names.find((name) => !TYPED_NAMES.has(name.toUpperCase()) && !STORED_NAMES.has(name.toUpperCase()));
  if (unknown !== undefined) return { kind: "unknown", functionName: unknown };
  const isTyped = names.some((name) => TYPED_NAMES.has(name.toUpperCase()));
  if (isTyped) return { kind: "typed" };
  return names.length > 0 && shownError === UNREAD ? { kind: "stuck" } : null;
}

/** The error of a cell; #NAME? with a message is a name that is not defined, and no call that nobody could read. */
function shownError(index: WorkbookIndex, { sheet, row, column }: PlacedFormula): string | null {
  const value = index.valueAt(sheet, row, column);
  if (typeof value !== "object" || value === null) return null;
  return value.error === UNREAD && value.message !== "" ? null : value.error;
}

/** Formulas that wait for the add-in, and calls of functions that this version does not have. */
export function checkStuck(index: WorkbookIndex): readonly Draft[] {
  const known = new Map<string, Trouble | null>();
  const troubleOf = (formula: PlacedFormula): Trouble | null => {
    const error = shownError(index, formula);
    const key = `${error}|${formula.form}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const trouble =
      index.workbook.spelling === "stored"
        ? storedTrouble(formula.text, error)
        : formulaTrouble(`=${formula.text}`, error);
    known.set(key, trouble);
    return trouble;
  };
  const stuck: PlacedFormula[] = [];
  const typed: PlacedFormula[] = [];
  const unknown: Draft[] = [];
  for (const formula of index.formulas) {
    const trouble = callsVane(formula) ? troubleOf(formula) : null;
    if (trouble?.kind === "stuck") stuck.push(formula);
    if (trouble?.kind === "typed") typed.push(formula);
    if (trouble?.kind === "unknown") {
      unknown.push({
        kind: "stuck-formula",
        severity: "error",
        sheet: formula.sheet,
        range: { firstRow: formula.row, firstColumn: formula.column, lastRow: formula.row, lastColumn: formula.column },
        problem: `The formula asks for ${readableName(trouble.functionName)}, a function that this version does not have.`,
        action: "Correct the function's name, or update Vanesheet.",
        explains: [formula],
      });
    }
  }
  return [...waiting(stuck, NOT_READ), ...waiting(typed, SPELLED_AS_TYPED), ...unknown];
}

interface WaitingWords {
  readonly one: string;
  readonly several: string;
  readonly action: string;
}

const NOT_READ: WaitingWords = {
  one: "waits for the add-in: entered or saved without it, a formula shows #NAME? until it is entered again.",
  several: "wait for the add-in: entered or saved without it, a formula shows #NAME? until it is entered again.",
  action: "Open the workbook with the add-in and let the pane repair the formulas, or select each, press F2 and Enter.",
};

const SPELLED_AS_TYPED: WaitingWords = {
  one: "is stored as it was typed, which Excel shows as #NAME? even with the add-in.",
  several: "are stored as they were typed, which Excel shows as #NAME? even with the add-in.",
  action: "Run vanesheet calc on the file, which stores them as Excel does, or let the pane repair them in Excel.",
};

function waiting(formulas: readonly PlacedFormula[], words: WaitingWords): readonly Draft[] {
  return [...grouped(formulas, ({ sheet }) => sheet)].flatMap(([sheet, onSheet]) =>
    coveringRanges(onSheet).map((range): Draft => {
      const isSeveral = range.lastRow > range.firstRow || range.lastColumn > range.firstColumn;
      return {
        kind: "stuck-formula",
        severity: "error",
        sheet,
        range,
        explains: onSheet,
        problem: `${spelled(range)} ${isSeveral ? words.several : words.one}`,
        action: words.action,
      };
    }),
  );
}

function readableName(name: string): string {
  return name.replace(/^_xldudf_VANE_/i, "VANE.");
}
