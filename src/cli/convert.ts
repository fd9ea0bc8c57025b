import { FUNCTION_SPELLINGS } from "../cells/index.js";
import type { WorkbookFile } from "../hosts/file/index.js";
import {
  type Conversion,
  type ConversionChoice,
  conversionsOf,
  findLists,
  jobOf,
  type NotConverted,
  plainFormulasOf,
  readList,
} from "../workbook/index.js";
import {
  cellAtPosition,
  columnNumber,
  type FormulaEdit,
  formatAddress,
  parseAddress,
  readSheet,
  storedFormula,
  valueAt,
} from "../xlsx/index.js";
import { type Arguments, type Command, EXIT, onePositional, textOption, UsageError } from "./command.js";
import { OUTPUT_OPTIONS, type OutputFile, openToChange, saveChanged, workbookOutput } from "./output-file.js";
import { onOneLine } from "./shown-controls.js";
import { counted } from "./workbook-report.js";

/** What is to be changed, and what stays. */
interface Planned {
  readonly edits: readonly FormulaEdit[];
  readonly conversions: readonly Conversion[];
  /** Of the way back: cells whose function becomes a plain formula. */
  readonly back: readonly { readonly sheet: string; readonly address: string; readonly formula: string }[];
  readonly left: readonly NotConverted[];
}

function rowsOf(args: Arguments): ConversionChoice["rows"] {
  const given = textOption(args, "rows");
  if (given === null) return null;
  const [, first, last = first] = /^(\d+)(?::(\d+))?$/.exec(given.trim()) ?? [];
  if (first === undefined || Number(first) < 1 || Number(last) < Number(first)) {
    throw new UsageError(`--rows takes rows such as 7 or 7:46, not “${given}”.`);
  }
  return [Number(first), Number(last)];
}

function columnOf(args: Arguments, name: "column" | "beside"): string | null {
  const given = textOption(args, name);
  if (given === null) return null;
  if (/^[A-Za-z]{1,3}$/.test(given) && columnNumber(given) <= 16_384) return given.toUpperCase();
  throw new UsageError(`--${name} takes the letters of a column, such as N, not “${given}”.`);
}

/** Where new formulas go: over the old ones, or into an empty column beside them. */
function editsFor(
  file: WorkbookFile,
  conversions: readonly Conversion[],
  beside: string | null,
): readonly FormulaEdit[] {
  return conversions.map(({ sheet, row, column, newFormula }) => {
    const at = beside === null ? column : columnNumber(beside);
    const address = formatAddress(row, at);
    const cells = readSheet(file.workbook, sheet);
    const isFree = valueAt(cells, row, at) === null && cellAtPosition(cells, row, at)?.formula === undefined;
    if (beside !== null && !isFree) {
      throw new UsageError(`${sheet}!${address} is in use. --beside takes a column that is empty in these rows.`);
    }
    const formula = storedFormula(newFormula.slice(1), FUNCTION_SPELLINGS);
    return { kind: "formula", sheet, address, formula, result: null, form: "dynamic" };
  });
}

async function planned(args: Arguments, file: WorkbookFile): Promise<Planned> {
  const { calculatedSource } = await import("../engine/calculation.js");
  const source = calculatedSource(file.workbook);
  const choice = { sheet: textOption(args, "sheet"), rows: rowsOf(args), column: columnOf(args, "column") };
  if (choice.sheet !== null && !source.sheets.some(({ name }) => name.toLowerCase() === choice.sheet?.toLowerCase())) {
    throw new UsageError(
      `There is no sheet “${choice.sheet}”, only ${source.sheets.map(({ name }) => `“${name}”`).join(", ")}.`,
    );
  }
  const beside = columnOf(args, "beside");
  const lists = findLists(source).value;
  if (args.options["back"] === true) {
    if (beside !== null) throw new UsageError("--back takes the place of the functions, so it takes no --beside.");
    return wayBack(file, choice);
  }
  if (lists.length === 0) {
    throw new UsageError(
      "No list of outlets is known in it. Say what its columns hold first: vanesheet columns FILE --keep.",
    );
  }
  const units = jobOf(source)?.statedUnits ?? null;
  const { value, left } = conversionsOf(
    lists.flatMap((list) => readList(list, units).outlets),
    choice,
  );
  return { edits: editsFor(file, value, beside), conversions: value, back: [], left };
}

/** The hand-off's plain formulas for the cells that are chosen. */
function wayBack(file: WorkbookFile, { sheet, rows, column }: ConversionChoice): Planned {
  const handoff = plainFormulasOf(file.workbook);
  const isChosen = (one: { readonly sheet: string; readonly address: string }) => {
    const at = parseAddress(one.address);
    return (
      at !== undefined &&
      (sheet === null || one.sheet.toLowerCase() === sheet.toLowerCase()) &&
      (rows === null || (at.row >= rows[0] && at.row <= rows[1])) &&
      (column === null || at.column === columnNumber(column))
    );
  };
  const values = new Set(handoff.values.map((one) => `${one.sheet}!${one.address}`));
  const edits = handoff.edits.filter(
    (edit): edit is FormulaEdit =>
      edit.kind === "formula" && isChosen(edit) && !values.has(`${edit.sheet}!${edit.address}`),
  );
  return {
    edits,
    conversions: [],
    back: edits.map((edit) => ({ sheet: edit.sheet, address: edit.address, formula: `=${edit.formula}` })),
    left: handoff.values
      .filter(isChosen)
      .map((one) => ({ sheet: one.sheet, address: one.address, outlet: "", reason: one.reasons.join(" ") })),
  };
}

const shown = (value: number | null) => (value === null ? "nothing yet" : String(Number(value.toPrecision(6))));

/** Below this two values are the same but for rounding of the last digits. */
const SAME_RATIO = 1e-9;

function print(path: string, { conversions, back, left }: Planned, saved: string | null): void {
  const count = conversions.length + back.length;
  console.log(
    `${path}: ${counted(count, "formula")} ${back.length > 0 ? "to be plain again" : "to call a VANE function"}.`,
  );
  for (const { sheet, address, outlet, oldFormula, newFormula, oldValue, newValue, cause } of conversions) {
    console.log("");
    console.log(onOneLine(`${sheet}!${address}  ${outlet}`));
    console.log(onOneLine(`  now  ${oldFormula}`));
    console.log(onOneLine(`  new  ${newFormula}`));
    const isSame =
      oldValue !== null && newValue !== null && Math.abs(newValue - oldValue) <= SAME_RATIO * Math.abs(newValue);
    const why = cause === null ? "" : ` ${cause.problem}`;
    console.log(onOneLine(`  ${shown(oldValue)} now, ${isSame ? "the same" : `${shown(newValue)} then.${why}`}`));
  }
  for (const { sheet, address, formula } of back) console.log(onOneLine(`  ${sheet}!${address}  ${formula}`));
  if (left.length > 0) console.log(`\n${counted(left.length, "cell")} stay as they are:`);
  for (const { sheet, address, outlet, reason } of left)
    console.log(onOneLine(`  ${sheet}!${address}  ${outlet}  ${reason}`));
  if (saved !== null) console.log(`\nSaved ${saved}.`);
  else
    console.log(`\nNothing was written.${count === 0 ? "" : " Add --apply to change the formulas that are listed."}`);
}

async function save(file: WorkbookFile, { edits }: Planned, output: OutputFile | undefined): Promise<string> {
  const { patchAndCalculate } = await import("../engine/calculation.js");
  const { bytes } = patchAndCalculate(file.workbook, edits);
  const { path } = await saveChanged(file, bytes, output);
  return output === undefined ? path : output.path;
}

export const convertCommand: Command = {
  usage: "FILE [--sheet NAME] [--column N] [--rows 7:46] [--beside P] [--apply [-o OUT]] [--back] [--json]",
  help: [
    "Turns plain formulas of airflows into VANE formulas, in lists whose columns are known (vanesheet columns), and",
    "back. Without --apply it changes nothing: it lists the formula now and then, the value now and then, and why they",
    "differ. A typed value is never replaced.",
    "",
    "  --sheet, --column, --rows   choose; otherwise every airflow that can be converted",
    "  --beside P    writes into column P instead, which has to be empty, and keeps the old formulas",
    "  --apply       changes what is listed, and saves it in place, or with -o OUT as a copy",
    "  --back        VANE formulas of the cells chosen become plain ones, as in a hand-off copy",
    "  --json        prints the same as data",
    "",
    "Ends with status 1 when there is nothing to convert or the file is refused.",
  ],
  options: {
    ...OUTPUT_OPTIONS,
    sheet: { type: "string" },
    column: { type: "string" },
    rows: { type: "string" },
    beside: { type: "string" },
    apply: { type: "boolean" },
    back: { type: "boolean" },
    json: { type: "boolean" },
  },
  async run(args) {
    const path = onePositional(args, "FILE");
    const output = workbookOutput(args, path);
    const applies = args.options["apply"] === true;
    if (output !== undefined && !applies) throw new UsageError("-o OUT goes with --apply.");
    const file = await openToChange(path, output);
    const plan = await planned(args, file);
    const saved = applies && plan.edits.length > 0 ? await save(file, plan, output) : null;
    if (args.options["json"] === true) {
      const { conversions, back, left } = plan;
      console.log(JSON.stringify({ file: path, saved, conversions, back, left }));
    } else print(path, plan, saved);
    return plan.edits.length === 0 ? EXIT.found : EXIT.done;
  },
};
