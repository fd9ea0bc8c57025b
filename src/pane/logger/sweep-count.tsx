import type { Parting } from "../../logger/index.js";
import { wordsWithFigures } from "../controls/shown-figure.js";

interface SweepCountProps {
  readonly question: string;
  readonly ways: readonly Parting[];
  readonly onChoose: (count: number) => void;
}

/** Asks how many sweeps a log holds. */
export function SweepCount({ question, ways, onChoose }: SweepCountProps) {
  return (
    <fieldset class="vs-ask">
      <legend>{question}</legend>
      {ways.map(({ segments, reason }) => (
        <div key={segments.length}>
          <button type="button" class="vs-button" onClick={() => onChoose(segments.length)}>
            {segments.length === 1 ? "One sweep" : `${segments.length} sweeps`}
          </button>
          <p class="vs-hint">{wordsWithFigures(reason)}</p>
        </div>
      ))}
    </fieldset>
  );
}
