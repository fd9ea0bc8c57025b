import "fake-indexeddb/auto";
import { describe, expect, it } from "vitest";
import { createModel } from "../../../src/engine/index.js";
import { exporterOf } from "../../../src/hosts/page/file/engine-export.js";
import type { PageFile } from "../../../src/hosts/page/file/page-file.js";
import { type KeepState, keeperOf } from "../../../src/hosts/page/keep-workbook.js";
import { readStored } from "../../../src/hosts/page/stored-workbook.js";

function opened() {
  const model = createModel({});
  const sheetId = model.getters.getActiveSheetId();
  const said: KeepState[] = [];
  const state = () => ({ title: "job", movedSheetIds: [], protectedSheetIds: [], isChanged: true });
  const exporter = exporterOf(model, null);
  const keeper = keeperOf(model, state, exporter, (one) => void said.push(one));
  const type = (row: number, content: string) => model.dispatch("UPDATE_CELL", { sheetId, col: 0, row, content });
  const file = (name: string): PageFile => {
    const baseline = exporter.exported();
    return { name, bytes: new TextEncoder().encode(name), baseline, kept: [], words: {}, handle: null };
  };
  return { keeper, type, file, said };
}

/** What a reload would show: the file's name, and the text of the first two cells. */
async function keptByNow() {
  const stored = await readStored();
  if (stored === null) return null;
  const [{ cells }] = (stored.data as { sheets: [{ cells: Record<string, string> }] }).sheets;
  return [stored.file?.name ?? null, cells["A1"], cells["A2"]];
}

describe("a workbook that comes to stand for another file", () => {
  it("is kept with that file, however soon the page closes after an entry", async () => {
    const { keeper, type, file, said } = opened();
    type(0, "first");
    keeper.standsFor(file("before.xlsx"), {});
    await keeper.changes();
    expect(await keptByNow()).toEqual(["before.xlsx", "first", undefined]);
    expect(keeper.owesFile()).toBe(false);

    // Saved under another name; before the page came to keep that, something was typed and the tab closed.
    keeper.standsFor(file("after.xlsx"), {});
    expect(keeper.owesFile()).toBe(true);
    type(1, "second");
    await keeper.changes(true);
    expect(await keptByNow()).toEqual(["after.xlsx", "first", "second"]);
    expect(keeper.owesFile()).toBe(false);
    expect(said.map(({ kind }) => kind)).toEqual(["kept", "kept"]);
  });

  it("goes with the next entry where the browser refused it the first time", async () => {
    const { keeper, type, file, said } = opened();
    keeper.standsFor(file("once.xlsx"), {});
    await keeper.changes();
    const { transaction } = IDBDatabase.prototype;
    IDBDatabase.prototype.transaction = () => {
      throw new DOMException("The disk is full.", "QuotaExceededError");
    };
    try {
      keeper.standsFor(file("twice.xlsx"), {});
      await keeper.changes();
    } finally {
      IDBDatabase.prototype.transaction = transaction;
    }
    expect(said.at(-1)?.kind).toBe("failed");
    expect((await keptByNow())?.[0]).toBe("once.xlsx");
    type(0, "later");
    await keeper.changes();
    expect(await keptByNow()).toEqual(["twice.xlsx", "later", undefined]);
  });
});
