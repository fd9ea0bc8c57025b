import { execFileSync, spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  chmodSync,
  existsSync,
  linkSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openWorkbookFile, saveWorkbookCopy, saveWorkbookFile } from "../../../src/hosts/file/index.js";
import { cellAt, patchWorkbook, readSheet, type Workbook, WorkbookFileError } from "../../../src/xlsx/index.js";
import { plainWorkbook } from "../../xlsx/plain-workbook.js";

let folder = "";
let path = "";
const original = plainWorkbook('<row r="1"><c r="A1"><v>1</v></c></row><row r="2000"><c r="A2000"><v>1</v></c></row>');

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "saving-"));
  path = join(folder, "rooms.xlsx");
  writeFileSync(path, original);
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const changed = (workbook: Workbook, value: number): Uint8Array =>
  patchWorkbook(workbook, [{ kind: "value", sheet: "Sheet1", address: "A1", value }]);

async function refusal(act: () => Promise<unknown>): Promise<WorkbookFileError> {
  const error = await act().then(
    () => undefined,
    (cause: unknown) => cause,
  );
  expect(error).toBeInstanceOf(WorkbookFileError);
  return error as WorkbookFileError;
}

async function expectRefusedUntouched(change: () => void, code: string, says: string): Promise<void> {
  const file = await openWorkbookFile(path);
  change();
  const before = readFileSync(path);
  const names = readdirSync(folder);
  const error = await refusal(() => saveWorkbookFile(file, changed(file.workbook, 2)));
  expect(error.code).toBe(code);
  expect(error.message).toContain(says);
  expect(error.message).toContain("rooms.xlsx");
  expect(readFileSync(path)).toEqual(before);
  expect(readdirSync(folder)).toEqual(names);
}

describe("saving a workbook over itself", () => {
  it("puts the new content in place, keeps the permissions and leaves nothing else behind", async () => {
    chmodSync(path, 0o640);
    const file = await openWorkbookFile(path);
    const saved = await saveWorkbookFile(file, changed(file.workbook, 425));
    expect(cellAt(readSheet(saved.workbook, "Sheet1"), "A1")?.value).toBe(425);
    expect(statSync(path).mode & 0o777).toBe(0o640);
    expect(readdirSync(folder)).toEqual(["rooms.xlsx"]);
    const again = await saveWorkbookFile(saved, changed(saved.workbook, 426));
    const reopened = await openWorkbookFile(path);
    expect(reopened.identity).toEqual(again.identity);
    expect(cellAt(readSheet(reopened.workbook, "Sheet1"), "A1")?.value).toBe(426);
  });

  it("follows a link to the file and leaves the link a link", async () => {
    const link = join(folder, "link.xlsx");
    symlinkSync(path, link);
    const file = await openWorkbookFile(link);
    await saveWorkbookFile(file, changed(file.workbook, 3));
    expect(readFileSync(path)).toEqual(readFileSync(link));
    expect(readdirSync(folder).sort()).toEqual(["link.xlsx", "rooms.xlsx"]);
    expect(cellAt(readSheet((await openWorkbookFile(path)).workbook, "Sheet1"), "A1")?.value).toBe(3);
  });

  it("gives the new content to the other names of the file in its folder, and tells of those elsewhere", async () => {
    const elsewhere = mkdtempSync(join(tmpdir(), "elsewhere-"));
    try {
      linkSync(path, join(folder, "same.xlsx"));
      linkSync(path, join(elsewhere, "backup.xlsx"));
      const file = await openWorkbookFile(path);
      const saved = await saveWorkbookFile(file, changed(file.workbook, 4));
      expect(saved.namesWithOldContent).toBe(1);
      expect(statSync(join(folder, "same.xlsx")).ino).toBe(statSync(path).ino);
      expect(cellAt(readSheet((await openWorkbookFile(path)).workbook, "Sheet1"), "A1")?.value).toBe(4);
      expect(readFileSync(join(elsewhere, "backup.xlsx"))).toEqual(Buffer.from(original));
      expect(readdirSync(folder).sort()).toEqual(["rooms.xlsx", "same.xlsx"]);
      const again = await saveWorkbookFile(saved, changed(saved.workbook, 5));
      expect(again.namesWithOldContent).toBe(0);
    } finally {
      rmSync(elsewhere, { recursive: true });
    }
  });

  it("takes a name as long as the disk allows, and says so of one that is longer", async () => {
    const long = join(folder, `${"r".repeat(250)}.xlsx`);
    writeFileSync(long, original);
    const file = await openWorkbookFile(long);
    const saved = await saveWorkbookFile(file, changed(file.workbook, 6));
    expect(cellAt(readSheet(saved.workbook, "Sheet1"), "A1")?.value).toBe(6);
    const longer = join(folder, `${"r".repeat(251)}.xlsx`);
    expect((await refusal(() => openWorkbookFile(longer))).message).toContain("name that is too long");
    expect((await refusal(() => saveWorkbookCopy(longer, original, "refuse"))).message).toContain("too long");
    expect(readdirSync(folder).length).toBe(2);
  });

  it("is refused when the file has changed since", async () => {
    await expectRefusedUntouched(
      () => writeFileSync(path, plainWorkbook('<row r="1"><c r="A1"><v>9</v></c></row>')),
      "changed-on-disk",
      "has changed on disk",
    );
  });

  it("is refused when the file has changed since to the same size and time", async () => {
    const { atime, mtime } = statSync(path);
    await expectRefusedUntouched(
      () => {
        const other = Buffer.from(original);
        other.writeUInt8(other.readUInt8(10) ^ 1, 10);
        writeFileSync(path, other);
        utimesSync(path, atime, mtime);
      },
      "changed-on-disk",
      "Open it again",
    );
  });

  it.each(["~$rooms.xlsx", ".~lock.rooms.xlsx#"])(
    "is refused while %s says that it is open elsewhere",
    async (lock) => {
      await expectRefusedUntouched(() => writeFileSync(join(folder, lock), ""), "open-elsewhere", lock);
    },
  );

  it("is refused when the file is write-protected", async () => {
    await expectRefusedUntouched(() => chmodSync(path, 0o444), "not-writable", "write-protected");
  });

  it("is refused when the file is gone, without bringing it back", async () => {
    const file = await openWorkbookFile(path);
    rmSync(path);
    expect((await refusal(() => saveWorkbookFile(file, changed(file.workbook, 2)))).code).toBe("not-found");
    expect(readdirSync(folder)).toEqual([]);
  });

  it("removes what a killed save has left, and nothing that somebody may still be writing", async () => {
    const dead = spawnSync(process.execPath, ["--version"]).pid;
    const machine = createHash("sha256").update(hostname()).digest("hex").slice(0, 8);
    const left = (writer: string, processId: number, hoursAgo: number): string => {
      const name = `.vanesheet-${writer}-${processId}-0123456789ab.tmp`;
      writeFileSync(join(folder, name), "half");
      const time = Date.now() / 1000 - hoursAgo * 3600;
      utimesSync(join(folder, name), time, time);
      return name;
    };
    left(machine, dead, 0);
    left("0123abcd", 1, 25);
    const kept = [left(machine, process.ppid, 0), left("0123abcd", 2, 1), "rooms.xlsx"];
    const file = await openWorkbookFile(path);
    await saveWorkbookFile(file, changed(file.workbook, 2));
    expect(readdirSync(folder).sort()).toEqual(kept.sort());
  });

  it("leaves the old file or the new one, whole, whenever the process is killed", { timeout: 120_000 }, () => {
    const tool = resolve(import.meta.dirname, "../../../build/src/tools/kill-while-saving.js");
    const { status, stdout, stderr } = spawnSync(process.execPath, [tool, "4"], { encoding: "utf8" });
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    expect(stdout).toMatch(/^4 kills: .* 0 of them not whole; .* 0 of them at Ctrl-C; 0 stayed after the next save/);
  });
});

describe("saving under another name", () => {
  it("makes the file, and replaces one of that name only when asked", async () => {
    const { workbook } = await openWorkbookFile(path);
    const target = join(folder, "copy.xlsx");
    await saveWorkbookCopy(target, changed(workbook, 7), "refuse");
    const error = await refusal(() => saveWorkbookCopy(target, changed(workbook, 8), "refuse"));
    expect(error.message).toContain("is there already");
    expect(cellAt(readSheet((await openWorkbookFile(target)).workbook, "Sheet1"), "A1")?.value).toBe(7);
    await saveWorkbookCopy(target, changed(workbook, 8), "replace");
    expect(cellAt(readSheet((await openWorkbookFile(target)).workbook, "Sheet1"), "A1")?.value).toBe(8);
    expect(readFileSync(path)).toEqual(Buffer.from(original));
    expect(readdirSync(folder).sort()).toEqual(["copy.xlsx", "rooms.xlsx"]);
  });

  it("says when the folder is not there or the name is a folder's", async () => {
    expect((await refusal(() => saveWorkbookCopy(join(folder, "no", "a.xlsx"), original, "refuse"))).code).toBe(
      "not-found",
    );
    expect((await refusal(() => saveWorkbookCopy(folder, original, "replace"))).message).toContain("is a folder");
    expect(existsSync(join(folder, "no"))).toBe(false);
  });
});

describe("opening a file", () => {
  it("says when there is none, or a folder in its place", async () => {
    expect((await refusal(() => openWorkbookFile(join(folder, "none.xlsx")))).message).toMatch(
      /none\.xlsx: is not there/,
    );
    expect((await refusal(() => openWorkbookFile(folder))).message).toContain("is a folder");
  });

  it("waits for no pipe, and reads no device", async () => {
    const pipe = join(folder, "pipe.xlsx");
    execFileSync("mkfifo", [pipe]);
    expect((await refusal(() => openWorkbookFile(pipe))).message).toContain("is a named pipe");
    expect((await refusal(() => saveWorkbookCopy(pipe, original, "replace"))).message).toContain("is a named pipe");
    expect((await refusal(() => openWorkbookFile("/dev/zero"))).message).toContain("is a device");
    expect(readdirSync(folder).sort()).toEqual(["pipe.xlsx", "rooms.xlsx"]);
  });
});
