import { beforeAll, describe, expect, it } from "vitest";
import { cellFunctions } from "../../../src/cells/index.js";
import { createModel, typedContent } from "../../../src/engine/index.js";
import { handoffFormula, TRANSLATIONS } from "../../../src/workbook/index.js";
import { openWorkbook, readSheet, valueAt } from "../../../src/xlsx/index.js";
import { recalculatedByGnumeric } from "../../support/gnumeric.js";
import { recalculated } from "../../support/libreoffice.js";
import { type CallVariant, callVariants, INPUT_CELLS } from "./call-variants.js";
import { type FormulaCellContent, formulaWorkbook } from "./formula-workbook.js";

interface Pair extends CallVariant {
  readonly id: string;
  readonly plain: string;
  readonly isArray: boolean;
}

type Shown = number | string | boolean | null;

/** The calls of every function that has a plain formula, with that formula. */
const PAIRS: readonly Pair[] = cellFunctions.flatMap((declaration) => {
  const translation = TRANSLATIONS[declaration.id];
  if (translation?.kind !== "plain") return [];
  return callVariants(declaration, translation.blocks).flatMap((variant) => {
    const handoff = handoffFormula(variant.call);
    return handoff.kind === "plain"
      ? [{ ...variant, id: declaration.id, plain: handoff.formula, isArray: handoff.isArray }]
      : [];
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

/** The plain formulas beside the inputs, with no result stored anywhere. */
function plainWorkbook(): Uint8Array {
  const cells: Record<string, FormulaCellContent> = {};
  for (const [at, content] of Object.entries(INPUT_CELLS)) {
    const isFormula = typeof content === "string" && content.startsWith("=");
    cells[at] = isFormula ? { formula: content.slice(1) } : content;
  }
  for (const [row, { plain, isArray }] of PAIRS.entries()) {
    const at = `P${row + 1}`;
    cells[at] = isArray ? { formula: plain, array: at } : { formula: plain };
  }
  return formulaWorkbook(cells);
}

function shownIn(saved: Uint8Array | undefined): readonly Shown[] {
  const workbook = openWorkbook(saved ?? new Uint8Array(), "calls.xlsx");
  const sheet = readSheet(workbook, workbook.sheets[0]?.name ?? "");
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
  const plain = new Map<string, readonly Shown[]>();

  beforeAll(async () => {
    own = ours();
    const file = new Map([["calls", plainWorkbook()]]);
    plain.set("LibreOffice", shownIn((await recalculated(file)).get("calls")));
    plain.set("Gnumeric", shownIn((await recalculatedByGnumeric(file)).get("calls")));
  }, 180_000);

  it("stands for every cell function, or is said to be none", () => {
    expect(
      Object.keys(TRANSLATIONS).sort(),
      "give each function its plain formula in src/workbook/handoff/translations",
    ).toEqual(cellFunctions.map(({ id }) => id).sort());
  });

  it("is tried on thousands of calls, not a few of which give numbers, nothing, #N/A and #VALUE!", () => {
    expect(PAIRS.length).toBeGreaterThan(3000);
    for (const shown of ["", "#N/A", "#VALUE!"])
      expect(own.filter((value) => value === shown).length).toBeGreaterThan(100);
    expect(own.filter((value) => typeof value === "number").length).toBeGreaterThan(500);
  });

  for (const id of new Set(PAIRS.map((pair) => pair.id))) {
    it.each(["LibreOffice", "Gnumeric"])(
      `of VANE.${id} gives in %s what the function gives, whatever its arguments`,
      (program) => {
        const shown = plain.get(program) ?? [];
        const different = PAIRS.flatMap((pair, index) => {
          const [one, other] = [own[index] ?? null, shown[index] ?? null];
          if (pair.id !== id || agree(pair, one, other)) return [];
          return [`${pair.call} gives ${String(one)}, plainly ${String(other)}`];
        });
        expect(different).toEqual([]);
      },
    );
  }
});
