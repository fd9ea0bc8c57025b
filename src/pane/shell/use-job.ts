import { useCallback, useEffect, useMemo, useState } from "preact/hooks";
import {
  type InteractiveHost,
  type JobDetails,
  placeOf,
  readJob,
  sentencesOf,
  UNSTATED_JOB,
  type WorkbookHabits,
  writeJob,
} from "../../workbook/index.js";
import { setDecimalSign } from "../controls/decimal-sign.js";
import type { DraftStore } from "../drafts/draft-store.js";
import { restoredDraft } from "../drafts/restored-draft.js";
import type { JobContext } from "./job-context.js";
import { jobDensity } from "./job-density.js";
import type { StandingProblems } from "./standing-problems.js";
import { useReading } from "./use-reading.js";

const DRAFT = "job";

/** A detail that is null may become a number or a text: those of the pane are taken as they were kept. */
function keptDetails(kept: unknown): JobDetails {
  const { details } = restoredDraft(kept, { details: {} });
  const known = Object.entries(details).filter(([key]) => Object.hasOwn(UNSTATED_JOB, key));
  return { ...UNSTATED_JOB, ...Object.fromEntries(known) };
}

const DEFAULT_HABITS: WorkbookHabits = { decimalSign: ".", daysFrom: 1900 };

/** Days of 1904 lie behind those of 1900 by this much. */
const DAYS_BETWEEN_EPOCHS = 1462;

/** Returns details with the day counted anew; one that is not stated, or not among them, stays so. */
function withDay<Details extends Partial<JobDetails>>(details: Details, days: number): Details {
  const { dateSerial } = details;
  return typeof dateSerial === "number" ? { ...details, dateSerial: dateSerial + days } : details;
}

/**
 * Keeps the job of the workbook at hand: read at first, and again when cells changed.
 *
 * @returns Null until the workbook was read: that the job is unknown does not mean that it states nothing
 */
export function useJob(host: InteractiveHost, drafts: DraftStore, problems: StandingProblems): JobContext | null {
  const read = useCallback(async () => {
    const habits = (await host.habits?.()) ?? DEFAULT_HABITS;
    setDecimalSign(habits.decimalSign);
    const stated = await readJob(host);
    const days = habits.daysFrom === 1904 ? DAYS_BETWEEN_EPOCHS : 0;
    return { stated: stated === null ? null : { ...stated, details: withDay(stated.details, days) }, days };
  }, [host]);
  const { known, reload } = useReading(host, problems, read);
  const [own, setOwn] = useState<JobDetails>(() => keptDetails(drafts.read(DRAFT)));
  useEffect(() => drafts.subscribe(DRAFT, (kept) => setOwn(keptDetails(kept))), [drafts]);

  const stated = known?.value.stated ?? null;
  const days = known?.value.days ?? 0;
  const state = useCallback(
    async (changes: Partial<JobDetails>) => {
      if (stated === null) {
        const details = { ...own, ...changes };
        drafts.write(DRAFT, { details });
        setOwn(details);
        return;
      }
      await writeJob(host, withDay(changes, -days));
      await reload();
    },
    [stated, days, own, drafts, host, reload],
  );

  const carry = useCallback(
    async (details: Partial<JobDetails>) => {
      if ((await readJob(host)) === null) return;
      await writeJob(host, withDay(details, -days));
      await reload();
    },
    [host, days, reload],
  );

  return useMemo(() => {
    if (known === null) return null;
    const details = stated?.details ?? own;
    const statedBy = stated === null ? "pane" : "workbook";
    return {
      details,
      statedBy,
      findings: stated?.findings.map((finding) => `${placeOf(finding)}: ${sentencesOf(finding)}`) ?? [],
      densityLbFt3: jobDensity(details),
      state,
      reload,
      carry,
    };
  }, [known, stated, own, state, reload, carry]);
}
