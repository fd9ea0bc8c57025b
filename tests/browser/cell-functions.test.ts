import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CELL_ERROR_CODES, type CellFunctionParameter, cellFunctions } from "../../src/cells/index.js";
import { departure, publishedCases } from "../published-cases.js";
import { literalCall } from "./literal-call.js";
import { type ExcelBridge, openAddin } from "./office-bridge.js";
import { cellsOf, isSentError, readSentBack, type SentBack } from "./sent-back.js";

/*
 * The built add-in and the real office.js in a real browser; Excel itself is simulated. It shows what our side sends
 * back for what Excel sends.
 */

let excel: ExcelBridge;

/** The build takes seconds on an idle machine and minutes on a busy one. */
const BUILD_TIMEOUT_MS = 300_000;

beforeAll(async () => {
  excel = await openAddin();
}, BUILD_TIMEOUT_MS);

afterAll(async () => {
  await excel?.close();
});

const DIVISION_ERROR = { type: "CustomFunctionError", code: "#DIV/0!" };
const REFERENCE_ERROR = { type: "CustomFunctionError", code: "#REF!" };

/** What Excel may send for one argument, whatever the person typed or left out. */
const SENT: Readonly<Record<string, (parameter: CellFunctionParameter) => unknown>> = {
  "omitted arguments": () => null,
  "blank cells": ({ isBlock }) => (isBlock ? [[0], [0]] : 0),
  "one blank cell each": ({ isBlock }) => (isBlock ? [[0]] : 0),
  "empty text": ({ isBlock }) => (isBlock ? [[""]] : ""),
  text: ({ isBlock }) => (isBlock ? [["door shut"]] : "door shut"),
  numbers: ({ isBlock }) => (isBlock ? [[400], [420], [380]] : 12),
  "negative numbers": ({ isBlock }) => (isBlock ? [[-400]] : -12),
  "huge numbers": ({ isBlock }) => (isBlock ? [[1e308], [1e308]] : 1e308),
  "tiny numbers": ({ isBlock }) => (isBlock ? [[1e-308]] : 1e-308),
  "truth values": ({ isBlock }) => (isBlock ? [[true]] : true),
  "blocks of several columns": ({ isBlock }) =>
    isBlock
      ? [
          [400, 0, "x"],
          [0, 380, DIVISION_ERROR],
        ]
      : 3,
  "cells in error": ({ isBlock }) => (isBlock ? [[DIVISION_ERROR]] : DIVISION_ERROR),
  "lost references": ({ isBlock }) => (isBlock ? [[REFERENCE_ERROR]] : REFERENCE_ERROR),
  "formatted values": ({ isBlock }) => {
    const value = { type: "FormattedNumber", basicType: "Double", basicValue: 12, numberFormat: "0.0" };
    return isBlock ? [[value]] : value;
  },
};

/** The error codes beside which Excel shows a message; inside a block its runtime drops any other. */
const EXPLAINED = ["#VALUE!", "#N/A"];

function expectMessage(code: string, message: string | undefined, where: string) {
  expect(CELL_ERROR_CODES, where).toContain(code);
  if (!EXPLAINED.includes(code)) return;
  expect(message, `${where} says what to do`).toMatch(/\w{2,}.*\./s);
  expect(message, where).not.toContain("Please report");
}

function expectShowable(sent: SentBack, where: string) {
  if (sent.kind === "error") return expectMessage(sent.code, sent.message, where);
  const cells = cellsOf(sent.value);
  expect(cells.length, where).toBeGreaterThan(0);
  for (const cell of cells) {
    if (isSentError(cell)) expectMessage(cell.code, cell.message, where);
    else expect(["number", "string", "boolean"], `${where}: ${JSON.stringify(cell)}`).toContain(typeof cell);
  }
}

describe("the functions in Excel's own runtime", () => {
  it("are all registered, and nothing else answers", async () => {
    const { results } = await excel.call([{ name: "NOT.THERE", args: [] }]);
    expect(readSentBack(results[0])).toMatchObject({ kind: "error", code: "#NAME?" });
    const names = await excel.page.evaluate(() =>
      Object.keys((window as never)["CustomFunctions"]["_association"]["mappings"]),
    );
    expect(names.sort()).toEqual(cellFunctions.map(({ id }) => id).sort());
  });

  it.each(Object.entries(SENT))("send back what a cell can show for %s", async (what, sent) => {
    const calls = cellFunctions.map(({ id, parameters }) => ({ name: id, args: parameters.map(sent), flags: 4 }));
    const { results } = await excel.call(calls);
    cellFunctions.forEach(({ id }, index) => {
      expectShowable(readSentBack(results[index]), `${id} with ${what}`);
    });
  });

  it("name an argument that is in error, whether it is one cell or stands in a block", async () => {
    const { results } = await excel.call([
      { name: "AIRFLOW", args: [[[DIVISION_ERROR]], [[2.5]], null], flags: 4 },
      { name: "AIRFLOW", args: [[[REFERENCE_ERROR]], [[2.5]], null], flags: 4 },
      { name: "AIRFLOW", args: [[[400], [DIVISION_ERROR]], [[2.5]], null], flags: 4 },
    ]);
    expect(readSentBack(results[0])).toMatchObject({ code: "#DIV/0!", message: expect.stringContaining("velocity") });
    const [lost] = cellsOf((readSentBack(results[1]) as { value: unknown }).value);
    expect(lost).toMatchObject({ code: "#REF!" });
    const [flow, error] = cellsOf((readSentBack(results[2]) as { value: unknown }).value);
    expect(flow).toBe(1000);
    expect(error).toMatchObject({ code: "#DIV/0!" });
  });

  it("answer many independent calls of one recalculation in one message", async () => {
    const calls = Array.from({ length: 50 }, (_, index) => ({
      name: "AIRFLOW",
      args: [[[400 + index]], [[2.5]], null],
    }));
    const { messages, results } = await excel.call(calls);
    expect(messages).toBe(1);
    expect(cellsOf((readSentBack(results[49]) as { value: unknown }).value)).toEqual([449 * 2.5]);
  });
});

describe("published cases through Excel's own runtime", () => {
  const rows = publishedCases().flatMap((row) => {
    const call = row.cell && literalCall(row.cell.formula);
    return row.cell && call ? [{ ...row, cell: row.cell, call }] : [];
  });

  it("cover the functions that published sources give numbers for", () => {
    expect(rows.length).toBeGreaterThan(0);
  });

  it("give what was published", async () => {
    const { results } = await excel.call(rows.map(({ call }) => ({ name: call.id, args: call.args })));
    rows.forEach(({ title, source, cell }, index) => {
      const sent = readSentBack(results[index]);
      const value = sent.kind === "result" ? sent.value : sent;
      const cells = cellsOf(value);
      const actual = cells.length === 1 && !Array.isArray(cell.expected) ? cells[0] : value;
      expect(departure(actual, cell.expected, cell.tolerance), `${title}: ${cell.formula} (${source})`).toBeUndefined();
    });
  });
});

describe("the page that Excel loads", () => {
  it("asks for nothing but its own files and office.js, and breaks no rule of its policy", async () => {
    const foreign = await excel.page.evaluate(() =>
      performance
        .getEntriesByType("resource")
        .map(({ name }) => name)
        .filter((name) => !name.startsWith(location.origin)),
    );
    expect(foreign).toEqual([]);
  });

  it("cannot evaluate text as code", async () => {
    const thrown = await excel.page.evaluate(
      () =>
        new Promise<string>((resolve) => {
          // What a test sends may evaluate; what the page itself runs later may not.
          setTimeout(() => {
            try {
              resolve(String(new Function("return 1")()));
            } catch (error) {
              resolve((error as Error).name);
            }
          });
        }),
    );
    expect(thrown).toBe("EvalError");
  });
});
