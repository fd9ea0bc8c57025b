import { useState } from "preact/hooks";
import {
  type Answer,
  agreementOf,
  type ColumnMapping,
  findLists,
  HostError,
  hostSource,
  mappingNames,
  mappingOf,
  mappingsIn,
  mergedMappings,
  type ProposedList,
  proposeColumns,
  type WorkbookSource,
  withAnswers,
} from "../../workbook/index.js";
import { ActionButton } from "../controls/action-button.js";
import { Section } from "../controls/section.js";
import { usePane } from "../shell/pane-context.js";
import { ConvertFormulas } from "./convert-formulas.js";
import { LikeWorkbook } from "./like-workbook.js";
import { OwnList } from "./own-list.js";
import "./own-sheet.css";

/** What stands on the sheet in front. */
interface Looked {
  readonly sheet: string;
  readonly source: WorkbookSource;
  readonly lists: readonly ProposedList[];
}

function isOpen({ columns, missing }: ProposedList): boolean {
  return missing.length > 0 || columns.some(({ question }) => question !== "");
}

/** Takes over a sheet that somebody made: what its columns hold is proposed, chosen, and kept in the workbook. */
export function OwnSheet() {
  const { host, run } = usePane();
  const [looked, setLooked] = useState<Looked | null>(null);
  const [keptCount, setKeptCount] = useState(0);

  const look = () =>
    void run(async () => {
      const selection = await host.selection();
      const sheet = selection?.sheet ?? "";
      const sheets = (await host.sheets()).filter(({ name }) => name === sheet);
      const source = await hostSource(host, sheets);
      const known = findLists({ sheets: source.sheets, names: [] }).value;
      if (known.length > 0) {
        setLooked(null);
        return `The outlets of “${sheet}” are read already, by their headings.`;
      }
      const lists = proposeColumns(source, { sheet, headerRow: null });
      setLooked({ sheet, source, lists });
      if (lists.length > 0) return null;
      throw new HostError(
        `Nothing on “${sheet}” looks like a list of outlets. Select a cell of the sheet that has one.`,
      );
    });

  const answer = (list: ProposedList, said: Answer) =>
    setLooked(
      looked && { ...looked, lists: looked.lists.map((one) => (one === list ? withAnswers(one, [said]) : one)) },
    );

  const keep = (mappings: readonly ColumnMapping[]) =>
    void run(async () => {
      const before = mappingsIn((await hostSource(host, [])).names).value;
      const names = mappingNames(mergedMappings(before, mappings));
      await host.keepColumns(names.map(({ name, refersTo }) => ({ name, refersTo, sheet: undefined })));
      setLooked(null);
      setKeptCount(keptCount + 1);
      return "The workbook keeps it. Balance, Measure and Check read this sheet now.";
    });

  const openCount = looked?.lists.filter(isOpen).length ?? 0;
  return (
    <Section title="Your own sheet">
      <p class="vs-lead">
        Say what the columns of your own sheet hold; then it is read as a list of outlets. Its cells stay as they are.
      </p>
      {looked?.lists.map((list) => (
        <OwnList
          key={`${list.sheet} ${list.headerRow} ${list.firstColumn}`}
          list={list}
          agreement={agreementOf(looked.source, list)}
          onAnswer={(said) => answer(list, said)}
        />
      ))}
      <div class="vs-buttons">
        {looked !== null && looked.lists.length > 0 && (
          <ActionButton isMain isIdle={openCount > 0} onPress={() => keep(looked.lists.map(mappingOf))}>
            Keep in the workbook
          </ActionButton>
        )}
        <ActionButton isMain={looked === null} onPress={look}>
          {looked === null ? "Look at this sheet" : "Look again"}
        </ActionButton>
      </div>
      {openCount > 0 && <p class="vs-hint">Answer what is marked, then keep it.</p>}
      <LikeWorkbook onKeep={keep} />
      <ConvertFormulas key={keptCount} />
    </Section>
  );
}
