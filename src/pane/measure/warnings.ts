import { farOffReadings, planeCheckByVelocities } from "../../core/index.js";
import { sweepAgreement, type TakenMeasurement, type TakenPoints } from "../../workbook/index.js";
import { figure, fixedFigure } from "../controls/shown-figure.js";
import type { PointPlan } from "./understood-plan.js";

/** Few readings tell little of a plane. */
const FEWEST_FOR_PLANE = 4;

function numbered(numbers: readonly number[]): string {
  return numbers.length === 1 ? `Point ${numbers[0]}` : `Points ${numbers.join(", ")}`;
}

interface NumberedReading {
  readonly number: number;
  readonly reading: number;
}

function numberedReadings({ readings }: TakenPoints): readonly NumberedReading[] {
  return readings.flatMap((reading, index) => (reading === null ? [] : [{ number: index + 1, reading }]));
}

function reversedFlow(all: readonly NumberedReading[], isDuct: boolean): readonly string[] {
  const reversed = all.filter(({ reading }) => reading < 0).map(({ number }) => number);
  if (reversed.length === 0) return [];
  const advice = isDuct
    ? "The flow is disturbed there: look for another traverse location."
    : "Look for what disturbs the flow at the grille.";
  return [`${numbered(reversed)}: reverse flow. ${advice} The sign is kept in the average.`];
}

function farOff(all: readonly NumberedReading[]): readonly string[] {
  if (all.length < FEWEST_FOR_PLANE) return [];
  return farOffReadings(all.map(({ reading }) => reading)).flatMap((index) => {
    const one = all[index];
    if (one === undefined || one.reading <= 0) return [];
    return [
      `Point ${one.number} reads ${figure(one.reading)}, far from the others: look whether a digit slipped, or read again.`,
    ];
  });
}

function unevenPlane(all: readonly NumberedReading[]): readonly string[] {
  if (all.length < FEWEST_FOR_PLANE) return [];
  const { faults, aboveLimitCount, readingCount } = planeCheckByVelocities(all.map(({ reading }) => reading));
  if (!faults.includes("too few readings above the limit")) return [];
  return [
    `Uneven flow: only ${aboveLimitCount} of ${readingCount} readings exceed about a third of the largest, and more than three quarters should. Look for another traverse location.`,
  ];
}

function skipped({ readings }: TakenPoints): readonly string[] {
  const last = readings.findLastIndex((reading) => reading !== null);
  const numbers = readings.flatMap((reading, index) => (reading === null && index < last ? [index + 1] : []));
  if (numbers.length === 0) return [];
  return [
    `${numbered(numbers)} ${numbers.length === 1 ? "was" : "were"} not taken and does not count as 0: the average uses the other points.`,
  ];
}

/** What looks wrong with a measurement, said as soon as it shows. */
export function measurementWarnings(taken: TakenMeasurement): readonly string[] {
  if (taken.kind === "face sweeps") {
    const agreement = sweepAgreement(taken.sweeps);
    if (agreement?.word === "one sweep") return ["One sweep shows no repeatability. Sweep again, crosswise."];
    if (agreement?.word !== "repeat") return [];
    const difference = agreement.differencePercent;
    const apart =
      difference === null ? "The sweeps do not agree" : `The sweeps differ by ${fixedFigure(difference, 1)} %`;
    return [`${apart}; ${agreement.withinPercent} % or less is usual. Look for gusts or a door, and sweep again.`];
  }
  const all = numberedReadings(taken);
  const isDuct = taken.kind === "duct";
  return [...reversedFlow(all, isDuct), ...farOff(all), ...(isDuct ? unevenPlane(all) : []), ...skipped(taken)];
}

/** What to know of a plan before it is measured. */
export function planNotes({ plan, keys }: PointPlan, readings: Readonly<Record<string, string>>): readonly string[] {
  const moved = plan.points.filter(({ wasMoved }) => wasMoved).length;
  const together = plan.points.filter(({ timesCounted }) => timesCounted > 1).map(({ number }) => number);
  const planned = new Set(keys);
  const outside = Object.entries(readings).filter(([key, text]) => text !== "" && !planned.has(key)).length;
  return [
    moved === 0 ? [] : `${moved} points were moved off the wall, as the rule asks.`,
    together.length === 0 ? [] : `${numbered(together)} share a place with another: read once, type it for each.`,
    outside === 0 ? [] : `${outside} readings lie outside this plan and do not count; they are kept.`,
  ].flat();
}
