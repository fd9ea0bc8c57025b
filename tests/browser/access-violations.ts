import axe from "axe-core";
import type { Page } from "playwright-core";

/** WCAG 2.2 AA, as far as a program can tell. */
const STANDARD = { type: "tag" as const, values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] };

/** Parts of the page by selector. */
export interface LookedAt {
  readonly include: readonly string[];
  readonly exclude: readonly string[];
}

/** Returns what a program finds wrong for people who see, hear or move otherwise. */
export async function accessViolations(page: Page, { include, exclude }: LookedAt): Promise<readonly string[]> {
  await page.evaluate(axe.source);
  const found = await page.evaluate(
    async ({ runOnly, context }) => {
      const { axe: inPage } = window as unknown as { axe: typeof axe };
      return (await inPage.run(context, { runOnly })).violations;
    },
    { runOnly: STANDARD, context: { include: [...include], exclude: [...exclude] } },
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id} ${target}: ${failureSummary}`),
  );
}
