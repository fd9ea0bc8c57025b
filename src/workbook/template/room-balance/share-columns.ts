import { headingOf } from "../../lists/index.js";
import { resultColumn } from "../face-results.js";
import { unit } from "../plain-formulas.js";
import { listInput, numberInput } from "../plan-parts.js";
import type { ColumnSpec, InputColumn, RowCell } from "../table-block.js";
import type { ColumnOf } from "./balance-columns.js";

/** How a room's design airflow is split over its supply outlets. */
export const SPLITS = { evenly: "evenly", area: "by area", shares: "by shares" } as const;

const cfm = unit("cfm", "L/s");

/** In the table of rooms: how each room splits its design. */
export const splitColumn: InputColumn = {
  kind: "input",
  key: "split",
  header: "Split",
  unit: "",
  width: 10,
  format: "general",
  style: "inputText",
  rule: listInput(
    "Split",
    "How the design of the room is split over its supply outlets: evenly, by their free area, or by the shares typed beside them. Empty: evenly. A design set at an outlet comes first.",
    Object.values(SPLITS),
  ),
};

/**
 * In the table of outlets: what each gets of its room's design. A design set at an outlet comes first, and the others
 * share the rest; nothing is split while an outlet of the room lacks what the split goes by.
 *
 * @param room - A column of the table of rooms
 * @param own - Spells the whole columns of the table of outlets
 */
export function shareColumns(room: ColumnOf, own: () => ColumnOf): readonly ColumnSpec[] {
  const where = (at: RowCell) => `${own()("room")},${at("room")},${own()("kind")},"supply"`;
  const split = (at: RowCell) => `IFERROR(INDEX(${room("split")},MATCH(${at("room")},${room("room")},0))&"","")`;
  return [
    {
      kind: "input",
      key: "share",
      header: "Share",
      unit: "",
      width: 7,
      format: "general",
      style: "input",
      rule: numberInput(
        "Share",
        "For a room that is split by shares: any number, such as 1, 2 or 40. Only its ratio to the other shares of the room counts.",
        0.001,
        null,
      ),
    },
    {
      kind: "input",
      key: "set",
      header: "Design set",
      unit: cfm,
      width: 8,
      format: "general",
      style: "input",
      rule: numberInput(
        "Design set",
        "The designer's airflow for this outlet. Empty: its part of the room's design. Returns, exhausts and outside air always need it.",
        0.01,
        null,
      ),
    },
    resultColumn("weight", "Share used", "", 8, "twoDecimals", (at) => {
      const byShares = `IF(COUNT(${at("share")})=1,${at("share")},"")`;
      const byArea = `IF(COUNT(${at("free")})=1,${at("free")},"")`;
      const chosen = `IF(${split(at)}="${SPLITS.shares}",${byShares},IF(${split(at)}="${SPLITS.area}",${byArea},1))`;
      return `=IF(OR(${at("kind")}<>"supply",${at("room")}="",COUNT(${at("set")})=1),"",${chosen})`;
    }),
    resultColumn("design", headingOf("design"), cfm, 9, "oneDecimal", (at) => {
      const rest = `(SUMIFS(${room("design")},${room("room")},${at("room")})-SUMIFS(${own()("set")},${where(at)}))`;
      const sharing = `COUNTIFS(${where(at)})-COUNTIFS(${where(at)},${own()("set")},">0")`;
      const known = `COUNTIFS(${where(at)},${own()("weight")},">0")`;
      const part = `${at("weight")}/SUMIFS(${own()("weight")},${where(at)})*${rest}`;
      const open = `OR(COUNT(${at("weight")})=0,${sharing}<>${known},${rest}<=0)`;
      return `=IF(COUNT(${at("set")})=1,${at("set")},IF(${open},"",${part}))`;
    }),
  ];
}
