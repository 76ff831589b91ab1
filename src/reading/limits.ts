/** How much of a file is read: far more than a kitchen writes, and little enough to be read in a moment. */
export const MOST = {
  /** Bytes of a file, and letters of a text at hand. */
  bytes: 2_000_000,
  /** Bytes of a plan as JSON, which the program writes itself: ten times what its scenario has, and more. */
  planBytes: 50_000_000,
  /** Letters of a name. */
  name: 120,
  /** Letters of any other text. */
  text: 4_000,
  /** Letters of a figure with its unit. */
  figure: 500,
  /** Lists and maps inside one another. */
  depth: 30,
  /** Words, brackets and other marks of a YAML text: some sixty times as many as the demonstration has. */
  marks: 120_000,
  /** Lines of a YAML text. */
  textLines: 100_000,
  /** Places of broken syntax that are looked for, of which one a line is told. */
  faults: 1_000,
  /** Values that anchors may be expanded into. */
  values: 100_000,
  /** Problems that are shown. */
  problems: 100,
  /** Lines of a table. */
  lines: 50_000,
  /** Columns of a table. */
  columns: 100,
  /** Names that a misspelt one is held against. */
  candidates: 1_000,
  /** Names that a remedy lists. */
  listed: 40,
  /** Letters of what was written that a problem repeats. */
  quoted: 60,
} as const;
