import { cellFunctions } from "../../cells/index.js";
import { openAddin } from "../excel-bridge/open-addin.js";
import type { ExcelBridge } from "../excel-bridge/open-bridge.js";
import type { BenchRow } from "./bench-row.js";

const OUTLETS = 200;
const REPEATS = 7;
const CHAIN = 10;

type Call = Parameters<ExcelBridge["call"]>[0][number];

function padded(name: string, args: readonly unknown[]): Call {
  const parameters = cellFunctions.find(({ id }) => id === name)?.parameters;
  if (parameters === undefined) throw new Error(`There is no function ${name}.`);
  const given = parameters.map(({ isBlock }, index) => {
    const value = args[index] ?? null;
    return isBlock && value !== null && !Array.isArray(value) ? [[value]] : value;
  });
  return { name, args: given };
}

/** What one row of the room-balance sheet asks for: its area, the mean of its readings, its airflow. */
function outletCalls(row: number): readonly Call[] {
  const readings = [[380 + row, 400, 420, 410, 390, 0, 0, 0]];
  return [
    padded("OPENING.RECT", [14, 6]),
    padded("TRAVERSE.AVERAGE", [readings, 5]),
    padded("AIRFLOW.FACE", [14, 6, readings, 0.75, 5]),
  ];
}

function middle(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)] ?? Number.NaN;
}

/** Milliseconds until Excel has every answer, the median of many; all of them come in one message. */
async function milliseconds(excel: ExcelBridge, calls: readonly Call[]): Promise<number> {
  const times: number[] = [];
  for (let repeat = 0; repeat < REPEATS; repeat += 1) {
    const { elapsedMs, messages } = await excel.call(calls);
    if (messages !== 1) throw new Error(`${calls.length} independent calls came back in ${messages} messages, not 1.`);
    times.push(elapsedMs);
  }
  return middle(times);
}

/**
 * Measures how long Excel would wait for the add-in: the built add-in and the real office.js in a real browser, Excel
 * itself simulated. What Excel spends on its own side is not in the figures.
 */
export async function benchExcel(): Promise<readonly BenchRow[]> {
  const excel = await openAddin();
  try {
    const oneCall = [padded("AIRFLOW", [400, 2.5])];
    const outlets = Array.from({ length: OUTLETS }, (_, row) => outletCalls(row)).flat();
    const one = await milliseconds(excel, oneCall);
    const sheet = await milliseconds(excel, outlets);
    let chain = 0;
    for (let link = 0; link < CHAIN; link += 1) chain += (await excel.call(oneCall)).elapsedMs;
    return [
      { name: `a sheet of ${OUTLETS} outlets, ${outlets.length} independent calls, against one call`, ours: sheet },
      {
        name: `a chain of ${CHAIN} calls that wait for one another, which no template has, against one call`,
        ours: chain,
      },
    ].map((row) => ({ ...row, theirs: one, unit: "ms", target: null }));
  } finally {
    await excel.close();
  }
}
