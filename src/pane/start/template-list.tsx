import { useMemo } from "preact/hooks";
import { type JobDetails, TEMPLATES, type TemplateId } from "../../workbook/index.js";
import { ActionButton } from "../controls/action-button.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";

/** The order in which a job meets them. */
const ORDER: readonly TemplateId[] = ["room-balance", "duct-traverse", "face-sweep", "before-after", "job-summary"];

function statedDetails(details: JobDetails): Partial<JobDetails> {
  return Object.fromEntries(Object.entries(details).filter(([, value]) => value !== null));
}

/** Sheets to start from; what the pane knows of the job goes along where the workbook had no place for it before. */
export function TemplateList() {
  const { host, job, run } = usePane();
  const templates = useMemo(() => ORDER.map((id) => ({ id, ...TEMPLATES[id]("") })), []);

  const add = (id: TemplateId) =>
    run(async () => {
      const added = await host.addTemplate(id);
      if (job.statedBy === "pane") await job.carry(statedDetails(job.details));
      const names = added.map((name) => `“${name}”`).join(", ");
      return added.length === 1 ? `Sheet ${names} was added.` : `Sheets ${names} were added.`;
    });

  return (
    <Section title="New sheet">
      <ul class="vs-templates">
        {templates.map(({ id, title, description }) => (
          <li key={id}>
            <div>
              <strong>{title}</strong>
              <p>{description}</p>
            </div>
            <ActionButton onPress={() => void add(id)}>
              Add<span class="vs-hidden"> {title}</span>
            </ActionButton>
          </li>
        ))}
      </ul>
    </Section>
  );
}
