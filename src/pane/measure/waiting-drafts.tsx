import { usePane } from "../shell/pane-context.js";
import type { WaitingDraft } from "./row-drafts.js";

interface WaitingDraftsProps {
  readonly waiting: readonly WaitingDraft[];
  readonly onUse: (id: string | null) => void;
}

/** Names the readings of other rows that are in no cell yet: a way back to their row, and one to bring them here. */
export function WaitingDrafts({ waiting, onUse }: WaitingDraftsProps) {
  const { host, run } = usePane();
  if (waiting.length === 0) return null;
  const goTo = (cell: WaitingDraft["cell"]) =>
    void run(async () => {
      if (cell !== null) await host.select(cell);
      return null;
    });
  return (
    <section class="vs-ask" aria-label="Readings not yet in the sheet">
      {waiting.map(({ id, cell, words }) => (
        <div key={id ?? ""}>
          <p>{words}</p>
          <div class="vs-buttons">
            {cell !== null && (
              <button type="button" class="vs-button" onClick={() => goTo(cell)}>
                Go to its row
              </button>
            )}
            <button type="button" class="vs-button" onClick={() => onUse(id)}>
              Use here
            </button>
          </div>
        </div>
      ))}
    </section>
  );
}
