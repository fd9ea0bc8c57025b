import {
  addBeforeAfter,
  type JobDetails,
  missingInWords,
  type TemplateId,
  type TemplateOptions,
} from "../../workbook/index.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";
import { TemplateRow } from "./template-row.js";

/** The order in which a job meets them. */
const ORDER: readonly TemplateId[] = ["room-balance", "duct-traverse", "face-sweep", "before-after", "job-summary"];

function statedDetails(details: JobDetails): Partial<JobDetails> {
  return Object.fromEntries(Object.entries(details).filter(([, value]) => value !== null));
}

function saidOf(added: readonly string[]): string {
  const names = added.map((name) => `“${name}”`).join(", ");
  return added.length === 1 ? `Sheet ${names} was added.` : `Sheets ${names} were added.`;
}

/** Sheets to start from; what the pane knows of the job goes along where the workbook had no place for it before. */
export function TemplateList() {
  const { host, job, run } = usePane();

  const carryJob = async () => {
    if (job.statedBy === "pane") await job.carry(statedDetails(job.details));
  };

  const add = (id: TemplateId, options: TemplateOptions) =>
    run(async () => {
      const added = await host.addTemplate(id, options);
      await carryJob();
      return saidOf(added);
    });

  const fill = () =>
    run(async () => {
      const { sheets, visits } = await addBeforeAfter(host);
      await carryJob();
      const count = visits.outlets.length;
      const filled = `It follows the readings of ${count} ${count === 1 ? "outlet" : "outlets"} as found and as left.`;
      return [saidOf(sheets), filled, missingInWords(visits)].filter((text) => text !== "").join(" ");
    });

  return (
    <Section title="New sheet">
      <ul class="vs-templates">
        {ORDER.map((id) => (
          <TemplateRow
            key={id}
            template={id}
            onAdd={(options) => void add(id, options)}
            {...(id === "before-after" ? { onFill: () => void fill() } : {})}
          />
        ))}
      </ul>
    </Section>
  );
}
