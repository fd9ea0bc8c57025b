import { describe, expect, it } from "vitest";
import { calculateWorkbook, evaluateFormula, type FormulaSource, type SourceValue } from "../../src/engine/index.js";

type Contents = Readonly<Record<string, SourceValue>>;

function place(address: string): { readonly row: number; readonly column: number } {
  const [, letters = "A", digits = "1"] = /^([A-Z])(\d+)$/.exec(address) ?? [];
  return { row: Number(digits), column: letters.charCodeAt(0) - 64 };
}

/** A workbook of one-letter columns: values as stored, and formulas with the values that the file stores for them. */
function workbook(
  sheets: Readonly<
    Record<string, { readonly values?: Contents; readonly formulas?: Readonly<Record<string, string>> }>
  >,
  names: Readonly<Record<string, string>> = {},
): FormulaSource {
  return {
    names: new Map(Object.entries(names)),
    sheets: Object.entries(sheets).map(([name, { values = {}, formulas = {} }]) => {
      const stored = new Map(Object.entries(values).map(([address, value]) => [JSON.stringify(place(address)), value]));
      return {
        name,
        lastRow: 100,
        lastColumn: 26,
        rowStateAt: () => "shown",
        valueAt: (row, column) => stored.get(JSON.stringify({ row, column })) ?? null,
        formulas: Object.entries(formulas).map(([address, text]) => ({
          ...place(address),
          text,
          fills: undefined,
          isDynamic: false,
        })),
      };
    }),
  };
}

function results(source: FormulaSource, changed: Parameters<typeof calculateWorkbook>[1] = []) {
  const { calculated, kept } = calculateWorkbook(source, changed);
  const cells = calculated.map(
    ({ row, column, value }) => [`${String.fromCharCode(64 + column)}${row}`, value] as const,
  );
  return { cells: Object.fromEntries(cells), kept };
}

describe("calculating a workbook", () => {
  it("reads each sheet and each column that a formula names, also where their names look like cells", () => {
    const source = workbook(
      {
        S: {
          formulas: { A1: "Fl2!B1", A2: "Fl3!B2", A3: "SUM(Fl2:Fl3!B1)", A4: "SUM(Fl3:Fl3!B1)", A5: "ÉA1", A6: "ÉA2" },
        },
        Fl2: { values: { B1: 1, B2: 2 } },
        Fl3: { values: { B1: 11, B2: 12 } },
      },
      { ÉA1: "Fl2!$B$2", ÉA2: "Fl3!$B$1" },
    );
    expect(results(source).cells).toEqual({ A1: 1, A2: 12, A3: 12, A4: 11, A5: 2, A6: 11 });
  });

  it("reads a call as a file stores it and as a person types it, and what depends on it through two cells", () => {
    const source = workbook({
      S: {
        values: { A1: 14, B1: 6, C1: 400, D1: 420, E1: 380, F1: 400, G1: 150, I1: 0, J1: "old" },
        formulas: {
          H1: "_xldudf_VANE_AIRFLOW_FACE(A1,B1,C1:F1,,COUNT(C1:F1))",
          H2: "VANE.AIRFLOW.FACE(A1,B1,C1:F1,,COUNT(C1:F1))",
          I1: "H1-G1",
          J1: 'IF(I1>0,"above","below")',
        },
      },
    });
    expect(results(source).cells).toEqual({ H1: 175, H2: 175, I1: 25, J1: "above" });
  });

  it("leaves every formula alone that has no VANE call behind it", () => {
    const source = workbook({ S: { values: { A1: 2, B1: 99 }, formulas: { B1: "A1*2" } } });
    expect(results(source)).toEqual({ cells: {}, kept: [] });
    expect(results(source, [{ sheet: "s", row: 1, column: 1 }]).cells).toEqual({ B1: 4 });
  });

  it("calculates what the file stores no value for", () => {
    expect(results(workbook({ S: { values: { A1: 2 }, formulas: { B1: "A1*2" } } })).cells).toEqual({ B1: 4 });
  });

  it("follows names, other sheets, dollar signs and whole columns", () => {
    const source = workbook(
      {
        S: { formulas: { A1: "VANE.AIRFLOW(Speed,Area)", A2: "SUM('The inputs'!B:B)+A1", A3: "$A$1+A$2" } },
        "The inputs": { values: { A1: 400, B1: 2, B2: 3 } },
      },
      { Speed: "'The inputs'!$A$1", Area: "'The inputs'!$B$1" },
    );
    expect(results(source).cells).toEqual({ A1: 800, A2: 805, A3: 1605 });
  });

  it("keeps the stored value of a formula it does not know, says why, and goes on from that value", () => {
    const source = workbook({
      S: {
        values: { A1: 400, B1: 111 },
        formulas: { B1: "NOT.THERE(VANE.AIRFLOW(A1,2))", C1: "VANE.AIRFLOW(B1,2)", D1: "Outlets[cfm]+C1" },
      },
    });
    const { cells, kept } = results(source);
    expect(cells).toEqual({ C1: 222 });
    expect(kept.map(({ column }) => column)).toEqual([2, 4]);
    for (const { reason } of kept) expect(reason).toMatch(/^it /);
  });

  it.each(["NOT.THERE(B1:B2)", "Outlets[cfm]+'S'!B1", "NOT.THERE(Total)", "[1]S!$B$1+B1"])(
    "reports that %s is out of date once what it reads has changed",
    (text) => {
      const given = { S: { values: { A1: 400, D1: 7 }, formulas: { B1: "VANE.AIRFLOW(A1,2)", D1: text } } };
      expect(results(workbook(given, { Total: "S!$B$1" })).kept).toMatchObject([
        { row: 1, column: 4, isOutdated: true },
      ]);
    },
  );

  it.each(["NOT.THERE(A1:A2)", "_xlfn.LET(_xlpm.x,$A$1,_xlpm.x*2)", "[1]S!$B$1", "_xlfn.AGGREGATE(9,0,Other!B1)"])(
    "has nothing to report of %s, which reads nothing that changed",
    (text) => {
      const given = { S: { values: { A1: 400, D1: 7 }, formulas: { B1: "VANE.AIRFLOW(A1,2)", D1: text } }, Other: {} };
      expect(results(workbook(given)).kept).toEqual([]);
    },
  );

  it("calculates a subtotal when one of its cells was calculated or changed, and only then", () => {
    const source = workbook({
      S: {
        values: { A1: 400, A2: 5, B2: 7, D1: 1, D2: 1, D3: 1 },
        formulas: {
          B1: "VANE.AIRFLOW(A1,2)",
          D1: "SUBTOTAL(109,B1:B9)",
          D2: "SUBTOTAL(9,A2:A9)",
          D3: "SUBTOTAL(9,B1:B2,D1:D2)+D1",
        },
      },
    });
    expect(results(source)).toEqual({ cells: { B1: 800, D1: 807, D3: 1614 }, kept: [] });
    expect(results(source, [{ sheet: "S", row: 2, column: 1 }]).cells).toMatchObject({ D2: 5 });
  });

  it("leaves out of a subtotal the whole block that another one fills", () => {
    const source = workbook({ S: { values: { A1: 12, A2: 24 }, formulas: { C1: "SUBTOTAL(9,A1:B2)" } } });
    const [sheet] = source.sheets;
    if (sheet === undefined) throw new Error("no sheet");
    const fills = { firstRow: 1, firstColumn: 2, lastRow: 2, lastColumn: 2 };
    const block = { row: 1, column: 2, text: "SUBTOTAL(9,A1:A2)+A1:A2", fills, isDynamic: true };
    const { calculated } = calculateWorkbook({
      ...source,
      sheets: [{ ...sheet, formulas: [...sheet.formulas, block] }],
    });
    expect(calculated.map(({ value }) => value)).toEqual([48, 60, 36]);
  });

  it("says of a circle that it is one instead of running round it", () => {
    const source = workbook({ S: { formulas: { A1: "B1+VANE.AIRFLOW(400,2)", B1: "A1+1" } } });
    expect(results(source).kept.map(({ reason }) => reason)).toContain("it depends on itself");
  });

  it("passes an error on with its code", () => {
    const source = workbook({
      S: { values: { A1: { error: "#REF!" } }, formulas: { B1: "VANE.AIRFLOW(A1,2)", C1: 'IFERROR(B1,"none")' } },
    });
    const { cells } = results(source);
    expect(cells["B1"]).toMatchObject({ error: "#REF!" });
    expect(cells["C1"]).toBe("none");
  });

  it("goes down a chain of 20,000 cells without running out of stack", () => {
    const formulas: Record<string, string> = {};
    const source = workbook({ S: { values: { A1: 1 }, formulas } });
    const chain = Array.from({ length: 20_000 }, (_, index) => ({
      row: index + 2,
      column: 1,
      text: `A${index + 1}+1`,
      fills: undefined,
      isDynamic: false,
    }));
    const [sheet] = source.sheets;
    if (sheet === undefined) throw new Error("no sheet");
    const long = { ...source, sheets: [{ ...sheet, lastRow: 20_001, formulas: chain.reverse() }] };
    const last = calculateWorkbook(long).calculated.find(({ row }) => row === 20_001);
    expect(last?.value).toBe(20_001);
  });

  it("fills the block that the file keeps for a formula", () => {
    const source = workbook({ S: { values: { A1: 12, A2: 24, B1: 12, B2: 6 } } });
    const [sheet] = source.sheets;
    if (sheet === undefined) throw new Error("no sheet");
    const fills = { firstRow: 1, firstColumn: 3, lastRow: 3, lastColumn: 3 };
    const formula = { row: 1, column: 3, text: "_xldudf_VANE_OPENING_RECT(A1:A2,B1:B2)", fills, isDynamic: true };
    const { calculated } = calculateWorkbook({ ...source, sheets: [{ ...sheet, formulas: [formula] }] });
    expect(calculated.map(({ value }) => value)).toEqual([1, 1, ""]);
  });

  it.each([
    "VANE.AIRFLOW.FACE(14,6,{400,420;380,400},0.75)",
    "VANE.AIRFLOW.FACE(14,6,{400,0;380,400},0.75)",
    "VANE.OPENING.FREE(2,1.5)",
    'VANE.AIRFLOW.FACE(14,6,{400,"x"})',
    "SUM(VANE.OPENING.RECT({12;24},{12;6}))",
    'IF(1>2,"a","b ""quoted""")&VANE.TRAVERSE.CHECK({400,380})',
    'ROUND(VANE.DESIGN.PERCENT(142.4,150),1)&" %"',
    "VANE.NO.SUCH(1)",
  ])("gives what the engine gives: %s", (formula) => {
    const { cells, kept } = results(workbook({ S: { formulas: { A1: formula } } }));
    const whole = evaluateFormula(formula);
    if (whole.kind === "value") expect(cells["A1"]).toEqual(whole.value);
    else if (whole.kind === "error" && kept.length === 0)
      expect(cells["A1"]).toMatchObject({ error: whole.code, message: whole.message });
    else expect(kept).toHaveLength(1);
  });
});
