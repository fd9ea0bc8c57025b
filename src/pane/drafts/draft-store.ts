import type { WorkbookIdentity } from "../../workbook/index.js";
import { isFromHere, type KeptDrafts, listKept, readKept, storageKey, writeKept } from "./kept-drafts.js";
import { isSameDraft, mergeDrafts } from "./merge-drafts.js";

/** The drafts of the workbook at hand: what a person typed, so that closing the pane loses nothing. */
export interface DraftStore {
  read(key: string): unknown;
  /** Keeps a draft; undefined is one with nothing in it. */
  write(key: string, draft: unknown): void;
  /** Calls the listener when another window changed a draft, with what it is now; returns how to stop. */
  subscribe(key: string, listener: (draft: unknown) => void): () => void;
  /** Drafts that may be this workbook's: typed where it lies now, or beside a workbook that this is a copy of. */
  offered(): readonly KeptDrafts[];
  /** Drafts of other workbooks, which may be gone. */
  others(): readonly KeptDrafts[];
  /** Takes kept drafts over, except where something is typed here; returns the names of those that stay kept. */
  take(kept: KeptDrafts): readonly string[];
  /** Lets this workbook go without drafts that were offered for it. */
  refuse(kept: KeptDrafts): void;
  discard(kept: KeptDrafts): void;
  /** Hears of other windows no more. */
  close(): void;
  /** Why drafts last only as long as the pane is open; null where they are kept. */
  readonly failure: string | null;
}

/** What a store needs of the world around it. */
export interface DraftSurroundings {
  /** Gives the browser's storage; asking for it may already be refused. */
  readonly openStorage: () => Storage;
  readonly newId: () => string;
  readonly nowMs: () => number;
  /** Gives the workbook its id; it may refuse. */
  readonly keepId: (id: string) => Promise<void>;
}

/**
 * Returns the drafts of a workbook, kept under the workbook's own id.
 *
 * The workbook gets an id with the first draft: merely looking at a workbook leaves no trace in it. Of two windows over
 * one workbook each keeps what it changed, field by field.
 */
export function draftStore(identity: WorkbookIdentity, surroundings: DraftSurroundings): DraftStore {
  const { openStorage, newId, nowMs, keepId } = surroundings;
  let failure: string | null = null;
  let hasId = false;

  function attempt<Result>(work: (storage: Storage) => Result, otherwise: Result): Result {
    try {
      return work(openStorage());
    } catch (cause) {
      failure = cause instanceof Error ? cause.message : String(cause);
      return otherwise;
    }
  }

  const ownKept = identity.id === null ? null : attempt((storage) => readKept(storage, identity.id as string), null);
  const isCopy = ownKept !== null && !isFromHere(ownKept, identity.place);
  // A copy of a workbook carries its id: it gets one of its own, so that the two part ways.
  const id = identity.id === null || isCopy ? newId() : identity.id;
  const isIdKept = identity.id === id;
  const drafts = new Map<string, unknown>(Object.entries(isCopy ? {} : (ownKept?.drafts ?? {})));
  /** What storage last held, by this window's knowledge: the common ground with other windows. */
  let base = new Map(drafts);
  const listeners = new Map<string, Set<(draft: unknown) => void>>();

  const tell = (key: string) => {
    for (const listener of listeners.get(key) ?? []) listener(drafts.get(key));
  };

  /** Takes in what another window kept meanwhile. */
  function merge(theirs: Readonly<Record<string, unknown>>): void {
    for (const key of new Set([...drafts.keys(), ...Object.keys(theirs), ...base.keys()])) {
      const before = drafts.get(key);
      set(key, mergeDrafts(base.get(key), before, theirs[key]));
      if (!isSameDraft(drafts.get(key), before)) tell(key);
    }
  }

  function nameWorkbook(): void {
    if (isIdKept || hasId) return;
    hasId = true;
    // One that cannot take it, as one opened for reading, finds its drafts again by its place.
    keepId(id).catch(() => {
      hasId = false;
    });
  }

  function keep(): void {
    attempt((storage) => {
      merge(readKept(storage, id)?.drafts ?? {});
      writeKept(storage, {
        id,
        place: identity.place,
        atMs: nowMs(),
        isRefused: false,
        drafts: Object.fromEntries(drafts),
      });
      base = new Map(drafts);
    }, undefined);
    nameWorkbook();
  }

  function set(key: string, draft: unknown): void {
    if (draft === undefined) drafts.delete(key);
    else drafts.set(key, draft);
  }

  const heard = (event: StorageEvent) => {
    if (event.key !== storageKey(id)) return;
    const theirs = attempt((storage) => readKept(storage, id), null)?.drafts ?? {};
    merge(theirs);
    base = new Map(Object.entries(theirs));
  };
  globalThis.addEventListener?.("storage", heard);

  const listed = () => attempt(listKept, []).filter((kept) => kept.id !== id);
  const isOffered = (kept: KeptDrafts) =>
    kept.id === identity.id || (!kept.isRefused && identity.place !== "" && kept.place === identity.place);

  return {
    read: (key) => drafts.get(key),
    write(key, draft) {
      if (isSameDraft(drafts.get(key), draft)) return;
      set(key, draft);
      keep();
    },
    subscribe(key, listener) {
      const those = listeners.get(key) ?? new Set();
      listeners.set(key, those.add(listener));
      return () => void those.delete(listener);
    },
    offered: () => listed().filter(isOffered),
    others: () => listed().filter((kept) => !isOffered(kept)),
    take(kept) {
      const left = Object.entries(kept.drafts).filter(([key]) => drafts.has(key));
      for (const [key, draft] of Object.entries(kept.drafts)) if (!drafts.has(key)) set(key, draft);
      keep();
      for (const key of Object.keys(kept.drafts)) tell(key);
      // What a copy takes over stays with the workbook that it was typed beside.
      if (kept.id !== identity.id)
        attempt((storage) => writeKept(storage, { ...kept, drafts: Object.fromEntries(left) }), undefined);
      return left.map(([key]) => key);
    },
    refuse(kept) {
      if (kept.id === identity.id) nameWorkbook();
      else attempt((storage) => writeKept(storage, { ...kept, isRefused: true }), undefined);
    },
    discard: (kept) => attempt((storage) => writeKept(storage, { ...kept, drafts: {} }), undefined),
    close: () => globalThis.removeEventListener?.("storage", heard),
    get failure() {
      return failure;
    },
  };
}
