import { useState } from "preact/hooks";
import type { ExcelHost } from "../../hosts/excel/index.js";
import type { InteractiveHost, RepairPlan } from "../../workbook/index.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";

function canRepair(host: InteractiveHost): host is ExcelHost {
  return host.kind === "excel" && "planRepair" in host;
}

function planWords({ count, sheets }: RepairPlan): string {
  const formulas = count === 1 ? "1 formula shows" : `${count} formulas show`;
  const places = sheets.map(({ sheet, formulas: stuck }) => `“${sheet}” (${stuck.length})`).join(", ");
  return `${formulas} #NAME? because Excel read them before the add-in was there: ${places}.`;
}

/** Enters formulas again that Excel read too early, once the person agrees. Only Excel has such formulas. */
export function RepairSection() {
  const { host, run, isBusy } = usePane();
  const [plan, setPlan] = useState<RepairPlan | null>(null);
  if (!canRepair(host)) return null;

  const look = () =>
    run(async () => {
      const found = await host.planRepair();
      setPlan(found.count === 0 ? null : found);
      return found.count === 0 ? "No formula is stuck at #NAME?." : null;
    });

  const repair = (agreed: RepairPlan) =>
    run(async () => {
      const { repaired, unrepaired } = await host.repair(agreed);
      setPlan(null);
      const rest = unrepaired.map(({ message }) => ` ${message}`).join("");
      return `${repaired === 1 ? "1 formula was" : `${repaired} formulas were`} entered again.${rest}`;
    });

  const guarded = plan?.sheets.filter(({ isProtected }) => isProtected).map(({ sheet }) => `“${sheet}”`) ?? [];
  return (
    <Section title="Formulas at #NAME?">
      {plan === null ? (
        <button type="button" class="vs-button" disabled={isBusy} onClick={() => void look()}>
          Look for them
        </button>
      ) : (
        <div class="vs-ask" role="alertdialog" aria-label="Enter these formulas again?">
          <p>{planWords(plan)}</p>
          {guarded.length > 0 && <p>The protection of {guarded.join(", ")} is lifted for it and set again.</p>}
          <div class="vs-buttons">
            <button type="button" class="vs-button vs-main" disabled={isBusy} onClick={() => void repair(plan)}>
              Enter them again
            </button>
            <button type="button" class="vs-button" onClick={() => setPlan(null)}>
              Leave them
            </button>
          </div>
        </div>
      )}
    </Section>
  );
}
