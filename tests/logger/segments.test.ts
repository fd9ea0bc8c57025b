import { describe, expect, it } from "vitest";
import { type LogChoices, logSegments, type ReadLog, readLog, takeSegments } from "../../src/logger/index.js";
import { openLogBook } from "../../src/workbook/logged/index.js";
import { plainWorkbook } from "../xlsx/plain-workbook.js";

/* Every log here is invented. */

/** One stretch of a log: readings at equal intervals. "sweep" is what should be found, "rest" what should not. */
interface Stretch {
  readonly kind: "sweep" | "rest";
  readonly velocities: readonly number[];
  /** Seconds without a row before it. */
  readonly pause?: number;
  /** What the log has instead of each velocity. */
  readonly written?: string;
}

/** A swing about a velocity that no two readings share. */
const air = (fpm: number, count: number, swing = 0.1): Stretch => ({
  kind: "sweep",
  velocities: Array.from({ length: count }, (_, index) => fpm * (1 + swing * Math.sin(index * 1.7)) + (index % 7) / 10),
});
const still = (count: number, fpm = 2): Stretch => ({
  kind: "rest",
  velocities: Array.from({ length: count }, (_, index) => fpm + (index % 3)),
});
const after = (pause: number, stretch: Stretch): Stretch => ({ ...stretch, pause });
const writtenAs = (written: string, stretch: Stretch): Stretch => ({ ...stretch, written });

interface Row {
  readonly seconds: number;
  readonly velocity: number;
  readonly text: string;
}

/** Rows at equal intervals, and the plain mean of each sweep's readings, which the mean over time then has to be. */
function made(stretches: readonly Stretch[], interval = 1) {
  const rows: Row[] = [];
  const means: number[] = [];
  let seconds = 0;
  for (const { kind, velocities, pause = 0, written } of stretches) {
    seconds += pause;
    for (const velocity of velocities) {
      rows.push({ seconds, velocity, text: written ?? String(velocity) });
      seconds = Number((seconds + interval).toFixed(6));
    }
    if (kind === "sweep") means.push(velocities.reduce((sum, one) => sum + one, 0) / velocities.length);
  }
  return { rows, means };
}

const csv = (rows: readonly Row[]) =>
  ["Time (s),Velocity (fpm)", ...rows.map(({ seconds, text }) => `${seconds},${text}`)].join("\n");

function segmentsOf(log: ReadLog, wanted?: number) {
  expect([log.problem, log.open]).toEqual([null, []]);
  return log.channels.map(({ series }) => logSegments(series, wanted));
}

const read = (content: string | Uint8Array, choices: LogChoices = {}) =>
  readLog(content, choices, TextDecoder, (bytes) => openLogBook(bytes, "log.xlsx"));

function expectMeans(found: ReturnType<typeof segmentsOf>[number] | undefined, means: readonly number[]) {
  expect(found?.standing).not.toBe("asked");
  const segments = found?.taken?.segments ?? [];
  expect(segments.length).toBe(means.length);
  segments.forEach((segment, index) => {
    expect(segment.meanFpm).toBeCloseTo(means[index] ?? Number.NaN, 8);
  });
}

const LOGS: readonly [string, readonly Stretch[], number?][] = [
  ["one sweep and nothing else", [air(420, 40)]],
  ["one sweep between idle ends", [still(12), air(420, 40), still(25)]],
  [
    "three sweeps with a minute of rest after each",
    [air(399, 30), still(60), air(516, 30), still(60), air(596, 30), still(60)],
  ],
  ["rests in a room whose air stirs", [air(500, 30), still(20, 25), air(450, 30), still(20, 30), air(480, 30)]],
  ["two sweeps with a pause of the logger between", [air(300, 20), after(90, air(340, 25))]],
  ["a rest, then a pause", [air(700, 30), still(10), after(300, air(650, 30)), still(5), air(610, 30)]],
  ["ten readings a second", [air(820, 300), still(40), air(760, 280), still(45, 1)], 0.1],
  ["a reading every five seconds", [air(250, 12), still(12), air(270, 12)], 5],
  ["rests that the instrument writes as a status", [air(410, 30), writtenAs("---", still(20)), air(430, 30)]],
  ["rests that it leaves blank", [air(410, 30), writtenAs("", still(20)), air(430, 30)]],
  [
    "a knock at the probe in a rest",
    [air(500, 30), still(9), { ...air(350, 2), kind: "rest" }, still(9), air(480, 30)],
  ],
  ["a weak grille beside a strong one", [air(1200, 30), still(10), air(90, 30), still(10), air(1100, 30)]],
  ["reverse flow between rests", [air(-400, 30), still(10), air(-450, 30)]],
  ["much more rest than air", [still(600), air(300, 20), still(900), air(330, 20), still(500)]],
  ["sweeps of very different length", [air(400, 200), still(6), air(440, 8), still(6), air(420, 60)]],
  ["the shortest rest that counts", [air(400, 20), still(3), air(440, 20)]],
];

describe("the sweeps of a log", () => {
  it.each(LOGS)(
    "%s: each mean is that of its own readings",
    (_: string, stretches: readonly Stretch[], interval?: number) => {
      const { rows, means } = made(stretches, interval);
      const [found] = segmentsOf(read(csv(rows)));
      expectMeans(found, means);
      const inSweeps = found?.taken?.segments.reduce((sum, { count }) => sum + count, 0);
      expect(inSweeps).toBe(
        stretches.reduce((sum, { kind, velocities }) => sum + (kind === "sweep" ? velocities.length : 0), 0),
      );
    },
  );

  it("are told apart by level and length, with the reason and what lies between", () => {
    const { rows } = made([air(500, 30), still(12), after(60, air(480, 30))]);
    const { taken } = segmentsOf(read(csv(rows)))[0] ?? {};
    expect(taken?.reason).toMatch(/^Below 50 fpm for 3 s or more is a rest; no reading for 5 s or more is a pause\.$/);
    expect(taken?.rests).toMatchObject([
      { kind: "near zero", fromSeconds: 30, toSeconds: 41, meanFpm: 3 },
      { kind: "no readings", fromSeconds: 41, toSeconds: 102, meanFpm: null },
    ]);
  });

  it("reach over a dip of a second or two, which is part of the sweep", () => {
    const velocities = air(400, 60).velocities.map((velocity, index) => (index === 20 || index === 40 ? 0 : velocity));
    const { rows, means } = made([{ kind: "sweep", velocities }]);
    expectMeans(segmentsOf(read(csv(rows)))[0], means);
  });

  it("weigh readings at uneven times as the trapezoids between their halves do", () => {
    const times = [0, 1, 2, 3, 3.5, 4, 60, 61, 62, 63];
    const velocities = [100, 100, 200, 400, 400, 400, 500, 520, 540, 560];
    const rows = times.map((seconds, index) => ({ seconds, velocity: 0, text: String(velocities[index]) }));
    // Weights of 1, 1, 1, 0.75, 0.5 and 0.75 s, then of a second each.
    expectMeans(segmentsOf(read(csv(rows)))[0], [(100 + 100 + 200 + 300 + 200 + 300) / 5, 530]);
  });

  it("are read from semicolons, decimal commas, metres per second and a date that changes at midnight", () => {
    const { rows, means } = made([air(2, 30), still(20, 0), air(2.5, 30)]);
    const start = Date.UTC(2025, 0, 13, 23, 59, 30);
    const lines = rows.map(({ seconds, velocity }) => {
      const [date = "", clock = ""] = new Date(start + seconds * 1000).toISOString().split(/[T.]/);
      const [year, month, day] = date.split("-");
      const written = (seconds >= 30 && seconds < 50 ? 0.01 : velocity).toFixed(6).replace(".", ",");
      return `${day}.${month}.${year};${clock};${written}`;
    });
    const log = read(["Datum;Uhrzeit;Geschwindigkeit [m/s]", ...lines].join("\r\n"));
    const found = segmentsOf(log)[0]?.taken?.segments ?? [];
    expect(found.map(({ meanFpm }) => Number((meanFpm * 0.00508).toFixed(5)))).toEqual(
      means.map((mean) => Number(mean.toFixed(5))),
    );
  });

  it("are read for each of two probes", () => {
    const one = made([air(400, 30), still(10), air(450, 30)]);
    const other = made([air(600, 50), still(10), air(650, 10)]);
    const lines = one.rows.map(({ seconds, text }, index) => `${seconds},${text},${other.rows[index]?.text}`);
    const text = ["Time (s),Probe A (fpm),Probe B (fpm)", ...lines].join("\n");
    const asked = read(text);
    expect(asked.open).toEqual(["velocity"]);
    expect(asked.answers.velocity.choices.at(-1)?.value).toBe("2+3");
    const log = read(text, { velocity: "2+3" });
    expect(log.channels.map(({ name }) => name)).toEqual(["Probe A (fpm)", "Probe B (fpm)"]);
    const [first, second] = segmentsOf(log);
    expectMeans(first, one.means);
    expectMeans(second, other.means);
    expect(read(text.replace("Probe B (fpm)", "Probe B (m/s)"), { velocity: "2+3" }).open).toEqual(["units"]);
  });

  it("are read from a workbook, its dates and times by their formats", () => {
    const { rows, means } = made([air(400, 20), still(10), air(450, 20)]);
    const day = 45_000.5;
    const cell = (address: string, text: string) => `<c r="${address}" t="str"><v>${text}</v></c>`;
    const sheetRows = [
      `<row r="1">${cell("A1", "Invented log")}</row>`,
      `<row r="3">${cell("A3", "Time")}${cell("B3", "Velocity (fpm)")}</row>`,
      ...rows.map(
        ({ seconds, velocity }, index) =>
          `<row r="${index + 4}"><c r="A${index + 4}" s="1"><v>${day + seconds / 86_400}</v></c><c r="B${index + 4}"><v>${velocity}</v></c></row>`,
      ),
    ];
    const bytes = plainWorkbook(sheetRows.join(""), {
      "xl/styles.xml": '<styleSheet><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="22"/></cellXfs></styleSheet>',
      "xl/_rels/workbook.xml.rels":
        '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://x/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://x/styles" Target="styles.xml"/></Relationships>',
    });
    const log = read(bytes);
    expect(log.answers).toMatchObject({
      sheet: { value: "Sheet1", standing: "found" },
      header: { value: "3" },
      time: { value: "1" },
      timeFormat: { value: "ymd" },
      units: { value: "fpm" },
    });
    expect(log.channels[0]?.series.startText).toBe("2023-03-15 12:00:00");
    expectMeans(segmentsOf(log)[0], means);
  });

  it("are asked for where half of the readings are near zero, never for long", () => {
    const pulses = Array.from({ length: 20 }, () => [air(400, 2), still(2)]).flat();
    const { rows } = made([...pulses, air(400, 2)]);
    const log = read(csv(rows));
    const [found] = segmentsOf(log);
    expect(found).toMatchObject({ standing: "asked", taken: null });
    expect(found?.question).toMatch(/^49 % of the readings are near zero in between/);
    expect(segmentsOf(log, 1)[0]).toMatchObject({ standing: "given", taken: { segments: [{ number: 1, count: 82 }] } });
  });

  it("are asked for where weak air may be a rest", () => {
    const { rows } = made([air(500, 30), air(90, 12), air(520, 30)]);
    const log = read(csv(rows));
    const [found] = segmentsOf(log);
    expect(found?.standing).toBe("asked");
    expect(found?.question).toMatch(/a rest, or weak air\. Is it one sweep or 2 sweeps\?$/);
    expect(segmentsOf(log, 2)[0]?.taken?.segments.map(({ count }) => count)).toEqual([30, 30]);
    expect(segmentsOf(log, 1)[0]?.taken?.segments.map(({ count }) => count)).toEqual([72]);
  });

  it("are together what each is, weighted with its seconds", () => {
    const { rows, means } = made([air(400, 31), still(10), air(500, 11)]);
    const segments = segmentsOf(read(csv(rows)))[0]?.taken?.segments ?? [];
    const [first = Number.NaN, second = Number.NaN] = means;
    expect(takeSegments(segments)).toMatchObject({ numbers: [1, 2], durationSeconds: 40, count: 42 });
    expect(takeSegments(segments)?.meanFpm).toBeCloseTo((first * 30 + second * 10) / 40, 8);
  });
});

describe("logs that are made to stop the reader", () => {
  const blanks = " ".repeat(20_000);
  it.each([
    [
      "a field of 400,000 digits",
      `Time (s),Velocity (fpm)\n0,400\n1,${"9".repeat(400_000)}\n2,410`,
      /longer than 65,536/,
    ],
    ["a field of 60,000 digits", `Time (s),Velocity (fpm)\n0,400\n1,${"9".repeat(60_000)}\n2,410`, null],
    ["rows of 20,000 blanks", Array.from({ length: 100 }, (_, row) => `${row}${blanks}400`).join("\n"), null],
    ["blanks before a unit", `Time (s),Velocity\n0,4${blanks}x\n1,5${blanks}m/s`, null],
    ["a quotation mark left open", `Time (s),Velocity (fpm)\n0,"400\n${"1,410\n".repeat(40_000)}`, /quotation mark/],
    ["nothing but quotation marks", '"'.repeat(60_000), null],
    ["a row of 40,000 columns", `${"1,".repeat(30_000)}1\n`.repeat(3), /columns, more than 256/],
    ["a name of 60,000 letters", `Time (s),${"velocity ".repeat(6_000)}(fpm)\n0,400\n1,410`, null],
    ["times beyond all numbers", "Elapsed (h),Velocity (fpm)\n1e300,400\n1e301,410\n1e308,420", /time and a velocity/],
    ["nothing but delimiters", ",;\t|".repeat(15_000), null],
  ])("%s: an answer, soon", (_, text, problem) => {
    const start = process.cpuUsage();
    const log = read(text);
    const { user, system } = process.cpuUsage(start);
    if (problem !== null) expect(log.problem).toMatch(problem);
    expect((user + system) / 1000).toBeLessThan(2_000);
  });
});
