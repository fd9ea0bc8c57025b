import { useState } from "preact/hooks";
import { ActionButton } from "../controls/action-button.js";
import { usePane } from "../shell/pane-context.js";
import { keptWords, takenWords } from "./draft-words.js";
import type { KeptDrafts } from "./kept-drafts.js";

/** Offers what was typed beside this workbook, or beside one that it is a copy of, where it is not sure to be its own. */
export function DraftOffer() {
  const { drafts, run } = usePane();
  const [offers, setOffers] = useState(() => drafts.offered());
  const [offer] = offers;
  if (offer === undefined) return null;

  const next = () => setOffers((before) => before.filter(({ id }) => id !== offer.id));
  const use = () =>
    void run(async () => {
      const left = drafts.take(offer);
      next();
      return takenWords(offer, left);
    });
  const leave = () => {
    drafts.refuse(offer);
    next();
  };

  return (
    <section class="vs-ask" aria-label="Entries kept from before">
      <p>{keptWords(offer)} These entries are in no cell yet.</p>
      <div class="vs-buttons">
        <ActionButton isMain onPress={use}>
          Use them here
        </ActionButton>
        <button type="button" class="vs-button" onClick={leave}>
          Not here
        </button>
      </div>
    </section>
  );
}

/** Lists what was typed beside other workbooks, some of which may be gone. */
export function OtherDrafts() {
  const { drafts, run } = usePane();
  const [others, setOthers] = useState(() => drafts.others());
  if (others.length === 0) return null;
  const again = () => setOthers(drafts.others());

  const use = (kept: KeptDrafts) =>
    void run(async () => {
      const left = drafts.take(kept);
      again();
      return takenWords(kept, left);
    });
  const discard = (kept: KeptDrafts) => {
    drafts.discard(kept);
    again();
  };

  return (
    <details class="vs-section vs-others">
      <summary>Entries kept from other workbooks ({others.length})</summary>
      <p class="vs-hint">Open the workbook to go on there. Use them here only where the workbook is gone.</p>
      <ul>
        {others.map((kept) => (
          <li key={kept.id}>
            <p>{keptWords(kept)}</p>
            <div class="vs-buttons">
              <ActionButton onPress={() => use(kept)}>Use them here</ActionButton>
              <button type="button" class="vs-button" onClick={() => discard(kept)}>
                Delete them
              </button>
            </div>
          </li>
        ))}
      </ul>
    </details>
  );
}
