import { useState } from "preact/hooks";
import {
  type BlockEdit,
  type Conversion,
  type Conversions,
  conversionsOf,
  findLists,
  HostError,
  hostSource,
  listAt,
  plainAgain,
  readList,
  rowCell,
  shownText,
} from "../../workbook/index.js";
import { columnLetters, columnNumber, formatAddress, parseRange } from "../../xlsx/address.js";
import { ActionButton } from "../controls/action-button.js";
import { preciseFigure } from "../controls/shown-figure.js";
import { TextField } from "../controls/text-field.js";
import { usePane } from "../shell/pane-context.js";

const shown = (value: number | null) => (value === null ? "nothing yet" : preciseFigure(value, 5));

/** Below this two values differ by rounding alone. */
const SAME_RATIO = 1e-9;

const counted = (count: number) => (count === 1 ? "1 formula" : `${count} formulas`);

function comparison({ oldValue, newValue, cause }: Conversion): string {
  if (oldValue === null || newValue === null) return "No airflow yet.";
  if (Math.abs(newValue - oldValue) <= SAME_RATIO * Math.abs(newValue))
    return `${shown(oldValue)} now, and the same after the change.`;
  return `${shown(oldValue)} now, ${shown(newValue)} after the change.${cause === null ? "" : ` ${cause.problem}`}`;
}

/** What stays, the cells with one reason together. */
function byReason(left: Conversions["left"]): ReadonlyMap<string, readonly string[]> {
  const reasons = new Map<string, string[]>();
  for (const { outlet, address, reason } of left) {
    reasons.set(reason, [...(reasons.get(reason) ?? []), `${outlet}, ${address}`]);
  }
  return reasons;
}

/** What can be changed: into functions, or back into plain formulas. */
interface Found {
  readonly into: "functions" | "plain";
  readonly conversions: Conversions;
}

/** A change that can be taken back: what was written, and what was there. */
type Done = readonly Pick<Conversion, "sheet" | "address" | "oldFormula" | "newFormula">[];

const edit = ({ sheet, address }: Pick<Conversion, "sheet" | "address">, formula: string): BlockEdit => ({
  address: { sheet, range: address },
  cells: [[formula]],
});

/** The letters of a typed column; null for none, undefined for what is no column. */
function typedColumn(text: string): string | null | undefined {
  const letters = text.trim().toUpperCase();
  if (letters === "") return null;
  return /^[A-Z]{1,3}$/.test(letters) && columnNumber(letters) <= 16_384 ? letters : undefined;
}

/** Shows which formulas of the sheet in front can be changed, and changes those that are chosen. */
export function ConvertFormulas() {
  const { host, job, run } = usePane();
  const [found, setFound] = useState<Found | null>(null);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [typed, setTyped] = useState("");
  const [done, setDone] = useState<Done>([]);
  const beside = typedColumn(typed);

  const show = (into: Found["into"], conversions: Conversions) => {
    setFound({ into, conversions });
    setLeft(new Set());
    setDone([]);
  };

  async function sheetInFront() {
    const selection = await host.selection();
    const sheet = selection?.sheet ?? "";
    const infos = (await host.sheets()).filter(({ name }) => name === sheet);
    const source = await hostSource(host, infos);
    return { sheet, selected: parseRange(selection?.range ?? ""), source };
  }

  const look = () =>
    void run(async () => {
      const { sheet, source } = await sheetInFront();
      const outlets = findLists(source).value.flatMap((list) => readList(list, job.details.units).outlets);
      if (outlets.length === 0) {
        throw new HostError(
          `No outlets of “${sheet}” are known. Look at the sheet first, and keep what its columns hold.`,
        );
      }
      const conversions = conversionsOf(outlets, { sheet, rows: null, column: null });
      show("functions", conversions);
      return conversions.value.length > 0 ? null : `“${sheet}” has no plain airflow formula to change.`;
    });

  const lookBack = () =>
    void run(async () => {
      const { sheet, selected, source } = await sheetInFront();
      const [only] = source.sheets;
      if (only === undefined || selected === undefined) throw new HostError("Select a cell of the column first.");
      const column = selected.firstColumn;
      const lists = findLists(source).value;
      const nameOf = (row: number) => {
        const list = listAt(lists, { row, column });
        const tag = list === undefined ? "" : shownText(rowCell(list, row, "outlet"));
        return tag === "" ? `row ${row}` : tag;
      };
      const conversions = plainAgain(only, columnLetters(column), nameOf);
      show("plain", conversions);
      const isNone = conversions.value.length + conversions.left.length === 0;
      return isNone ? `Column ${columnLetters(column)} of “${sheet}” has no VANE formula.` : null;
    });

  /** Formulas that were edited meanwhile are not what was agreed to. */
  async function requireUnchanged(cells: Done, which: "oldFormula" | "newFormula"): Promise<void> {
    const blocks = await host.read(cells.map(({ sheet, address }) => ({ sheet, range: address })));
    const other = cells.find((one, index) => blocks[index]?.formulas[0]?.[0] !== one[which]);
    if (other !== undefined)
      throw new HostError(`${other.sheet}!${other.address} has changed. Nothing was written. Look again.`);
  }

  async function requireEmpty(cells: readonly BlockEdit[]): Promise<void> {
    const blocks = await host.read(cells.map(({ address }) => address));
    const used = cells.find((_, index) => {
      const block = blocks[index];
      return block?.formulas[0]?.[0] != null || block?.values[0]?.[0] != null;
    });
    if (used !== undefined)
      throw new HostError(`${used.address.sheet}!${used.address.range} is in use. Name a column that is empty there.`);
  }

  const change = (chosen: readonly Conversion[]) =>
    void run(async () => {
      await requireUnchanged(chosen, "oldFormula");
      const column = found?.into === "functions" ? beside : null;
      const edits = chosen.map((one) => {
        const address = column == null ? one.address : formatAddress(one.row, columnNumber(column));
        return edit({ sheet: one.sheet, address }, one.newFormula);
      });
      if (column != null) await requireEmpty(edits);
      await host.write(edits);
      setFound(null);
      if (column != null)
        return `${counted(chosen.length)} written into column ${column}. The old ones are as they were.`;
      // As the host spells them now.
      const blocks = await host.read(edits.map(({ address }) => address));
      setDone(chosen.map((one, index) => ({ ...one, newFormula: blocks[index]?.formulas[0]?.[0] ?? one.newFormula })));
      return chosen.length === 1 ? "1 formula was changed." : `${chosen.length} formulas were changed.`;
    });

  const takeBack = () =>
    void run(async () => {
      await requireUnchanged(done, "newFormula");
      await host.write(done.map((one) => edit(one, one.oldFormula)));
      setDone([]);
      return `${counted(done.length)} as before.`;
    });

  const toggle = (address: string) => {
    const next = new Set(left);
    if (!next.delete(address)) next.add(address);
    setLeft(next);
  };

  const listed = found?.conversions.value ?? [];
  const chosen = listed.filter(({ address }) => !left.has(address));
  return (
    <>
      <h3>Plain formulas and VANE formulas</h3>
      {listed.length > 0 && (
        <ul class="vs-own-columns">
          {listed.map((one) => (
            <li key={one.address} class="vs-own-column">
              <label>
                <input type="checkbox" checked={!left.has(one.address)} onChange={() => toggle(one.address)} />{" "}
                <strong>{one.outlet}</strong>, {one.address}
              </label>
              <p class="vs-hint">
                <code>{one.oldFormula}</code>
                <br />
                <code>{one.newFormula}</code>
              </p>
              <p class={one.cause === null ? "vs-hint" : "vs-error"}>{comparison(one)}</p>
            </li>
          ))}
        </ul>
      )}
      {[...byReason(found?.conversions.left ?? [])].map(([reason, cells]) => (
        <p key={reason} class="vs-hint">
          {cells.join("; ")}: {reason}
        </p>
      ))}
      {listed.length > 0 && found?.into === "functions" && (
        <TextField
          label="Write into column"
          isShort
          hint="Empty: in place of the old formulas."
          value={typed}
          error={beside === undefined ? "Type the letters of a column, such as P." : null}
          onInput={setTyped}
        />
      )}
      <div class="vs-buttons">
        {listed.length > 0 && (
          <ActionButton isMain isIdle={chosen.length === 0 || beside === undefined} onPress={() => change(chosen)}>
            {found?.into === "functions" && beside != null ? "Write" : "Change"} {counted(chosen.length)}
          </ActionButton>
        )}
        {done.length > 0 && <ActionButton onPress={takeBack}>Take it back</ActionButton>}
        <ActionButton onPress={look}>
          {found === null ? "Show formulas that can be changed" : "Show again"}
        </ActionButton>
        <ActionButton onPress={lookBack}>VANE formulas of this column to plain ones</ActionButton>
      </div>
    </>
  );
}
