import type { OutletRow } from "./outlet-row.js";

/** Outlets that are balanced together: of one list, one system and one kind. */
export interface BalanceGroup {
  readonly id: string;
  readonly sheet: string;
  readonly system: string;
  readonly kind: string;
  /** With a design airflow; an outlet without one cannot be balanced against anything. */
  readonly outlets: readonly OutletRow[];
  readonly withoutDesign: readonly OutletRow[];
}

/** Sorts outlets into what is balanced together, in the order in which the lists first name it. */
export function balanceGroups(outlets: readonly OutletRow[]): readonly BalanceGroup[] {
  const groups = new Map<string, OutletRow[]>();
  for (const outlet of outlets) {
    const id = [outlet.sheet, outlet.system.toLowerCase(), outlet.kind].join("\n");
    const group = groups.get(id);
    if (group === undefined) groups.set(id, [outlet]);
    else group.push(outlet);
  }
  return [...groups].flatMap(([id, members]) => {
    const [first] = members;
    if (first === undefined) return [];
    const { sheet, system, kind } = first;
    return {
      id,
      sheet,
      system,
      kind,
      outlets: members.filter(({ design }) => design !== null),
      withoutDesign: members.filter(({ design }) => design === null),
    };
  });
}
