/** A document that a formula, a table or a worked case of this project rests on. */
export interface SourceDocument {
  /** How it is cited: this text stands in every source that names it. */
  readonly cited: string;
  readonly title: string;
  /** `read`: seen in a copy of the document; `quoted`: seen where another document quotes it; or from memory. */
  readonly standing: "read" | "quoted" | "from memory";
  /** What was seen and what was not, where that needs saying. */
  readonly note: string;
}

/** Every document that is cited, in the order of the page that lists them. */
export const SOURCE_DOCUMENTS: readonly SourceDocument[] = [
  {
    cited: "Method 1",
    title: "40 CFR Part 60, Appendix A-1, Method 1 and Method 1A, sample and velocity traverses",
    standing: "read",
    note: "Rules read in the text. Table 1-2 was missing in the copy: its rows are from memory, recomputed from the equation. Figures 1-1 and 1-2, which ask for more points near a fitting, are pictures in every public copy found: their steps were not read and are not used, so more points or another place are asked for without a number.",
  },
  {
    cited: "Method 2",
    title: "40 CFR Part 60, Appendix A-1, Method 2, stack gas velocity",
    standing: "read",
    note: "",
  },
  {
    cited: "ST-18",
    title: "Bay Area Air Quality Management District, Manual of Procedures, vol. IV, ST-18 (1982)",
    standing: "read",
    note: "",
  },
  {
    cited: "ISO 5802",
    title: "ISO 5802:2001, industrial fans, performance testing in situ",
    standing: "read",
    note: "An extract of three pages with tables 2 and 3.",
  },
  {
    cited: "ISO 3966",
    title: "ISO 3966, velocity area method with Pitot static tubes",
    standing: "from memory",
    note: "",
  },
  {
    cited: "NAVFAC MO-114",
    title: "NAVFAC MO-114, vol. 3, chapter 2, a maintenance manual with questions and answers on a nine-point traverse",
    standing: "read",
    note: "",
  },
  {
    cited: "Balancing of a Water and Air System",
    title: "“Balancing of a Water and Air System”, training document",
    standing: "read",
    note: "",
  },
  {
    cited: "ASHRAE Handbook Fundamentals",
    title: "ASHRAE Handbook Fundamentals 2017, chapter 1, psychrometrics",
    standing: "quoted",
    note: "Equations and printed values as quoted, with their places, in the code and tests of the open library psychrolib.",
  },
  {
    cited: "psychrolib",
    title: "psychrolib 1.1.1, an open library of psychrometrics, run by the tests",
    standing: "read",
    note: "",
  },
  {
    cited: "US Standard Atmosphere",
    title: "US Standard Atmosphere 1976",
    standing: "quoted",
    note: "Table values as quoted in the tests of an open library.",
  },
  {
    cited: "NIST Special Publication 811",
    title: "NIST Special Publication 811, appendix B.8, conversion factors",
    standing: "read",
    note: "",
  },
  {
    cited: "GUM",
    title: "JCGM 100:2008, Guide to the expression of uncertainty in measurement",
    standing: "quoted",
    note: "Worked example H.1 as quoted with its outputs in an open library; half a step of a display as limits of even chances (F.2.2.1) as quoted by a quality journal; clause numbers and table G.2 from memory, the numbers derived.",
  },
  {
    cited: "EURACHEM/CITAC",
    title: "EURACHEM/CITAC Guide, Quantifying uncertainty in analytical measurement, example A1",
    standing: "quoted",
    note: "As quoted with its outputs in an open library.",
  },
  {
    cited: "Eurachem/CITAC",
    title: "Eurachem/CITAC Guide, Use of uncertainty information in compliance assessment, second edition, 2021",
    standing: "quoted",
    note: "Its sections as its table of contents gives them.",
  },
  {
    cited: "JCGM 106",
    title: "JCGM 106:2012, The role of measurement uncertainty in conformity assessment",
    standing: "from memory",
    note: "",
  },
  { cited: "ISO 13528", title: "ISO 13528, number Eₙ", standing: "from memory", note: "" },
  {
    cited: "IMO MSC/Circ. 729",
    title: "IMO MSC/Circ. 729, measuring ventilation airflow on ships",
    standing: "read",
    note: "",
  },
  { cited: "6.6201.4", title: "DOE/NREL Standard Work Specification 6.6201.4", standing: "read", note: "" },
  {
    cited: "NFPA 54",
    title: "NFPA 54, fuel-gas code, louvers of combustion-air openings",
    standing: "quoted",
    note: "As quoted in a gas utility's engineering guide.",
  },
  {
    cited: "§15990",
    title: "A county's public-works specification, §15990, balance requirements",
    standing: "read",
    note: "",
  },
  {
    cited: "County project specification §3.3",
    title: "A county's project specification, §3.3 and 3.4",
    standing: "read",
    note: "",
  },
  {
    cited: "school district",
    title: "A school district's request for proposals",
    standing: "read",
    note: "Its abstract.",
  },
  {
    cited: "ASHRAE 62.2-2019",
    title: "ASHRAE 62.2-2019, whole-dwelling ventilation",
    standing: "quoted",
    note: "As coded with its citation in a national laboratory's open energy code.",
  },
  {
    cited: "ASHRAE 62.2-2010",
    title: "ASHRAE 62.2-2010, whole-dwelling ventilation",
    standing: "quoted",
    note: "Area rate as told by a glossary page; rate per person from memory.",
  },
  {
    cited: "ASHRAE 62.2 local exhaust",
    title: "ASHRAE 62.2, local exhaust",
    standing: "quoted",
    note: "As told by a glossary page.",
  },
  { cited: "24 CFR 3280.103", title: "24 CFR 3280.103, ventilation of manufactured homes", standing: "read", note: "" },
  {
    cited: "10 CFR 430",
    title: "10 CFR 430, Subpart B, Appendix M, central air conditioners",
    standing: "read",
    note: "",
  },
  { cited: "uct-design manual", title: "A duct-design manual, tables 14-2 and 14-27", standing: "read", note: "" },
  {
    cited: "Hyland and Wexler",
    title: "Hyland and Wexler 1983, saturation pressure of water",
    standing: "quoted",
    note: "As coded in psychrolib.",
  },
  {
    cited: "textbook), p. 456",
    title: "“Air pollution and greenhouse gases”, textbook, example 15.1",
    standing: "read",
    note: "",
  },
  {
    cited: "US Air Force",
    title: "US Air Force, apprentice workbook on dilution ventilation",
    standing: "read",
    note: "",
  },
  { cited: "homework", title: "A university homework on fan laws, with printed answers", standing: "read", note: "" },
  { cited: "extbook fan problem", title: "A textbook fan problem, with a printed answer", standing: "read", note: "" },
  {
    cited: "olved examination example",
    title: "An examination's sample solution, an 8 in duct narrowed to 6 in",
    standing: "read",
    note: "",
  },
  {
    cited: "EPA Method 2 calculation sheet",
    title: "An EPA Method 2 calculation sheet of a field observation",
    standing: "read",
    note: "",
  },
  { cited: "entilation practice questions", title: "Ventilation practice questions", standing: "read", note: "" },
  { cited: "Mine-training slide", title: "Mine-training slides, airflow by smoke clouds", standing: "read", note: "" },
  {
    cited: "Yacht code",
    title: "A yacht code's chapter on ventilation",
    standing: "read",
    note: "Used as arithmetic only.",
  },
  {
    cited: "roblem statement of a ventilation text",
    title: "A ventilation text's problem",
    standing: "read",
    note: "The statement; the answer is derived.",
  },
  {
    cited: "Fluid-mechanics text problem",
    title: "A fluid-mechanics text's problem",
    standing: "read",
    note: "The statement; the answer is derived.",
  },
];
