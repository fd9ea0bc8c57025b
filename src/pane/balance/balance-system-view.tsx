import { useState } from "preact/hooks";
import {
  ageEdits,
  airflowUnit,
  asFoundEdits,
  type BalanceGroup,
  limitsForKind,
  type OutletRow,
  readingEdits,
} from "../../workbook/index.js";
import { CheckField } from "../controls/check-field.js";
import { readTypedNumber } from "../controls/read-typed-number.js";
import { Section } from "../controls/section.js";
import { TextField } from "../controls/text-field.js";
import { usePane } from "../shell/pane-context.js";
import { type BalanceAction, type BalanceDraft, rememberedKey, type SystemChange } from "./balance-draft.js";
import { LowOutlets } from "./low-outlets.js";
import { isAfterSetting, nextStep } from "./next-step.js";
import { NextStepView } from "./next-step-view.js";
import { OutletChanges } from "./outlet-changes.js";
import { OutletList } from "./outlet-list.js";
import { airflowText, percentText } from "./quantity-text.js";
import { readingOrder } from "./reading-order.js";
import { type RatedOutlet, systemAdvice } from "./system-advice.js";

/** A list with room for one reading takes the last one: it is not asked for again. */
const ENOUGH = 100;

interface BalanceSystemProps {
  readonly group: BalanceGroup;
  readonly draft: BalanceDraft;
  readonly dispatch: (action: BalanceAction) => void;
  readonly reload: () => Promise<void>;
}

/** Says how many outlets a limit lies within the ± of. */
function decisionWords(rated: readonly RatedOutlet[], isGuarded: boolean): string {
  const open = rated.filter(({ isOpen }) => isOpen).length;
  if (rated.length === 0 || (open === 0 && !isGuarded)) return "";
  const rule = isGuarded ? "Judged with the ±" : "Judged as measured";
  return `${rule}; ${open} of ${rated.length} ${open === 1 ? "is" : "are"} open: a limit is within ${open === 1 ? "its" : "their"} ±.`;
}

/**
 * One system: its next step, its outlets, and what came of the work.
 *
 * While readings are on their way into the sheet it shows the system as it was before: the sheet and the draft change
 * one after the other, and a step from between the two would be none to follow.
 */
export function BalanceSystemView({ dispatch, reload, ...current }: BalanceSystemProps) {
  const { host, job, run } = usePane();
  const [hasEntered, setEntered] = useState(false);
  const [before, setBefore] = useState<Pick<BalanceSystemProps, "group" | "draft"> | null>(null);
  const { group, draft } = before ?? current;
  const { details } = job;
  const keyOf = (outlet: OutletRow) => rememberedKey(outlet, outlet.name, details.jobName ?? "");
  const branchKey = (branch: string) => rememberedKey(group, branch, details.jobName ?? "");
  const isThrottled = (outlet: OutletRow) => draft.throttled.includes(keyOf(outlet));
  const limits = limitsForKind(group.kind, details);
  const fanText = current.draft.fanMost[group.id] ?? "";
  const fan = readTypedNumber(fanText, 0, null);
  const fanMost = "value" in fan && fan.value !== null && fan.value > 0 ? fan.value : Number.POSITIVE_INFINITY;
  const view = systemAdvice(group, {
    isThrottled,
    isBranchThrottled: (branch) => draft.throttledBranches.includes(branchKey(branch)),
    fanMost,
    limits,
    order: readingOrder(group, draft, keyOf, details),
    job: details,
  });
  const changes = (
    <OutletChanges
      outlets={[...group.outlets, ...group.withoutDesign]}
      asFound={(outlet) => draft.asFound[keyOf(outlet)]}
      job={details}
    />
  );
  if ("problem" in view || limits === null) {
    return (
      <>
        <p class="vs-error">{"problem" in view ? view.problem : ""}</p>
        {changes}
      </>
    );
  }
  const system = view.value;
  const isGuarded = details.decisionRule === "guarded";
  const step = nextStep(group, system, draft, details.units);

  const show = (outlet: OutletRow) =>
    void run(async () => {
      await host.select(outlet.cell);
      dispatch({ type: "outlet chosen", id: outlet.id });
      return null;
    });

  const change = (): SystemChange => ({
    group: group.id,
    before: Object.fromEntries(group.outlets.map((outlet) => [keyOf(outlet), outlet.measured])),
  });

  async function enter(outlet: OutletRow, readings: readonly number[]): Promise<void> {
    const text = draft.typed;
    setBefore({ group, draft });
    dispatch({ type: "typed", text: "" });
    await run(async () => {
      try {
        await writeReadings(outlet, readings);
      } catch (thrown) {
        dispatch({ type: "not entered", text });
        throw thrown;
      }
      setEntered(true);
      await reload();
      return null;
    });
    setBefore(null);
  }

  async function writeReadings(outlet: OutletRow, readings: readonly number[]): Promise<void> {
    const isSet = isAfterSetting(step);
    const kept = isSet && !step.isAverage ? asFoundEdits(outlet) : [];
    const there = step.isAverage ? outlet.entered.filter((one) => one !== null) : [];
    const isAdded = there.length > 0 && there.length + readings.length <= outlet.entryCells.length;
    // What was set was read with it; every other reading of the system is old then.
    const ages = ageEdits(group.outlets, (one) => one !== outlet && (step.target !== null || one.isOld));
    await host.write([...readingEdits(outlet, isAdded ? [...there, ...readings] : readings), ...kept, ...ages]);
    if (isSet) dispatch({ type: "found", key: keyOf(outlet), airflow: outlet.measured });
    if (step.target !== null) dispatch({ type: "adjusted", key: keyOf(outlet), ...change() });
    const count = isAdded ? (draft.counts[keyOf(outlet)] ?? 1) + 1 : step.isAverage ? ENOUGH : 1;
    dispatch({ type: "read", key: keyOf(outlet), count });
  }

  return (
    <>
      <NextStepView
        step={step}
        kind={system.advice.step.kind}
        typed={current.draft.typed}
        takesFocus={hasEntered}
        isEntering={before !== null}
        isThrottled={step.read !== null && isThrottled(step.read)}
        onTyped={(text) => dispatch({ type: "typed", text })}
        onReadings={(readings) => step.read && void enter(step.read, readings)}
        onDamper={(isNow) => step.read && dispatch({ type: "damper", key: keyOf(step.read), isThrottled: isNow })}
        onLeave={() => dispatch({ type: "outlet chosen", id: "" })}
        onConfirm={({ branch }) =>
          void run(async () => {
            const ages = ageEdits(group.outlets, () => true);
            if (ages.length > 0) await host.write([...ages]);
            if (branch === null) dispatch({ type: "fan set", ...change() });
            else dispatch({ type: "branch set", key: branchKey(branch), ...change() });
            setEntered(true);
            if (ages.length > 0) await reload();
            return null;
          })
        }
      />
      <Section title="Outlets">
        <p class="vs-lead">
          {system.ratio === undefined
            ? "None is measured yet. "
            : `Measured so far: ${airflowText(system.measured, details.units)} of ${airflowText(system.design, details.units)} design, ${percentText(system.ratio)}. `}
          Limits: {percentText(1 - limits.minusPercent / 100)} to {percentText(1 + limits.plusPercent / 100)}
          {limits.isAssumed ? ", assumed: the job states none." : "."} {decisionWords(system.rated, isGuarded)} Choose
          one to see its cell and read it.
        </p>
        <OutletList
          rated={system.rated}
          notMeasured={system.notMeasured}
          withoutDesign={group.withoutDesign}
          limits={limits}
          isGuarded={isGuarded}
          isThrottled={isThrottled}
          onChoose={show}
        />
      </Section>
      <LowOutlets low={system.advice.low} />
      {changes}
      <Section title={system.branches.length > 1 ? "Fan and branches" : "Fan"}>
        <TextField
          label="Maximum fan airflow"
          isShort
          inputMode="decimal"
          unit={airflowUnit(details.units)}
          value={fanText}
          onInput={(text) => dispatch({ type: "fan most", group: group.id, text })}
          error={"error" in fan ? fan.error : null}
          hint="From its curve or a test with every damper open. Empty: not known."
        />
        {system.branches.length > 1 &&
          system.branches.map((branch) => (
            <CheckField
              key={branch}
              label={`Damper of branch ${branch === "" ? "without a name" : branch} is throttled`}
              isChecked={draft.throttledBranches.includes(branchKey(branch))}
              onChange={(isNow) => dispatch({ type: "branch damper", key: branchKey(branch), isThrottled: isNow })}
            />
          ))}
      </Section>
    </>
  );
}
