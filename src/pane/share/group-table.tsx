import type { UnitSystemName } from "../../core/index.js";
import { litersPerSecondFromCfm } from "../../core/index.js";
import { airflowUnit } from "../../workbook/index.js";
import type { GroupResult } from "../../workbook/rollup/index.js";
import { fixedFigure } from "../controls/shown-figure.js";

interface NamedGroup {
  readonly name: string;
  readonly group: GroupResult;
}

interface GroupTableProps {
  readonly title: string;
  /** What the first column names. */
  readonly named: string;
  readonly groups: readonly NamedGroup[];
  readonly units: UnitSystemName;
}

function percent(value: number | null): string {
  return value === null ? "–" : `${fixedFigure(value, 0)} %`;
}

/** What groups of outlets come to, one row each. */
export function GroupTable({ title, named, groups, units }: GroupTableProps) {
  const flow = (cfm: number) => fixedFigure(units === "si" ? litersPerSecondFromCfm(cfm) : cfm, 0);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls sideways must be reached by the keyboard
    <section class="vs-scroll" aria-label={title} tabIndex={0}>
      <table class="vs-table">
        <caption>{title}</caption>
        <thead>
          <tr>
            <th scope="col">{named}</th>
            <th scope="col">Measured of design, {airflowUnit(units)}</th>
            <th scope="col">Percent</th>
            <th scope="col">Within limits</th>
          </tr>
        </thead>
        <tbody>
          {groups.map(({ name, group }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{group.compared === 0 ? "–" : `${flow(group.measuredCfm)} of ${flow(group.designCfm)}`}</td>
              <td>{percent(group.percent)}</td>
              <td>{percent(group.withinPercent)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
