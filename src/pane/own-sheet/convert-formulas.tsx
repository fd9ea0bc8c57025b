import { useState } from "preact/hooks";
import {
  type Conversion,
  type Conversions,
  conversionsOf,
  findLists,
  HostError,
  hostSource,
  readList,
} from "../../workbook/index.js";
import { ActionButton } from "../controls/action-button.js";
import { usePane } from "../shell/pane-context.js";

const shown = (value: number | null) => (value === null ? "nothing yet" : String(Number(value.toPrecision(5))));

/** Below this two values differ by rounding alone. */
const SAME_RATIO = 1e-9;

function comparison({ oldValue, newValue, cause }: Conversion): string {
  if (oldValue === null || newValue === null) return "No airflow yet.";
  if (Math.abs(newValue - oldValue) <= SAME_RATIO * Math.abs(newValue)) return `${shown(oldValue)}, and the same then.`;
  return `${shown(oldValue)} now, ${shown(newValue)} then.${cause === null ? "" : ` ${cause.problem}`}`;
}

/** Shows which plain formulas of the sheet in front a function could take the place of, and changes those chosen. */
export function ConvertFormulas() {
  const { host, job, run } = usePane();
  const [found, setFound] = useState<Conversions | null>(null);
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());

  const look = () =>
    void run(async () => {
      const sheet = (await host.selection())?.sheet ?? "";
      const source = await hostSource(
        host,
        (await host.sheets()).filter(({ name }) => name === sheet),
      );
      const outlets = findLists(source).value.flatMap((list) => readList(list, job.details.units).outlets);
      if (outlets.length === 0) {
        throw new HostError(
          `No outlets of “${sheet}” are known. Look at the sheet first, and keep what its columns hold.`,
        );
      }
      const conversions = conversionsOf(outlets, { sheet, rows: null, column: null });
      setFound(conversions);
      setLeft(new Set());
      return conversions.value.length > 0 ? null : `“${sheet}” has no plain airflow formula to change.`;
    });

  const change = (chosen: readonly Conversion[]) =>
    void run(async () => {
      // Formulas that were edited meanwhile are not what was agreed to.
      const blocks = await host.read(chosen.map(({ sheet, address }) => ({ sheet, range: address })));
      const other = chosen.find(({ oldFormula }, index) => blocks[index]?.formulas[0]?.[0] !== oldFormula);
      if (other !== undefined)
        throw new HostError(`${other.sheet}!${other.address} has changed. Nothing was written. Look again.`);
      await host.write(
        chosen.map(({ sheet, address, newFormula }) => ({ address: { sheet, range: address }, cells: [[newFormula]] })),
      );
      setFound(null);
      return chosen.length === 1 ? "1 formula was changed." : `${chosen.length} formulas were changed.`;
    });

  const toggle = (address: string) => {
    const next = new Set(left);
    if (!next.delete(address)) next.add(address);
    setLeft(next);
  };

  const chosen = found?.value.filter(({ address }) => !left.has(address)) ?? [];
  return (
    <>
      <h3>Plain formulas of airflows</h3>
      {found !== null && found.value.length > 0 && (
        <ul class="vs-own-columns">
          {found.value.map((one) => (
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
      {found?.left.map(({ address, outlet, reason }) => (
        <p key={address} class="vs-hint">
          {outlet}, {address}: {reason}
        </p>
      ))}
      <div class="vs-buttons">
        {found !== null && found.value.length > 0 && (
          <ActionButton isMain isIdle={chosen.length === 0} onPress={() => change(chosen)}>
            Change {chosen.length} {chosen.length === 1 ? "formula" : "formulas"}
          </ActionButton>
        )}
        <ActionButton onPress={look}>
          {found === null ? "Show formulas that can be changed" : "Show again"}
        </ActionButton>
      </div>
    </>
  );
}
