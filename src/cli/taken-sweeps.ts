import { type LogSegment, type TakenSegments, takeSegments } from "../logger/index.js";
import { type Arguments, UsageError } from "./command.js";
import { shownSeconds, shownVelocity } from "./log-report.js";
import { onOneLine } from "./shown-controls.js";

/** A sweep with where it comes from. */
export interface NumberedSweep {
  readonly file: string;
  /** "" where the log has one channel. */
  readonly channel: string;
  readonly sweep: LogSegment;
}

/** Returns the sweeps that `--take` names, together; null without it. */
export function takenOf(text: Arguments["options"][string], sweeps: readonly NumberedSweep[]): TakenSegments | null {
  if (typeof text !== "string") return null;
  const all = sweeps.map(({ sweep }) => sweep);
  const wanted = text.trim().toLowerCase() === "all" ? all.map(({ number }) => number) : text.split(",").map(Number);
  const known = wanted.map((number) => all.find((sweep) => sweep.number === number));
  const found = known.filter((sweep) => sweep !== undefined);
  if (found.length === 0 || found.length < known.length || new Set(found).size < found.length) {
    const numbers = all.length === 0 ? "none was found" : `there are 1 to ${all.length}`;
    throw new UsageError(`--take takes numbers of sweeps, such as 1,3, or all; ${numbers}.`);
  }
  return takeSegments(found);
}

/** Prints the sweeps that were taken together. */
export function printTaken(taken: TakenSegments, sweeps: readonly NumberedSweep[], hasSeveralFiles: boolean): void {
  const { numbers, meanFpm, durationSeconds } = taken;
  const what = numbers.length === 1 ? `Sweep ${numbers[0]}` : `Sweeps ${numbers.join(", ")} together`;
  console.log(`\n${what}:`);
  console.log(`  average    ${shownVelocity(meanFpm)}, each sweep weighted with its seconds`);
  console.log(`  time       ${shownSeconds(durationSeconds)}`);
  if (!hasSeveralFiles) return;
  for (const { file, channel, sweep } of sweeps.filter((one) => numbers.includes(one.sweep.number))) {
    const from = channel === "" ? file : `${file}, ${channel}`;
    console.log(`  ${onOneLine(`sweep ${sweep.number}, ${shownVelocity(sweep.meanFpm)}: ${from}`)}`);
  }
}
