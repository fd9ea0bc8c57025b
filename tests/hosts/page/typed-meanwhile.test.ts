import { describe, expect, it } from "vitest";
import type { RunTask } from "../../../src/hosts/page/file/xlsx-tasks.js";
import { type PageContext, showFile } from "../../../src/hosts/page/page-context.js";
import { restructure } from "../../../src/hosts/page/restructure.js";
import { saveWorkbook } from "../../../src/hosts/page/save-file.js";
import { TEMPLATES, type TemplateId } from "../../../src/workbook/index.js";
import { cellAt, openWorkbook, parseAddress, readSheet } from "../../../src/xlsx/index.js";
import { cellUnder } from "../../support/plan-places.js";
import { templateFile } from "./page-host-over.js";
import { pageInNode } from "./page-in-node.js";

const TEMPLATE: TemplateId = "face-sweep";
const SHEET = "Face sweep";

const noteIn = (row: number): string => cellUnder(TEMPLATES[TEMPLATE](""), "Sweeps", "Note", row);

const EMPTY = { title: "empty", data: {}, movedSheetIds: [], protectedSheetIds: [], isChanged: false, file: null };

/** A file that the browser lets the page write into. */
function fileOf(bytes: Uint8Array) {
  let held = bytes;
  const handle = {
    name: "job.xlsx",
    requestPermission: async () => "granted",
    getFile: async () => ({ arrayBuffer: async () => held.slice().buffer }),
    createWritable: async () => ({
      write: async (written: Uint8Array) => {
        held = written;
      },
      close: async () => undefined,
    }),
  };
  const noteAt = (row: number) => cellAt(readSheet(openWorkbook(held, "job.xlsx"), SHEET), noteIn(row))?.value ?? null;
  return { handle: handle as unknown as FileSystemFileHandle, noteAt };
}

/** Opens a workbook whose tasks take so long that something can be typed meanwhile. */
async function opened(meanwhile: (context: PageContext) => void) {
  const bytes = new Uint8Array(await templateFile(TEMPLATE));
  const file = fileOf(bytes);
  const inNode = pageInNode(EMPTY);
  const run = (async (name: never, ...given: never) => {
    const done = await (inNode.run as (...all: unknown[]) => Promise<unknown>)(name, ...(given as unknown[]));
    meanwhile(context);
    return done;
  }) as RunTask;
  const context = { ...inNode, run };
  const { handle } = file;
  const conversion = await inNode.run("read", bytes, "job.xlsx");
  await showFile(context, { name: "job.xlsx", bytes, handle }, conversion, false);
  return { context, ...file };
}

function type({ view }: PageContext, row: number, content: string): void {
  const { model } = view();
  const sheetId = model.getters.getSheetIdByName(SHEET) ?? "";
  const place = parseAddress(noteIn(row));
  if (place === undefined) throw new Error("There is no column for notes.");
  const cell = { sheetId, col: place.column - 1, row: place.row - 1 };
  expect(model.dispatch("UPDATE_CELL", { ...cell, content }).isSuccessful).toBe(true);
}

describe("what is entered while a file is saved", () => {
  it("goes on counting as changed, is said, and is in the file after the next time", async () => {
    let isTyping = true;
    const { context, noteAt } = await opened((page) => {
      if (isTyping) type(page, 10, "later");
      isTyping = false;
    });
    type(context, 9, "before");
    expect(await saveWorkbook(context)).toBe(true);
    expect([noteAt(9), noteAt(10)]).toEqual(["before", null]);
    expect(context.view().isChanged()).toBe(true);
    expect(context.said.at(-1)).toContain("What you entered while it was saved is not in it yet.");
    expect(await saveWorkbook(context)).toBe(true);
    expect([noteAt(9), noteAt(10)]).toEqual(["before", "later"]);
    expect(context.view().isChanged()).toBe(false);
    expect(context.said.at(-1)).not.toContain("not in it yet");
  });
});

describe("a change of rows", () => {
  it("takes no input into the workbook that it replaces, and lets go of it whatever becomes of the change", async () => {
    const held: boolean[] = [];
    let holding = 0;
    const { context } = await opened(() => void held.push(holding === 1));
    const page: PageContext = {
      ...context,
      hold: () => {
        holding += 1;
        return () => {
          holding -= 1;
        };
      },
    };
    await restructure(page, { kind: "insertRows", sheet: SHEET, row: 10, count: 1 });
    expect(held).toEqual([true]);
    expect(holding).toBe(0);
    await expect(restructure(page, { kind: "deleteSheet", sheet: "no such sheet" })).rejects.toThrow("no such sheet");
    expect(holding).toBe(0);
  });
});
