import { describe, expect, it } from "vitest";
import { fileProblem } from "../../../src/hosts/file/file-problem.js";

/* What a command says of links and of places that take no file is held to what it meets in tests/hostile. */

/** As Node throws it of a call. */
function thrown(code: string, syscall: string, path: string): Error {
  return Object.assign(new Error(`${code}: not this time, ${syscall} '${path}'`), { code, syscall, path });
}

const saying = (cause: Error) => fileProblem("jobs/rooms.xlsx", cause, "writing").message;

describe("a file that cannot be saved", () => {
  it.each([
    ["EROFS", "access", "the disk of “/mnt/jobs” is read-only"],
    ["EACCES", "access", "nothing may be written in “/mnt/jobs”"],
    ["EPERM", "access", "nothing may be written in “/mnt/jobs”"],
    ["EROFS", "open", "the disk of “jobs” is read-only"],
    ["EACCES", "mkdir", "nothing may be written in “jobs”"],
  ])("after %s of %s names the folder", (code, syscall, says) => {
    expect(saying(thrown(code, syscall, syscall === "access" ? "/mnt/jobs" : "jobs/.vanesheet-1.tmp"))).toBe(
      `jobs/rooms.xlsx: could not be saved: ${says}; the file is as it was. Check the permissions of the folder, or save to another one.`,
    );
  });

  it("is not laid to its folder where another call was refused", () => {
    const said = saying(thrown("EPERM", "fchmod", "jobs/.vanesheet-1.tmp"));
    expect(said).toContain("could not be saved (EPERM: not this time, fchmod");
    expect(said).not.toContain("nothing may be written");
  });
});
