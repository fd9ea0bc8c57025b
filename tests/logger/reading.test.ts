import { describe, expect, it } from "vitest";
import {
  type LogChoices,
  logMoment,
  logSegments,
  logSweep,
  type ReadLog,
  readLog,
  suggestedSweep,
} from "../../src/logger/index.js";

/* Every log here is invented. */

const read = (content: string | Uint8Array, choices: LogChoices = {}) => readLog(content, choices, TextDecoder);
const lines = (...rows: readonly string[]) => rows.join("\r\n");

function seriesOf(log: ReadLog) {
  const [channel] = log.channels;
  if (channel === undefined) throw new Error(`Open: ${log.open.join(", ")}. ${log.problem ?? ""}`);
  return channel.series;
}

function suggested(log: ReadLog) {
  const series = seriesOf(log);
  const [only] = logSegments(series, undefined).taken?.segments ?? [];
  if (only === undefined) throw new Error("No sweep was found.");
  return suggestedSweep(series, only);
}

function whole(log: ReadLog) {
  const sweep = logSweep(seriesOf(log), Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
  if (sweep === null) throw new Error("No reading was taken.");
  return sweep;
}

const values = (log: ReadLog) =>
  Object.fromEntries(Object.entries(log.answers).map(([name, { value }]) => [name, value]));
const mps = (fpm: number) => fpm * 0.00508;

const SEMICOLONS = lines(
  "Invented log;",
  "Datum;Uhrzeit;Geschwindigkeit [m/s];Temperatur [°C]",
  "31.12.2024;23:59:58;1,50;21,0",
  "31.12.2024;23:59:59;2,50;21,0",
  "01.01.2025;00:00:00;3,50;21,1",
);

describe("readLog", () => {
  it("reads semicolons, decimal commas, a date and a time of day over midnight, and metres per second", () => {
    const log = read(SEMICOLONS);
    expect(values(log)).toMatchObject({
      delimiter: "semicolon",
      decimal: "comma",
      header: "2",
      time: "1+2",
      timeFormat: "dmy",
      velocity: "3",
      units: "m/s",
    });
    expect(seriesOf(log).readings.map(({ seconds }) => seconds)).toEqual([0, 1, 2]);
    expect(mps(whole(log).meanFpm)).toBeCloseTo(2.5, 12);
  });

  it("reads Windows-1252 bytes, and says that it took them so", () => {
    const bytes = Uint8Array.from([...SEMICOLONS].map((character) => character.charCodeAt(0)));
    const log = read(bytes);
    expect(log.answers.encoding).toMatchObject({ value: "windows-1252", standing: "assumed" });
    expect(log.answers.velocity.choices.map(({ label }) => label)).toContain("column 4: Temperatur [°C]");
    expect(whole(log).count).toBe(3);
  });

  it.each([
    ["little end first", true],
    ["big end first", false],
  ])("reads UTF-16 with its mark, %s", (_, isLittle) => {
    const text = `\uFEFF${SEMICOLONS}`;
    const view = new DataView(new ArrayBuffer(text.length * 2));
    for (let index = 0; index < text.length; index += 1) view.setUint16(index * 2, text.charCodeAt(index), isLittle);
    const log = read(new Uint8Array(view.buffer));
    expect(log.answers.encoding).toMatchObject({ value: isLittle ? "utf-16le" : "utf-16be", standing: "found" });
    expect(whole(log).count).toBe(3);
  });

  it("reads tabs, times of day past midnight, and a row of units below the names", () => {
    const log = read(
      lines(
        "Time\tAir velocity\tRH",
        "hh:mm:ss\tft/min\t%",
        "23:59:59\t400\t40",
        "00:00:00\t420\t40",
        "00:00:01\t440\t40",
      ),
    );
    expect(values(log)).toMatchObject({
      delimiter: "tab",
      header: "1",
      time: "1",
      timeFormat: "clock",
      velocity: "2",
      units: "fpm",
    });
    expect(seriesOf(log).midnights).toBe(1);
    expect(whole(log)).toMatchObject({ meanFpm: 420, durationSeconds: 2, count: 3, gaps: [] });
  });

  it("keeps a decimal comma apart from a comma that splits the line as well", () => {
    const log = read(lines("Time (s);v (m/s)", "0;1,5", "1;2,5", "2;3,5"));
    expect(values(log)).toMatchObject({ delimiter: "semicolon", decimal: "comma" });
    const quoted = read(lines('"Time (s)","v (m/s)"', '"0","1,5"', '"1","2,5"'));
    expect(values(quoted)).toMatchObject({ delimiter: "comma", decimal: "comma" });
    expect(mps(whole(quoted).meanFpm)).toBeCloseTo(2, 12);
  });

  it("reads columns set out with spaces", () => {
    const log = read(lines("  12:00:00   1,5", "  12:00:01   2,5"), { units: "m/s" });
    expect(values(log)).toMatchObject({ delimiter: "space", header: "0", time: "1", velocity: "2", decimal: "comma" });
    expect(mps(whole(log).meanFpm)).toBeCloseTo(2, 12);
  });

  it("reads each unit by its definition", () => {
    const mean = (unit: string) => whole(read(lines(`Time (s),Velocity (${unit})`, "0,36", "1,36"))).meanFpm;
    // 36 km/h are 10 m/s; a foot is 0.3048 m, a statute mile 5280 ft, a nautical mile 1852 m.
    expect(mean("km/h")).toBeCloseTo(10 / 0.00508, 8);
    expect(mean("mph")).toBeCloseTo((36 * 5280) / 60, 8);
    expect(mean("ft/s")).toBeCloseTo(36 * 60, 8);
    expect(mean("knots")).toBeCloseTo((36 * 1852) / 60 / 0.3048, 8);
    expect(mean("ft/min")).toBe(36);
  });

  it("reads the unit from the fields, and takes no field with another unit", () => {
    const log = read(lines("Time,Reading", "10:00:00,1.5 m/s", "10:00:01,2.5 m/s", "10:00:02,400 fpm"));
    expect(log.answers.units).toMatchObject({ value: "m/s", standing: "found" });
    expect(whole(log)).toMatchObject({ count: 2, notReadings: [{ row: 4, kind: "other unit" }] });
  });
});

describe("what the text does not say", () => {
  const DATED = lines("Date,Velocity (fpm)", "3/4/2025 10:00:00 AM,400", "3/4/2025 10:00:01 AM,420");

  it("asks which of day and month comes first, and takes the answer", () => {
    expect(read(DATED)).toMatchObject({ open: ["timeFormat"], channels: [] });
    const answered = read(DATED, { timeFormat: "mdy" });
    expect(seriesOf(answered).startsAt).toBe(Date.UTC(2025, 2, 4, 10) / 1000);
    expect(answered.answers.timeFormat.standing).toBe("given");
  });

  it("knows it where a number above 12 tells", () => {
    expect(read(DATED.replaceAll("3/4", "13/4")).answers.timeFormat.value).toBe("dmy");
    expect(read(DATED.replaceAll("3/4", "3/14")).answers.timeFormat.value).toBe("mdy");
  });

  it("asks which of two velocity columns is meant, and then nothing more", () => {
    const two = lines("Time,Vel 1 (fpm),Vel 2 (fpm)", "10:00:00,400,300", "10:00:01,420,320");
    expect(read(two).open).toEqual(["velocity"]);
    expect(whole(read(two, { velocity: "vel 2 (FPM)" })).meanFpm).toBe(310);
  });

  it("asks for the unit, and for that of elapsed time", () => {
    expect(read(lines("Elapsed,Velocity", "0,400", "1,420")).open).toEqual(["timeFormat", "units"]);
    const log = read(lines("Elapsed,Velocity", "0,400", "1,420"), { timeFormat: "min", units: "ft/min" });
    expect(whole(log).durationSeconds).toBe(60);
  });

  it("asks what 1,250 means where nothing tells", () => {
    const log = lines("Time (s);Velocity (fpm)", "0;1,250", "1;1,300");
    expect(read(log).open).toEqual(["decimal"]);
    expect(whole(read(log, { decimal: "point" })).meanFpm).toBe(1275);
    expect(whole(read(log, { decimal: "comma" })).meanFpm).toBeCloseTo(1.275, 12);
  });

  it("asks for both columns where no row names them", () => {
    const bare = lines("0.0,400", "0.5,380", "1.0,420");
    expect(read(bare).open).toEqual(["time", "velocity"]);
    const answered = read(bare, { time: "1", timeFormat: "s", velocity: "2", units: "fpm" });
    expect(whole(answered)).toMatchObject({ count: 3, durationSeconds: 1, meanFpm: 400 });
  });

  it.each([
    ["", "empty"],
    ["PK\u0003\u0004 and so on", "packed"],
    ["a\0b\0\0c", "not text"],
    ["One line of words.\nAnother line.", "No row"],
  ])("says why nothing can be read of %j", (text, part) => {
    const { problem, channels } = read(text);
    expect(problem).toContain(part);
    expect(channels).toEqual([]);
  });
});

describe("rows that are no readings", () => {
  it("counts and lists status texts, limits, blanks and what is out of range, and never takes them as numbers", () => {
    const fields = ["400", "OL", "---", "Err", "LOW", "<0.1", "", "9999", "-9999", "420"];
    const rows = fields.map((field, index) => `10:00:${String(index).padStart(2, "0")},${field}`);
    const sweep = whole(read(lines("Time,Velocity (fpm)", ...rows)));
    expect(sweep).toMatchObject({ count: 2, meanFpm: 410 });
    expect(sweep.notReadings.map(({ kind, text }) => [kind, text])).toEqual([
      ["status", "OL"],
      ["status", "---"],
      ["status", "Err"],
      ["status", "LOW"],
      ["beyond limit", "<0.1"],
      ["blank", ""],
      ["out of range", "9999"],
      ["out of range", "-9999"],
    ]);
  });

  it("takes the instrument's own range", () => {
    const text = lines("Time (s),Velocity (m/s)", "0,0.3", "1,2", "2,25");
    expect(whole(read(text, { range: "0.4..20" })).count).toBe(1);
    expect(whole(read(text)).count).toBe(3);
  });

  it("keeps a true zero as a reading", () => {
    expect(whole(read(lines("Time (s),Velocity (fpm)", "0,0", "1,400")))).toMatchObject({ count: 2, meanFpm: 200 });
  });

  it("lists a row without a time, and one that runs back", () => {
    const sweep = whole(read(lines("Time,Velocity (fpm)", "10:00:00,400", "?,500", "09:59:00,600", "10:00:01,420")));
    expect(sweep.notReadings.map(({ row, kind }) => [row, kind])).toEqual([
      [3, "no time"],
      [4, "time runs back"],
    ]);
    expect(sweep.meanFpm).toBe(410);
  });
});

describe("logSweep", () => {
  const log = (rows: readonly (readonly [number, number])[]) =>
    read(lines("Time (s),Velocity (fpm)", ...rows.map(([seconds, velocity]) => `${seconds},${velocity}`)));

  it("weighs each reading with its time", () => {
    const uneven = whole(
      log([
        [0, 100],
        [1, 100],
        [2, 200],
        [3, 400],
        [3.5, 400],
        [4, 400],
      ]),
    );
    // Weights 1, 1, 1, 0.75, 0.5, 0.75 with a usual interval of 1 s.
    expect(uneven.meanFpm).toBeCloseTo((100 + 100 + 200 + 300 + 200 + 300) / 5, 10);
    expect(uneven.coveredSeconds).toBeCloseTo(5, 12);
  });

  it("gives a gap to nobody, and names it", () => {
    const gap = whole(
      log([
        [0, 100],
        [1, 100],
        [2, 100],
        [62, 500],
        [63, 500],
        [64, 500],
      ]),
    );
    expect(gap.meanFpm).toBe(300);
    expect(gap.gaps).toEqual([{ fromSeconds: 2, toSeconds: 62 }]);
    expect(gap).toMatchObject({ durationSeconds: 64, coveredSeconds: 6 });
  });

  it("lets readings of the same second share its time", () => {
    const shared = whole(
      log([
        [0, 100],
        [0, 200],
        [1, 300],
        [2, 600],
      ]),
    );
    expect(shared.meanFpm).toBeCloseTo((150 + 300 + 600) / 3, 10);
  });

  it("finds a value that is stuck, and not one that recurs", () => {
    const stuck = whole(log(Array.from({ length: 30 }, (_, index) => [index, index < 12 ? 400 + (index % 2) : 350])));
    const run = { fromSeconds: 12, toSeconds: 29, count: 18, fromRow: 14, toRow: 31 };
    expect(stuck.stuck).toEqual([{ velocityFpm: 350, count: 18, runs: [run], longest: run }]);
  });

  it("lists a value that sticks again and again once", () => {
    const { stuck } = whole(log(Array.from({ length: 96 }, (_, index) => [index, index % 12 < 6 ? 350 : 400 + index])));
    expect(stuck.map(({ velocityFpm, count, runs }) => [velocityFpm, count, runs.length])).toEqual([[350, 48, 8]]);
  });

  it("gives the coefficient of variation, and none where the mean is not above 0", () => {
    // Deviations of 100 either way from 400: 25 %.
    expect(
      whole(
        log([
          [0, 300],
          [1, 500],
        ]),
      ).spreadPercent,
    ).toBeCloseTo(25, 12);
    expect(
      whole(
        log([
          [0, -300],
          [1, 300],
        ]),
      ),
    ).toMatchObject({ spreadPercent: null, negativeCount: 1 });
  });

  it("suggests to leave out what is near zero at both ends, and only there", () => {
    const edges = suggested(
      log([
        [0, 0],
        [1, 5],
        [2, 400],
        [3, 0],
        [4, 420],
        [5, 410],
        [6, 415],
        [7, 405],
        [8, 400],
        [9, 3],
      ]),
    );
    expect(edges).toMatchObject({ fromSeconds: 2, toSeconds: 8 });
    expect(edges.reason).toContain("2 at the beginning and 1 at the end");
    const all = log([
      [0, 400],
      [1, 380],
    ]);
    expect(suggested(all)).toMatchObject({ fromSeconds: 0, toSeconds: 1, reason: "All of the log." });
  });

  it("takes the readings between two moments, both of them in", () => {
    const series = seriesOf(
      log([
        [0, 100],
        [1, 200],
        [2, 300],
        [3, 400],
      ]),
    );
    expect(logSweep(series, 1, 2)).toMatchObject({ count: 2, meanFpm: 250, durationSeconds: 1 });
    expect(logSweep(series, 1.2, 1.8)).toBeNull();
  });

  it("reads a moment as seconds, or as a time of day past midnight", () => {
    const series = seriesOf(read(SEMICOLONS));
    expect(["1.5", "23:59:59", "00:00:01", "noon"].map((text) => logMoment(text, series))).toEqual([1.5, 1, 3, null]);
  });

  it("takes 200,000 rows", () => {
    const rows = Array.from({ length: 200_000 }, (_, index) => `${index / 10},${300 + (index % 200)}`);
    const sweep = whole(read(`Time (s),Velocity (fpm)\n${rows.join("\n")}`));
    expect(sweep.count).toBe(200_000);
    expect(sweep.meanFpm).toBeCloseTo(399.5, 3);
  });
});
