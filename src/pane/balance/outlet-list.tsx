import type { DesignLimits } from "../../core/index.js";
import type { OutletRow } from "../../workbook/index.js";
import { percentText } from "./quantity-text.js";
import { RatioBar } from "./ratio-bar.js";
import type { RatedOutlet } from "./system-advice.js";

interface OutletListProps {
  readonly rated: readonly RatedOutlet[];
  readonly notMeasured: readonly OutletRow[];
  readonly withoutDesign: readonly OutletRow[];
  readonly limits: DesignLimits;
  /** Whether the job judges both ends of the ±. */
  readonly isGuarded: boolean;
  readonly isThrottled: (outlet: OutletRow) => boolean;
  readonly onChoose: (outlet: OutletRow) => void;
}

function placeOf({ room, branch }: OutletRow): string {
  return [room, branch].filter((part) => part !== "").join(", ");
}

/** The outlets in the order of work, each a way to its cell. */
export function OutletList({
  rated,
  notMeasured,
  withoutDesign,
  limits,
  isGuarded,
  isThrottled,
  onChoose,
}: OutletListProps) {
  const row = (outlet: OutletRow, words: string, bar: RatedOutlet | null) => (
    <li key={outlet.id}>
      <button type="button" class="vs-outlet" onClick={() => onChoose(outlet)}>
        <span class="vs-outlet-name">
          <strong>{outlet.name}</strong> {placeOf(outlet)}
        </span>
        <span class="vs-outlet-words">{words}</span>
        {bar && <RatioBar ratio={bar.ratio} limits={limits} />}
      </button>
    </li>
  );
  return (
    <ol class="vs-outlets">
      {rated.map((one) => {
        const marks = [percentText(one.ratio), isGuarded && one.isOpen ? "open" : one.verdict];
        if (!isGuarded && one.isOpen) marks.push("open (±)");
        if (one.isKey) marks.push("key");
        if (isThrottled(one.row)) marks.push("throttled");
        return row(one.row, marks.join(" · "), one);
      })}
      {notMeasured.map((outlet) => row(outlet, "not measured", null))}
      {withoutDesign.map((outlet) => row(outlet, "no design", null))}
    </ol>
  );
}
