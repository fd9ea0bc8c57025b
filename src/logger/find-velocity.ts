import { asked, assumed, found, given, type LogAnswer } from "./log-answer.js";
import { columnChoices, columnLabel, type LogColumn, namedColumn } from "./log-columns.js";
import type { LogRow } from "./log-rows.js";
import { shortened } from "./shortened.js";
import { unitFromMetersPerSecond, VELOCITY_UNITS, type VelocityUnitName, velocityUnit } from "./velocity-unit.js";

/** What people call a column of velocities, in the languages that logs are met in. From memory, unverified. */
const VELOCITY_NAME = /vel|speed|geschw|strömung|vitesse|velocidad|velocit|hastighet|snelheid|^v\b|^v_|\bair\b/i;

/** What a column of another quantity is called. From memory, unverified. */
const OTHER_NAME =
  /temp|°|humid|\brh\b|feucht|press|\bpa\b|flow rate|volume|\bcfm\b|l\/s|m³|m3\/h|batter|density|dew|^(no|nr|n|#|index|id|sample|record|count|row|point)s?\.?$/i;

/** Returns the columns, one for each channel, that a value such as "2" or "2+3" names. */
export function velocityColumns(columns: readonly LogColumn[], value: string | null): readonly LogColumn[] {
  return (value ?? "").split("+").flatMap((text) => namedColumn(columns, text) ?? []);
}

/** A column whose name has a plus sign is meant whole. */
function chosenColumns(columns: readonly LogColumn[], chosen: string): readonly LogColumn[] {
  const whole = namedColumn(columns, chosen);
  if (whole !== undefined) return [whole];
  const parts = chosen.split(/[+,]/);
  const named = parts.flatMap((text) => namedColumn(columns, text) ?? []);
  return named.length === parts.length && new Set(named).size === named.length ? named : [];
}

const channelsValue = (channels: readonly LogColumn[]) => channels.map(({ index }) => String(index + 1)).join("+");

/** Columns of velocities that could each be meant are offered together too: a log of several probes. */
function channelChoices(others: readonly LogColumn[], channels: readonly LogColumn[]) {
  const labels = channels.map(({ index }) => index + 1).join(", ");
  const all = { value: channelsValue(channels), label: `columns ${labels}: each is a probe of its own` };
  return channels.length > 1 ? [...columnChoices(others), all] : columnChoices(others);
}

/** Finds the column of velocities: by its unit, by its name, or by being the only other column of numbers. */
export function findVelocity(
  columns: readonly LogColumn[],
  times: readonly LogColumn[],
  chosen: string | undefined,
): LogAnswer {
  const others = columns.filter((column) => !times.includes(column));
  const numbers = others.filter(({ numberShare, sample }) => sample.length > 0 && numberShare >= 0.2);
  const named = numbers.filter(
    ({ name, unit }) => !OTHER_NAME.test(name) && (unit !== null || VELOCITY_NAME.test(name)),
  );
  const choices = channelChoices(others, named);
  if (chosen !== undefined) {
    const channels = chosenColumns(others, chosen);
    return channels.length === 0
      ? asked(`No column beside the times is called “${shortened(chosen)}”, or more than one is.`, choices)
      : given(channelsValue(channels), choices);
  }
  const [first, second] = named;
  if (first !== undefined && second === undefined) {
    const value = String(first.index + 1);
    return found(value, first.unit === null ? "By its name." : "It has a unit of velocity.", choices);
  }
  if (first !== undefined && second !== undefined) {
    return asked(`Columns ${named.slice(0, 8).map(columnLabel).join("; ")} could all be it.`, choices);
  }
  const possible = numbers.filter(({ name }) => !OTHER_NAME.test(name));
  const [only, another] = possible;
  if (only === undefined) return asked("No column beside the times holds numbers that could be velocities.", choices);
  if (another !== undefined)
    return asked("More than one column holds numbers, and none is named as velocity.", choices);
  return assumed(String(only.index + 1), "It is the only other column of numbers.", choices);
}

/** Finds the unit of the velocities; what the text does not say is asked. */
export function findUnits(
  channels: readonly LogColumn[],
  above: readonly LogRow[],
  chosen: string | undefined,
): LogAnswer {
  const [column] = channels;
  const chosenUnit = chosen === undefined ? null : velocityUnit(chosen);
  if (chosenUnit !== null) return given(chosenUnit, VELOCITY_UNITS);
  if (column === undefined) return asked("Choose the column of velocities first.", VELOCITY_UNITS);
  if (channels.some(({ unit }) => unit !== column.unit)) {
    return asked(
      "The columns have different units. Take them one at a time, or choose one unit for all.",
      VELOCITY_UNITS,
    );
  }
  if (column.unit !== null) {
    const reason = column.where === "name" ? `The column's name says so: “${column.name}”.` : "The fields say so.";
    return found(column.unit, reason, VELOCITY_UNITS);
  }
  const said = above.flatMap((row) => row.flatMap((field) => velocityUnit(field.split(/[:=]/).at(-1) ?? "") ?? []));
  const [unit] = said;
  if (unit !== undefined && new Set(said).size === 1)
    return found(unit, "A line above the columns says so.", VELOCITY_UNITS);
  return asked("The text does not say in which unit the velocities are.", VELOCITY_UNITS);
}

/** No vane or hot wire that is held at a grille reads beyond this. Common practice, no source. */
const USUAL_RANGE_MPS = 40;

/** The lowest and the highest velocity that an instrument gives, in the log's own unit. */
export interface VelocityRange {
  readonly low: number;
  readonly high: number;
}

/** Reads a range as typed: `0.4..30`, `-20 to 20`. */
export function velocityRange(text: string | null): VelocityRange | null {
  const [, low, high] = /^\s*([+-]?[\d.]+)\s*(?:\.\.+|…|to)\s*([+-]?[\d.]+)\s*$/i.exec(text ?? "") ?? [];
  if (low === undefined || high === undefined) return null;
  const range = { low: Number(low.replace(/\.$/, "")), high: Number(high) };
  return range.low < range.high ? range : null;
}

/** The range that readings have to lie in: the instrument's where it is given, a wide one otherwise. */
export function findRange(unit: VelocityUnitName | null, chosen: string | undefined): LogAnswer {
  const range = velocityRange(chosen ?? null);
  if (range !== null) return given(`${range.low}..${range.high}`, []);
  if (unit === null) return asked("Choose the unit first.", []);
  const bound = Math.round(unitFromMetersPerSecond(USUAL_RANGE_MPS, unit));
  const reason = `${USUAL_RANGE_MPS} m/s either way, beyond what is met at a grille or in a duct; give the instrument's own.`;
  return assumed(`-${bound}..${bound}`, reason, []);
}
