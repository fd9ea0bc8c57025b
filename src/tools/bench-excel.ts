/*
 * How long Excel would wait for the add-in: the built add-in and the real office.js in a real browser, Excel itself
 * simulated. What Excel spends on its own side is not in the figures.
 *
 * node build/src/tools/bench-excel.js
 */
import { cellFunctions } from "../cells/index.js";
import { openAddin } from "./excel-bridge/open-addin.js";
import type { ExcelBridge } from "./excel-bridge/open-bridge.js";

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

async function measured(excel: ExcelBridge, calls: readonly Call[]): Promise<string> {
  const times: number[] = [];
  let messages = 0;
  for (let repeat = 0; repeat < REPEATS; repeat += 1) {
    const batch = await excel.call(calls);
    times.push(batch.elapsedMs);
    messages = Math.max(messages, batch.messages);
  }
  const range = `${Math.round(Math.min(...times))} to ${Math.round(Math.max(...times))}`;
  return `${Math.round(middle(times))} ms (${range}), ${messages} message${messages === 1 ? "" : "s"} back`;
}

const excel = await openAddin();
try {
  const outlets = Array.from({ length: OUTLETS }, (_, row) => outletCalls(row)).flat();
  console.log(`one call: ${await measured(excel, [padded("AIRFLOW", [400, 2.5])])}`);
  console.log(`${OUTLETS} outlets, ${outlets.length} independent calls at once: ${await measured(excel, outlets)}`);
  const chained: number[] = [];
  for (let link = 0; link < CHAIN; link += 1) {
    chained.push((await excel.call([padded("AIRFLOW", [400, 2.5])])).elapsedMs);
  }
  const total = Math.round(chained.reduce((sum, time) => sum + time, 0));
  console.log(`a chain of ${CHAIN} calls, each waiting for the last: ${total} ms; no template has one`);
} finally {
  await excel.close();
}
