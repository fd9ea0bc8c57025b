import { writeXlsx } from "hucre/xlsx";
import { beforeAll, describe, expect, it } from "vitest";
import { cellFunctions } from "../../../src/cells/index.js";
import { createModel, typedContent } from "../../../src/engine/index.js";
import { handoffFormula, TRANSLATIONS } from "../../../src/workbook/index.js";
import { openWorkbook, readSheet, valueAt } from "../../../src/xlsx/index.js";
import { recalculated } from "../../support/libreoffice.js";
import { type CallVariant, callVariants, INPUT_CELLS } from "./call-variants.js";

interface Pair extends CallVariant {
  readonly id: string;
  readonly plain: string;
}

type Shown = number | string | boolean | null;

/** The calls of every function that has a plain formula, with that formula. */
const PAIRS: readonly Pair[] = cellFunctions.flatMap((declaration) => {
  const translation = TRANSLATIONS[declaration.id];
  if (translation?.kind !== "plain") return [];
  return callVariants(declaration, translation.blocks).flatMap((variant) => {
    const handoff = handoffFormula(variant.call);
    return handoff.kind === "plain" ? [{ ...variant, id: declaration.id, plain: handoff.formula }] : [];
  });
});

/** What the cell functions show, each call in a cell of its own beside the inputs. */
function ours(): readonly Shown[] {
  const inputs = Object.entries(INPUT_CELLS).map(([at, content]) => [at, typedContent(content)] as const);
  const cells = PAIRS.map(({ call }, index) => [`P${index + 1}`, typedContent(`=${call}`)] as const);
  const model = createModel({
    sheets: [
      {
        id: "calls",
        name: "Calls",
        colNumber: 20,
        rowNumber: PAIRS.length + 20,
        cells: Object.fromEntries([...inputs, ...cells]),
      },
    ],
  });
  return PAIRS.map((_, row) => model.getters.getEvaluatedCell({ sheetId: "calls", col: 15, row }).value ?? null);
}

function position(at: string): string {
  return `${Number(at.slice(1)) - 1},${at.charCodeAt(0) - 65}`;
}

/** What LibreOffice calculates from the plain formulas. */
async function plainly(): Promise<readonly Shown[]> {
  const cells = new Map<string, { value?: number | string | null; formula?: string }>();
  for (const [at, content] of Object.entries(INPUT_CELLS)) {
    const isFormula = typeof content === "string" && content.startsWith("=");
    cells.set(position(at), isFormula ? { formula: content.slice(1) } : { value: content });
  }
  for (const [row, { plain }] of PAIRS.entries()) cells.set(`${row},15`, { formula: plain });
  const file = await writeXlsx({ sheets: [{ name: "Calls", cells }] });
  const saved = (await recalculated(new Map([["calls", file]]))).get("calls") ?? new Uint8Array();
  const sheet = readSheet(openWorkbook(saved, "calls.xlsx"), "Calls");
  return PAIRS.map((_, row) => {
    const value = valueAt(sheet, row + 1, 16);
    return value !== null && typeof value === "object" ? value.error : value;
  });
}

function isError(value: Shown): boolean {
  return typeof value === "string" && value.startsWith("#");
}

function agree(pair: Pair, own: Shown, plain: Shown): boolean {
  if (typeof own === "number" && typeof plain === "number") {
    return Math.abs(own - plain) <= 1e-9 * Math.max(Math.abs(own), Math.abs(plain), 1e-12);
  }
  // Where two arguments are at fault, which of them is named first may differ.
  if (pair.oddArguments > 1 && isError(own) && isError(plain)) return true;
  return (own ?? "") === (plain ?? "");
}

describe("the plain formula of a hand-off copy", () => {
  let own: readonly Shown[] = [];
  let plain: readonly Shown[] = [];

  beforeAll(async () => {
    own = ours();
    plain = await plainly();
  }, 180_000);

  it("stands for every cell function, or is said to be none", () => {
    expect(Object.keys(TRANSLATIONS).sort()).toEqual(cellFunctions.map(({ id }) => id).sort());
  });

  it("is tried on thousands of calls, not a few of which give numbers, nothing, #N/A and #VALUE!", () => {
    expect(PAIRS.length).toBeGreaterThan(3000);
    for (const shown of ["", "#N/A", "#VALUE!"])
      expect(own.filter((value) => value === shown).length).toBeGreaterThan(100);
    expect(own.filter((value) => typeof value === "number").length).toBeGreaterThan(500);
  });

  for (const id of new Set(PAIRS.map((pair) => pair.id))) {
    it(`of VANE.${id} gives in LibreOffice what the function gives, whatever its arguments`, () => {
      const different = PAIRS.flatMap((pair, index) => {
        const [one, other] = [own[index] ?? null, plain[index] ?? null];
        if (pair.id !== id || agree(pair, one, other)) return [];
        return [`${pair.call} gives ${String(one)}, plainly ${String(other)}`];
      });
      expect(different).toEqual([]);
    });
  }
});
