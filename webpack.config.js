import { resolve } from "node:path";
import { addinAddress } from "./build/src/tools/addin/addin-address.js";
import { addinBundle, OFFICE_JS } from "./build/src/tools/addin/addin-bundle.js";
import { addinDeployment } from "./build/src/tools/addin/deployed-template.js";
import { cliBundle } from "./build/src/tools/cli/cli-bundle.js";
import { pageBundle } from "./build/src/tools/page/page-bundle.js";

const addin = addinBundle({
  address: addinAddress(process.env.VANESHEET_BASE_URL),
  officeJs: process.env.VANESHEET_OFFICE_JS ?? OFFICE_JS,
  outputPath: resolve("dist/addin"),
  deployment: addinDeployment(process.env.VANESHEET_DEPLOYED),
  hasSourceMaps: process.env.VANESHEET_SOURCE_MAPS === "1",
});

const page = pageBundle(resolve("dist/page"));
const cli = cliBundle(resolve("dist/cli"));

/** Built by name with `webpack --config-name page`, or all at once. */
export default [addin, page, cli];
