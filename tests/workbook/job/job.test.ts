import { describe, expect, it } from "vitest";
import {
  HostError,
  JOB_DETAIL_NAMES,
  JOB_NAMES,
  namedBlock,
  placeOf,
  readJob,
  sentencesOf,
  TEMPLATES,
  UNSTATED_JOB,
  writeJob,
} from "../../../src/workbook/index.js";
import { givenPlan, pageHostOver } from "../../hosts/page/page-host-over.js";

const open = () => pageHostOver(givenPlan(TEMPLATES["face-sweep"]("")));

describe("the job of a workbook", () => {
  it("has a defined name for each detail in every template", () => {
    const names = new Set(JOB_NAMES.map(({ name }) => name));
    expect(Object.values(JOB_DETAIL_NAMES).filter((name) => !names.has(name))).toEqual([]);
  });

  it("starts inch-pound with the limits of the sheet, and nothing else stated", async () => {
    const job = await readJob(open());
    expect(job?.findings).toEqual([]);
    expect(job?.details).toEqual({
      ...UNSTATED_JOB,
      minusPercent: 10,
      plusPercent: 10,
      outsideMinusPercent: 0,
      outsidePlusPercent: 10,
      decisionRule: "simple",
      factorPercent: 10,
    });
  });

  it("has what was written into it, and forgets what was emptied", async () => {
    const host = open();
    await writeJob(host, { units: "si", elevation: 1600, temperature: -5, jobName: "House 12", minusPercent: null });
    const job = await readJob(host);
    expect(job?.details).toMatchObject({ units: "si", elevation: 1600, temperature: -5, jobName: "House 12" });
    expect(job?.details.minusPercent).toBeNull();
  });

  it("keeps an elevation of 0 apart from none", async () => {
    const host = open();
    await writeJob(host, { elevation: 0 });
    expect((await readJob(host))?.details.elevation).toBe(0);
  });

  it("names the cell that holds something else, and reads the rest", async () => {
    const host = open();
    const elevation = (await readJob(host))?.places.get("elevation");
    if (elevation === undefined) throw new Error("The template has no elevation.");
    await host.write([{ address: elevation, cells: [["on the hill"]] }]);
    const job = await readJob(host);
    expect(job?.findings.map((finding) => [placeOf(finding), sentencesOf(finding)])).toEqual([
      [`Job!${elevation.range}`, "It holds “on the hill”. Enter a number there."],
    ]);
    expect(job?.details).toMatchObject({ elevation: null, minusPercent: 10 });
  });

  it("is none where the workbook has no sheet of job details, and writing says what to do", async () => {
    const host = pageHostOver({ sheets: [{ name: "Mine", cells: { A1: 1 } }], names: {} });
    expect(await readJob(host)).toBeNull();
    await expect(writeJob(host, { elevation: 10 })).rejects.toThrow(HostError);
  });
});

describe("the cell of a defined name", () => {
  it.each([
    ["Job!$B$21", { sheet: "Job", range: "B21" }],
    ["'Floor 1 ''east'''!$B$3:$C$4", { sheet: "Floor 1 'east'", range: "B3:C4" }],
    ["='A!b'!D2", { sheet: "A!b", range: "D2" }],
  ])("is read from %s", (refersTo, block) => {
    expect(namedBlock(refersTo)).toEqual(block);
  });

  it.each(["", "#REF!", "0.75", "OFFSET(Job!$B$2,1,0)", "Job!#REF!"])("is none in %s", (refersTo) => {
    expect(namedBlock(refersTo)).toBeNull();
  });
});
