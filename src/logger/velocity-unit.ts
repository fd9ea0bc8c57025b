import { fpmFromMetersPerSecond } from "../core/index.js";
import { LOG_LIMITS } from "./log-limits.js";

interface VelocityUnit {
  readonly label: string;
  /** How it is written in small letters, without blanks, points or brackets around it. */
  readonly spellings: readonly string[];
  readonly metersPerSecond: number | null;
}

/**
 * The units of velocity that logs are written in. Lengths by definition: the foot 0.3048 m, the statute mile 1609.344 m,
 * the nautical mile 1852 m; the factors follow exactly (derived). Null: feet per minute, the unit of the core itself.
 */
const UNITS = {
  fpm: {
    label: "fpm (ft/min)",
    spellings: ["fpm", "ft/min", "ft/mn", "feet/min", "feet/minute", "ft/minute", "feetperminute", "ftmin-1"],
    metersPerSecond: null,
  },
  "m/s": {
    label: "m/s",
    spellings: ["m/s", "mps", "m/sec", "m/sek", "ms-1", "m*s-1", "meterspersecond", "metrespersecond", "meter/second"],
    metersPerSecond: 1,
  },
  "km/h": {
    label: "km/h",
    spellings: ["km/h", "kmh", "kph", "kmph", "km/hr", "kmh-1", "kilometersperhour", "kilometresperhour"],
    metersPerSecond: 1000 / 3600,
  },
  mph: {
    label: "mph",
    spellings: ["mph", "mi/h", "mile/h", "miles/h", "milesperhour"],
    metersPerSecond: 1609.344 / 3600,
  },
  "ft/s": { label: "ft/s", spellings: ["ft/s", "fps", "ft/sec", "feet/s", "feetpersecond"], metersPerSecond: 0.3048 },
  "m/min": { label: "m/min", spellings: ["m/min", "m/minute", "metersperminute"], metersPerSecond: 1 / 60 },
  "cm/s": { label: "cm/s", spellings: ["cm/s", "cm/sec"], metersPerSecond: 0.01 },
  knot: { label: "knots", spellings: ["kn", "kt", "kts", "knot", "knots"], metersPerSecond: 1852 / 3600 },
} as const satisfies Readonly<Record<string, VelocityUnit>>;

export type VelocityUnitName = keyof typeof UNITS;

export const VELOCITY_UNITS = (Object.keys(UNITS) as VelocityUnitName[]).map((value) => ({
  value,
  label: UNITS[value].label,
}));

const BY_SPELLING = new Map<string, VelocityUnitName>(
  VELOCITY_UNITS.flatMap(({ value }) => UNITS[value].spellings.map((spelling) => [spelling, value] as const)),
);

/** Reads a text that is a unit of velocity and nothing else; null where it is none. */
export function velocityUnit(text: string): VelocityUnitName | null {
  if (text.length > LOG_LIMITS.fieldCharacters) return null;
  const plain = text
    .toLowerCase()
    .replace(/⁻¹|\^-1/g, "-1")
    .replace(/[·⋅]/g, "*")
    .replace(/^[\s[({<"]+|[\s\])}>".]+$/g, "")
    .replace(/\s+/g, "");
  return BY_SPELLING.get(plain) ?? null;
}

/** Finds the unit in the name of a column: `Velocity (m/s)`, `Air speed, fpm`, `v_m/s`. */
export function velocityUnitIn(name: string): VelocityUnitName | null {
  const bracketed = /[[({]([^\])}]+)[\])}]/.exec(name)?.[1];
  if (bracketed !== undefined) return velocityUnit(bracketed);
  const words = name.split(/[\s,;:_]+/).filter((word) => word !== "");
  for (let index = 0; index < words.length; index += 1) {
    const unit = velocityUnit(words.slice(index).join(" ")) ?? velocityUnit(words[index] ?? "");
    if (unit !== null) return unit;
  }
  return null;
}

/** Returns in feet per minute what a log holds in its own unit. */
export function fpmFromUnit(velocity: number, unit: VelocityUnitName): number {
  const { metersPerSecond } = UNITS[unit];
  return metersPerSecond === null ? velocity : fpmFromMetersPerSecond(velocity * metersPerSecond);
}

/** Returns in the log's own unit what is given in meters per second. */
export function unitFromMetersPerSecond(velocityMps: number, unit: VelocityUnitName): number {
  const { metersPerSecond } = UNITS[unit];
  return metersPerSecond === null ? fpmFromMetersPerSecond(velocityMps) : velocityMps / metersPerSecond;
}
