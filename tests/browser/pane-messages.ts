import type { Page } from "playwright-core";

/** How the pane complains: an alert, a line beside a field, a strip above the tabs. */
const COMPLAINTS = "[role=alert] p, .vs-error, .vs-problem";

interface ListeningWindow {
  complaints: string[];
}

/** Keeps every complaint that appears in a page, however soon it goes away again. Call it before the page loads. */
export async function keepMessages(page: Page): Promise<void> {
  await page.addInitScript((selector) => {
    const heard: string[] = [];
    (window as unknown as ListeningWindow).complaints = heard;
    let before: readonly string[] = [];
    const look = () => {
      const shown = [...document.querySelectorAll(selector)].map((element) => element.textContent?.trim() ?? "");
      heard.push(...shown.filter((text) => text !== "" && !before.includes(text)));
      before = shown;
    };
    new MutationObserver(look).observe(document, { childList: true, characterData: true, subtree: true });
  }, COMPLAINTS);
}

/** Returns what was complained of since the last call, and forgets it. */
export function heardMessages(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => (window as unknown as ListeningWindow).complaints.splice(0));
}
