import { type BlockAddress, HostError, type RowEdit } from "../../workbook/index.js";
import { parseRange } from "../../xlsx/address.js";
import { ActionButton } from "../controls/action-button.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";

/** So many rows are added at once: a page of outlets is filled before one comes back for more. */
const AT_ONCE = 10;

/** The row that the person selected, or the first of several. */
function rowOf(selected: BlockAddress | null): { readonly sheet: string; readonly row: number } {
  const range = selected === null ? undefined : parseRange(selected.range.replaceAll("$", ""));
  if (selected === null || range === undefined) throw new HostError("Select a cell of the list first.");
  return { sheet: selected.sheet, row: range.firstRow };
}

/** Rows for more outlets, with the formulas, looks and rules of the list. */
export function MoreRows() {
  const { host, run } = usePane();
  const { addRows } = host;
  if (addRows === undefined) return null;

  const add = (
    edit: (place: { readonly sheet: string; readonly row: number }) => RowEdit,
    done: (row: number) => string,
  ) =>
    void run(async () => {
      const place = rowOf(await host.selection());
      const notices = await addRows(edit(place));
      return notices === null ? null : [`${done(place.row)} of “${place.sheet}”.`, ...notices].join(" ");
    });

  return (
    <Section title="More outlets">
      <p class="vs-hint">
        Select a row of the list first. New rows get its formulas, looks and rules; totals take them in.
      </p>
      <div class="vs-buttons">
        <ActionButton
          onPress={() =>
            add(
              (place) => ({ kind: "insertRows", ...place, count: 1 }),
              (row) => `Row ${row} is new on the list`,
            )
          }
        >
          Insert an outlet here
        </ActionButton>
        <ActionButton
          onPress={() =>
            add(
              (place) => ({ kind: "growTable", ...place, count: AT_ONCE }),
              () => `${AT_ONCE} rows are new at the end of the list`,
            )
          }
        >
          Add {AT_ONCE} outlets
        </ActionButton>
      </div>
    </Section>
  );
}
