/** What a heading of somebody's own sheet may say of its column. */
export type HeadingMeaning =
  | "outlet"
  | "system"
  | "branch"
  | "room"
  | "kind"
  | "make"
  | "width"
  | "length"
  | "height"
  | "size"
  | "diameter"
  | "area"
  | "freeArea"
  | "effectiveArea"
  | "factor"
  | "airflow"
  | "reading"
  | "average"
  | "sweep"
  | "seconds"
  | "percent"
  | "verdict"
  | "note"
  | "date"
  | "technician";

/** A state that a heading names beside what its column holds. */
export type HeadingState = "design" | "found" | "left" | "now";

/** Words of a heading, in the languages that are read. */
export interface HeadingWords {
  readonly en: readonly string[];
  readonly es: readonly string[];
  readonly de: readonly string[];
}

/**
 * The words that are read in the headings of somebody's own sheets, in small letters and without accents, signs and
 * units. One more word is one word more here; docs/columns.md is tested against it. Common practice, no source.
 */
export const HEADING_WORDS: Readonly<Record<HeadingMeaning, HeadingWords>> = {
  outlet: {
    en: [
      ...["outlet", "tag", "grille", "register", "diffuser", "terminal", "outlet no", "outlet number", "outlet tag"],
      ...["grille no", "mark", "id", "no", "number", "item", "device", "air device", "grd"],
    ],
    es: ["rejilla", "difusor", "boca", "etiqueta", "salida", "n"],
    de: ["auslass", "luftauslass", "gitter", "nr", "pos", "position", "kennzeichen"],
  },
  system: {
    en: ["system", "ahu", "unit", "fan", "air handler", "served by", "rtu"],
    es: ["sistema", "equipo", "unidad"],
    de: ["anlage", "gerat", "ventilator"],
  },
  branch: { en: ["branch", "run"], es: ["ramal"], de: ["strang", "abzweig"] },
  room: {
    en: ["room", "room name", "room no", "room number", "space", "location", "area served"],
    es: ["local", "habitacion", "recinto", "sala", "zona", "ubicacion"],
    de: ["raum", "raumname", "raum nr", "bereich"],
  },
  kind: {
    en: ["kind", "air", "air type", "service", "supply return"],
    es: ["servicio", "aire"],
    de: ["luftart", "art"],
  },
  make: {
    en: ["make", "manufacturer", "model", "make and type", "type", "grille type", "style"],
    es: ["marca", "modelo", "tipo", "fabricante"],
    de: ["fabrikat", "hersteller", "typ", "modell"],
  },
  width: { en: ["width", "w", "wide"], es: ["ancho", "anchura", "base"], de: ["breite", "b"] },
  // Beside a width the length is the width, and the width the height.
  length: { en: ["length", "l"], es: ["largo", "longitud"], de: ["lange", "laenge"] },
  height: { en: ["height", "h", "high"], es: ["alto", "altura"], de: ["hohe", "hoehe"] },
  size: {
    en: ["size", "neck size", "grille size", "outlet size", "neck", "dimensions", "nominal size", "w x h"],
    es: ["tamano", "medida", "medidas", "dimensiones"],
    de: ["grosse", "groesse", "abmessung", "abmessungen", "masse", "nennmass", "b x h"],
  },
  diameter: { en: ["diameter", "dia", "diam", "ø", "d"], es: ["diametro"], de: ["durchmesser", "dn"] },
  area: {
    en: ["area", "gross area", "face area", "core area", "duct area", "opening area"],
    es: ["area bruta", "superficie", "seccion"],
    de: ["flache", "flaeche", "querschnitt", "bruttoflache"],
  },
  freeArea: {
    en: ["free area", "net free area", "net area", "fa", "nfa"],
    es: ["area libre"],
    de: ["freie flache", "freier querschnitt"],
  },
  effectiveArea: {
    en: ["ak", "a k", "ak factor", "ak area", "effective area", "area factor"],
    es: ["area efectiva"],
    de: ["effektive flache", "wirksame flache"],
  },
  factor: {
    en: ["factor", "correction factor", "corr factor", "k factor", "k", "cf", "free area factor", "free area ratio"],
    es: ["factor de correccion", "coeficiente"],
    de: ["faktor", "korrekturfaktor", "k faktor", "beiwert"],
  },
  airflow: {
    en: ["airflow", "air flow", "flow", "air volume", "volume", "quantity", "air quantity", "q", "air"],
    es: ["caudal", "caudal de aire", "volumen"],
    de: ["volumenstrom", "luftmenge", "luftvolumenstrom", "menge"],
  },
  reading: {
    en: [
      "reading",
      "readings",
      "rdg",
      "read",
      "r",
      "point",
      "pt",
      "p",
      "velocity",
      "velocities",
      "vel",
      "v",
      "traverse",
    ],
    es: ["lectura", "lecturas", "lect", "punto", "velocidad"],
    de: ["messung", "messpunkt", "messwert", "messwerte", "mp", "punkt", "geschwindigkeit"],
  },
  average: {
    en: ["average", "avg", "ave", "mean", "average velocity", "avg velocity", "avg vel", "ave vel", "mean velocity"],
    es: ["promedio", "media", "velocidad media", "velocidad promedio"],
    de: ["mittel", "mittelwert", "durchschnitt", "mittlere geschwindigkeit"],
  },
  sweep: { en: ["sweep", "pass", "scan"], es: ["barrido"], de: ["schwenk"] },
  seconds: {
    en: ["seconds", "sec", "secs", "time", "duration"],
    es: ["segundos", "tiempo"],
    de: ["sekunden", "zeit", "dauer"],
  },
  percent: { en: ["percent", "pct", "of"], es: ["porcentaje", "del"], de: ["prozent", "vom", "von"] },
  verdict: {
    en: ["verdict", "status", "result", "pass fail", "ok"],
    es: ["estado", "resultado"],
    de: ["bewertung", "urteil", "ergebnis"],
  },
  note: {
    en: ["note", "notes", "remark", "remarks", "comment", "comments"],
    es: ["nota", "notas", "observacion", "observaciones", "comentario", "comentarios"],
    de: ["bemerkung", "bemerkungen", "hinweis", "anmerkung", "notiz"],
  },
  date: { en: ["date"], es: ["fecha"], de: ["datum"] },
  technician: { en: ["technician", "tech", "by", "initials"], es: ["tecnico"], de: ["techniker", "monteur", "prufer"] },
};

/** Words that say which state a figure belongs to. */
export const STATE_WORDS: Readonly<Record<HeadingState, HeadingWords>> = {
  design: {
    en: ["design", "dsn", "des", "required", "req", "reqd", "spec", "specified", "scheduled", "target"],
    es: ["diseno", "proyecto", "requerido", "nominal"],
    de: ["soll", "sollwert", "auslegung", "planung"],
  },
  found: {
    en: ["before", "initial", "as found", "found", "prelim", "preliminary", "existing", "pre", "first"],
    es: ["antes", "inicial", "previo"],
    de: ["vorher", "vor", "anfang"],
  },
  left: {
    en: ["after", "final", "as left", "left", "balanced", "adjusted", "post"],
    es: ["despues", "ajustado"],
    de: ["nachher", "nach", "ende", "eingeregelt"],
  },
  now: {
    en: ["actual", "measured", "meas", "tested", "test", "act"],
    es: ["medido", "medida", "actual", "real"],
    de: ["ist", "istwert", "gemessen"],
  },
};
