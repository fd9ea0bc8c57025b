import { useCallback, useEffect, useMemo, useState } from "preact/hooks";
import {
  type InteractiveHost,
  type JobDetails,
  jobIssueText,
  readJob,
  type StatedJob,
  UNSTATED_JOB,
  writeJob,
} from "../../workbook/index.js";
import type { DraftStore } from "../drafts/draft-store.js";
import { restoredDraft } from "../drafts/restored-draft.js";
import type { JobContext } from "./job-context.js";
import { jobDensity } from "./job-density.js";
import { useHostWatch } from "./use-watch.js";

const DRAFT = "job";

/** A detail that is null may become a number or a text: those of the pane are taken as they were kept. */
function keptDetails(drafts: DraftStore): JobDetails {
  const kept = restoredDraft(drafts.read(DRAFT), { details: {} }).details;
  const known = Object.entries(kept).filter(([key]) => Object.hasOwn(UNSTATED_JOB, key));
  return { ...UNSTATED_JOB, ...Object.fromEntries(known) };
}

/**
 * Keeps the job of the workbook at hand: read at first, and again when cells changed.
 *
 * @param onFailure - Told when the workbook cannot be read
 */
export function useJob(host: InteractiveHost, drafts: DraftStore, onFailure: (cause: unknown) => void): JobContext {
  const [stated, setStated] = useState<StatedJob | null>(null);
  const [own, setOwn] = useState<JobDetails>(() => keptDetails(drafts));

  const reload = useCallback(async () => {
    setStated(await readJob(host));
  }, [host]);

  useEffect(() => {
    reload().catch(onFailure);
  }, [reload, onFailure]);

  // Any change may bring a sheet of job details or take it away: another workbook may be opened.
  useHostWatch(host, () => void reload().catch(onFailure), onFailure);

  const state = useCallback(
    async (changes: Partial<JobDetails>) => {
      if (stated === null) {
        const details = { ...own, ...changes };
        drafts.write(DRAFT, { details });
        setOwn(details);
        return;
      }
      await writeJob(host, changes);
      await reload();
    },
    [stated, own, drafts, host, reload],
  );

  const carry = useCallback(
    async (details: Partial<JobDetails>) => {
      if ((await readJob(host)) === null) return;
      await writeJob(host, details);
      await reload();
    },
    [host, reload],
  );

  return useMemo(() => {
    const details = stated?.details ?? own;
    const statedBy = stated === null ? "pane" : "workbook";
    return {
      details,
      statedBy,
      issues: stated?.issues.map(jobIssueText) ?? [],
      densityLbFt3: jobDensity(details),
      state,
      reload,
      carry,
    };
  }, [stated, own, state, reload, carry]);
}
