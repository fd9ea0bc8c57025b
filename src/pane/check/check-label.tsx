import { useFindings } from "./use-findings.js";

/** The tab's name with the number of findings, or a mark where the last check failed or changes go unheard. */
export function CheckLabel() {
  const { report, failure, watchFailure } = useFindings();
  const count = report?.findings.length ?? 0;
  if (failure !== null || watchFailure !== null) {
    return (
      <>
        Check{" "}
        <span class="vs-count" aria-hidden="true">
          !
        </span>
        <span class="vs-hidden">could not be done</span>
      </>
    );
  }
  return (
    <>
      Check
      {count > 0 && (
        <>
          {" "}
          <span class="vs-count">{count}</span>
          <span class="vs-hidden">{count === 1 ? " finding" : " findings"}</span>
        </>
      )}
    </>
  );
}
