/** Words for a row of totals, in English, Spanish and German. */
export const TOTAL_WORDS =
  /\b(?:sub[ -]?|grand )?totals?\b|^sums?\b|^averages?\b|^means?\b|^Σ|summe\b|^gesamt|^insgesamt|^sumas?\b|^promedio\b|^mittelwert|^durchschnitt/i;
