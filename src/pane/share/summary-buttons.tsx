import type { Finding } from "../../workbook/finding.js";
import type { RollUp } from "../../workbook/rollup/index.js";
import { ActionButton } from "../controls/action-button.js";
import { usePane } from "../shell/pane-context.js";
import { download } from "./download.js";
import { summaryBytes } from "./summary-bytes.js";

interface SummaryButtonsProps {
  readonly rollUp: RollUp;
  readonly findings: readonly Finding[];
  readonly fileCount: number;
}

const NAME = "Roll-up.xlsx";

/** The summary as a workbook of its own, with its charts and all findings. */
export function SummaryButtons({ rollUp, findings, fileCount }: SummaryButtonsProps) {
  const { host, job, run } = usePane();
  const { openWorkbook } = host;
  const bytes = () => summaryBytes(rollUp, findings, { fileCount, units: job.details.units, today: new Date() });

  const open = (show: NonNullable<typeof openWorkbook>) =>
    void run(async () => {
      await show(await bytes());
      return "The summary is open as a new workbook. Save it where it belongs.";
    });

  const save = () =>
    void run(async () => {
      download(await bytes(), NAME);
      return `${NAME} is handed to the browser as a download.`;
    });

  return (
    <div class="vs-buttons">
      {openWorkbook !== undefined && (
        <ActionButton isMain onPress={() => open(openWorkbook)}>
          Open the summary as a workbook
        </ActionButton>
      )}
      <ActionButton onPress={save}>Download the summary</ActionButton>
    </div>
  );
}
