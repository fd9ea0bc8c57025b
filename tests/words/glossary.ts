/** A word that our users should not meet, as a pattern, what we say instead, and which texts may hold it. */
export interface AvoidedWord {
  readonly avoid: RegExp;
  readonly say: string;
  /** Texts in which the word means something else, or is a name. */
  readonly except?: RegExp;
}

/** One word per thing: what we say of it, and what we do not. A new pair is one line. */
export const AVOIDED_WORDS: readonly AvoidedWord[] = [
  { avoid: /\bterminals?\b/i, say: "outlet" },
  { avoid: /\bfaces?\b/i, say: "opening, grille or register", except: /face sweep|face area|^face points$/i },
  { avoid: /\bmakers?\b/i, say: "manufacturer" },
  { avoid: /\b(?:a|the|its|their|of) mean\b|\bmean (?:velocity|of|on)\b/i, say: "average" },
  { avoid: /\bair volume\b|\bvolume flow\b/i, say: "airflow" },
  { avoid: /\b(?:the|this|a|another|uneven) planes?\b/i, say: "traverse location" },
  { avoid: /\bbehind\b/i, say: "downstream of" },
  { avoid: /\bband\b/i, say: "limits" },
  { avoid: /\bvariance\b|\bcoefficient of variation\b|\bCV\b|\bEn\b|\bz[ -]score/, say: "± (95 %), or spread" },
  { avoid: /\buncertainty\b/, say: "± (95 %)" },
  { avoid: /\bbackwards\b/i, say: "reverse flow" },
  { avoid: /\bthe (?:most|least) (?:that|airflow|exhaust)\b/i, say: "maximum or minimum" },
  { avoid: /\bstands?\b(?! up\b)/i, say: "is, there is", except: /stand the ladder/i },
  { avoid: /\b(?:that|it|this) comes to\b|\bwhat it comes to\b/i, say: "is" },
  { avoid: /(?<!there )\bis no (?!longer\b|more\b)/i, say: "is not a" },
  { avoid: /\bare ip or si\b|^ip or si\b/i, say: "in, fpm, cfm or mm, m/s, L/s" },
  { avoid: /colour|behaviour|litre|metre\b|licence|neighbour|grey\b|centre\b/i, say: "the US spelling" },
  { avoid: /\b(?:one|a) row an? (?!day)/i, say: "one row per" },
  { avoid: /\bis wrongly\b|\btyped wrongly\b/i, say: "wrong usage" },
  { avoid: /\bhangs on\b/i, say: "depends on" },
  { avoid: /\bunverified\b|\bfrom memory\b/i, say: "nothing of how a number was checked: that is for docs/sources.md" },
];

/** The longest sentence in words: a technician reads it once. */
export const LONGEST_SENTENCE = 20;
