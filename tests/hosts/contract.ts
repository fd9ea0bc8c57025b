import { afterEach, describe, expect, it } from "vitest";
import { type BlockAddress, HostError, hostSource, mappingsIn, type WorkbookHost } from "../../src/workbook/index.js";
import { formatRange } from "../../src/xlsx/index.js";

/** What stands in a cell before a test; a text that begins with "=" is a formula. */
export type GivenCell = number | string | boolean;

export interface GivenSheet {
  readonly name: string;
  readonly cells: Readonly<Record<string, GivenCell>>;
  /** Rows that a person hid, counted from 1. */
  readonly hiddenRows?: readonly number[];
  /** Blocks that are merged into one cell. */
  readonly mergedRanges?: readonly string[];
}

export interface GivenWorkbook {
  readonly sheets: readonly GivenSheet[];
  readonly names: Readonly<Record<string, string>>;
}

export interface OpenedHost {
  readonly host: WorkbookHost;
  close(): Promise<void>;
}

/** A small balance sheet: one outlet measured, one blank, one typed wrong. */
const WORKBOOK: GivenWorkbook = {
  sheets: [
    {
      name: "Outlets",
      cells: {
        A1: "Outlet",
        B1: "Velocity",
        C1: "Free area",
        D1: "Airflow",
        A2: "R-1",
        B2: 400,
        C2: 2.5,
        D2: "=VANE.AIRFLOW(B2,C2,COUNT(B2))",
        A3: "R-2",
        C3: 2.5,
        D3: "=VANE.AIRFLOW(B3,C3,COUNT(B3))",
        A4: "R-3",
        B4: "door shut",
        C4: 2.5,
        D4: "=VANE.AIRFLOW(B4,C4,COUNT(B4))",
        D5: "=SUM(D2:D3)",
        E2: true,
      },
    },
    { name: "Floor '1' east", cells: { B3: 0.75 } },
    { name: "Notes", cells: {}, hiddenRows: [2] },
  ],
  names: { FreeRatio: "'Floor ''1'' east'!$B$3" },
};

const LAID_OUT: GivenWorkbook = {
  sheets: [
    {
      name: "Floor 1, 'old' part",
      cells: { A1: "Outlet", B1: "Room", A2: "S1", B2: "Hall", A3: "S2", A4: "S3", A5: "S4" },
      hiddenRows: [3, 4],
      mergedRanges: ["B2:B4"],
    },
    { name: "Floor 2", cells: { A1: "Outlet", A2: "S5" } },
  ],
  names: {},
};

const at = (range: string, sheet = "Outlets"): BlockAddress => ({ sheet, range });

/** What every host does alike; each host runs it over a workbook that it opens itself. */
export function describeHostContract(title: string, open: (workbook: GivenWorkbook) => Promise<OpenedHost>): void {
  let opened: OpenedHost;

  const openHost = async () => {
    opened = await open(WORKBOOK);
    return opened.host;
  };

  const read = async (host: WorkbookHost, range: string, sheet?: string) => {
    const [block] = await host.read([at(range, sheet)]);
    if (block === undefined) throw new Error("nothing was read");
    return block;
  };

  const refusal = async (attempt: Promise<unknown>): Promise<HostError> => {
    const thrown = await attempt.then(
      () => null,
      (reason: unknown) => reason,
    );
    expect(thrown).toBeInstanceOf(HostError);
    return thrown as HostError;
  };

  describe(`${title} keeps the contract of hosts`, () => {
    afterEach(async () => {
      await opened.close();
    });

    it("lists the sheets in order, with the part that is used", async () => {
      const host = await openHost();
      expect(await host.sheets()).toEqual([
        { name: "Outlets", usedRange: "A1:E5", isProtected: false },
        { name: "Floor '1' east", usedRange: "B3", isProtected: false },
        { name: "Notes", usedRange: null, isProtected: false },
      ]);
    });

    it("reads numbers, text, truth values and blanks as what they are", async () => {
      const host = await openHost();
      const { values } = await read(host, "A2:E3");
      expect(values[0]).toEqual(["R-1", 400, 2.5, 1000, true]);
      expect(values[1]).toEqual(["R-2", null, 2.5, "", null]);
    });

    it("reads a formula as a person types it, and null where there is none", async () => {
      const host = await openHost();
      const { formulas } = await read(host, "C2:D2");
      expect(formulas).toEqual([[null, "=VANE.AIRFLOW(B2,C2,COUNT(B2))"]]);
    });

    it("reads an error with its code and a message", async () => {
      const host = await openHost();
      const { values } = await read(host, "D4");
      expect(values[0]?.[0]).toMatchObject({ error: "#VALUE!", message: expect.stringMatching(/\w+/) });
    });

    it("reads several blocks of several sheets in the order asked", async () => {
      const host = await openHost();
      const blocks = await host.read([at("B3", "Floor '1' east"), at("C2"), at("B2"), at("A9", "Notes")]);
      expect(blocks.map(({ values }) => values[0]?.[0])).toEqual([0.75, 2.5, 400, null]);
    });

    it("shows which cells are merged and which rows are out of sight", async () => {
      opened = await open(LAID_OUT);
      const { sheets } = await hostSource(opened.host);
      const [laidOut, plain] = sheets;
      expect(laidOut?.mergedRanges.map(formatRange)).toEqual(["B2:B4"]);
      const rows = [1, 2, 3, 4, 5];
      expect(rows.filter((row) => laidOut?.isRowHidden(row))).toEqual([3, 4]);
      expect([plain?.mergedRanges, rows.filter((row) => plain?.isRowHidden(row))]).toEqual([[], []]);
    });

    it("tells what the defined names refer to", async () => {
      const host = await openHost();
      expect((await host.names()).get("FreeRatio")).toBe("'Floor ''1'' east'!$B$3");
    });

    it("writes numbers, text and truth values, and formulas see them", async () => {
      const host = await openHost();
      await host.write([
        { address: at("B3"), cells: [[600]] },
        { address: at("A9:B9", "Notes"), cells: [["as found", false]] },
      ]);
      expect((await read(host, "B3:D3")).values).toEqual([[600, 2.5, 1500]]);
      expect((await read(host, "D5")).values).toEqual([[2500]]);
      expect((await read(host, "A9:B9", "Notes")).values).toEqual([["as found", false]]);
    });

    it("keeps text that looks like a number, a date or a formula as text", async () => {
      const host = await openHost();
      const cells = [["0012"], ["1/2"], ["TRUE"], ["-"], ["+5"]];
      await host.write([{ address: at("A1:A5", "Notes"), cells }]);
      expect((await read(host, "A1:A5", "Notes")).values).toEqual(cells);
    });

    it("leaves other subtotals out of a subtotal, and hidden rows out of one that is to leave them out", async () => {
      const host = await openHost();
      const calls = [
        "SUBTOTAL(9,A1:A2)",
        "SUBTOTAL(109,A1:A3)",
        "SUBTOTAL(9,A1:A4)+0",
        "SUBTOTAL(1,A1:A5)",
        "SUBTOTAL(12,A1)",
      ];
      const cells = [[1], [2], ...calls.map((call) => [`=${call}`])];
      await host.write([{ address: at("A1:A7", "Notes"), cells }]);
      const { values } = await read(host, "A1:A7", "Notes");
      expect(values.slice(0, 6)).toEqual([[1], [2], [3], [1], [3], [1.5]]);
      expect(values[6]?.[0]).toMatchObject({ error: "#VALUE!" });
    });

    it("writes a formula and empties a cell", async () => {
      const host = await openHost();
      await host.write([
        { address: at("A1:A2", "Notes"), cells: [["=VANE.AIRFLOW(500,2)"], [7]] },
        { address: at("C2"), cells: [[null]] },
      ]);
      expect((await read(host, "A1", "Notes")).values).toEqual([[1000]]);
      const { values, formulas } = await read(host, "C2:D2");
      expect(values[0]?.[0]).toBeNull();
      expect(values[0]?.[1]).toMatchObject({ error: "#N/A" });
      expect(formulas).toEqual([[null, "=VANE.AIRFLOW(B2,C2,COUNT(B2))"]]);
    });

    it("never writes a value over a formula, and then writes nothing at all", async () => {
      const host = await openHost();
      const { message } = await refusal(
        host.write([
          { address: at("B2"), cells: [[999]] },
          { address: at("C2:D2"), cells: [[1, 2]] },
        ]),
      );
      expect(message).toContain("D2");
      expect((await read(host, "B2:D2")).values).toEqual([[400, 2.5, 1000]]);
    });

    it("replaces a formula by a formula", async () => {
      const host = await openHost();
      await host.write([{ address: at("D5"), cells: [["=MAX(D2:D3)"]] }]);
      expect((await read(host, "D5")).formulas).toEqual([["=MAX(D2:D3)"]]);
    });

    it.each([
      ["a sheet that is not there", at("A1", "Attic"), [[1]], "Attic"],
      ["cells of another shape", at("A1:B2", "Notes"), [[1]], "A1:B2"],
      ["what is no address", at("A0", "Notes"), [[1]], "A0"],
      ["a value that is no number", at("A1", "Notes"), [[Number.NaN]], "A1"],
    ])("refuses %s, names it, and leaves the rest unwritten", async (_what, address, cells, named) => {
      const host = await openHost();
      const { message } = await refusal(
        host.write([
          { address: at("B2"), cells: [[999]] },
          { address, cells },
        ]),
      );
      expect(message).toContain(named);
      expect((await read(host, "B2")).values).toEqual([[400]]);
    });

    it("keeps what columns hold in place of what it kept, beside the names that a person gave", async () => {
      const host = await openHost();
      const name = (what: string, refersTo: string) => ({
        name: `_vanesheet.list1.${what}`,
        sheet: undefined,
        refersTo,
      });
      await host.keepColumns([
        name("outlet", "'Outlets'!$A$1"),
        name("readings.now.velocity.fpm.1", "'Outlets'!$B$1:$C$1"),
      ]);
      await host.keepColumns([name("outlet", "'Outlets'!$A$1"), name("airflow.cfm", "'Outlets'!$D$1")]);
      const { names } = await hostSource(host);
      expect(names.map((one) => one.name).sort()).toEqual([
        "FreeRatio",
        "_vanesheet.list1.airflow.cfm",
        "_vanesheet.list1.outlet",
      ]);
      expect(mappingsIn(names).value).toEqual([
        {
          ...{ list: 1, sheet: "Outlets", headerRow: 1, lastRow: null, stated: {} },
          columns: [
            { key: "outlet", column: 1, unit: null },
            { key: "airflow", column: 4, unit: "cfm" },
          ],
        },
      ]);
      await host.keepColumns([]);
      expect([...(await host.names()).keys()]).toEqual(["FreeRatio"]);
    });

    it("says which sheet is not there when it is to be read", async () => {
      const host = await openHost();
      expect((await refusal(host.read([at("A1"), at("A1", "Attic")]))).message).toContain("Attic");
    });
  });
}
