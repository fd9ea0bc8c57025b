import { useFindings } from "./use-findings.js";

/** The tab's name with the number of findings. */
export function CheckLabel() {
  const { report } = useFindings();
  const count = report?.findings.length ?? 0;
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
