import type { LogReading } from "../../logger/index.js";

/** A drawing's inside, in its own units. */
export interface PlotFrame {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where the drawing puts times and velocities. */
export interface PlotScale {
  readonly x: (seconds: number) => number;
  readonly y: (velocity: number) => number;
}

export function plotScale(
  frame: PlotFrame,
  seconds: readonly [number, number],
  velocities: readonly [number, number],
): PlotScale {
  const across = (frame.right - frame.left) / Math.max(seconds[1] - seconds[0], Number.MIN_VALUE);
  const up = (frame.bottom - frame.top) / Math.max(velocities[1] - velocities[0], Number.MIN_VALUE);
  return {
    x: (at) => Math.min(frame.left + (at - seconds[0]) * across, frame.right),
    y: (velocity) => frame.bottom - (velocity - velocities[0]) * up,
  };
}

interface Column {
  readonly x: number;
  readonly low: number;
  readonly high: number;
}

/** Two readings further apart than this many usual intervals have a gap between them, and no line. */
const GAP_INTERVALS = 1.5;

/**
 * Draws readings as a line that breaks where there is a gap. Readings that fall into one column of the drawing become
 * one upright stroke from the lowest to the highest, so that no peak is lost and a long log stays a short path.
 */
export function plotPath(readings: readonly LogReading[], usualIntervalSeconds: number, scale: PlotScale): string {
  const pieces: string[] = [];
  let column: Column | null = null;
  let command = "M";
  let last = Number.NEGATIVE_INFINITY;
  const flush = () => {
    if (column === null) return;
    const { x, low, high } = column;
    pieces.push(`${command}${x} ${high.toFixed(1)}V${low.toFixed(1)}`);
    command = "L";
  };
  for (const { seconds, velocityFpm } of readings) {
    const x = Math.round(scale.x(seconds) * 2) / 2;
    const y = scale.y(velocityFpm);
    const isApart = seconds - last > GAP_INTERVALS * usualIntervalSeconds;
    if (column !== null && column.x === x && !isApart) {
      column = { x, low: Math.max(column.low, y), high: Math.min(column.high, y) };
    } else {
      flush();
      if (isApart) command = "M";
      column = { x, low: y, high: y };
    }
    last = seconds;
  }
  flush();
  return pieces.join("");
}
