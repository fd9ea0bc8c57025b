import { useState } from "preact/hooks";
import {
  airflowUnit,
  HostError,
  type MeasuredResult,
  type Placement,
  planPlacement,
  readSelectedOutlet,
  type SelectedOutlet,
  type TakenMeasurement,
} from "../../workbook/index.js";
import { ActionButton } from "../controls/action-button.js";
import { Question } from "../controls/question.js";
import { Section } from "../controls/section.js";
import { shownNumber } from "../controls/shown-figure.js";
import { usePane } from "../shell/pane-context.js";
import { isSameAirflow, shownResult } from "./shown-result.js";

interface PutSectionProps {
  /** Null while something is missing. */
  readonly taken: TakenMeasurement | null;
  readonly result: MeasuredResult | null;
  readonly missing: readonly string[];
  /** The row to which the measurement belongs; null where it belongs to none. */
  readonly place: SelectedOutlet | null;
  readonly onPut: () => void;
  readonly onStartOver: () => void;
}

/** Writes the measurement where the sheet is selected; what stands there is replaced only after a yes. */
export function PutSection({ taken, result, missing, place, onPut, onStartOver }: PutSectionProps) {
  const { host, job, run } = usePane();
  const [asked, setAsked] = useState<Placement | null>(null);
  const [isLeaving, setLeaving] = useState(false);

  /** The pane hears of another selection a moment later than it happens. */
  async function requirePlace(): Promise<void> {
    const now = await readSelectedOutlet(host, job.details.units);
    if (now?.id === place?.id) return;
    const own = place === null ? "no row of a list" : place.label;
    const other = now === null ? "other cells are selected" : `${now.label} is selected`;
    throw new HostError(
      `These readings belong to ${own}, but ${other}. Nothing was written. Press again once the pane shows the readings that you mean.`,
    );
  }

  async function write(placement: Placement, airflow: number, unit: string): Promise<string> {
    await requirePlace();
    await host.write(placement.edits);
    setAsked(null);
    onPut();
    const { resultAt, resultScale } = placement;
    const put = `Put into ${placement.where}.`;
    if (resultAt === null)
      return `${put} The list has no column for the airflow: it is ${shownNumber(airflow)} ${unit}.`;
    const own = await shownResult(host, resultAt, airflow * resultScale);
    if (own === null) return `${put} ${resultAt.range} there shows no number yet: look at it.`;
    const shown = own / resultScale;
    const words = `${resultAt.range} shows ${resultScale === 1 ? "" : `${shownNumber(own)}, which is `}${shownNumber(shown)} ${unit}`;
    if (isSameAirflow(shown, airflow)) return `${put} ${words}.`;
    return `${put} ${words}, and the pane ${shownNumber(airflow)}: look whether its formula was changed.`;
  }

  const put = () =>
    run(async () => {
      if (taken === null || result === null) return null;
      await requirePlace();
      const placement = await planPlacement(host, taken);
      if ("refusal" in placement) throw new HostError(placement.refusal);
      if (placement.replaces.length === 0) return write(placement, result.airflow, airflowUnit(taken.units));
      setAsked(placement);
      return null;
    });

  const replace = (placement: Placement) =>
    run(async () =>
      taken === null || result === null ? null : write(placement, result.airflow, airflowUnit(taken.units)),
    );

  return (
    <Section title="Into the sheet">
      <p class="vs-hint">
        Select an outlet row, a traverse sheet, or an empty cell with space around it. Then press Put into sheet.
      </p>
      {missing.length > 0 && <p class="vs-flag">Still missing: {missing.join(", ")}.</p>}
      {asked !== null && (
        <Question
          label="Replace existing values?"
          answers={
            <>
              <ActionButton isMain onPress={() => void replace(asked)}>
                Replace it
              </ActionButton>
              <button type="button" class="vs-button" onClick={() => setAsked(null)}>
                Leave it
              </button>
            </>
          }
        >
          <p>In {asked.where} already has:</p>
          <ul>
            {asked.replaces.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </Question>
      )}
      <div class="vs-buttons">
        <ActionButton isMain isIdle={taken === null || result === null} onPress={() => void put()}>
          Put into sheet
        </ActionButton>
        <button type="button" class="vs-button" onClick={() => setLeaving(true)}>
          New measurement
        </button>
      </div>
      {isLeaving && (
        <Question
          label="Clear this measurement?"
          answers={
            <>
              <button
                type="button"
                class="vs-button vs-main"
                onClick={() => {
                  setLeaving(false);
                  onStartOver();
                }}
              >
                Clear
              </button>
              <button type="button" class="vs-button" onClick={() => setLeaving(false)}>
                Keep
              </button>
            </>
          }
        >
          <p>Clear size and readings here? The sheet is not changed.</p>
        </Question>
      )}
    </Section>
  );
}
