import { useCallback, useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";
import { Startup } from "../check/startup.js";
import { DraftOffer } from "../drafts/draft-offer.js";
import type { DraftStore } from "../drafts/draft-store.js";
import { whenTabIsAsked } from "./asked-tab.js";
import { useFieldMode } from "./field-mode.js";
import { keepTab, keptTab } from "./kept-tab.js";
import { failureMessage, type Message } from "./message.js";
import { MessageRegion } from "./message-region.js";
import { PaneContext, type PaneTools } from "./pane-context.js";
import { ProblemStrip } from "./problem-strip.js";
import { type StandingProblems, withProblem } from "./standing-problems.js";
import { panelId, TabBar, tabId } from "./tab-bar.js";
import { tabsFor } from "./tabs.js";
import { useJob } from "./use-job.js";
import { useKeptFocus } from "./use-kept-focus.js";
import { usePanelStop } from "./use-panel-stop.js";
import { useWaiting } from "./use-waiting.js";
import { useWorkbook } from "./use-workbook.js";

interface PaneProps {
  readonly host: InteractiveHost;
}

/** The whole pane: what holds it up, and the workbook at hand. */
export function Pane({ host }: PaneProps) {
  const [texts, setTexts] = useState<ReadonlyMap<string, string>>(new Map());
  const problems = useMemo(
    (): StandingProblems => ({ report: (what, text) => setTexts((before) => withProblem(before, what, text)) }),
    [],
  );
  const isWaiting = useWaiting(host);
  const { drafts, isChanging } = useWorkbook(host, problems);
  const stores = useRef(new Map<DraftStore, string>());
  if (drafts !== null && !stores.current.has(drafts)) stores.current.set(drafts, String(stores.current.size));
  return (
    <>
      {host.kind === "excel" && <h1 class="vs-hidden">Vanesheet</h1>}
      <ProblemStrip isWaiting={isWaiting} problems={texts} />
      {drafts === null ? (
        <p class="vs-lead">Reading the workbook …</p>
      ) : (
        <div class="vs-workbook" inert={isChanging}>
          <WorkbookPane key={stores.current.get(drafts)} host={host} drafts={drafts} problems={problems} />
        </div>
      )}
    </>
  );
}

interface WorkbookPaneProps extends PaneProps {
  readonly drafts: DraftStore;
  readonly problems: StandingProblems;
}

/** The tabs over one workbook, what they say, and what they share. */
function WorkbookPane({ host, drafts, problems }: WorkbookPaneProps) {
  const [current, setCurrent] = useState(keptTab);
  const [message, setMessage] = useState<Message | null>(null);
  const [isBusy, setBusy] = useState(false);
  const panel = useKeptFocus(isBusy);
  const last = useRef<Promise<void>>(Promise.resolve());
  const job = useJob(host, drafts, problems);
  usePanelStop(panel, job !== null);
  useEffect(() => whenTabIsAsked(setCurrent), []);
  const tabs = tabsFor(useFieldMode());
  const tab = tabs.find(({ id }) => id === current) ?? tabs.find(({ id }) => id === "start");

  useEffect(() => {
    keepTab(current);
    if (drafts.failure !== null) {
      const text = `What you type here lasts only while this pane is open: ${drafts.failure}`;
      setMessage({ kind: "failed", text });
    }
  }, [drafts, current]);

  const run = useCallback((action: () => Promise<string | null>) => {
    const perform = async () => {
      setBusy(true);
      setMessage(null);
      try {
        const text = await action();
        if (text !== null) setMessage({ kind: "done", text });
      } catch (thrown) {
        setMessage(failureMessage(thrown));
      } finally {
        setBusy(false);
      }
    };
    last.current = last.current.then(perform);
    return last.current;
  }, []);

  const tools = useMemo(
    (): PaneTools | null => (job === null ? null : { host, drafts, job, problems, run, isBusy }),
    [host, drafts, job, problems, run, isBusy],
  );
  if (tab === undefined) return null;
  if (tools === null) return <p class="vs-lead">Reading the job …</p>;
  return (
    <PaneContext.Provider value={tools}>
      <Startup />
      <TabBar tabs={tabs} current={tab.id} onChoose={setCurrent} />
      <div
        ref={panel}
        class="vs-panel"
        role="tabpanel"
        id={panelId(tab.id)}
        aria-labelledby={tabId(tab.id)}
        tabIndex={-1}
      >
        <DraftOffer />
        <tab.Panel />
      </div>
      <MessageRegion message={message} onDismiss={() => setMessage(null)} />
    </PaneContext.Provider>
  );
}
