import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { unzipSync } from "fflate";
import type { Page } from "playwright-core";
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { cellAt, openWorkbook, readSheet } from "../../src/xlsx/index.js";
import { filesOn } from "./files-on-page.js";
import { type OpenWorkbook, person, serveWorkbook } from "./open-workbook.js";

/*
 * Saving where the browser lets a page write to files. Its dialogs cannot be answered by a test, so they are replaced;
 * the files are real ones of the browser's own file system, with real handles.
 */

let workbook: OpenWorkbook;
let page: Page;

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

/** The file of the test, under a name that no other test used. */
let name = "";
let count = 0;

/** What the replaced dialogs answer, and where the page asked. */
interface Dialogs {
  opens: string;
  saves: string | "nothing";
  leave: PermissionState;
  isFresh: boolean;
  asked: string[];
}

function replaceDialogs(): void {
  const dialogs: Dialogs = { opens: "", saves: "copy.xlsx", leave: "granted", isFresh: true, asked: [] };
  const handle = async (file: string) => (await navigator.storage.getDirectory()).getFileHandle(file, { create: true });
  Object.assign(window, {
    dialogs,
    showOpenFilePicker: async () => [await handle(dialogs.opens)],
    showSaveFilePicker: async ({ suggestedName }: { readonly suggestedName: string }) => {
      dialogs.asked.push(suggestedName);
      if (!dialogs.isFresh) {
        dialogs.isFresh = true;
        throw new DOMException("Must be handling a user gesture to show a file picker.", "SecurityError");
      }
      if (dialogs.saves === "nothing") throw new DOMException("The user aborted a request.", "AbortError");
      return handle(dialogs.saves);
    },
  });
  Object.assign(FileSystemFileHandle.prototype, { requestPermission: async () => dialogs.leave });
}

function answer(changes: Partial<Dialogs>): Promise<void> {
  return page.evaluate((given) => {
    Object.assign((window as unknown as { dialogs: Dialogs }).dialogs, given);
  }, changes);
}

const asked = (): Promise<readonly string[]> =>
  page.evaluate(() => (window as unknown as { dialogs: Dialogs }).dialogs.asked);

async function onDisk(wanted: string): Promise<Uint8Array> {
  const bytes = await page.evaluate(async (file) => {
    const folder = await navigator.storage.getDirectory();
    const found = await folder.getFileHandle(file).catch(() => null);
    return found === null ? [] : [...new Uint8Array(await (await found.getFile()).arrayBuffer())];
  }, wanted);
  return Uint8Array.from(bytes);
}

async function putOnDisk(target: string, bytes: Uint8Array): Promise<void> {
  await page.evaluate(
    async ([file, content]) => {
      const folder = await navigator.storage.getDirectory();
      const stream = await (await folder.getFileHandle(file, { create: true })).createWritable();
      await stream.write(new Uint8Array(content));
      await stream.close();
    },
    [target, [...bytes]] as const,
  );
}

const template = () => readFile(join("templates", "face-sweep.xlsx"));
const dialog = () => page.locator("dialog");
const projectIn = (bytes: Uint8Array) => cellAt(readSheet(openWorkbook(bytes, "saved.xlsx"), "Job"), "B6")?.value;
const isSame = (one: Uint8Array, other: Uint8Array) => Buffer.from(one).equals(Buffer.from(other));

async function enterProject(text: string): Promise<void> {
  await person(page).openSheet("Job");
  await person(page).type("B6", text);
}

async function save(): Promise<void> {
  await page.locator("#save").click();
}

async function isSaved(): Promise<void> {
  const notice = page.locator(".notice.success");
  await notice.waitFor();
  await notice.getByRole("button", { name: "Close" }).click();
}

beforeAll(async () => {
  workbook = await serveWorkbook();
  const context = await workbook.browser.newContext({
    viewport: { width: 1366, height: 768 },
    serviceWorkers: "block",
  });
  page = await context.newPage();
  await page.addInitScript(replaceDialogs);
  await page.goto(workbook.served.address);
  await person(page).isReady();
});

afterAll(() => workbook.close());

/** Each starts with the template on disk and in view. */
beforeEach(async () => {
  count += 1;
  name = `sweeps-${count}.xlsx`;
  await answer({ opens: name, saves: "copy.xlsx", leave: "granted", isFresh: true, asked: [] });
  await putOnDisk(name, await template());
  await putOnDisk("copy.xlsx", new Uint8Array());
  await page.locator("#open").click();
  await filesOn(page).isOpen(name);
});

/** A dialog that a failed test left must not stand in the way of the next. */
afterEach(async () => {
  if ((await dialog().count()) > 0) await page.keyboard.press("Escape");
});

describe("Save, where the browser lets the page write", () => {
  it("writes into the file that was opened, again after the next entry, and also after a reload", async () => {
    await enterProject("first");
    await save();
    await isSaved();
    const first = await onDisk(name);
    expect(projectIn(first)).toBe("first");
    const [before, after] = [unzipSync(await template()), unzipSync(first)];
    expect(Object.keys(after)).toEqual(Object.keys(before));
    for (const [part, content] of Object.entries(after)) {
      if (!part.startsWith("xl/worksheets/"))
        expect(isSame(content, before[part] ?? new Uint8Array()), part).toBe(true);
    }
    await enterProject("second");
    await save();
    await isSaved();
    expect(projectIn(await onDisk(name))).toBe("second");
    await page.reload();
    await person(page).isReady();
    await enterProject("third");
    await save();
    await isSaved();
    expect(projectIn(await onDisk(name))).toBe("third");
    expect(await asked()).toEqual([]);
  });

  it("leaves a file alone that has changed on disk meanwhile, and a copy can be saved instead", async () => {
    await enterProject("mine");
    const theirs = await readFile(join("templates", "before-after.xlsx"));
    await putOnDisk(name, theirs);
    await save();
    await dialog().waitFor();
    expect(await dialog().textContent()).toContain(`${name}: has changed on disk since it was opened`);
    await dialog().getByRole("button", { name: "Cancel" }).click();
    expect(isSame(await onDisk(name), theirs)).toBe(true);
    await page.evaluate(() => window.dispatchEvent(new Event("focus")));
    await page.locator(".notice.warning", { hasText: "has changed on disk" }).waitFor();
    await save();
    await dialog().getByRole("button", { name: "Save mine as another file" }).click();
    await isSaved();
    expect(await asked()).toEqual([`sweeps-${count} (mine).xlsx`]);
    expect(projectIn(await onDisk("copy.xlsx"))).toBe("mine");
    expect(isSame(await onDisk(name), theirs)).toBe(true);
    expect(await page.locator("#title").textContent()).toBe("copy.xlsx");
  });

  it.each(["denied", "prompt"] as const)(
    "writes nothing where leave to write is %s, and says what to do",
    async (leave) => {
      await enterProject("mine");
      await answer({ leave });
      await save();
      await dialog().waitFor();
      expect(await dialog().textContent()).toMatch(/was not saved: the browser was not allowed to.*save a copy/s);
      await dialog().getByRole("button", { name: "OK" }).click();
      expect(isSame(await onDisk(name), await template())).toBe(true);
      await answer({ leave: "granted" });
      await save();
      await isSaved();
      expect(projectIn(await onDisk(name))).toBe("mine");
    },
  );

  it("writes nothing when the person turns away from choosing a place", async () => {
    await enterProject("mine");
    await answer({ saves: "nothing" });
    await page.locator("#save-copy").click();
    await vi.waitFor(async () => expect(await asked()).toHaveLength(1));
    await page.locator("#busy").waitFor({ state: "hidden" });
    expect(await dialog().count()).toBe(0);
    expect(await page.locator(".notice").count()).toBe(0);
    expect(isSame(await onDisk(name), await template())).toBe(true);
  });

  it("asks for another click where the browser finds the first too long ago", async () => {
    await enterProject("mine");
    await answer({ isFresh: false });
    await page.locator("#save-copy").click();
    await dialog().waitFor();
    expect(await dialog().textContent()).toContain(`“sweeps-${count} (copy).xlsx” is ready.`);
    await dialog().getByRole("button", { name: "Choose where" }).click();
    await isSaved();
    expect(projectIn(await onDisk("copy.xlsx"))).toBe("mine");
  });

  it("never puts a file that leaves something out in place of the one that was opened", async () => {
    await person(page).nameCell("Main_grille");
    await person(page).copyLooks();
    await answer({ saves: name });
    await save();
    await page.getByRole("button", { name: "Save as a new file" }).click();
    const refusal = page.locator("dialog", { hasText: "Give it another name." });
    await refusal.waitFor();
    await refusal.getByRole("button", { name: "OK" }).click();
    expect(isSame(await onDisk(name), await template())).toBe(true);
    await answer({ saves: "copy.xlsx" });
    await save();
    await page.getByRole("button", { name: "Save as a new file" }).click();
    await isSaved();
    const { names } = openWorkbook(await onDisk("copy.xlsx"), "copy.xlsx");
    expect(names.map((given) => given.name)).toContain("Main_grille");
  });
});

describe("rows from the pane", () => {
  it("go into the file that was opened, which keeps its print set-up, protection and all it had", async () => {
    const before = new Uint8Array(await template());
    const sheetName = openWorkbook(before, name).sheets[1]?.name ?? "";
    const listOf = (bytes: Uint8Array) => {
      const [table] = readSheet(openWorkbook(bytes, name), sheetName).tables;
      return { first: (table?.range.firstRow ?? 0) + 1, last: table?.range.lastRow ?? 0 };
    };
    const { first, last } = listOf(before);
    await page.getByTitle(sheetName, { exact: true }).click();
    await person(page).type(`A${first}`, "S-1");
    await person(page).goTo(`A${first}`);
    const pane = page.locator("#pane");
    if (!(await pane.isVisible())) await page.locator("#pane-toggle").click();
    await pane.getByRole("tab", { name: "Start" }).click();
    await pane.getByRole("button", { name: "Add 10 outlets" }).click();
    await pane.getByText("10 rows are new at the end of the list").waitFor();
    await person(page).goTo(`A${first}`);
    await pane.getByRole("button", { name: "Insert an outlet here" }).click();
    await pane.getByText(`Row ${first} is new on the list`).waitFor();
    await person(page).type(`A${first}`, "S-0");
    await person(page).type(`A${last + 11}`, "S-99");
    await save();
    await isSaved();
    const saved = await onDisk(name);
    expect(listOf(saved)).toEqual({ first, last: last + 11 });
    const sheet = readSheet(openWorkbook(saved, name), sheetName);
    expect([first, first + 1, last + 11].map((row) => cellAt(sheet, `A${row}`)?.value)).toEqual(["S-0", "S-1", "S-99"]);
    expect(sheet.isProtected).toBe(true);
    expect(sheet.cells.formulas.filter(({ row }) => row === last + 11).length).toBeGreaterThan(3);
    const [was, is] = [unzipSync(before), unzipSync(saved)];
    expect(Object.keys(is)).toEqual(Object.keys(was));
    const changed = Object.entries(was).filter(([part, content]) => !isSame(content, is[part] ?? new Uint8Array()));
    expect(changed.map(([part]) => part.replace(/\d+/, "")).sort()).toEqual([
      "xl/tables/table.xml",
      "xl/workbook.xml",
      "xl/worksheets/sheet.xml",
    ]);
    expect(await dialog().count()).toBe(0);
  });
});
