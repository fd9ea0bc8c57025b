import { describe, expect, it } from "vitest";
import { type DraftStore, draftStore } from "../../../src/pane/drafts/draft-store.js";
import { keptWords, takenWords } from "../../../src/pane/drafts/draft-words.js";
import { mergeDrafts } from "../../../src/pane/drafts/merge-drafts.js";
import type { WorkbookIdentity } from "../../../src/workbook/index.js";

/** A computer with a browser's storage, and workbooks that keep the ids that they are given. */
class Computer {
  readonly items = new Map<string, string>();
  readonly refusing = new Set<string>();
  private ids = 0;

  readonly storage = {
    length: 9, // As many as there may be; a key that is not there is null.
    key: (index: number) => [...this.items.keys()][index] ?? null,
    getItem: (key: string) => this.items.get(key) ?? null,
    setItem: (key: string, value: string) => void this.items.set(key, value),
    removeItem: (key: string) => void this.items.delete(key),
  } as unknown as Storage;

  open(workbook: { id: string | null; readonly place: string }): DraftStore {
    return draftStore({ ...workbook } satisfies WorkbookIdentity, {
      openStorage: () => this.storage,
      newId: () => {
        this.ids += 1;
        return `id-${this.ids}`;
      },
      nowMs: () => 1_780_000_000_000 + this.ids,
      keepId: async (id) => {
        if (this.refusing.has(workbook.place)) throw new Error("AccessDenied");
        workbook.id = id;
      },
    });
  }
}

const jobA = () => ({ id: null as string | null, place: "C:\\Jobs\\Job A.xlsx" });
const jobB = () => ({ id: null as string | null, place: "C:\\Jobs\\Job B.xlsx" });

describe("what is typed beside a workbook", () => {
  it("is there again when that workbook is opened anew, and in no other", () => {
    const computer = new Computer();
    const workbook = jobA();
    computer.open(workbook).write("measure", { width: "14 1/4" });
    expect(workbook.id).toBe("id-1");
    expect(computer.open(jobB()).read("measure")).toBeUndefined();
    expect(computer.open(jobB()).offered()).toEqual([]);
    expect(computer.open(workbook).read("measure")).toEqual({ width: "14 1/4" });
  });

  it("leaves no trace in a workbook beside which nothing is typed", () => {
    const computer = new Computer();
    const workbook = jobA();
    computer.open(workbook).write("measure", undefined);
    expect(workbook.id).toBeNull();
    expect(computer.items.size).toBe(0);
  });

  it("is offered in a copy of the workbook, and stays with the first one", () => {
    const computer = new Computer();
    const original = jobA();
    computer.open(original).write("balance", { typed: "222 233" });
    const copy = { id: original.id, place: "C:\\Jobs\\Job C.xlsx" };
    const store = computer.open(copy);
    expect(store.read("balance")).toBeUndefined();
    const [offer] = store.offered();
    if (offer === undefined) throw new Error("Nothing was offered.");
    expect(keptWords(offer)).toMatch(/^Balance: typed in “Job A\.xlsx”, /);
    expect(store.take(offer)).toEqual([]);
    expect(store.read("balance")).toEqual({ typed: "222 233" });
    expect(copy.id).not.toBe(original.id);
    expect(computer.open(original).read("balance")).toEqual({ typed: "222 233" });
  });

  it("is offered no more in a copy that goes without it", () => {
    const computer = new Computer();
    const original = jobA();
    computer.open(original).write("balance", { typed: "222 233" });
    const copy = { id: original.id, place: "C:\\Jobs\\Job C.xlsx" };
    const store = computer.open(copy);
    for (const offer of store.offered()) store.refuse(offer);
    expect(computer.open(copy).offered()).toEqual([]);
    expect(computer.open(copy).others()).toHaveLength(1);
    expect(computer.open(original).read("balance")).toEqual({ typed: "222 233" });
  });

  it("is offered where the workbook was closed without saving, and lost its id", () => {
    const computer = new Computer();
    computer.open(jobA()).write("measure", { width: "12" });
    const store = computer.open(jobA());
    expect(store.offered()).toHaveLength(1);
    for (const offer of store.offered()) store.take(offer);
    expect(store.read("measure")).toEqual({ width: "12" });
    expect(computer.open(jobB()).others()).toHaveLength(1);
  });

  it("belongs to a new workbook also after its first saving", () => {
    const computer = new Computer();
    const workbook = { id: null as string | null, place: "Book1" };
    computer.open(workbook).write("measure", { width: "12" });
    expect(computer.open({ ...workbook, place: "C:\\Jobs\\Job A.xlsx" }).read("measure")).toEqual({ width: "12" });
  });

  it("is found again by its place where the workbook takes no id", () => {
    const computer = new Computer();
    const workbook = jobA();
    computer.refusing.add(workbook.place);
    computer.open(workbook).write("measure", { width: "12" });
    expect(workbook.id).toBeNull();
    expect(computer.open(workbook).offered()).toHaveLength(1);
  });

  it("is not written over by what is taken over", () => {
    const computer = new Computer();
    computer.open(jobA()).write("measure", { width: "12" });
    const store = computer.open(jobA());
    store.write("measure", { width: "18" });
    const [offer] = store.offered();
    if (offer === undefined) throw new Error("Nothing was offered.");
    const left = store.take(offer);
    expect(store.read("measure")).toEqual({ width: "18" });
    expect(takenWords(offer, left)).toBe("Nothing was copied. Measure already has entries here, so those stay kept.");
    expect(store.offered()).toHaveLength(1);
  });

  it("stays while the pane is open where the browser refuses to keep it, and the store says why", () => {
    const store = draftStore(jobA(), {
      openStorage: () => {
        throw new Error("Access is denied.");
      },
      newId: () => "id",
      nowMs: () => 0,
      keepId: async () => undefined,
    });
    store.write("measure", { width: "12" });
    expect(store.read("measure")).toEqual({ width: "12" });
    expect(store.failure).toBe("Access is denied.");
  });
});

describe("two windows over one workbook", () => {
  it("each keep what they changed, field by field", () => {
    const computer = new Computer();
    const workbook = jobA();
    computer.open(workbook).write("measure", { width: "12", height: "", readings: { "1.1": "400" } });
    const [one, other] = [computer.open(workbook), computer.open(workbook)];
    const heard: unknown[] = [];
    other.subscribe("measure", (draft) => heard.push(draft));
    one.write("measure", { width: "14", height: "", readings: { "1.1": "400", "1.2": "410" } });
    other.write("measure", { width: "12", height: "8", readings: { "1.1": "400", "1.3": "420" } });
    const both = { width: "14", height: "8", readings: { "1.1": "400", "1.2": "410", "1.3": "420" } };
    expect(other.read("measure")).toEqual(both);
    expect(heard).toEqual([both]);
    expect(computer.open(workbook).read("measure")).toEqual(both);
  });

  it.each([
    [["a"], ["a", "b"], ["a", "c"], ["a", "c", "b"]],
    [["a", "b"], ["a"], ["a", "b", "c"], ["a", "c"]],
    [[], ["a"], ["a"], ["a"]],
  ])("of marks %j made into %j and %j keep %j", (base, ours, theirs, merged) => {
    expect(mergeDrafts(base, ours, theirs)).toEqual(merged);
  });

  it("keep every sweep that either took", () => {
    const first = { velocity: "400", seconds: "20" };
    const second = { velocity: "410", seconds: "21" };
    const third = { velocity: "390", seconds: "19" };
    expect(mergeDrafts([first], [first, second], [first, third])).toEqual([first, third, second]);
  });
});
