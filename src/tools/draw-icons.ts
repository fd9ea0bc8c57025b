/*
 * Draws manifest/icons/icon.svg in the sizes that Excel asks for. Run it after a change of the drawing:
 * node build/src/tools/addin/draw-icons.js
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";

import { launchBrowser } from "./launch-browser.js";

const FOLDER = "manifest/icons";

/** In pixels: the ribbon asks for 16, 32 and 80, the list of add-ins for 32 and 64. */
const SIZES = [16, 32, 64, 80];

const drawing = readFileSync(join(FOLDER, "icon.svg"), "utf8");
const browser = await launchBrowser();
try {
  for (const size of SIZES) {
    const page = await browser.newPage({ viewport: { width: size, height: size } });
    await page.setContent(`<style>body{margin:0}svg{display:block;width:${size}px;height:${size}px}</style>${drawing}`);
    await page.screenshot({ path: join(FOLDER, `icon-${size}.png`), omitBackground: true });
    await page.close();
  }
} finally {
  await browser.close();
}
console.log(`Drew ${SIZES.length} icons in ${FOLDER}.`);
