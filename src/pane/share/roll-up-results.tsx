import type { Finding } from "../../workbook/finding.js";
import { leftOutByReason, type RollUp } from "../../workbook/rollup/index.js";
import { usePane } from "../shell/pane-context.js";
import { distributionColumns, monthColumns } from "./chart-columns.js";
import { ColumnChart } from "./column-chart.js";
import { FindingList } from "./finding-list.js";
import { GroupTable } from "./group-table.js";
import { jobName, plusMinusPercents, sortedFindings, totalWords } from "./roll-up-words.js";

interface RollUpResultsProps {
  readonly rollUp: RollUp;
  readonly findings: readonly Finding[];
}

/** Rows that fit a pane; the summary workbook has them all. */
const MOST_ROWS = 50;
/** So few are shown at once. */
const FEW = 5;

/** A month that no line breaks. */
function monthName(month: string): string {
  return month === "" ? "no date" : month.replace("-", "\u2011");
}

/** A meter by its serial number, with a word where its calibration had expired. */
function instrumentName({ serial, instrument, jobsByState }: RollUp["instruments"][number]): string {
  const name = serial || instrument || "not stated";
  return jobsByState.expired === 0 ? name : `${name}, calibration expired`;
}

/** What the workbooks that came in so far come to. */
export function RollUpResults({ rollUp, findings }: RollUpResultsProps) {
  const { units } = usePane().job.details;
  const { jobs, months, technicians, instruments, total } = rollUp;
  const { skipped, lost, others } = sortedFindings(findings);
  const distribution = distributionColumns(total.percentCounts);
  const byMonth = monthColumns(months);
  const doubt = plusMinusPercents(total);
  return (
    <>
      {jobs.length > 0 && (
        <>
          <h3>Together</h3>
          <p>{totalWords(rollUp, units)}</p>
          {doubt !== null && <p>{doubt}</p>}
        </>
      )}
      {skipped.length > 0 && (
        <>
          <h3>Left out: {skipped.length}</h3>
          {leftOutByReason(skipped).map(({ reason, findings: alike }) =>
            alike.length === 1 ? (
              <FindingList key={reason} findings={alike} />
            ) : (
              <details key={reason} class="vs-details">
                <summary>
                  {alike.length} × {reason}
                </summary>
                <FindingList findings={alike} />
              </details>
            ),
          )}
        </>
      )}
      {lost.length > 0 && (
        <details class="vs-details" open={lost.length <= FEW}>
          <summary>Lists and outlets left out: {lost.length}</summary>
          <FindingList findings={lost} />
        </details>
      )}
      {jobs.length > 0 && (
        <>
          {total.compared > 0 && (
            <ColumnChart
              title="Outlets by percent of design"
              description={distribution.description}
              columns={distribution.columns}
              most={distribution.most}
              mostLabel={`${distribution.most} ${distribution.most === 1 ? "outlet" : "outlets"}`}
            />
          )}
          {byMonth.columns.length > 0 && (
            <ColumnChart
              title="Share within limits by month"
              description={byMonth.description}
              columns={byMonth.columns}
              most={byMonth.most}
              mostLabel="100 %"
            />
          )}
          <GroupTable
            title="By job"
            named="Job"
            units={units}
            groups={jobs.slice(0, MOST_ROWS).map((job) => ({ name: jobName(job), group: job }))}
          />
          {jobs.length > MOST_ROWS && <p class="vs-hint">And {jobs.length - MOST_ROWS} more jobs.</p>}
          <GroupTable
            title="By month"
            named="Month"
            units={units}
            groups={months.map((group) => ({ name: monthName(group.name), group }))}
          />
          <GroupTable
            title="By technician"
            named="Technician"
            units={units}
            groups={technicians.slice(0, MOST_ROWS).map((group) => ({ name: group.name || "not named", group }))}
          />
          <GroupTable
            title="By instrument"
            named="Serial number"
            units={units}
            groups={instruments.slice(0, MOST_ROWS).map((group) => ({ name: instrumentName(group), group }))}
          />
        </>
      )}
      {others.length > 0 && (
        <details class="vs-details">
          <summary>Worth a look: {others.length}</summary>
          <FindingList findings={others} />
        </details>
      )}
    </>
  );
}
