import type { BalanceGroup } from "../../workbook/index.js";

/** Names each group for a choice: its system and kind, and its sheet where there are several. */
export function groupLabels(
  groups: readonly BalanceGroup[],
): readonly { readonly value: string; readonly label: string }[] {
  const hasSheets = new Set(groups.map(({ sheet }) => sheet)).size > 1;
  return groups.map(({ id, sheet, system, kind, outlets, withoutDesign }) => {
    const count = outlets.length + withoutDesign.length;
    const name = [system, kind].filter((part) => part !== "").join(", ");
    const place = hasSheets ? ` on ${sheet}` : "";
    return {
      value: id,
      label: `${name === "" ? "All outlets" : name}${place} (${count} ${count === 1 ? "outlet" : "outlets"})`,
    };
  });
}
