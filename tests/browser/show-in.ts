import type { Page } from "playwright-core";

/** What a person's settings may be. */
export type Media = NonNullable<Parameters<Page["emulateMedia"]>[0]>;

/** Enough for the page to hear that its media changed, and to be drawn. */
const FRAMES = 3;

/** Shows the page as a person's settings ask, and waits until it is drawn so: the page hears of it later than the test. */
export async function showIn(page: Page, media: Media): Promise<void> {
  await page.emulateMedia(media);
  await page.evaluate((frames) => {
    Object.assign(window, { framesToCome: frames });
  }, FRAMES);
  await page.waitForFunction(() => {
    const waiting = window as unknown as { framesToCome: number };
    waiting.framesToCome -= 1;
    return waiting.framesToCome < 0;
  });
}
