import type { BalanceStep } from "../../core/index.js";

const ALWAYS = "Follow the manufacturer's instructions and the local code; they come before anything said here.";

const WORDS: Readonly<Record<BalanceStep["kind"], readonly string[]>> = {
  measure: [
    "Stand the ladder on firm ground and keep three points of contact; never read at arm's length off its side.",
  ],
  "read again": [
    "Stand the ladder on firm ground and keep three points of contact; never read at arm's length off its side.",
  ],
  "noise floor": ["Fuel-burning appliances: test for spillage and carbon monoxide before you leave."],
  "find blockage": ["Switch the fan off and lock it before you open a duct or reach into it."],
  "set outlet": [
    "Never close dampers so far that a furnace, coil or heat pump gets less air than its manufacturer allows.",
    "Ladder: firm ground, three points of contact.",
  ],
  "set branch": [
    "Never close dampers so far that a furnace, coil or heat pump gets less air than its manufacturer allows.",
    "Ladder: firm ground, three points of contact.",
  ],
  "set fan": [
    "Covers, belts and electrical parts: power off and locked, by a qualified person. Motor current stays below the name plate's.",
    "Fuel-burning appliances: after the fan or an exhaust was changed, test for spillage and carbon monoxide before you leave.",
  ],
  "report shortfall": ["More speed than the manufacturer allows is not a remedy. Ask the designer."],
  done: [
    "Fuel-burning appliances: test for spillage and carbon monoxide before you leave.",
    "Check that the static pressure and the temperature rise are still within what the manufacturer allows.",
  ],
};

interface CautionsProps {
  readonly kind: BalanceStep["kind"];
}

/** What can hurt at this step, in few words. */
export function Cautions({ kind }: CautionsProps) {
  return (
    <div class="vs-caution">
      <strong>Careful</strong>
      <ul>
        {[...WORDS[kind], ALWAYS].map((words) => (
          <li key={words}>{words}</li>
        ))}
      </ul>
    </div>
  );
}
