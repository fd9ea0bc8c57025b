import { beforeAll, describe, expect, it } from "vitest";
import { type CellFunctionDeclaration, cellFunctions } from "../../../src/cells/index.js";
import { calculateXlsx } from "../../../src/engine/index.js";
import { handoffOf, TRANSLATIONS } from "../../../src/workbook/index.js";
import {
  columnLetters,
  openWorkbook,
  parseAddress,
  patchWorkbook,
  readSheet,
  valueAt,
  type Workbook,
} from "../../../src/xlsx/index.js";
import { recalculatedByGnumeric } from "../../support/gnumeric.js";
import { recalculated } from "../../support/libreoffice.js";
import { withoutResults } from "../../support/without-results.js";
import { USUAL_BLOCK_ROW, usualValue } from "./call-variants.js";
import { type FormulaCellContent, formulaWorkbook, type GivenTable } from "./formula-workbook.js";

/*
 * Every function that has a plain formula, called in each way in which a sheet may call it. The copy is opened in two
 * other programs with every stored result removed.
 */

const ROWS = 3;
const HEIGHT = ROWS + 2;
/** Where the calls stand, right of all inputs. */
const CALLS = 41;

interface Call {
  readonly form: string;
  readonly function: string;
  readonly at: string;
  /** Where our own calculation does not know the form, the cells of which the result must be the sum or the first. */
  readonly expects?: { readonly of: readonly string[]; readonly as: "sum" | "first" };
}

interface Sheet {
  readonly cells: Record<string, FormulaCellContent>;
  readonly names: Record<string, string>;
  readonly tables: GivenTable[];
  readonly calls: Call[];
}

interface Input {
  readonly name: string;
  readonly column: number;
  readonly width: number;
}

/** Parameters that the calls leave out: words, counts, and what contradicts another argument. */
const LEFT_OUT = new Set([
  "units",
  "edition",
  "taken",
  "takenBefore",
  "OPENING.FREE effectiveArea",
  // With a longer call in the longest of these forms the formula is longer than a cell holds, as docs/command-line.md
  // says; plain-formulas.test.ts tries the calls themselves.
  "CHANGE.VERDICT sweeps",
  "CHANGE.VERDICT repeatability",
  "CHANGE.VERDICT uncertainty",
  "CHANGE.VERDICT afterRepeatability",
  "CHANGE.VERDICT afterSweeps",
  "CHANGE.VERDICT resolution",
  "CHANGE.SWEEPS uncertainty",
  "CHANGE.SWEEPS resolution",
]);

/** Words that a function asks for. */
const WORDS: Readonly<Record<string, string>> = { "DESIGN.VENTILATIONFAN kind": "balanced" };

function inputsOf({ id, parameters }: CellFunctionDeclaration): readonly Input[] {
  const translation = TRANSLATIONS[id];
  const blocks = translation?.kind === "plain" ? translation.blocks : [];
  let column = 1;
  return parameters
    .filter(({ name }) => !LEFT_OUT.has(name) && !LEFT_OUT.has(`${id} ${name}`))
    .map(({ name }) => {
      const width = blocks.includes(name) ? USUAL_BLOCK_ROW.length : 1;
      const input = { name, column, width };
      column += width;
      return input;
    });
}

function addFunction(sheet: Sheet, declaration: CellFunctionDeclaration, index: number): void {
  const { cells, names, tables, calls } = sheet;
  const { id, parameters } = declaration;
  const head = 1 + index * HEIGHT;
  const [first, last] = [head + 1, head + ROWS];
  const inputs = inputsOf(declaration);
  const tableName = `Table_${index}`;
  const letters = (input: Input, offset = 0) => columnLetters(input.column + offset);
  const titles = inputs.flatMap((input) =>
    Array.from({ length: input.width }, (_, offset) =>
      input.width === 1 ? input.name : `${input.name} ${offset + 1}`,
    ),
  );
  titles.forEach((title, column) => {
    cells[`${columnLetters(column + 1)}${head}`] = title;
  });
  for (const input of inputs) {
    for (let row = 0; row < ROWS; row += 1) {
      for (let offset = 0; offset < input.width; offset += 1) {
        const at = `${letters(input, offset)}${first + row}`;
        cells[at] =
          input.width > 1
            ? (USUAL_BLOCK_ROW[offset] ?? 0) + 7 * row
            : (WORDS[`${id} ${input.name}`] ?? usualValue(input.name, row));
      }
    }
  }
  const rowOf = (input: Input, row: number, lastRow = row) => {
    const [from, to] = [`${letters(input)}${row}`, `${letters(input, input.width - 1)}${lastRow}`];
    return from === to ? from : `${from}:${to}`;
  };
  const callOf = (argument: (input: Input) => string) => {
    const texts = parameters.map(({ name }) => {
      const input = inputs.find((one) => one.name === name);
      return input === undefined ? "" : argument(input);
    });
    const given = texts.slice(0, texts.findLastIndex((text) => text !== "") + 1);
    return `_xldudf_VANE_${id.replaceAll(".", "_")}(${given.join(",")})`;
  };
  let column = CALLS;
  const put = (form: string, content: FormulaCellContent, height = 1, expects?: Call["expects"]) => {
    const letter = columnLetters(column);
    cells[`${letter}${first}`] = content;
    for (let row = 0; row < height; row += 1) {
      const call = { form, function: id, at: `${letter}${first + row}` };
      calls.push(expects === undefined ? call : { ...call, expects });
    }
    column += 1;
    return letter;
  };
  inputs.forEach((input) => {
    names[`In_${index}_${input.name}`] = `Sheet1!${rowOf(input, first)
      .split(":")
      .map((corner) => corner.replace(/([A-Z]+)(\d+)/, "$$$1$$$2"))
      .join(":")}`;
  });
  put("one row", { formula: callOf((input) => rowOf(input, first)) });
  put("brackets", { formula: callOf((input) => `(${rowOf(input, first)})`) });
  put("names", { formula: callOf((input) => `In_${index}_${input.name}`) });
  put("scattered", {
    formula: callOf((input) => {
      const one = (offset: number) => `${letters(input, offset)}${first}`;
      return input.width === 1 ? one(0) : `CHOOSE({1,2,3},${one(0)},${one(1)},${one(2)})`;
    }),
  });
  const tableColumn = columnLetters(titles.length + 1);
  const inTable = callOf((input) => {
    const [from, to] = [titles[input.column - 1], titles[input.column + input.width - 2]];
    const columns = from === to ? `[${from}]` : `[${from}]:[${to}]`;
    return `${tableName}[[#This Row],${columns}]`;
  });
  cells[`${tableColumn}${head}`] = "Result";
  for (let row = first; row <= last; row += 1) {
    cells[`${tableColumn}${row}`] = { formula: inTable };
    calls.push({ form: "table", function: id, at: `${tableColumn}${row}` });
  }
  tables.push({
    name: tableName,
    range: `A${head}:${tableColumn}${last}`,
    columns: [...titles.map((name) => ({ name })), { name: "Result", formula: inTable }],
  });
  if (inputs.every(({ width }) => width > 1)) return;
  // A function of blocks lays one value beside each of them; one of single values is called for each.
  const isLifted = ({ name, width }: Input) =>
    width === 1 &&
    (!declaration.returnsBlock || parameters.some((parameter) => parameter.name === name && parameter.isBlock));
  const whole = callOf((input) => (isLifted(input) ? rowOf(input, first, last) : rowOf(input, first)));
  const range = (letter: string) => `${letter}${first}:${letter}${last}`;
  const own = (letter: string) => Array.from({ length: ROWS }, (_, row) => `${letter}${first + row}`);
  put("array in one cell", { formula: `SUM(${whole})`, array: `${columnLetters(column)}${first}` });
  put("array over cells", { formula: whole, array: range(columnLetters(column)) }, ROWS);
  const spilled = put("spilled", { formula: whole, array: range(columnLetters(column)), isDynamic: true }, ROWS);
  put("#", { formula: `SUM(_xlfn.ANCHORARRAY(${spilled}${first}))` }, 1, { of: own(spilled), as: "sum" });
  put("@", { formula: `_xlfn.SINGLE(${whole})` }, 1, { of: own(spilled), as: "first" });
}

function everyForm(): Sheet {
  const sheet: Sheet = { cells: {}, names: {}, tables: [], calls: [] };
  const plain = cellFunctions.filter(({ id }) => TRANSLATIONS[id]?.kind === "plain");
  plain.forEach((declaration, index) => {
    addFunction(sheet, declaration, index);
  });
  return sheet;
}

type Shown = number | string | boolean;

function shownAt(workbook: Workbook, at: string): Shown {
  const sheet = readSheet(workbook, workbook.sheets[0]?.name ?? "");
  const { row, column } = parseAddress(at) ?? { row: 0, column: 0 };
  const value = valueAt(sheet, row, column) ?? "";
  return typeof value === "object" ? value.error : value;
}

function isNear(one: Shown, other: Shown): boolean {
  if (typeof one !== "number" || typeof other !== "number") return one === other;
  return Math.abs(one - other) <= 1e-12 * Math.max(Math.abs(one), Math.abs(other), 1e-9);
}

function expectedOf(own: Workbook, call: Call): Shown {
  const [first, ...others] = (call.expects?.of ?? [call.at]).map((at) => shownAt(own, at));
  if (call.expects?.as !== "sum") return first ?? "";
  const error = [first, ...others].find((value) => typeof value === "string" && value.startsWith("#"));
  if (error !== undefined) return error;
  return [first, ...others].reduce<number>((sum, value) => (typeof value === "number" ? sum + value : sum), 0);
}

describe("a call in a hand-off copy", () => {
  const { cells, names, tables, calls } = everyForm();
  const programs = new Map<string, Workbook>();
  let own: Workbook;

  beforeAll(async () => {
    const given = openWorkbook(formulaWorkbook(cells, names, tables), "forms.xlsx");
    own = openWorkbook(patchWorkbook(given, calculateXlsx(given).edits), "forms.xlsx");
    const copy = withoutResults(patchWorkbook(own, handoffOf(own).edits));
    const file = new Map([["forms", copy]]);
    const opened = (bytes: Uint8Array | undefined) => openWorkbook(bytes ?? new Uint8Array(), "forms.xlsx");
    programs.set("LibreOffice", opened((await recalculated(file)).get("forms")));
    programs.set("Gnumeric", opened((await recalculatedByGnumeric(file)).get("forms")));
  }, 180_000);

  it("has a plain formula in every form", () => {
    const { values } = handoffOf(own);
    expect(values.map(({ address, functions, reasons }) => `${address} ${functions} ${reasons}`)).toEqual([]);
  });

  it.each(["LibreOffice", "Gnumeric"])("gives in %s what the function gives, in every form", (program) => {
    const other = programs.get(program);
    const different = calls.flatMap((call) => {
      const [one, shown] = [expectedOf(own, call), other === undefined ? "" : shownAt(other, call.at)];
      return isNear(one, shown) ? [] : [`${call.function} ${call.form} ${call.at}: ${one}, in the copy ${shown}`];
    });
    expect(different).toEqual([]);
    expect(calls.filter((call) => typeof expectedOf(own, call) === "number").length).toBeGreaterThan(300);
  });
});
