import { ActionButton } from "../controls/action-button.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";
import { download } from "./download.js";
import { type HandoffCopy, handoffCopy } from "./handoff-copy.js";

/** A copy for people without the functions. */
export function HandoffSection() {
  const { host, run } = usePane();
  const { workbookBytes, openWorkbook } = host;
  const about =
    "A copy with plain formulas in place of the VANE functions: any spreadsheet program calculates it. This workbook stays as it is.";
  if (workbookBytes === undefined) {
    return (
      <Section title="Hand-off copy">
        <p>{about} The button “Hand-off copy” above the sheet makes it.</p>
      </Section>
    );
  }

  const make = (hand: (copy: HandoffCopy) => Promise<string>) =>
    void run(async () => {
      const copy = handoffCopy(await workbookBytes());
      return `${await hand(copy)} ${copy.words}`;
    });

  return (
    <Section title="Hand-off copy">
      <p>{about}</p>
      <div class="vs-buttons">
        {openWorkbook !== undefined && (
          <ActionButton
            isMain
            onPress={() =>
              make(async ({ bytes }) => {
                await openWorkbook(bytes);
                return "The copy is open as a new workbook: save it under a name of its own.";
              })
            }
          >
            Open the copy as a workbook
          </ActionButton>
        )}
        <ActionButton
          onPress={() =>
            make(async ({ bytes, name }) => {
              download(bytes, name);
              return `${name} is handed over as a download.`;
            })
          }
        >
          Download the copy
        </ActionButton>
      </div>
    </Section>
  );
}
