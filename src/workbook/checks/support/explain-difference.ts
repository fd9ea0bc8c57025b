import { cfmFromLitersPerSecond, fpmFromMetersPerSecond } from "../../../core/index.js";
import { SQUARE_INCHES_PER_SQUARE_FOOT } from "../../../core/units/factors.js";
import { columnLetters } from "../../../xlsx/index.js";
import type { RowFormula } from "../../takeover/row-formula.js";
import { LEAST_FACTOR } from "../thresholds.js";

/** An airflow of a sheet, what its row's own inputs give, and what both come from. */
export interface Difference {
  /** As the sheet has it. */
  readonly stated: number;
  /** As its readings, opening and factor give it. */
  readonly own: number;
  /** Null where a number was typed. */
  readonly formula: RowFormula | null;
  /** Numbers of the row that the formula takes as they are and that no column of the list stands for. */
  readonly others: readonly { readonly address: string; readonly value: number }[];
  /** Readings in the order of their columns; null for an empty cell. */
  readonly readings: readonly { readonly column: number; readonly value: number | null }[];
  /** Of sweeps, beside the readings. */
  readonly seconds: readonly number[] | null;
  /** The factor that was applied; 1 where an effective or free area counts. */
  readonly factor: number;
  readonly width: number | null;
  readonly height: number | null;
  /** Whole area in ft². */
  readonly areaFt2: number | null;
  readonly isSi: boolean;
}

/** Why an airflow is not what its inputs give. */
export interface Cause {
  readonly problem: string;
  readonly action: string;
}

interface Candidate extends Cause {
  /** What the airflow would be, over what it should be. */
  readonly ratio: number;
  /** How much the formula itself speaks for it. */
  readonly weight: number;
}

/** How near a ratio has to come. Own choice: the digits that a sheet shows. */
const NEAR_RATIO = 0.002;
const SHOWN_DIGIT = 0.51;

const FPM_OF_MS = fpmFromMetersPerSecond(1);
const CFM_OF_LS = cfmFromLitersPerSecond(1);

const candidate = (ratio: number, problem: string, action: string, weight = 0): Candidate => ({
  ratio,
  problem,
  action,
  weight,
});

const meanOf = (numbers: readonly number[]) => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;
const spelled = (columns: readonly number[]) => columns.map(columnLetters).join(", ");

function areaCauses({ formula, width, height, isSi, areaFt2 }: Difference): readonly Candidate[] {
  const divides = (by: number) => formula?.constants.includes(by) === true;
  const squared = SQUARE_INCHES_PER_SQUARE_FOOT;
  const round =
    height === null
      ? candidate(
          4 / Math.PI,
          "The opening is round and is calculated as a square.",
          "Take π/4 of the diameter squared.",
        )
      : candidate(Math.PI / 4, "The opening is a rectangle and is calculated as round.", "Take width × height.");
  return [
    ...(divides(squared)
      ? []
      : [candidate(squared, "The area is left in in²: nothing divides by 144.", "Divide width × height by 144.", 1)]),
    candidate(1 / squared, "The area is divided by 144 although it is in ft².", "Take 144 out of the formula."),
    ...(isSi
      ? [
          candidate(
            1e6,
            "The area is left in mm²: nothing divides by 1,000,000.",
            "Divide width × height by 1,000,000.",
          ),
          candidate(1e4, "The area is left in cm²: nothing divides by 10,000.", "Divide width × height by 10,000."),
          candidate(100, "Centimeters are taken as millimeters, or the reverse.", "Look at the unit of the size."),
          candidate(0.01, "Millimeters are taken as centimeters, or the reverse.", "Look at the unit of the size."),
        ]
      : []),
    round,
    ...(height === null
      ? [
          candidate(
            4,
            "The diameter is taken as the radius.",
            "Take π/4 of the diameter squared, or π of the radius squared.",
          ),
          candidate(0.25, "The radius is taken as the diameter.", "Take π of the radius squared."),
        ]
      : []),
    ...(width !== null && height !== null && width !== height
      ? [
          candidate(
            width / height,
            "The width is taken twice in place of width and height.",
            "Multiply width by height.",
          ),
          candidate(
            height / width,
            "The height is taken twice in place of width and height.",
            "Multiply width by height.",
          ),
        ]
      : []),
    ...(areaFt2 !== null && formula?.functions.has("ROUND") === true
      ? [0, 1, 2].map((digits) => {
          const rounded = Number(areaFt2.toFixed(digits));
          return candidate(
            rounded / areaFt2,
            `The area is rounded to ${rounded} ft² before it is used; it is ${Number(areaFt2.toPrecision(4))} ft².`,
            "Round only what is shown, not what is calculated with.",
            1,
          );
        })
      : []),
  ];
}

function factorCauses({ factor, formula }: Difference): readonly Candidate[] {
  const others = [...new Set(formula?.constants ?? [])].filter(
    (one) => one >= LEAST_FACTOR && one < 1 && one !== factor,
  );
  return [
    ...(factor === 1
      ? []
      : [
          candidate(1 / factor, `The factor ${factor} is missing.`, `Multiply by ${factor} once.`, 1),
          candidate(factor, `The factor ${factor} is applied twice.`, "Take it out once."),
        ]),
    ...others.flatMap((other) => [
      candidate(
        other / factor,
        factor === 1
          ? `The formula multiplies by ${other}, and the area needs no factor.`
          : `The formula multiplies by ${other}, where the factor of the outlet is ${factor}.`,
        factor === 1
          ? `Take ${other} out of the formula.`
          : `Use the factor ${factor}, or correct the factor of the outlet.`,
        2,
      ),
      ...(factor === 1
        ? []
        : [
            candidate(
              other,
              `The formula multiplies by ${other} as well as by the factor ${factor}.`,
              `Take ${other} out of the formula.`,
              2,
            ),
          ]),
    ]),
  ];
}

/** A cell of the row that the list knows nothing of, such as a number of like outlets. */
function otherCauses({ others }: Difference): readonly Candidate[] {
  const action = (address: string) => `Look whether the airflow is of one outlet. If it is, take ${address} out.`;
  return others.flatMap(({ address, value }) =>
    value === 1 || value === 0
      ? []
      : [
          candidate(
            value,
            `The formula multiplies by ${address}, ${value}, which the list does not know.`,
            action(address),
            3,
          ),
          candidate(
            1 / value,
            `The formula divides by ${address}, ${value}, which the list does not know.`,
            action(address),
            3,
          ),
        ],
  );
}

/** Which cells went into the mean, and by how many it was divided. */
function meanCauses({ formula, readings, seconds }: Difference): readonly Candidate[] {
  const taken = readings.flatMap(({ value }) => value ?? []);
  const count = taken.length;
  if (count === 0) return [];
  const mean = meanOf(taken);
  const found: Candidate[] = [];
  const empty = readings.length - count;
  for (let blanks = 1; blanks <= empty; blanks += 1) {
    const cells = `${blanks} empty cell${blanks === 1 ? " is" : "s are"}`;
    found.push(
      candidate(
        count / (count + blanks),
        `${cells} averaged in as 0: ${count} readings were taken and the sum is divided by ${count + blanks}.`,
        "Divide by the COUNT of the readings, or use AVERAGE over empty cells.",
      ),
    );
  }
  for (const divisor of new Set(formula?.constants ?? [])) {
    if (divisor === count || divisor < 1 || divisor > 60 || !Number.isInteger(divisor)) continue;
    found.push(
      candidate(
        count / divisor,
        `The sum of ${count} readings is divided by ${divisor}.`,
        `Divide by ${count}, or use AVERAGE.`,
        2,
      ),
    );
  }
  found.push(candidate(count, "The readings are added up, not averaged.", "Use AVERAGE in place of SUM."));
  if (count > 1) {
    found.push(
      candidate(
        count / (count - 1),
        `The sum of ${count} readings is divided by ${count - 1}.`,
        `Divide by ${count}, or use AVERAGE.`,
      ),
    );
  }
  const named = [
    ["MAX", Math.max(...taken), "the largest reading"],
    ["MIN", Math.min(...taken), "the smallest reading"],
    ["MEDIAN", [...taken].sort((a, b) => a - b)[Math.floor((count - 1) / 2)] ?? mean, "the middle reading"],
  ] as const;
  for (const [name, value, words] of named) {
    if (formula?.functions.has(name) !== true) continue;
    found.push(candidate(value / mean, `${name} takes ${words} in place of the average.`, "Use AVERAGE.", 2));
  }
  if (seconds !== null && seconds.length === count) {
    const weighted =
      taken.reduce((sum, one, at) => sum + one * (seconds[at] ?? 0), 0) / seconds.reduce((a, b) => a + b, 0);
    found.push(
      candidate(
        mean / weighted,
        "The sweeps are averaged without their seconds.",
        "Weight each sweep with its seconds.",
      ),
    );
  }
  return [...found, ...rangeCauses(readings, mean, formula)];
}

/** A mean over other cells than the readings: one short, one too many. */
function rangeCauses(readings: Difference["readings"], mean: number, formula: RowFormula | null): readonly Candidate[] {
  const columns = readings.map(({ column }) => column);
  const used = formula === null ? [] : [...(formula.averaged.size > 0 ? formula.averaged : formula.columns)];
  const within = readings.filter(({ column }) => used.includes(column));
  const left = readings.filter(({ column, value }) => !used.includes(column) && value !== null);
  const found: Candidate[] = [];
  const valuesOf = (some: Difference["readings"]) => some.flatMap(({ value }) => value ?? []);
  if (within.length > 0 && left.length > 0 && valuesOf(within).length > 0) {
    const words = `The average leaves out column ${spelled(left.map(({ column }) => column))}, which holds a reading.`;
    found.push(candidate(meanOf(valuesOf(within)) / mean, words, "Let the range reach over every reading.", 3));
  }
  if (within.length === 0 || left.length === 0) {
    for (const drop of [0, readings.length - 1]) {
      const rest = valuesOf(readings.filter((_, index) => index !== drop));
      const out = readings[drop];
      if (rest.length === 0 || out?.value == null) continue;
      const words = `It is the average without column ${columnLetters(out.column)}, which holds a reading.`;
      found.push(candidate(meanOf(rest) / mean, words, "Let the range reach over every reading."));
    }
  }
  const foreign = formula === null ? [] : [...formula.averaged].filter((column) => !columns.includes(column));
  if (foreign.length > 0) {
    found.push(
      candidate(
        Number.NaN,
        `The average takes column ${spelled(foreign)} in, which holds no reading.`,
        "Average the readings alone.",
        3,
      ),
    );
  }
  return found;
}

function unitCauses(isSi: boolean): readonly Candidate[] {
  return [
    isSi
      ? candidate(
          1 / FPM_OF_MS,
          "The readings are taken as fpm, but are in m/s: 1 fpm is 0.00508 m/s.",
          "Take 0.00508 out of the formula.",
        )
      : candidate(
          1 / FPM_OF_MS,
          "The readings are turned from fpm into m/s, and the area is in ft².",
          "Take 0.00508 out of the formula.",
        ),
    candidate(
      FPM_OF_MS,
      `The readings are taken as m/s, but are in ${isSi ? "m/s and the area in m²" : "fpm"}: 1 m/s is 196.85 fpm.`,
      "Take 196.85 out of the formula, or say that the readings are in another unit.",
    ),
    candidate(
      CFM_OF_LS,
      "The airflow is in cfm where L/s are stated.",
      "Divide by 2.1189, or say that the column is in cfm.",
    ),
    candidate(
      1 / CFM_OF_LS,
      "The airflow is in L/s where cfm are stated.",
      "Multiply by 2.1189, or say that the column is in L/s.",
    ),
    candidate(3.6, "The airflow is in m³/h where L/s are stated.", "Divide by 3.6, or say that the column is in m³/h."),
    candidate(
      1 / 3.6,
      "The airflow is in L/s where m³/h are stated.",
      "Multiply by 3.6, or say that the column is in L/s.",
    ),
    candidate(
      1 / 1000,
      "The airflow is in m³/s where L/s are stated.",
      "Multiply by 1000, or say that the column is in m³/s.",
    ),
    candidate(
      1 / 3600,
      "The airflow is in m³/s where m³/h are stated: nothing multiplies by 3600.",
      "Multiply by 3600.",
    ),
    candidate(60, "The airflow is multiplied by 60 once too often.", "Take 60 out of the formula."),
    candidate(
      1 / 60,
      "The airflow is divided by 60, or a factor of 60 is missing.",
      "Look at minutes and hours in the formula.",
    ),
  ];
}

const isNear = (stated: number, expected: number) => {
  if (stated === 0) return false;
  const rounding = Number.isInteger(stated) ? SHOWN_DIGIT : 0;
  return Math.abs(stated - expected) <= Math.max(NEAR_RATIO * Math.abs(expected), rounding);
};

/** Two mistakes of which each is common. */
function together(one: readonly Candidate[], other: readonly Candidate[]): readonly Candidate[] {
  return one.flatMap((first) =>
    other.map((second) =>
      candidate(
        first.ratio * second.ratio,
        `${first.problem} ${second.problem}`,
        `${first.action} ${second.action}`,
        -2,
      ),
    ),
  );
}

/**
 * Says why an airflow of a sheet is not what its row's own inputs give, by the ratio of the two and by its formula;
 * undefined where no usual mistake fits.
 */
export function explainDifference(difference: Difference): Cause | undefined {
  const { stated, own, formula } = difference;
  const [areas, factors, means, units] = [
    areaCauses(difference),
    [...factorCauses(difference), ...otherCauses(difference)],
    meanCauses(difference),
    unitCauses(difference.isSi),
  ];
  const [empty] = formula?.emptyCells ?? [];
  if (stated === 0 && empty !== undefined) {
    const action = `Let the formula take the cell that it should, or enter what is missing in ${empty}.`;
    return { problem: `The formula takes ${empty}, which is empty, as 0.`, action };
  }
  const fits = (candidates: readonly Candidate[]) =>
    candidates
      .filter(({ ratio }) => Number.isFinite(ratio) && isNear(stated, own * ratio))
      .sort(
        (one, next) =>
          next.weight - one.weight || Math.abs(stated / own - one.ratio) - Math.abs(stated / own - next.ratio),
      );
  const [single] = fits([...areas, ...factors, ...means, ...units]);
  if (single !== undefined) return single;
  if (formula !== null && formula.otherRows.size > 0) {
    const rows = [...formula.otherRows].sort((a, b) => a - b);
    return {
      problem: `The formula reads row ${rows.join(", ")}, which belongs to another outlet.`,
      action: "Copy the formula from a row whose airflow is right.",
    };
  }
  const foreign = means.find(({ ratio }) => Number.isNaN(ratio));
  if (foreign !== undefined) return foreign;
  const common = [...areas.filter(({ ratio }) => ratio >= 100 || ratio <= 0.01), ...units.slice(0, 2)];
  const [both] = fits([...together(common, factors), ...together(means, factors), ...together(common, means)]);
  return both;
}
