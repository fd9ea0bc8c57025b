import { useCallback, useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { InteractiveHost } from "../../workbook/index.js";
import type { DraftStore } from "../drafts/draft-store.js";
import { restoredDraft } from "../drafts/restored-draft.js";
import { failureMessage, type Message } from "./message.js";
import { MessageRegion } from "./message-region.js";
import { PaneContext, type PaneTools } from "./pane-context.js";
import { panelId, TabBar, tabId } from "./tab-bar.js";
import { TABS } from "./tabs.js";
import { useJob } from "./use-job.js";
import { useKeptFocus } from "./use-kept-focus.js";

interface PaneProps {
  readonly host: InteractiveHost;
  readonly drafts: DraftStore;
}

const SHELL_DRAFT = "shell";

/** The whole pane: tabs, what they say, and what they share. */
export function Pane({ host, drafts }: PaneProps) {
  const [current, setCurrent] = useState(() => restoredDraft(drafts.read(SHELL_DRAFT), { tab: "start" }).tab);
  const [message, setMessage] = useState<Message | null>(null);
  const [isBusy, setBusy] = useState(false);
  const panel = useKeptFocus(isBusy);
  const last = useRef<Promise<void>>(Promise.resolve());
  const onFailure = useCallback((cause: unknown) => setMessage(failureMessage(cause)), []);
  const job = useJob(host, drafts, onFailure);
  const tab = TABS.find(({ id }) => id === current) ?? TABS[0];

  useEffect(() => {
    drafts.write(SHELL_DRAFT, { tab: current });
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

  const tools = useMemo((): PaneTools => ({ host, drafts, job, run, isBusy }), [host, drafts, job, run, isBusy]);
  if (tab === undefined) return null;
  return (
    <PaneContext.Provider value={tools}>
      <TabBar tabs={TABS} current={tab.id} onChoose={setCurrent} />
      <div
        ref={panel}
        class="vs-panel"
        role="tabpanel"
        id={panelId(tab.id)}
        aria-labelledby={tabId(tab.id)}
        tabIndex={-1}
      >
        <tab.Panel />
      </div>
      <MessageRegion message={message} onDismiss={() => setMessage(null)} />
    </PaneContext.Provider>
  );
}
