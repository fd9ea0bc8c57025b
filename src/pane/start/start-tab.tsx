import type { UnitSystemName } from "../../core/index.js";
import type { DecisionRule } from "../../workbook/index.js";
import { ChoiceField } from "../controls/choice-field.js";
import { Section } from "../controls/section.js";
import { OtherDrafts } from "../drafts/draft-offer.js";
import { useDraft } from "../drafts/use-draft.js";
import { OwnSheet } from "../own-sheet/own-sheet.js";
import { densityText } from "../shell/density-text.js";
import { usePane } from "../shell/pane-context.js";
import { JobField } from "./job-field.js";
import { AIR_FIELDS, type AskedField, INSTRUMENT_FIELDS, JOB_FIELDS, LIMIT_FIELDS } from "./job-fields.js";
import { MoreRows } from "./more-rows.js";
import { EMPTY_START, startReducer } from "./start-draft.js";
import { TemplateList } from "./template-list.js";

const UNITS = [
  { value: "ip", label: "in, fpm, cfm" },
  { value: "si", label: "mm, m/s, L/s" },
] as const;

const RULES = [
  { value: "simple", label: "As measured" },
  { value: "guarded", label: "With its ±" },
] as const;

/** The job, once for all sheets, and sheets to start from. */
export function StartTab() {
  const { job, run } = usePane();
  const [draft, dispatch] = useDraft("start", startReducer, EMPTY_START);
  const fields = (list: readonly AskedField[]) =>
    list.map((field) => <JobField key={field.detail} field={field} draft={draft} dispatch={dispatch} />);
  const chooseUnits = (units: UnitSystemName) =>
    void run(async () => {
      await job.state({ units });
      return null;
    });

  const chooseRule = (decisionRule: DecisionRule) =>
    void run(async () => {
      await job.state({ decisionRule });
      return null;
    });

  return (
    <>
      <Section title="Job">
        <p class="vs-lead">
          {job.statedBy === "workbook"
            ? "These are on the sheet of job details and apply to every sheet of this workbook."
            : "This workbook has no sheet of job details yet. The pane keeps them here until you add a sheet below."}
        </p>
        {job.findings.map((finding) => (
          <p key={finding} class="vs-error">
            {finding}
          </p>
        ))}
        {fields(JOB_FIELDS)}
        <ChoiceField
          legend="Units"
          choices={UNITS}
          value={job.details.units}
          onChoose={chooseUnits}
          hint="Choose before you type: numbers are not converted."
        />
      </Section>
      <Section title="Air">
        <div class="vs-pair">{fields(AIR_FIELDS)}</div>
        {job.densityLbFt3 !== null && <p class="vs-understood">{densityText(job.densityLbFt3, job.details.units)}</p>}
      </Section>
      <Section title="Limits">
        <div class="vs-pair">{fields(LIMIT_FIELDS)}</div>
        <ChoiceField
          legend="Decision rule"
          choices={RULES}
          value={job.details.decisionRule ?? "simple"}
          onChoose={chooseRule}
          hint="Most contracts ask for As measured. With its ±: an outlet is open while a limit is within its ±."
        />
      </Section>
      <Section title="Instrument">{fields(INSTRUMENT_FIELDS)}</Section>
      <MoreRows />
      <TemplateList />
      <OwnSheet />
      <OtherDrafts />
    </>
  );
}
