import { balanceGroups } from "../../workbook/index.js";
import { Section } from "../controls/section.js";
import { SelectField } from "../controls/select-field.js";
import { useDraft } from "../drafts/use-draft.js";
import { balanceReducer, EMPTY_BALANCE } from "./balance-draft.js";
import { BalanceSystemView } from "./balance-system-view.js";
import { groupLabels } from "./group-labels.js";
import { useOutlets } from "./use-outlets.js";
import "./balance.css";

/** Which outlet to set next, to what velocity, and what no damper can reach. */
export function BalanceTab() {
  const { outlets, reload } = useOutlets();
  const [draft, dispatch] = useDraft("balance", balanceReducer, EMPTY_BALANCE);
  if (outlets === null) return <p class="vs-lead">Reading the outlets …</p>;
  const groups = balanceGroups(outlets.value);
  const group = groups.find(({ id }) => id === draft.group) ?? groups[0];
  const toLookAt = outlets.findings.length > 0 && (
    <Section title="To look at">
      {outlets.findings.map((finding) => (
        <p key={finding} class="vs-error">
          {finding}
        </p>
      ))}
    </Section>
  );
  const remarks = outlets.remarks.map((remark) => (
    <p key={remark} class="vs-hint">
      {remark}
    </p>
  ));
  if (group === undefined) {
    const [empty] = outlets.emptyLists;
    return (
      <>
        <Section title="No outlets yet">
          <p class="vs-lead">
            {empty === undefined
              ? "This workbook has no list of outlets with their design airflow. Add the sheet “Room balance” on the tab Start and list the outlets there."
              : `The list on “${empty}” has no outlets yet. Enter each with its design airflow.`}
          </p>
        </Section>
        {toLookAt}
        {remarks}
      </>
    );
  }
  return (
    <>
      {groups.length > 1 && (
        <div class="vs-section">
          <SelectField
            label="System"
            choices={groupLabels(groups)}
            value={group.id}
            onChoose={(id) => dispatch({ type: "group chosen", group: id })}
          />
        </div>
      )}
      {toLookAt}
      <BalanceSystemView key={group.id} group={group} draft={draft} dispatch={dispatch} reload={reload} />
      {remarks}
    </>
  );
}
