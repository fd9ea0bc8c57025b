import type { XmlElement } from "./read-elements.js";

/*
 * The rules of Microsoft's published schema for the parts of it that our manifest uses, held offline: which elements
 * follow one another, what an attribute or a text may be, and how long. Excel refuses a manifest that breaks one, and
 * mostly without a word.
 */

/**
 * What stands inside each element, in order; "?" need not be there, "+" comes once or more. Of elements with a type the
 * name is `Control:Button`.
 *
 * @source Microsoft, Office Add-ins manifest reference (learn.microsoft.com/javascript/api/manifest), pages of each
 * element; MS-OWEMXML, taskpaneappversionoverrides (order from memory where the page gives none)
 */
const CHILDREN: Readonly<Record<string, string>> = {
  OfficeApp:
    "Id AlternateId? Version ProviderName DefaultLocale DisplayName Description IconUrl? HighResolutionIconUrl? SupportUrl? AppDomains? Hosts Requirements? DefaultSettings Permissions VersionOverrides? ExtendedOverrides?",
  DefaultSettings: "SourceLocation",
  Requirements: "Sets",
  Sets: "Set+",
  VersionOverrides: "Description? Requirements? Hosts Resources",
  Runtimes: "Runtime+",
  AllFormFactors: "ExtensionPoint+",
  DesktopFormFactor: "GetStarted? FunctionFile ExtensionPoint+",
  GetStarted: "Title Description LearnMoreUrl",
  "ExtensionPoint:CustomFunctions": "Script Page Metadata Namespace",
  "ExtensionPoint:PrimaryCommandSurface": "OfficeTab+",
  "ExtensionPoint:ContextMenu": "OfficeMenu+",
  OfficeTab: "Group+",
  Group: "Label Icon Control+",
  OfficeMenu: "Control+",
  "Control:Button": "Label ToolTip? Supertip Icon Action Enabled?",
  "Control:Menu": "Label ToolTip? Supertip Icon Items",
  Items: "Item+",
  Item: "Label ToolTip? Supertip Icon Action Enabled?",
  Supertip: "Title Description",
  Icon: "bt:Image+",
  "Action:ShowTaskpane": "TaskpaneId? SourceLocation Title?",
  "Action:ExecuteFunction": "FunctionName",
  Resources: "bt:Images? bt:Urls? bt:ShortStrings? bt:LongStrings?",
  "bt:Images": "bt:Image+",
  "bt:Urls": "bt:Url+",
  "bt:ShortStrings": "bt:String+",
  "bt:LongStrings": "bt:String+",
};

/** What the text of an element may be. */
const TEXTS: Readonly<Record<string, RegExp>> = {
  Id: /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/,
  Version: /^\d{1,5}(\.\d{1,5}){3}$/,
  ProviderName: /^.{1,125}$/,
  DefaultLocale: /^[a-z]{2,3}(-[A-Za-z\d]{2,4})*$/,
  Permissions: /^(Restricted|ReadDocument|ReadAllDocument|WriteDocument|ReadWriteDocument)$/,
  TaskpaneId: /^.{1,125}$/,
  FunctionName: /^[A-Za-z_]\w{0,124}$/,
};

/** How long the value of an element may be. */
const LONGEST_VALUE: Readonly<Record<string, number>> = {
  DisplayName: 125,
  Description: 250,
  "bt:Url": 2048,
};

const LONGEST_ID = 125;
const LONGEST_SHORT_STRING = 125;
const LONGEST_LONG_STRING = 250;

/** Elements with an id that no other of them may have. */
const WITH_ID = ["Group", "Control", "Item"];

/** The name by which an element's rule is found. */
function ruleName({ name, attributes }: XmlElement): string {
  const type = attributes["xsi:type"];
  const typed = `${name}:${type ?? ""}`;
  return typed in CHILDREN ? typed : name;
}

function orderPattern(rule: string): RegExp {
  const parts = rule.split(" ").map((part) => {
    const [, name = "", times = ""] = /^(.*?)([?+]?)$/.exec(part) ?? [];
    return `(?:${name} )${times}`;
  });
  return new RegExp(`^${parts.join("")}$`);
}

function childIssues(elements: readonly XmlElement[]): readonly string[] {
  return elements.flatMap((element) => {
    const name = ruleName(element);
    const isHostOfBase = element.name === "Hosts" || element.name === "Host" || element.name === "Page";
    const rule = CHILDREN[name];
    if (rule === undefined || isHostOfBase) return [];
    const children = element.children.map((child) => `${child} `).join("");
    return orderPattern(rule).test(children) ? [] : [`${name} holds ${element.children.join(", ")}, not ${rule}`];
  });
}

function textIssues(elements: readonly XmlElement[]): readonly string[] {
  return elements.flatMap(({ name, text, attributes }) => {
    const pattern = TEXTS[name];
    const longest = LONGEST_VALUE[name];
    const value = attributes["DefaultValue"];
    return [
      ...(pattern !== undefined && !pattern.test(text) ? [`${name} is “${text}”`] : []),
      ...(longest !== undefined && (value?.length ?? 0) > longest ? [`${name} is longer than ${longest}`] : []),
      ...(value === "" ? [`${name} has an empty value`] : []),
    ];
  });
}

function stringIssues(elements: readonly XmlElement[]): readonly string[] {
  return elements.flatMap(({ name, attributes, path }) => {
    if (name !== "bt:String") return [];
    const longest = path.includes("bt:ShortStrings") ? LONGEST_SHORT_STRING : LONGEST_LONG_STRING;
    return (attributes["DefaultValue"]?.length ?? 0) > longest
      ? [`string ${attributes["id"]} is longer than ${longest}`]
      : [];
  });
}

function idIssues(elements: readonly XmlElement[]): readonly string[] {
  const ids = elements.filter(({ name }) => WITH_ID.includes(name)).map(({ attributes }) => attributes["id"] ?? "");
  return [
    ...ids.filter((id, index) => ids.indexOf(id) !== index).map((id) => `the id ${id} comes twice`),
    ...ids.filter((id) => id === "" || id.length > LONGEST_ID).map((id) => `“${id}” is no id`),
  ];
}

/** Says where a manifest breaks a rule of the schema. */
export function schemaIssues(elements: readonly XmlElement[]): readonly string[] {
  return [...childIssues(elements), ...textIssues(elements), ...stringIssues(elements), ...idIssues(elements)];
}
