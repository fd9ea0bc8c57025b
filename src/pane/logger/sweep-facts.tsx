import type { UnitSystemName } from "../../core/index.js";
import { metersPerSecondFromFpm } from "../../core/index.js";
import type { LogSweep, NotReading, StuckValue } from "../../logger/index.js";
import { velocityUnit } from "../../workbook/index.js";
import { fixedFigure, shortFigure, shownNumber } from "../controls/shown-figure.js";

interface SweepFactsProps {
  readonly sweep: LogSweep;
  readonly units: UnitSystemName;
}

/** So many rows of a kind are named one by one. */
const MOST_NAMED = 6;

const plural = (count: number, noun: string) => `${count} ${noun}${count === 1 ? "" : "s"}`;
const seconds = (value: number) => `${shortFigure(value, 1)} s`;

function rowsByKind(notReadings: readonly NotReading[]): readonly string[] {
  const kinds = new Map<string, NotReading[]>();
  for (const one of notReadings) {
    const alike = kinds.get(one.kind) ?? [];
    alike.push(one);
    kinds.set(one.kind, alike);
  }
  return [...kinds].map(([kind, rows]) => {
    const named = rows.slice(0, MOST_NAMED).map(({ row, text }) => (text === "" ? `${row}` : `${row} “${text}”`));
    return `${kind}: row ${named.join(", ")}${rows.length > MOST_NAMED ? ` and ${rows.length - MOST_NAMED} more` : ""}`;
  });
}

/** A value that sticks again and again is one sentence. */
function stuckWords({ velocityFpm, count, runs, longest }: StuckValue, shown: (fpm: number) => string): string {
  const rows = `rows ${longest.fromRow} to ${longest.toRow}`;
  return runs.length === 1
    ? `Stuck at ${shown(velocityFpm)}: ${count} times running, ${rows}.`
    : `Stuck at ${shown(velocityFpm)} ${runs.length} times over; the longest ${longest.count} running, ${rows}.`;
}

/** What speaks against a sweep, a sentence each. */
function doubts(
  { gaps, stuck, notReadings, negativeCount }: LogSweep,
  shown: (fpm: number) => string,
): readonly string[] {
  const longest = gaps.reduce((most, gap) => Math.max(most, gap.toSeconds - gap.fromSeconds), 0);
  return [
    ...(gaps.length > 0
      ? [`${plural(gaps.length, "gap")}, the longest ${seconds(longest)}. Gaps count for nothing.`]
      : []),
    ...stuck.slice(0, MOST_NAMED).map((value) => stuckWords(value, shown)),
    ...(stuck.length > MOST_NAMED ? [`${stuck.length - MOST_NAMED} more stuck values.`] : []),
    ...(negativeCount > 0 ? [`${plural(negativeCount, "negative reading")}: reverse flow. They count.`] : []),
    ...rowsByKind(notReadings).map((rows) => `Not a reading, never taken as a number: ${rows}.`),
  ];
}

const numberIn = (units: SweepFactsProps["units"]) => (fpm: number) =>
  shownNumber(units === "si" ? metersPerSecondFromFpm(fpm) : fpm);

const shownIn = (units: SweepFactsProps["units"]) => (fpm: number) => `${numberIn(units)(fpm)} ${velocityUnit(units)}`;

/** What speaks against a sweep. */
export function SweepDoubts({ sweep, units }: SweepFactsProps) {
  return (
    <>
      {doubts(sweep, shownIn(units)).map((doubt) => (
        <p key={doubt} class="vs-flag">
          {doubt}
        </p>
      ))}
    </>
  );
}

/** The figures of a sweep, and what speaks against it. */
export function SweepFacts({ sweep, units }: SweepFactsProps) {
  const shown = shownIn(units);
  const facts = [
    ["Average over time", shown(sweep.meanFpm)],
    [
      "Spread of readings",
      sweep.spreadPercent === null ? "none: the average is not above 0" : `${fixedFigure(sweep.spreadPercent, 1)} %`,
    ],
    ["Duration", seconds(sweep.durationSeconds)],
    ["Readings", String(sweep.count)],
    ["Lowest and highest", `${numberIn(units)(sweep.leastFpm)} to ${shown(sweep.mostFpm)}`],
  ] as const;
  return (
    <>
      <dl class="vs-result">
        {facts.map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <SweepDoubts sweep={sweep} units={units} />
    </>
  );
}
