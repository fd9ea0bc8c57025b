import { HandoffSection } from "./handoff-section.js";
import { PrintSection } from "./print-section.js";
import { RollUpSection } from "./roll-up-section.js";
import "./share.css";

/** What leaves the workbook: a copy for others, paper, and the sum of many jobs. */
export function ShareTab() {
  return (
    <>
      <HandoffSection />
      <PrintSection />
      <RollUpSection />
    </>
  );
}
