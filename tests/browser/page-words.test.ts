import type { Model } from "@odoo/o-spreadsheet";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { createModel } from "../../src/engine/index.js";
import { addTemplateTo } from "../../src/hosts/page/add-template.js";
import { exportedFrom } from "../../src/hosts/page/file/engine-export.js";
import { XLSX_TASKS } from "../../src/hosts/page/file/xlsx-tasks.js";
import { DEMONSTRATION_FILE, TEMPLATES, type TemplateId } from "../../src/workbook/index.js";
import { formatAddress } from "../../src/xlsx/address.js";
import { templateFile } from "../hosts/page/page-host-over.js";
import { pageInNode } from "../hosts/page/page-in-node.js";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";

/*
 * Whether the words of a sheet fit the cells that break them into lines, measured by the browser in the face that the
 * page ships: the engine breaks a word that is wider than its column in two, and cuts lines that are higher than a row.
 */

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

let workbook: OpenWorkbook;
let page: Page;

beforeAll(async () => {
  workbook = await serveWorkbook();
  page = await workbook.browser.newPage();
  await page.addInitScript(rememberEarlyWords);
  await page.goto(workbook.served.address);
  await person(page).isReady();
});

afterAll(() => workbook.close());

/** Runs in the page: notes each word of a cell that is measured while its face is not there yet. */
function rememberEarlyWords(): void {
  const early: string[] = [];
  Object.assign(window, { early });
  for (const { prototype } of [CanvasRenderingContext2D, OffscreenCanvasRenderingContext2D]) {
    const { measureText } = prototype;
    prototype.measureText = function (text: string) {
      const weight = /bold/.test(this.font) ? "700" : "400";
      const isLoaded = [...document.fonts].some(
        (face) => face.family.includes("Roboto") && face.weight === weight && face.status === "loaded",
      );
      if (this.font.includes("Roboto") && !isLoaded) early.push(text);
      return measureText.call(this, text);
    };
  }
}

/** The engine keeps this free at each side of a text, and between two lines. */
const MARGIN_PX = 4;

/** A text in a cell that breaks its lines. */
interface WrappedText {
  readonly cell: string;
  readonly text: string;
  readonly font: string;
  readonly lineHeightPx: number;
  readonly widthPx: number;
  /** Null where the row grows with its text. */
  readonly heightPx: number | null;
}

interface SizedSheet {
  readonly id: string;
  readonly name: string;
  readonly cols: unknown;
  readonly rows: Readonly<Record<number, { readonly size?: number }>>;
}

const sizedSheets = (model: Model) => exportedFrom(model).sheets as unknown as readonly SizedSheet[];

function wrappedTexts(model: Model): readonly WrappedText[] {
  const { getters } = model;
  const heights = new Map(sizedSheets(model).map(({ id, rows }) => [id, rows]));
  return getters.getSheetIds().flatMap((sheetId) =>
    getters.getEvaluatedCellsPositions(sheetId).flatMap((place): WrappedText[] => {
      const { formattedValue: text, type } = getters.getEvaluatedCell(place);
      const { wrapping, bold, fontSize = 10 } = getters.getCellComputedStyle(place);
      if (wrapping !== "wrap" || type !== "text") return [];
      const { left, right, top, bottom } = getters.getMerge(place) ?? {
        left: place.col,
        right: place.col,
        top: place.row,
        bottom: place.row,
      };
      const columns = Array.from({ length: right - left + 1 }, (_, index) => left + index);
      const height = heights.get(sheetId)?.[place.row]?.size;
      const px = (fontSize * 96) / 72;
      return [
        {
          cell: `${getters.getSheetName(sheetId)}!${formatAddress(place.row + 1, place.col + 1)}`,
          text,
          font: `${bold ? "bold " : ""}${px}px 'Roboto', arial`,
          lineHeightPx: px,
          widthPx: columns.reduce((width, column) => width + getters.getColSize(sheetId, column), 0) - 2 * MARGIN_PX,
          heightPx: height === undefined || top !== bottom ? null : height,
        },
      ];
    }),
  );
}

/** Texts of which a word is broken in two, or a line cut. */
async function damaged(model: Model): Promise<readonly string[]> {
  const texts = wrappedTexts(model);
  expect(texts.length).toBeGreaterThan(0);
  return page.evaluate(
    ({ given, margin }) => {
      const context = document.createElement("canvas").getContext("2d");
      if (context === null) throw new Error("no canvas to measure on");
      return given.flatMap(({ cell, text, font, lineHeightPx, widthPx, heightPx }) => {
        context.font = font;
        const width = (words: string): number => context.measureText(words).width;
        const broken = text.split(/\s/).filter((word) => width(word) > widthPx);
        const lines: string[] = [];
        for (const line of text.split("\n")) {
          let filled = "";
          for (const word of line.split(" ")) {
            const joined = filled === "" ? word : `${filled} ${word}`;
            if (filled === "" || width(joined) <= widthPx) filled = joined;
            else {
              lines.push(filled);
              filled = word;
            }
          }
          lines.push(filled);
        }
        const needed = lines.length * (lineHeightPx + margin) - margin;
        const isCut = heightPx !== null && needed > heightPx;
        return [
          ...broken.map((word) => `${cell} breaks “${word}”`),
          ...(isCut ? [`${cell} cuts “${text}”: ${lines.length} lines in ${heightPx} px`] : []),
        ];
      });
    },
    { given: texts, margin: MARGIN_PX },
  );
}

const templates = Object.keys(TEMPLATES) as TemplateId[];
const files: readonly (TemplateId | typeof DEMONSTRATION_FILE)[] = [...templates, DEMONSTRATION_FILE];

describe("the words of the page's sheets", () => {
  it("are drawn in the face that the page ships, whatever faces the machine has", async () => {
    const early = await page.evaluate(() => (window as unknown as { readonly early: readonly string[] }).early);
    expect(early).toEqual([]);
    const loaded = await page.evaluate(() =>
      [...document.fonts]
        .filter(({ status }) => status === "loaded")
        .map(({ family, weight }) => `${family} ${weight}`),
    );
    expect(loaded).toEqual(expect.arrayContaining([expect.stringMatching(/Roboto.* 400/)]));
    expect(loaded).toEqual(expect.arrayContaining([expect.stringMatching(/Roboto.* 700/)]));
  });

  it.each(files)("stand whole in a workbook started from %s", async (template) => {
    const { data } = XLSX_TASKS.read(await templateFile(template), `${template}.xlsx`);
    expect(await damaged(createModel(data))).toEqual([]);
  });

  it.each(templates)(
    "stand whole in %s added to an open workbook, its columns and rows as in a new one",
    async (added) => {
      const base = added === "face-sweep" ? "duct-traverse" : "face-sweep";
      const bytes = await templateFile(base);
      const { data, kept, words, protectedSheetIds } = XLSX_TASKS.read(bytes, `${base}.xlsx`);
      const context = pageInNode({
        title: base,
        data,
        movedSheetIds: [],
        protectedSheetIds,
        isChanged: false,
        file: null,
      });
      const { exported, setFile } = context.view();
      await setFile({ name: `${base}.xlsx`, bytes, handle: null, baseline: exported(), kept, words }, false);
      const names = await addTemplateTo(context, added, {}, templateFile);
      const { model } = context.view();
      expect(await damaged(model)).toEqual([]);
      const sizes = (shown: Model) =>
        sizedSheets(shown)
          .filter(({ name }) => names.includes(name) && name !== "Job")
          .map(({ name, cols, rows }) => ({ name, cols, rows }));
      expect(sizes(model)).toEqual(sizes(createModel(XLSX_TASKS.read(await templateFile(added), "new.xlsx").data)));
    },
  );
});
