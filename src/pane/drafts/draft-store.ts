/** Where drafts of what a person types are kept, so that closing the pane loses nothing. */
export interface DraftStore {
  read(key: string): unknown;
  write(key: string, draft: unknown): void;
  /** Why drafts last only as long as the pane is open; null where they are kept. */
  readonly failure: string | null;
}

const PREFIX = "vanesheet.draft.";

function parsed(text: string | null): unknown {
  if (text === null) return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined; // A draft that cannot be read is no draft.
  }
}

/**
 * Returns a store over the browser's storage. Where that refuses, drafts last as long as the pane is open.
 *
 * @param openStorage - Gives the storage; asking for it may already be refused
 */
export function draftStore(openStorage: () => Storage): DraftStore {
  const drafts = new Map<string, unknown>();
  let failure: string | null = null;

  function attempt<Result>(work: (storage: Storage) => Result): Result | undefined {
    try {
      return work(openStorage());
    } catch (cause) {
      failure = cause instanceof Error ? cause.message : String(cause);
      return undefined;
    }
  }

  return {
    read(key) {
      return drafts.has(key) ? drafts.get(key) : parsed(attempt((storage) => storage.getItem(PREFIX + key)) ?? null);
    },
    write(key, draft) {
      drafts.set(key, draft);
      attempt((storage) => storage.setItem(PREFIX + key, JSON.stringify(draft)));
    },
    get failure() {
      return failure;
    },
  };
}
