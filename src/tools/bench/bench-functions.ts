import { Bench } from "tinybench";
import { vaneAirflowFace } from "../../cells/airflow.js";
import { vaneSheetOutlets } from "../../cells/sheet.js";
import type { BenchRow } from "./bench-row.js";

/** Calls in one timed run, so that the clock's own cost does not show. */
const CALLS = 1000;
const FACES = 50;
const READINGS_PER_SIDE = 5;

type Block = number[][];

/** Readings that differ from face to face, so that the compiler cannot calculate one and keep it. */
const faces: readonly Block[] = Array.from({ length: FACES }, (_, face) =>
  Array.from({ length: READINGS_PER_SIDE }, (_, row) =>
    Array.from({ length: READINGS_PER_SIDE }, (_, column) => 380 + face + 7 * row + 3 * column),
  ),
);

/** The same arithmetic with nothing around it: the mean of a block, times area and factor. */
function bareFace(width: number, height: number, readings: Block, factor: number): number {
  let sum = 0;
  let count = 0;
  for (let row = 0; row < readings.length; row += 1) {
    const cells = readings[row] as number[];
    for (let column = 0; column < cells.length; column += 1) {
      sum += cells[column] as number;
      count += 1;
    }
  }
  return (sum / count) * ((width * height) / 144) * factor;
}

/** Nanoseconds a call, the median of many runs; `act` returns something so that no call is left out. */
async function nanoseconds(acts: Readonly<Record<string, () => number>>, calls: number): Promise<Map<string, number>> {
  const bench = new Bench({ time: 400, warmupTime: 200 });
  let kept = 0;
  for (const [name, act] of Object.entries(acts)) {
    bench.add(name, () => {
      kept += act();
    });
  }
  await bench.run();
  if (Number.isNaN(kept)) throw new Error("A benchmark calculated nonsense.");
  return new Map(
    bench.tasks.map(({ name, result }) => {
      if (!("latency" in result)) throw new Error(`The benchmark "${name}" ended without a figure.`);
      return [name, (result.latency.p50 * 1e6) / calls];
    }),
  );
}

/** One run: `CALLS` calls over the faces in turn. */
function overFaces(call: (face: Block) => number): () => number {
  return () => {
    let sum = 0;
    for (let index = 0; index < CALLS; index += 1) sum += call(faces[index % FACES] as Block);
    return sum;
  };
}

/** Compares `AIRFLOW.FACE` over 25 readings with a bare loop that does the same arithmetic. */
export async function benchFace(): Promise<readonly BenchRow[]> {
  const times = await nanoseconds(
    {
      ours: overFaces((face) => vaneAirflowFace(14, 6, face, 0.75)),
      bare: overFaces((face) => bareFace(14, 6, face, 0.75)),
    },
    CALLS,
  );
  return [
    {
      name: "AIRFLOW.FACE over 25 readings, against a bare loop",
      ours: times.get("ours") ?? Number.NaN,
      theirs: times.get("bare") ?? Number.NaN,
      unit: "ns",
      target: 2.5,
    },
  ];
}

function outlets(rows: number): readonly [Block, Block, Block, Block] {
  const column = (value: (row: number) => number): Block => Array.from({ length: rows }, (_, row) => [value(row)]);
  return [
    Array.from({ length: rows }, (_, row) => [10 + (row % 9), 6]),
    column(() => 0.75),
    column((row) => 100 + (row % 50)),
    Array.from({ length: rows }, (_, row) => [380 + (row % 40), 400, 420, 390]),
  ];
}

/** What building the seven results of each row costs by itself, with no reading of arguments and no check. */
function bareOutlets([sizes, factor, design, readings]: ReturnType<typeof outlets>): unknown[][] {
  return readings.map((cells, row) => {
    let sum = 0;
    for (const reading of cells) sum += reading;
    const [width = 0, height = 0] = sizes[row] as number[];
    const area = (width * height) / 144;
    const freeArea = area * (factor[row]?.[0] ?? 0);
    const velocity = sum / cells.length;
    const flow = velocity * freeArea;
    let squares = 0;
    for (const reading of cells) squares += (reading / velocity - 1) ** 2;
    const spread = Math.sqrt(squares / (cells.length - 1));
    const doubt = Math.hypot(0.25, (3.18 * spread) / Math.sqrt(cells.length));
    const percent = (flow / (design[row]?.[0] ?? 0)) * 100;
    return [area, freeArea, velocity, flow, flow * doubt, percent, percent < 90 ? "low" : "within"];
  });
}

/** Nanoseconds a row, ours and bare, in a block of so many rows. */
async function outletCost(rows: number): Promise<{ readonly ours: number; readonly bare: number }> {
  const block = outlets(rows);
  const repeats = Math.max(1, Math.floor(10_000 / rows));
  const repeated = (build: () => unknown[][]) => (): number => {
    let sum = 0;
    for (let repeat = 0; repeat < repeats; repeat += 1) sum += build().length;
    return sum;
  };
  const times = await nanoseconds(
    { ours: repeated(() => vaneSheetOutlets(...block)), bare: repeated(() => bareOutlets(block)) },
    rows * repeats,
  );
  return { ours: times.get("ours") ?? Number.NaN, bare: times.get("bare") ?? Number.NaN };
}

/**
 * Compares the cost of a row of `SHEET.OUTLETS` in larger blocks with that in a block of ten, and with the bare building
 * of the same results: what rises with the block is the memory that the results themselves take.
 */
export async function benchOutlets(): Promise<readonly BenchRow[]> {
  const ten = await outletCost(10);
  const rows: BenchRow[] = [];
  for (const size of [1000, 100_000]) {
    const cost = await outletCost(size);
    const title = size.toLocaleString("en-US");
    rows.push(
      {
        name: `SHEET.OUTLETS, a row of ${title}, against one of 10`,
        ours: cost.ours,
        theirs: ten.ours,
        unit: "ns",
        target: null,
      },
      {
        name: `SHEET.OUTLETS, a row of ${title}, against a bare loop that builds the same`,
        ours: cost.ours,
        theirs: cost.bare,
        unit: "ns",
        target: size === 100_000 ? 1.8 : null,
      },
    );
  }
  return rows;
}
