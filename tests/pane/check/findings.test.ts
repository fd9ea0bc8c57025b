import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { findingCounts, findingsBySheet } from "../../../src/pane/check/findings-by-sheet.js";
import { type FindingsStore, findingsStore } from "../../../src/pane/check/findings-store.js";
import { outcomeWords, planWords } from "../../../src/pane/check/repair-words.js";
import { type Finding, HostError, type InteractiveHost } from "../../../src/workbook/index.js";
import { pageHostOver } from "../../hosts/page/page-host-over.js";

const finding = (sheet: string, cell: string, severity: Finding["severity"]): Finding => ({
  kind: "text-reading",
  leftOut: "nothing",
  file: "",
  severity,
  sheet,
  cell,
  problem: "It is no number.",
  action: "Enter a number.",
});

describe("the findings", () => {
  it("are grouped by sheet and counted by severity", () => {
    const findings = [finding("A", "B2", "error"), finding("B", "C3", "warning"), finding("A", "B9", "error")];
    expect(findingsBySheet(findings).map(({ sheet, findings: own }) => [sheet, own.length])).toEqual([
      ["A", 2],
      ["B", 1],
    ]);
    expect(findingCounts(findings)).toBe("2 errors, 1 warning");
    expect(findingCounts([finding("A", "B2", "warning")])).toBe("1 warning");
  });
});

describe("the check of an open workbook", () => {
  let clockMs = 0;
  const stores: (() => void)[] = [];

  /** A balance of one cell, a host that counts how often it is read, and a store over it. */
  function opened(reading: number | string) {
    const host = pageHostOver({
      sheets: [{ name: "Mine", cells: { B2: reading, C2: 2.5, D2: "=VANE.AIRFLOW(B2,C2,COUNT(B2))" } }],
      names: {},
    });
    let reads = 0;
    const counting: InteractiveHost = {
      ...host,
      async check() {
        reads += 1;
        if (host.check === undefined) throw new Error("The page looks through its workbook itself.");
        return host.check();
      },
    };
    const store = findingsStore(counting, () => clockMs);
    const told = vi.fn();
    stores.push(store.subscribe(told));
    const type = (content: number | string) =>
      host.write([{ address: { sheet: "Mine", range: "B2" }, cells: [[content]] }]);
    return { store, told, type, reads: () => reads };
  }

  const cellsOf = (store: FindingsStore) => store.current().report?.findings.map(({ cell }) => cell);

  beforeEach(() => {
    vi.useFakeTimers();
  });

  afterEach(() => {
    for (const stop of stores.splice(0)) stop();
    vi.useRealTimers();
  });

  it("finds what is wrong, and says so to whoever listens", async () => {
    const { store, told } = opened("door shut");
    await store.check();
    expect(cellsOf(store)).toContain("D2");
    expect(store.current().isChecking).toBe(false);
    expect(told).toHaveBeenCalled();
  });

  it("is made again once the sheet is at rest after changes, and once for many", async () => {
    const { store, type, reads } = opened("door shut");
    await store.check();
    const before = reads();
    for (const reading of [300, 310, 320]) await type(reading);
    await vi.advanceTimersByTimeAsync(900);
    expect(cellsOf(store)).toContain("D2");
    await vi.advanceTimersByTimeAsync(200);
    expect(cellsOf(store)).toEqual([]);
    expect(reads() - before).toBe(1);
  });

  it("waits the longer the longer a check takes", async () => {
    const { store, type } = opened(300);
    await vi.advanceTimersByTimeAsync(0);
    const checking = store.check();
    clockMs += 2000;
    await checking;
    await type("door shut");
    await vi.advanceTimersByTimeAsync(3900);
    expect(cellsOf(store)).toEqual([]);
    await vi.advanceTimersByTimeAsync(200);
    expect(cellsOf(store)).toContain("D2");
  });

  it("keeps the last report when the workbook cannot be read, and says why", async () => {
    const { store } = opened("door shut");
    await store.check();
    // A host that cannot check elsewhere.
    const { check: _, ...plain } = pageHostOver({ sheets: [{ name: "Mine", cells: {} }], names: {} });
    const failing = findingsStore(
      {
        ...plain,
        sheets: () => Promise.reject(new HostError("The workbook is closed.")),
      },
      () => 0,
    );
    await failing.check();
    expect(failing.current()).toMatchObject({ report: null, failure: { message: "The workbook is closed." } });
  });

  it("stops with its last listener", async () => {
    const { store, type, reads } = opened(300);
    await store.check();
    for (const stop of stores.splice(0)) stop();
    await type("door shut");
    const before = reads();
    await vi.advanceTimersByTimeAsync(20_000);
    expect(reads()).toBe(before);
  });

  it("is made anew with the next listener: what changed meanwhile was not heard", async () => {
    const { store, type } = opened(300);
    await store.check();
    for (const stop of stores.splice(0)) stop();
    await type("door shut");
    stores.push(store.subscribe(() => undefined));
    await vi.advanceTimersByTimeAsync(0);
    expect(cellsOf(store)).toContain("D2");
  });

  it("forgets one workbook's findings at the moment when another comes into view, also those still under way", async () => {
    const made = (reading: number | string) =>
      pageHostOver({
        sheets: [{ name: "Mine", cells: { B2: reading, C2: 2.5, D2: "=VANE.AIRFLOW(B2,C2,COUNT(B2))" } }],
        names: {},
      });
    let current = made("door shut");
    const next = made(300);
    let tell: () => void = () => undefined;
    const either = new Proxy(current, {
      get: (_, name: keyof InteractiveHost) =>
        name === "watchWorkbook"
          ? (listener: () => void) => {
              tell = listener;
              return () => undefined;
            }
          : current[name],
    });
    const store = findingsStore(either, () => 0);
    const seen: (number | undefined)[] = [];
    stores.push(store.subscribe(() => seen.push(store.current().report?.findings.length)));
    await store.check();
    expect(cellsOf(store)).toContain("D2");
    void store.check();
    seen.length = 0;
    current = next;
    tell();
    expect(store.current().report).toBeNull();
    await vi.advanceTimersByTimeAsync(0);
    expect(cellsOf(store)).toEqual([]);
    expect(seen.filter((count) => count !== undefined && count > 0)).toEqual([]);
  });
});

describe("the words of a repair", () => {
  const formula = { row: 2, column: 4, typed: "=VANE.AIRFLOW(B2,C2)" };

  it("ask before a protected sheet is touched, and name what this version does not know", () => {
    const plan = {
      count: 2,
      sheets: [
        { sheet: "Outlets", isProtected: true, formulas: [formula] },
        { sheet: "Mine", isProtected: false, formulas: [formula] },
      ],
      unknown: [{ sheet: "Mine", address: "F7", functionName: "VANE.LATER" }],
    };
    const words = planWords(plan).join(" ");
    expect(words).toContain("2 formulas on “Outlets”, “Mine”");
    expect(words).toContain("“Outlets” is protected");
    expect(words).toContain("Mine!F7 asks for VANE.LATER");
  });

  it("say what was done and what was not", () => {
    const unrepaired = [{ sheet: "Outlets", count: 1, message: "Sheet “Outlets” is protected with a password." }];
    expect(outcomeWords({ repaired: 1, unrepaired })).toBe(
      "1 formula entered again. Sheet “Outlets” is protected with a password.",
    );
    expect(outcomeWords({ repaired: 0, unrepaired: [] })).toBe("No formula was entered again.");
  });
});
