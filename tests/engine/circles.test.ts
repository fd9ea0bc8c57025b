import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { createModel, patchAndCalculate, workbookData } from "../../src/engine/index.js";
import { cellAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { plainWorkbook } from "../xlsx/plain-workbook.js";

/* The page's library calculates a formula within those that read it; a file's formulas are settled one after the other. */

type Content = number | { readonly text: string; readonly reads: readonly string[] };
type Contents = Readonly<Record<string, Content>>;

const COLUMNS = "ABC";
const ROWS = 5;
const ADDRESSES = [...COLUMNS].flatMap((column) => Array.from({ length: ROWS }, (_, row) => `${column}${row + 1}`));

function cellsIn(block: string): readonly string[] {
  const [from = "", to = from] = block.split(":");
  const within = (value: string, least: string, most: string) => value >= least && value <= most;
  return ADDRESSES.filter(
    (address) =>
      within(address[0] ?? "", from[0] ?? "", to[0] ?? "") && within(address.slice(1), from.slice(1), to.slice(1)),
  );
}

const cell = fc.constantFrom(...ADDRESSES);
const block = fc.tuple(cell, cell).map(([one, other]) => {
  const [left, right] = [one[0] ?? "", other[0] ?? ""].sort();
  const [top, bottom] = [one.slice(1), other.slice(1)].sort();
  return `${left}${top}:${right}${bottom}`;
});
const reading = (text: string, ...blocks: readonly string[]): Content => ({ text, reads: blocks.flatMap(cellsIn) });
const content: fc.Arbitrary<Content> = fc.oneof(
  fc.integer({ min: 0, max: 9 }),
  cell.map((one) => reading(`${one}+1`, one)),
  block.map((one) => reading(`COUNT(${one})`, one)),
  block.map((one) => reading(`SUM(${one})`, one)),
  block.map((one) => reading(`COUNTIF(${one},3)`, one)),
  block.map((one) => reading(`IFERROR(AVERAGE(${one}),4)`, one)),
  cell.map((one) => reading(`IF(ISERROR(${one}),5,6)`, one)),
  fc.tuple(cell, block).map(([one, other]) => reading(`${one}+COUNT(${other})`, one, other)),
  // These ask where a block lies, and read nothing of it.
  block.map((one) => reading(`ROWS(${one})+COLUMNS(${one})`)),
  fc.tuple(cell, cell).map(([one, other]) => reading(`ROW(${one})+COLUMN( ${one} )+${other}`, other)),
);
const contents: fc.Arbitrary<Contents> = fc.dictionary(cell, content, { minKeys: 1, maxKeys: ADDRESSES.length });

/** The cells that a cell depends on, whatever lies between. */
function dependsOn(from: string, all: Contents): ReadonlySet<string> {
  const found = new Set<string>();
  const waiting = [from];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    const held = all[at];
    for (const read of typeof held === "object" ? held.reads : []) {
      if (found.has(read)) continue;
      found.add(read);
      waiting.push(read);
    }
  }
  return found;
}

function workbookOf(all: Readonly<Record<string, number | { readonly text: string }>>) {
  const rows = new Map<number, string>();
  for (const [address, held] of Object.entries(all).toSorted(([a], [b]) => (a < b ? -1 : 1))) {
    const row = Number(address.slice(1));
    const inside = typeof held === "number" ? `<v>${held}</v>` : `<f>${held.text}</f>`;
    rows.set(row, `${rows.get(row) ?? ""}<c r="${address}">${inside}</c>`);
  }
  const inOrder = [...rows].toSorted(([a], [b]) => a - b);
  return openWorkbook(
    plainWorkbook(inOrder.map(([row, cells]) => `<row r="${row}">${cells}</row>`).join("")),
    "in.xlsx",
  );
}

function pageOf(workbook: ReturnType<typeof openWorkbook>) {
  const model = createModel(workbookData(workbook).data);
  const sheetId = model.getters.getActiveSheetId();
  return {
    model,
    sheetId,
    shownAt: (address: string) => {
      const [col, row] = [COLUMNS.indexOf(address[0] ?? ""), Number(address.slice(1)) - 1];
      return model.getters.getEvaluatedCell({ sheetId, col, row }).value;
    },
  };
}

function fileOf(workbook: ReturnType<typeof openWorkbook>) {
  const { bytes, calculation } = patchAndCalculate(workbook, []);
  const sheet = readSheet(openWorkbook(bytes, "in.xlsx"), workbook.sheets[0]?.name ?? "");
  return { kept: calculation.kept, valueAt: (address: string) => cellAt(sheet, address)?.value ?? null };
}

describe("formulas that depend on themselves", () => {
  it("show it on the page, all of them and no others, which show what a file holds", () => {
    let [circular, sound] = [0, 0];
    fc.assert(
      fc.property(contents, (all) => {
        const workbook = workbookOf(all);
        const [page, file] = [pageOf(workbook), fileOf(workbook)];
        const isCircular = (address: string) => dependsOn(address, all).has(address);
        for (const [address, held] of Object.entries(all)) {
          if (typeof held === "number") continue;
          if (isCircular(address)) {
            circular += 1;
            expect([address, page.shownAt(address)]).toEqual([address, "#CYCLE"]);
            expect(file.kept.map((one) => one.address)).toContain(address);
          } else if (![...dependsOn(address, all)].some(isCircular)) {
            sound += 1;
            expect([address, page.shownAt(address)]).toEqual([address, file.valueAt(address)]);
          }
        }
      }),
      { numRuns: 80, seed: 5 },
    );
    expect(Math.min(circular, sound)).toBeGreaterThan(60);
  }, 120_000);

  it("are told whichever of them is entered last, and calculated again once the circle is gone", () => {
    const { model, sheetId, shownAt } = pageOf(workbookOf({ A1: 3, B1: reading("COUNT(C1:C5)"), C1: 1 }));
    const typed = (col: number, row: number, text: string) =>
      model.dispatch("UPDATE_CELL", { sheetId, col, row, content: text });
    expect(shownAt("B1")).toBe(1);
    typed(2, 1, "=COUNT(B1:B5)+COUNT(A1:A5)");
    expect([shownAt("B1"), shownAt("C2")]).toEqual(["#CYCLE", "#CYCLE"]);
    typed(2, 1, "=COUNT(A1:A5)");
    expect([shownAt("B1"), shownAt("C2")]).toEqual([2, 1]);
  });

  it("are told where thousands of them read the block in which they stand", () => {
    const rows = 1500;
    const searches = Object.fromEntries(
      Array.from({ length: rows }, (_, row) => [`B${row + 1}`, { text: `VLOOKUP(${row},A:C,3,FALSE)` }]),
    );
    const { shownAt } = pageOf(workbookOf(searches));
    for (let row = 1; row <= rows; row += 1) expect(shownAt(`B${row}`)).toBe("#CYCLE");
  });

  it("are told in a circle that is longer than what is calculated at once", () => {
    const rows = 450;
    const round = Object.fromEntries(
      Array.from({ length: rows }, (_, row) => [`B${row + 1}`, { text: `COUNT(B${((row + 1) % rows) + 1})` }]),
    );
    const { shownAt } = pageOf(workbookOf({ ...round, A1: { text: "COUNT(B7)" } }));
    for (let row = 1; row <= rows; row += 1) expect(shownAt(`B${row}`)).toBe("#CYCLE");
    expect(shownAt("A1")).toBe(0);
  });
});

describe("a formula that reads the one below it, down many rows", () => {
  const rows = 2500;
  it.each(["plainly", "in a block"])("has its result on the page: %s", (how) => {
    const text = (row: number) => (how === "plainly" ? `B${row + 1}+1` : `SUM(B${row + 1}:C${row + 1})+1`);
    const chain = Object.fromEntries(
      Array.from({ length: rows }, (_, row) => [`B${row + 1}`, { text: text(row + 1) }]),
    );
    const { model, sheetId, shownAt } = pageOf(workbookOf(chain));
    expect([shownAt("B1"), shownAt("B1250"), shownAt("B2500")]).toEqual([2500, 1251, 1]);
    model.dispatch("UPDATE_CELL", { sheetId, col: 1, row: rows, content: "10" });
    expect([shownAt("B1"), shownAt("B1250"), shownAt("B2500")]).toEqual([2510, 1261, 11]);
  });
});
