import {
  type AirflowDoubt,
  airflowBudget,
  compareSweeps,
  gaugeLimits,
  repeatUncertainty,
  type SweptResult,
  sampleSpread,
} from "../../core/index.js";
import { type Chance, chanceOf } from "./random.js";

/** A measurement as it is in truth, and what the person states of it. */
export interface CoverageCase {
  readonly title: string;
  /** The ± of factor, instrument and area in truth: any value within is as likely. */
  readonly factorPercent: number;
  readonly instrumentPercent: number;
  readonly areaPercent: number;
  /** Scatter of whole sweeps, and how many were made; the figure is stated from two on and assumed for one. */
  readonly sweepPercent: number;
  readonly sweeps: number;
  /** Points over the opening and how much the air differs between them; 0 for a sweep. */
  readonly points: number;
  readonly pointPercent: number;
  /** Velocity pressure of a Pitot traverse, with a gauge of ±(2 % + 0.005 in.w.c.); 0 for an anemometer. */
  readonly pressureInWg: number;
  /** Whether factor, instrument and area are stated as they are, or left to the defaults. */
  readonly isStated: boolean;
  /** Why the ± covers more than 98 %, where it does. */
  readonly why: string;
}

const BASE = {
  factorPercent: 0,
  instrumentPercent: 3,
  areaPercent: 2,
  sweepPercent: 5,
  sweeps: 1,
  points: 0,
  pointPercent: 0,
  pressureInWg: 0,
  isStated: true,
  why: "",
};
const LIMITS_RULE = "limits rule: twice the standard deviation of even chances reaches beyond their ends";

export const COVERAGE_CASES: readonly CoverageCase[] = [
  {
    ...BASE,
    title: "grille, nothing stated, one sweep",
    factorPercent: 20,
    instrumentPercent: 10,
    isStated: false,
    why: "",
  },
  { ...BASE, title: "grille, factor ±10 %, good meter, one sweep", factorPercent: 10 },
  { ...BASE, title: "duct, meter of 10 %, one sweep", instrumentPercent: 10 },
  { ...BASE, title: "duct, good meter, one sweep" },
  { ...BASE, title: "duct, good meter, 2 sweeps that scatter by 8 %", sweepPercent: 8, sweeps: 2 },
  { ...BASE, title: "duct, good meter, 3 sweeps that scatter by 8 %", sweepPercent: 8, sweeps: 3 },
  { ...BASE, title: "duct, good meter, 4 sweeps that scatter by 8 %", sweepPercent: 8, sweeps: 4 },
  { ...BASE, title: "duct, good meter, 6 sweeps that scatter by 8 %", sweepPercent: 8, sweeps: 6 },
  { ...BASE, title: "duct, good meter, 10 sweeps that scatter by 8 %", sweepPercent: 8, sweeps: 10 },
  {
    ...BASE,
    title: "grille, factor ±10 %, 3 sweeps that scatter by 5 %",
    factorPercent: 10,
    sweeps: 3,
    why: "limits and a wide k add up",
  },
  {
    ...BASE,
    title: "grille, factor ±10 %, 4 points that differ by 40 %",
    factorPercent: 10,
    points: 4,
    pointPercent: 40,
  },
  {
    ...BASE,
    title: "grille, factor ±10 %, 9 points that differ by 25 %",
    factorPercent: 10,
    points: 9,
    pointPercent: 25,
  },
  {
    ...BASE,
    title: "grille, factor ±10 %, 16 points that differ by 25 %",
    factorPercent: 10,
    points: 16,
    pointPercent: 25,
  },
  { ...BASE, title: "duct, 25 points that differ by 20 %", points: 25, pointPercent: 20 },
  { ...BASE, title: "duct, one point of air that differs by 20 %", points: 1, pointPercent: 20 },
  { ...BASE, title: "Pitot, 12 points at 0.5 in.w.c.", points: 12, pointPercent: 12, pressureInWg: 0.5 },
  { ...BASE, title: "Pitot, 12 points at 0.05 in.w.c.", points: 12, pointPercent: 12, pressureInWg: 0.05 },
  {
    ...BASE,
    title: "Pitot, 12 points at 0.01 in.w.c.",
    points: 12,
    pointPercent: 12,
    pressureInWg: 0.01,
    why: `${LIMITS_RULE}, and the lower end of a root is the longer`,
  },
  {
    ...BASE,
    title: "grille, factor ±20 % and nothing else worth naming",
    factorPercent: 20,
    instrumentPercent: 1,
    areaPercent: 1,
    sweepPercent: 1,
    sweeps: 10,
    why: LIMITS_RULE,
  },
];

/** How often the stated ± (95 %) holds the truth, in percent. */
export function coverageOf(one: CoverageCase, draws: number, seed: number): number {
  const chance = chanceOf(seed);
  let held = 0;
  for (let i = 0; i < draws; i += 1) if (holds(one, chance)) held += 1;
  return (100 * held) / draws;
}

/** One measurement of an airflow of 1: whether its ± holds the truth. */
function holds(one: CoverageCase, { uniform, normal }: Chance): boolean {
  const within = (percent: number) => 1 + ((2 * uniform() - 1) * percent) / 100;
  const sweeps = Array.from({ length: one.sweeps }, () => 1 + (one.sweepPercent / 100) * normal());
  const scatter = sweeps.reduce((sum, sweep) => sum + sweep / sweeps.length, 0);
  const profile = Array.from({ length: one.points }, () => Math.max(0.02, 1 + (one.pointPercent / 100) * normal()));
  const meter = one.pressureInWg > 0 ? null : within(one.instrumentPercent);
  const gauge = 2 * uniform() - 1;
  const velocities = profile.map((velocity) => {
    if (meter !== null) return velocity * meter * scatter;
    const pressure = one.pressureInWg * (velocity * scatter) ** 2;
    return Math.sqrt(Math.max(0, pressure + gauge * (0.02 * pressure + 0.005)) / one.pressureInWg);
  });
  const mean = velocities.reduce((sum, velocity) => sum + velocity / velocities.length, 0);
  const tube = meter === null ? within(1) * Math.sqrt(within(3)) : 1;
  const measured =
    (one.points === 0 ? scatter * (meter ?? 1) : mean * tube) * within(one.factorPercent) * within(one.areaPercent);
  if (!(measured > 0)) return false;
  const repeat = one.sweeps > 1 ? repeatUncertainty(sweeps, 0) : null;
  const readPressures = velocities.map((velocity) => one.pressureInWg * velocity ** 2);
  const doubt: AirflowDoubt = {
    instrumentPercent: !one.isStated
      ? "assumed"
      : meter === null
        ? gaugeLimits(readPressures, 2, 0.005)
        : one.instrumentPercent,
    factorPercent: one.factorPercent === 0 ? "none" : one.isStated ? one.factorPercent : "assumed",
    areaPercent: one.isStated ? one.areaPercent : "assumed",
    repeatPercent: repeat?.standardPercent ?? "assumed",
    repeatDegreesOfFreedom: repeat?.degreesOfFreedom ?? Number.POSITIVE_INFINITY,
    points: one.points === 0 ? null : { pointCount: one.points, spreadPercent: sampleSpread(velocities) },
    pitot: meter === null ? { densityPercent: "assumed", coefficientPercent: "assumed" } : null,
  };
  return Math.abs(measured - 1) <= (measured * airflowBudget(doubt).expandedPercent) / 100;
}

/** How often a change is said where there is none, and how often a real one is found, in percent. */
export interface ChangeRates {
  readonly sweeps: number;
  readonly falsePercent: number;
  /** Found where the airflow rose by 10, 15 and 25 %. */
  readonly foundPercent: readonly [number, number, number];
}

const RISES = [1.1, 1.15, 1.25] as const;

/**
 * Compares pairs of as many sweeps each, which scatter by 5 % before and by `afterPercent` after.
 *
 * @param stepPercent - Step of the meter's display, in percent of the airflow before; 0 for a display without steps
 */
export function changeRates(
  sweeps: number,
  afterPercent: number,
  stepPercent: number,
  pairs: number,
  seed: number,
): ChangeRates {
  const chance = chanceOf(seed);
  const step = stepPercent / 100;
  const shown = (velocity: number) => (step === 0 ? velocity : step * Math.round(velocity / step));
  const side = (value: number, percent: number): SweptResult => {
    const values = Array.from({ length: sweeps }, () => shown(value * (1 + (percent / 100) * chance.normal())));
    if (sweeps === 1) return { value: values[0] ?? Number.NaN, sweepCount: 1, sweepPercent: null };
    const { mean, standardPercent } = repeatUncertainty(values, step);
    return { value: mean, sweepCount: sweeps, sweepPercent: standardPercent * Math.sqrt(sweeps) };
  };
  const rate = (rise: number) => {
    let found = 0;
    for (let i = 0; i < pairs; i += 1) {
      // Where the air lies between two steps of the display is different each time.
      const airflow = 1 + step * chance.uniform();
      if (compareSweeps(side(airflow, 5), side(rise * airflow, afterPercent), step).isShown) found += 1;
    }
    return (100 * found) / pairs;
  };
  return { sweeps, falsePercent: rate(1), foundPercent: [rate(RISES[0]), rate(RISES[1]), rate(RISES[2])] };
}
