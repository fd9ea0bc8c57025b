import { execFileSync, spawnSync } from "node:child_process";
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { vanesheetIn } from "./vanesheet.js";

const COMMAND = resolve(import.meta.dirname, "../../src/cli/vanesheet.mjs");

let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "output-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("what a command prints", () => {
  it.skipIf(!existsSync("/dev/full"))("ends with an error where it cannot be written", () => {
    const full = openSync("/dev/full", "w");
    try {
      const { status, stderr } = spawnSync(process.execPath, [COMMAND, "eval", "=1+1"], {
        stdio: ["ignore", full, "pipe"],
        encoding: "utf8",
      });
      expect(status).toBe(1);
      expect(stderr).toContain("could not be printed whole: the disk is full");
    } finally {
      closeSync(full);
    }
  });

  it("ends quietly where nobody reads it any more", () => {
    const script = `"$0" "$1" functions | head -1; echo "status \${PIPESTATUS[0]}"`;
    const out = execFileSync("bash", ["-c", script, process.execPath, COMMAND], { encoding: "utf8" });
    expect(out).toMatch(/^=VANE\..*\nstatus [01]\n$/);
  });

  it("is whole through a pipe that fills up", () => {
    const script = `"$0" "$1" eval "=SEQUENCE(60000)" | (sleep 1; wc -l)`;
    expect(execFileSync("bash", ["-c", script, process.execPath, COMMAND], { encoding: "utf8" }).trim()).toBe("60000");
  });

  it("spells out what a terminal would obey", () => {
    writeFileSync(
      join(folder, "log.csv"),
      "Time (s),Velocity \u001b[31m\u009b2J (fpm)\n0,400\n1,\u001b]0;x\u0007\n2,420\u202e\n",
    );
    const { out } = vanesheetIn(folder, ["readings", "log.csv"]);
    expect(out).toContain("\\u001b[31m\\u009b2J");
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202e]/);
    const { err } = vanesheetIn(folder, ["calc", "a\u001b[2J\nb.xlsx"]);
    expect(err).toContain("a\\u001b[2J\\nb.xlsx");
    expect(vanesheetIn(folder, ["eval", '="a"&CHAR(10)&CHAR(27)&"b"']).out).toBe("a\\n\\u001bb");
  });
});
