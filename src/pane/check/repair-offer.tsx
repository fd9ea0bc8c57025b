import { useState } from "preact/hooks";
import type { RepairPlan } from "../../workbook/index.js";
import { HostError } from "../../workbook/index.js";
import { ActionButton } from "../controls/action-button.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";
import { outcomeWords, planWords } from "./repair-words.js";

interface RepairOfferProps {
  readonly stuckCount: number;
  readonly onRepaired: () => Promise<void>;
}

/** Offers to enter formulas again that stay `#NAME?`, and asks before it touches a sheet. */
export function RepairOffer({ stuckCount, onRepaired }: RepairOfferProps) {
  const { host, run } = usePane();
  const [plan, setPlan] = useState<RepairPlan | null>(null);
  const { planRepair, repair } = host;
  if (planRepair === undefined || repair === undefined) return null;

  const look = () =>
    void run(async () => {
      setPlan(await planRepair());
      return null;
    });

  const enter = (agreed: RepairPlan) =>
    void run(async () => {
      const outcome = await repair(agreed);
      setPlan(null);
      await onRepaired();
      const words = outcomeWords(outcome);
      if (outcome.unrepaired.length > 0) throw new HostError(words);
      return words;
    });

  return (
    <Section title="Formulas that show #NAME?">
      <p>
        {stuckCount === 1 ? "One formula was" : `${stuckCount} formulas were`} read before the functions were there.
        Entered again unchanged, they calculate.
      </p>
      {plan !== null && planWords(plan).map((words) => <p key={words}>{words}</p>)}
      <div class="vs-buttons">
        {plan === null || plan.count === 0 ? (
          <ActionButton isMain onPress={look}>
            Enter them again …
          </ActionButton>
        ) : (
          <>
            <ActionButton isMain onPress={() => enter(plan)}>
              Yes, enter them again
            </ActionButton>
            <button type="button" class="vs-button" onClick={() => setPlan(null)}>
              No, leave them
            </button>
          </>
        )}
      </div>
    </Section>
  );
}
