import type { LowOutlet, LowReason } from "../../core/index.js";
import { Section } from "../controls/section.js";
import { percentText } from "./quantity-text.js";

/** Who or what raises it, in a word or two. */
const REMEDIES: Readonly<Record<LowReason, string>> = {
  others: "other dampers",
  duct: "its duct",
  fan: "the fan",
  design: "the design",
};

interface LowOutletsProps {
  readonly low: readonly LowOutlet[];
}

/** Open outlets below their limit: what raises each is not its own damper. */
export function LowOutlets({ low }: LowOutletsProps) {
  if (low.length === 0) return null;
  return (
    <Section title="Low with the damper open">
      <ul class="vs-plain">
        {low.map(({ outlet, reason, words }) => (
          <li key={outlet.name}>
            <strong>
              {outlet.name}, {percentText(outlet.ratio)}: {REMEDIES[reason]}.
            </strong>{" "}
            {words.charAt(0).toUpperCase()}
            {words.slice(1)}.
          </li>
        ))}
      </ul>
    </Section>
  );
}
