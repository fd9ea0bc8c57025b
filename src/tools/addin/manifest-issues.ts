import { ADDIN_ID } from "../../workbook/index.js";
import { schemaIssues } from "./manifest-rules.js";
import { pngSize } from "./png-size.js";
import { readElements, type XmlElement } from "./read-elements.js";

interface Shortcuts {
  readonly actions?: readonly { readonly id: string }[];
  readonly shortcuts?: readonly { readonly action: string }[];
}

/** What the manifest is held against. */
export interface ManifestSurroundings {
  /** The version in package.json: `0.1.0`. */
  readonly version: string;
  /** Where the add-in is served; every address in the manifest lies below it. */
  readonly address: string;
  readonly namespace: string;
  /** The commands that the pane takes. */
  readonly commands: readonly string[];
  /** Returns a file by its path below the address, null where there is none. */
  readonly file: (path: string) => Uint8Array | null;
}

/** Microsoft's limit on the length of a resource's id. */
const LONGEST_RESOURCE_ID = 32;

const REQUIREMENT_SETS: Readonly<Record<string, string>> = { SharedRuntime: "1.1", CustomFunctionsRuntime: "1.2" };

const RESOURCES = ["bt:Image", "bt:Url", "bt:String"];

/** Icon sizes that Excel asks for, in pixels: on the ribbon, and in its list of add-ins. */
const RIBBON_SIZES = ["16", "32", "80"];
const LISTED_SIZES: Readonly<Record<string, number>> = { IconUrl: 32, HighResolutionIconUrl: 64 };

function isDefinition({ name, path }: XmlElement): boolean {
  return RESOURCES.includes(name) && path.includes("Resources");
}

function resourceIssues(elements: readonly XmlElement[]): readonly string[] {
  const defined = elements.filter(isDefinition).map(({ attributes }) => attributes["id"] ?? "");
  const used = new Set(elements.flatMap(({ attributes }) => attributes["resid"] ?? []));
  return [
    ...defined.filter((id, index) => defined.indexOf(id) !== index).map((id) => `resource ${id} is defined twice`),
    ...defined.filter((id) => !used.has(id)).map((id) => `resource ${id} is not used`),
    ...[...used].filter((id) => !defined.includes(id)).map((id) => `resource ${id} is not defined`),
    ...defined.filter((id) => id.length > LONGEST_RESOURCE_ID).map((id) => `resource id ${id} is too long`),
  ];
}

function addresses(elements: readonly XmlElement[]): readonly string[] {
  return elements.flatMap(({ attributes }) => {
    const value = attributes["DefaultValue"] ?? attributes["Url"] ?? "";
    return /^[a-z]+:\/\//i.test(value) ? [value] : [];
  });
}

function addressIssues(elements: readonly XmlElement[], { address, file }: ManifestSurroundings): readonly string[] {
  return addresses(elements).flatMap((url) => {
    if (!url.startsWith("https://")) return [`${url} is not https`];
    if (!url.startsWith(`${address}/`)) return [`${url} does not lie below ${address}`];
    return file(url.slice(address.length + 1)) === null ? [`no file is served at ${url}`] : [];
  });
}

function iconIssues(elements: readonly XmlElement[], { address, file }: ManifestSurroundings): readonly string[] {
  const urls = new Map(elements.filter(isDefinition).map(({ attributes }) => [attributes["id"], attributes]));
  const asked = elements.flatMap(({ name, attributes }) => {
    const listed = LISTED_SIZES[name];
    if (listed !== undefined) return [{ url: attributes["DefaultValue"], size: listed }];
    if (name !== "bt:Image" || attributes["size"] === undefined) return [];
    return [{ url: urls.get(attributes["resid"] ?? "")?.["DefaultValue"], size: Number(attributes["size"]) }];
  });
  return asked.flatMap(({ url, size }) => {
    const bytes = url === undefined ? null : file(url.slice(address.length + 1));
    if (bytes === null) return [`an icon of ${size} pixels is missing`];
    const { widthPx, heightPx } = pngSize(bytes);
    return widthPx === size && heightPx === size ? [] : [`${url} is ${widthPx} x ${heightPx}, not ${size} pixels`];
  });
}

function ribbonIssues(elements: readonly XmlElement[]): readonly string[] {
  const icons = elements.filter(({ name }) => name === "Icon").length;
  const count = (size: string) =>
    elements.filter(({ name, attributes }) => name === "bt:Image" && attributes["size"] === size).length;
  const groups = elements.filter(({ name }) => name === "Group");
  return [
    ...RIBBON_SIZES.filter((size) => count(size) !== icons).map(
      (size) => `a button or group lacks its ${size} px icon`,
    ),
    ...(groups.length === 1 ? [] : [`${groups.length} ribbon groups instead of one`]),
    ...(elements.some(({ name, attributes }) => name === "OfficeTab" && attributes["id"] === "TabHome")
      ? []
      : ["the group is not on the Home tab"]),
  ];
}

function identityIssues(elements: readonly XmlElement[], around: ManifestSurroundings): readonly string[] {
  const text = (name: string) => elements.find((element) => element.name === name)?.text;
  const sets = new Map(
    elements
      .filter(({ name }) => name === "Set")
      .map(({ attributes }) => [attributes["Name"] ?? "", attributes["MinVersion"] ?? ""]),
  );
  const namespaceId = elements.find(({ name }) => name === "Namespace")?.attributes["resid"];
  const namespace = elements.find((element) => isDefinition(element) && element.attributes["id"] === namespaceId);
  return [
    ...(text("Id") === ADDIN_ID ? [] : [`the id is ${text("Id")}, not ${ADDIN_ID}`]),
    ...(text("Version") === `${around.version}.0`
      ? []
      : [`the version is ${text("Version")}, not ${around.version}.0`]),
    ...Object.entries(REQUIREMENT_SETS)
      .filter(([name, version]) => sets.get(name) !== version)
      .map(([name, version]) => `requirement set ${name} ${version} is missing`),
    ...(namespace?.attributes["DefaultValue"] === around.namespace ? [] : [`the namespace is not ${around.namespace}`]),
  ];
}

/** Every command that the manifest or a shortcut names must be one that the pane takes. */
function commandIssues(elements: readonly XmlElement[], { commands, file }: ManifestSurroundings): readonly string[] {
  const named = elements.filter(({ name }) => name === "FunctionName").map(({ text }) => text);
  const shortcuts = file("shortcuts.json");
  const given = JSON.parse(shortcuts === null ? "{}" : new TextDecoder().decode(shortcuts)) as Shortcuts;
  const keyed = [...(given.actions ?? []).map(({ id }) => id), ...(given.shortcuts ?? []).map(({ action }) => action)];
  return [...new Set([...named, ...keyed])]
    .filter((name) => !commands.includes(name))
    .map((name) => `nobody takes the command ${name}`);
}

/** Says what Excel would refuse or miss in a manifest, and nothing where it is in order. */
export function manifestIssues(xml: string, around: ManifestSurroundings): readonly string[] {
  let elements: readonly XmlElement[];
  try {
    elements = readElements(xml);
  } catch (cause) {
    return [`not well-formed: ${(cause as Error).message}`];
  }
  return [
    ...schemaIssues(elements),
    ...commandIssues(elements, around),
    ...identityIssues(elements, around),
    ...resourceIssues(elements),
    ...addressIssues(elements, around),
    ...iconIssues(elements, around),
    ...ribbonIssues(elements),
  ];
}
