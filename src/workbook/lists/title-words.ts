import type { TitleUse } from "./column-mapping.js";

/**
 * Words with which a title over or between outlets begins, in small letters and without accents; a number or a letter
 * stands behind. One more word is one word more here; docs/columns.md is tested against it. Common practice, no source.
 */
export const TITLE_WORDS: Readonly<Record<TitleUse, Readonly<Record<"en" | "es" | "de", readonly string[]>>>> = {
  system: {
    en: [
      ...["system", "ahu", "rtu", "ac", "fcu", "mau", "erv", "hrv", "doas", "vav", "ef", "sf", "rf", "unit", "fan"],
      ...["air handler", "furnace", "heat pump", "hp"],
    ],
    es: ["sistema", "equipo", "unidad", "uta", "climatizador"],
    de: ["anlage", "gerat", "geraet", "rlt", "ventilator", "zuluftanlage", "abluftanlage"],
  },
  room: {
    en: ["room", "space", "suite", "apartment", "classroom", "office", "lab"],
    es: ["local", "habitacion", "sala", "aula", "oficina"],
    de: ["raum", "zimmer", "buro", "buero", "wohnung"],
  },
};

const plain = (text: string) =>
  text
    .normalize("NFD")
    .replace(/\p{Mn}/gu, "")
    .toLowerCase();

const PATTERNS: Readonly<Record<TitleUse, RegExp>> = {
  system: patternOf(TITLE_WORDS.system),
  room: patternOf(TITLE_WORDS.room),
};

/** The word alone, or with what tells one from another: AHU-2, Unit B, Anlage: 3. */
function patternOf({ en, es, de }: (typeof TITLE_WORDS)[TitleUse]): RegExp {
  const words = [...en, ...es, ...de].join("|");
  const number = "(?:no\\.?\\s*|nr\\.?\\s*)?(?:\\d|[a-z]\\b|[a-z]+-?\\d)";
  return new RegExp(`^(?:${words})(?:\\s*$|\\d|[\\s:.#/-]+${number})`);
}

/** What a title names by its first word; undefined where that is none that is known. */
export function titleUse(title: string): TitleUse | undefined {
  const text = plain(title.trim());
  return PATTERNS.system.test(text) ? "system" : PATTERNS.room.test(text) ? "room" : undefined;
}

/** The name in a title: of “System: AHU-2, second floor” AHU-2; of a room the whole title. */
export function nameInTitle(title: string, use: TitleUse): string {
  const [, label = "", name = title] = /^([^:]{1,20}):\s*(.+)$/.exec(title.trim()) ?? [];
  const named = label !== "" && PATTERNS[use].test(plain(`${label} 1`)) ? name : title.trim();
  return use === "room" ? named : (named.split(/\s*[,;(|]|\s+[–—-]\s+/)[0] ?? named).trim();
}
