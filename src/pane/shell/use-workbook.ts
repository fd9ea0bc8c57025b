import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import type { InteractiveHost, WorkbookIdentity } from "../../workbook/index.js";
import { type DraftStore, draftStore } from "../drafts/draft-store.js";
import type { StandingProblems } from "./standing-problems.js";
import { useReading } from "./use-reading.js";

interface OpenWorkbook {
  readonly identity: WorkbookIdentity;
  readonly drafts: DraftStore;
}

/** Who a workbook said it was. */
interface ReadIdentity {
  readonly identity: WorkbookIdentity;
  /** The id that the pane had given it by then; null where none. */
  readonly ownId: string | null;
}

/** The place changes as a workbook is saved under another name: it stays the same one while the pane is open. */
function isSameWorkbook(host: InteractiveHost, one: WorkbookIdentity, other: WorkbookIdentity, ownId: string | null) {
  if (host.kind === "excel") return true;
  const id = ownId ?? one.id;
  return other.id === id && (id !== null || one.place === other.place);
}

/** The drafts of the workbook at hand; null until it is known which one that is. */
export interface WorkbookAtHand {
  readonly drafts: DraftStore | null;
  /** Another workbook came into view, and it is not yet known which: what the pane shows may be of the one before. */
  readonly isChanging: boolean;
}

/** Opens the drafts of the workbook at hand, once it is known which one that is; another one may come in its place. */
export function useWorkbook(host: InteractiveHost, problems: StandingProblems): WorkbookAtHand {
  const ownId = useRef<string | null>(null);
  const read = useCallback(async (): Promise<ReadIdentity> => {
    for (;;) {
      const own = ownId.current;
      const identity = await host.identity();
      // The workbook was given its id while it was asked who it is: it is asked again, lest it be taken for another one.
      if (own === ownId.current) return { identity, ownId: own };
    }
  }, [host]);
  const { known, reload } = useReading(host, problems, read);
  const [isChanging, setChanging] = useState(false);
  const current = useRef<OpenWorkbook | null>(null);
  const [drafts, setDrafts] = useState<DraftStore | null>(null);

  useEffect(
    () =>
      host.watchWorkbook?.(() => {
        setChanging(true);
        // Where it fails, the problem strip says so when the workbook has come to rest and is read again.
        reload().catch(() => undefined);
      }),
    [host, reload],
  );

  useEffect(() => {
    if (known !== null) setChanging(false);
  }, [known]);

  useEffect(() => {
    if (known === null) return;
    const { identity, ownId: idThen } = known.value;
    if (current.current !== null && isSameWorkbook(host, current.current.identity, identity, idThen)) return;
    current.current?.drafts.close();
    ownId.current = null;
    const opened = draftStore(identity, {
      openStorage: () => window.localStorage,
      newId: () => crypto.randomUUID(),
      nowMs: () => Date.now(),
      keepId: async (id) => {
        ownId.current = id;
        await host.keepIdentity(id);
      },
    });
    current.current = { identity, drafts: opened };
    setDrafts(opened);
  }, [host, known]);
  return { drafts, isChanging };
}
