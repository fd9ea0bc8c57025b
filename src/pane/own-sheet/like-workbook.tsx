import { useId, useState } from "preact/hooks";
import {
  type FittedWorkbook,
  fileSource,
  fitWorkbook,
  HostError,
  hostSource,
  mappingsIn,
} from "../../workbook/index.js";
import { openWorkbook, WorkbookFileError } from "../../xlsx/index.js";
import { ActionButton } from "../controls/action-button.js";
import { usePane } from "../shell/pane-context.js";

interface Fitted extends FittedWorkbook {
  readonly from: string;
}

function opened(bytes: Uint8Array, name: string) {
  try {
    return fileSource(openWorkbook(bytes, name));
  } catch (cause) {
    if (cause instanceof WorkbookFileError) throw new HostError(cause.message, { cause });
    throw cause;
  }
}

/** Keeps the columns as another workbook of the same make keeps them. */
export function LikeWorkbook({ onKeep }: { readonly onKeep: (mappings: Fitted["mappings"]) => void }) {
  const { host, run } = usePane();
  const id = useId();
  const [fitted, setFitted] = useState<Fitted | null>(null);

  const choose = (file: File | undefined) =>
    file !== undefined &&
    void run(async () => {
      const master = opened(new Uint8Array(await file.arrayBuffer()), file.name);
      if (mappingsIn(master.names).value.length === 0) {
        throw new HostError(`${file.name} keeps nothing of its columns. Say there first what they hold.`);
      }
      setFitted({ from: file.name, ...fitWorkbook(master, await hostSource(host)) });
      return null;
    });

  return (
    <div class="vs-own-like">
      <div class="vs-field">
        <label for={id}>Same columns as in another workbook</label>
        <input
          id={id}
          class="vs-files"
          type="file"
          accept=".xlsx,.xlsm"
          onChange={(event) => choose(event.currentTarget.files?.[0])}
        />
      </div>
      {fitted !== null && (
        <>
          {fitted.mappings.map(({ sheet, headerRow, columns }) => (
            <p key={`${sheet} ${headerRow} ${columns[0]?.column}`} class="vs-hint">
              “{sheet}”, headings in row {headerRow}: {columns.length} columns as in {fitted.from}.
            </p>
          ))}
          {fitted.unfit.map((why) => (
            <p key={why} class="vs-error">
              Does not fit: {why}.
            </p>
          ))}
          {fitted.mappings.length > 0 && (
            <div class="vs-buttons">
              <ActionButton
                isMain
                onPress={() => {
                  onKeep(fitted.mappings);
                  setFitted(null);
                }}
              >
                Keep these in the workbook
              </ActionButton>
            </div>
          )}
        </>
      )}
    </div>
  );
}
