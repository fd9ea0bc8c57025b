import type { CellPlan, SheetPlan, ValidationPlan } from "./sheet-plan.js";
import { type FormatName, PALETTE, type StyleName } from "./style.js";

/** A cell with a content of its own. */
export function cell(
  at: string,
  content: number | string | null,
  style: StyleName,
  format: FormatName = "general",
): CellPlan {
  return { at, content, style, format, spills: false };
}

/** What a new sheet starts from; a builder replaces what differs. */
export const EMPTY_SHEET: Omit<SheetPlan, "name" | "role" | "print"> = {
  tabColor: PALETTE.header,
  columnWidths: [],
  rowHeights: {},
  cells: [],
  rows: null,
  merges: [],
  frozen: { rows: 0, columns: 0 },
  tables: [],
  validations: [],
  conditionalFormats: [],
  charts: [],
};

/** A sheet's name as a formula spells it before the exclamation mark. */
export function quotedSheet(name: string): string {
  return /^[A-Za-z_][A-Za-z0-9_]*$/.test(name) ? name : `'${name.replaceAll("'", "''")}'`;
}

/** What a person is told about an input, apart from where it stands. */
export type InputRule = Omit<ValidationPlan, "range">;

const STOP = "stop" as const;

/** An input that holds a number between two bounds, null where nothing bounds it. */
export function numberInput(title: string, message: string, minimum: number | null, maximum: number | null): InputRule {
  return {
    rule: { kind: "number", minimum, maximum },
    input: { title, message },
    error: {
      title,
      message: `${numberWanted(minimum, maximum)} Leave the cell empty where nothing is known.`,
      severity: STOP,
    },
  };
}

function numberWanted(minimum: number | null, maximum: number | null): string {
  if (minimum !== null && maximum !== null) return `Enter a number from ${minimum} to ${maximum}.`;
  if (minimum !== null) return `Enter a number, ${minimum} or more.`;
  return maximum === null ? "Enter a number, without its unit." : `Enter a number, ${maximum} or less.`;
}

const SIZES = { least: 0.5, most: 5000 } as const;

/** An input for a width, a height or a diameter: the number that is written on a grille, in the unit of its column. */
export function sizeInput(title: string, message: string): InputRule {
  const { rule, input } = numberInput(title, message, SIZES.least, SIZES.most);
  return {
    rule,
    input,
    error: {
      title,
      message: `Enter one number in the unit above, ${SIZES.least} to ${SIZES.most}: 12.5 for 12 1/2, 14 for 1' 2". For 14x6 enter 14 as the width and 6 as the height. Leave the cell empty where nothing is known.`,
      severity: STOP,
    },
  };
}

export function wholeInput(title: string, message: string, minimum: number, maximum: number): InputRule {
  return {
    rule: { kind: "whole number", minimum, maximum },
    input: { title, message },
    error: { title, message: `Enter a whole number from ${minimum} to ${maximum}.`, severity: STOP },
  };
}

export function textInput(title: string, message: string, longest = 80): InputRule {
  return {
    rule: { kind: "text", longest },
    input: { title, message },
    error: { title, message: `Enter at most ${longest} characters.`, severity: STOP },
  };
}

export function listInput(title: string, message: string, values: readonly string[]): InputRule {
  return {
    rule: { kind: "list", values },
    input: { title, message },
    error: { title, message: `Choose one of: ${values.join(", ")}.`, severity: STOP },
  };
}

/** An input that offers what stands elsewhere and lets other text pass after a word of advice. */
export function offeredInput(title: string, message: string, range: string, elsewhere: string): InputRule {
  return {
    rule: { kind: "list from", range },
    input: { title, message },
    error: {
      title,
      message: `This name is not on the sheet ${elsewhere} yet. Totals need the same spelling there.`,
      severity: "advise",
    },
  };
}

export function dateInput(title: string, message: string): InputRule {
  return {
    rule: { kind: "date" },
    input: { title, message },
    error: { title, message: "Enter a date, for example 2026-03-31.", severity: STOP },
  };
}
