import axe from "axe-core";
import type { Page } from "playwright-core";

/** WCAG 2.2 AA, as far as a program can tell. */
const STANDARD = { type: "tag" as const, values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] };

/** Parts of the page by selector. */
export interface LookedAt {
  readonly include: readonly string[];
  readonly exclude: readonly string[];
}

/** The rules that a page may break by its colours, its width or the size of its text alone. */
export const RULES_OF_LOOKS = ["color-contrast", "link-in-text-block", "scrollable-region-focusable", "target-size"];

/**
 * Returns what a program finds wrong for people who see, hear or move otherwise.
 *
 * @param rules - These alone, where all of them were asked of the same page in other colours
 */
export async function accessViolations(
  page: Page,
  { include, exclude }: LookedAt,
  rules: readonly string[] = [],
): Promise<readonly string[]> {
  if (!(await page.evaluate(() => "axe" in window))) await page.evaluate(axe.source);
  const runOnly = rules.length === 0 ? STANDARD : { type: "rule" as const, values: [...rules] };
  const found = await page.evaluate(
    async ({ runOnly, context }) => {
      const { axe: inPage } = window as unknown as { axe: typeof axe };
      return (await inPage.run(context, { runOnly })).violations;
    },
    { runOnly, context: { include: [...include], exclude: [...exclude] } },
  );
  return found.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id} ${target}: ${failureSummary}`),
  );
}
