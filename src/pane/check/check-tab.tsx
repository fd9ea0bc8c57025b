import { type Finding, type FindingKind, fillFormulas } from "../../workbook/index.js";
import { parseRange } from "../../xlsx/address.js";
import { ActionButton } from "../controls/action-button.js";
import { Section } from "../controls/section.js";
import { failureMessage } from "../shell/message.js";
import { usePane } from "../shell/pane-context.js";
import { findingCounts, findingsBySheet } from "./findings-by-sheet.js";
import { RepairOffer } from "./repair-offer.js";
import { useFindings } from "./use-findings.js";
import "./check.css";

/** Findings of rows that lack formulas which the pane can fill in. */
const FILLED: ReadonlySet<FindingKind> = new Set(["row-without-formulas", "rows-below-table"]);

/** Rows of a finding, as in 40:42. */
const rowsOf = (cell: string): string => cell.replace(/[A-Z]+/g, "");

/** What makes the workbook's airflows wrong, cell by cell. */
export function CheckTab() {
  const { host, run } = usePane();
  const { report, isChecking, failure, watchFailure, check } = useFindings();
  const findings = report?.findings ?? [];
  const hasOurs = report !== null && report.vaneFormulaCount + report.listCount > 0;
  const stuckCount = findings.filter(({ kind }) => kind === "stuck-formula").length;

  const show = ({ sheet, cell }: Finding) =>
    void run(async () => {
      await host.select({ sheet, range: cell });
      return null;
    });

  const fill = ({ sheet, cell }: Finding) =>
    run(async () => {
      const count = await fillFormulas(host, { sheet, range: cell });
      await check();
      return `Filled ${count} ${count === 1 ? "formula" : "formulas"} into ${rowsOf(cell)} of “${sheet}”.`;
    });

  const { addRows } = host;
  const extend = (addTo: NonNullable<typeof addRows>, { sheet, cell }: Finding) =>
    run(async () => {
      const row = parseRange(cell)?.lastRow;
      if (row === undefined) return null;
      const notices = await addTo({ kind: "extendTable", sheet, row });
      await check();
      return notices === null ? null : [`The table of “${sheet}” ends in row ${row} now.`, ...notices].join(" ");
    });

  return (
    <>
      <Section title="Check of the workbook">
        <div role="status">
          {report === null ? (
            <p>{isChecking ? "Looking through the workbook …" : "Not checked yet."}</p>
          ) : (
            <p>
              <strong>
                {findings.length > 0
                  ? `${findingCounts(findings)}.`
                  : hasOurs
                    ? "Nothing found."
                    : "Nothing to check yet."}
              </strong>{" "}
              {report.formulaCount === 1 ? "1 formula" : `${report.formulaCount} formulas`} on{" "}
              {report.sheetCount === 1 ? "1 sheet" : `${report.sheetCount} sheets`}
              {hasOurs
                ? " looked through."
                : ": no VANE function and no list of outlets. Add a sheet from a template on the tab Start."}
            </p>
          )}
        </div>
        {failure !== null && <p class="vs-error">{failureMessage(failure).text}</p>}
        {watchFailure !== null && (
          <p class="vs-error">
            {failureMessage(watchFailure).text} Changes are not seen now: press Check again after them.
          </p>
        )}
        <p class="vs-hint">
          {watchFailure === null && "It is checked again after each change. "}A wrong but plausible reading cannot be
          detected.
        </p>
        <div class="vs-buttons">
          <ActionButton isWaiting={isChecking} onPress={() => void check()}>
            Check again
          </ActionButton>
        </div>
      </Section>
      {stuckCount > 0 && <RepairOffer stuckCount={stuckCount} onRepaired={check} />}
      {findingsBySheet(findings).map(({ sheet, findings: onSheet }) => (
        <Section key={sheet} title={sheet}>
          <ul class="vs-findings">
            {onSheet.map((finding) => (
              <li key={`${finding.kind} ${finding.cell}`}>
                <button type="button" class={`vs-finding vs-finding-${finding.severity}`} onClick={() => show(finding)}>
                  <span class="vs-finding-head">
                    <strong>{finding.cell}</strong> <span class="vs-finding-severity">{finding.severity}</span>
                  </span>
                  <span>{finding.problem}</span> <span class="vs-finding-action">{finding.action}</span>
                </button>
                {finding.kind === "rows-below-table" && addRows !== undefined ? (
                  <ActionButton onPress={() => void extend(addRows, finding)}>Extend the table</ActionButton>
                ) : (
                  FILLED.has(finding.kind) && (
                    <ActionButton onPress={() => void fill(finding)}>Fill in the formulas</ActionButton>
                  )
                )}
              </li>
            ))}
          </ul>
        </Section>
      ))}
    </>
  );
}
