import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  deleteRows,
  formulaCellsOf,
  insertRows,
  openWorkbook,
  readSheet,
  type Workbook,
} from "../../../src/xlsx/index.js";
import { zipParts } from "../plain-workbook.js";

/*
 * The model knows no numbers of rows: it holds rows as things with an identity, and a reference names those. What a
 * reference reads after a change is where its rows are then. No new formula is copied, since no two read alike.
 */

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const SHEETS = ["Plain", "Two words", "It's S1"] as const;
const ROWS = 30;
const RUNS = 25;
const EDITS = 8;

/** A row of a sheet, the same through all changes. */
type Row = { readonly id: number };

interface ModelReference {
  readonly sheet: number;
  readonly isOwn: boolean;
  readonly column: string;
  /** One row for a cell, and for a block all of its rows; what comes between them joins it. */
  readonly rows: Row[];
  readonly isBlock: boolean;
  readonly isWholeRows: boolean;
  readonly fixed: "" | "$";
}

interface ModelFormula {
  readonly sheet: number;
  readonly row: Row;
  readonly reference: ModelReference;
  readonly number: number;
}

interface Model {
  readonly rows: Row[][];
  readonly formulas: readonly ModelFormula[];
}

const quoted = (sheet: number) => (sheet === 0 ? "Plain!" : `'${(SHEETS[sheet] as string).replaceAll("'", "''")}'!`);

/** How a reference is spelled now, by where its rows stand; block ends come from the first and last that are left. */
function spelled({ rows }: Model, reference: ModelReference): string {
  const { sheet, isOwn, column, isBlock, isWholeRows, fixed } = reference;
  const before = isOwn ? "" : quoted(sheet);
  const left = reference.rows.map((row) => rows[sheet]?.indexOf(row) ?? -1).filter((index) => index >= 0);
  if (left.length === 0) return `${before}#REF!`;
  const corner = (index: number) => `${isWholeRows ? "" : column}${fixed}${index + 1}`;
  const [first, last] = [Math.min(...left), Math.max(...left)];
  return before + (isBlock ? `${corner(first)}:${corner(last)}` : corner(first));
}

function workbookOf(model: Model): Workbook {
  const sheets = SHEETS.map((_, sheet) => {
    const rows = (model.rows[sheet] as Row[]).map((row, index) => {
      const own = model.formulas.filter((one) => one.sheet === sheet && one.row === row);
      const cells = own.map(({ reference, number }, place) => {
        const column = String.fromCharCode(68 + place);
        return `<c r="${column}${index + 1}"><f>SUM(${spelled(model, reference)})+${number}.5</f><v>1</v></c>`;
      });
      return `<row r="${index + 1}"><c r="A${index + 1}"><v>${row.id}</v></c>${cells.join("")}</row>`;
    });
    return `<worksheet xmlns="${MAIN}"><sheetData>${rows.join("")}</sheetData></worksheet>`;
  });
  const override = (name: string, type: string) =>
    `<Override PartName="/xl/${name}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.${type}+xml"/>`;
  return openWorkbook(
    zipParts({
      "[Content_Types].xml": `<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>${override("workbook.xml", "sheet.main")}${SHEETS.map((_, index) => override(`worksheets/sheet${index + 1}.xml`, "worksheet")).join("")}</Types>`,
      "_rels/.rels": `<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
      "xl/workbook.xml": `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}"><sheets>${SHEETS.map((name, index) => `<sheet name="${name}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`).join("")}</sheets></workbook>`,
      "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${PACKAGE}/relationships">${SHEETS.map((_, index) => `<Relationship Id="rId${index + 1}" Type="${OFFICE}/worksheet" Target="worksheets/sheet${index + 1}.xml"/>`).join("")}</Relationships>`,
      ...Object.fromEntries(sheets.map((xml, index) => [`xl/worksheets/sheet${index + 1}.xml`, xml])),
    }),
    "random.xlsx",
  );
}

const row = fc.integer({ min: 0, max: ROWS - 1 });
const sheet = fc.integer({ min: 0, max: SHEETS.length - 1 });
const formula = fc.record({
  sheet,
  row,
  target: sheet,
  from: row,
  to: row,
  column: fc.constantFrom("A", "$B", "AA"),
  kind: fc.constantFrom("cell", "block", "rows"),
  fixed: fc.constantFrom("" as const, "$" as const),
});
const edit = fc.record({ sheet, row, count: fc.integer({ min: 1, max: 4 }), isInsert: fc.boolean() });

function modelOf(drawn: readonly (typeof formula extends fc.Arbitrary<infer Value> ? Value : never)[]): Model {
  let id = 1;
  const rows = SHEETS.map(() => Array.from({ length: ROWS }, () => ({ id: id++ })));
  const formulas = drawn.map((one, number): ModelFormula => {
    const target = rows[one.target] as Row[];
    const [first, last] = [Math.min(one.from, one.to), Math.max(one.from, one.to)];
    const isBlock = one.kind !== "cell";
    return {
      sheet: one.sheet,
      row: (rows[one.sheet] as Row[])[one.row] as Row,
      number: 100_000 + number,
      reference: {
        sheet: one.target,
        isOwn: one.target === one.sheet,
        column: one.column,
        rows: isBlock ? target.slice(first, last + 1) : [target[one.from] as Row],
        isBlock,
        isWholeRows: one.kind === "rows",
        fixed: one.fixed,
      },
    };
  });
  return { rows, formulas };
}

/** What each formula says, by its number. */
function said(workbook: Workbook): ReadonlyMap<number, string> {
  return new Map(
    SHEETS.flatMap((name) =>
      [...formulaCellsOf(readSheet(workbook, name))].map(({ address, formula: { text } }) => {
        const [, number = ""] = /\+(\d+)\.5$/.exec(text) ?? [];
        return [Number(number), `${name} ${address.replace(/[A-Z]+/, "")}: ${text}`] as const;
      }),
    ),
  );
}

function expected(model: Model): ReadonlyMap<number, string> {
  return new Map(
    model.formulas.flatMap(({ sheet: own, row: at, reference, number }) => {
      const index = model.rows[own]?.indexOf(at) ?? -1;
      if (index < 0) return [];
      return [[number, `${SHEETS[own]} ${index + 1}: SUM(${spelled(model, reference)})+${number}.5`] as const];
    }),
  );
}

const idsOf = (workbook: Workbook, name: string) => {
  const sheetCells = readSheet(workbook, name).cells;
  return [...sheetCells.columns].flatMap((column, index) =>
    column === 1 && index < sheetCells.cellCount && sheetCells.kinds[index] === 1 ? [sheetCells.numbers[index]] : [],
  );
};

describe(`${RUNS * EDITS} random changes of rows`, () => {
  it("leave every reference with the rows that it named, on every sheet", () => {
    let edits = 0;
    fc.assert(
      fc.property(
        fc.array(formula, { minLength: 10, maxLength: 40 }),
        fc.array(edit, { minLength: EDITS, maxLength: EDITS }),
        (drawn, changes) => {
          const model = modelOf(drawn);
          let workbook = workbookOf(model);
          expect(said(workbook)).toEqual(expected(model));
          for (const { sheet: at, row: place, count, isInsert } of changes) {
            const own = model.rows[at] as Row[];
            const first = Math.min(place, own.length - 1);
            const rows = { sheet: SHEETS[at] as string, row: first + 1, count };
            if (isInsert) {
              const added = Array.from({ length: count }, () => ({ id: -1 }));
              for (const { reference } of model.formulas) {
                const [above, below] = [own[first - 1], own[first]];
                const isInside =
                  reference.rows.some((one) => one === above) && reference.rows.some((one) => one === below);
                if (reference.sheet === at && isInside) reference.rows.push(...added);
              }
              own.splice(first, 0, ...added);
              workbook = insertRows(workbook, rows).workbook;
            } else if (own.length > count + 1) {
              own.splice(first, count);
              workbook = deleteRows(workbook, rows).workbook;
            }
            edits += 1;
            expect(said(workbook)).toEqual(expected(model));
            expect(idsOf(workbook, rows.sheet)).toEqual(own.map(({ id }) => id).filter((id) => id > 0));
          }
        },
      ),
      { numRuns: RUNS, seed: 20_240_131 },
    );
    expect(edits).toBeGreaterThanOrEqual(RUNS * EDITS);
  });
});
