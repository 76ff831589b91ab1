import { wordings } from "../../reading/index.js";

export const words = wordings("safety-tables", {
  strayFile: (names: readonly string[]) => ({
    what: "this is none of the safety tables",
    remedy: `They are: ${names.join(", ")}`,
  }),
  ofNothing: () => ({ what: "`item` and `part` are both empty", remedy: "Write what the names stand for" }),
  noWord: (name: string) => ({
    what: `\`${name}\` has no word that tells it from others`,
    remedy: "Write it out, or take it out of the row",
  }),
  idle: (column: string, rule: string) => ({
    what: `\`${column}\` is filled, and a rule \`${rule}\` asks for none`,
    remedy: "Write the rule `only if`, or empty the cell",
  }),
  noDeed: (treatment: string) => ({
    what: `\`${treatment}\` says nothing that could be done`,
    remedy: "Write what the dish must do",
  }),
  noPair: (celsius: number, fahrenheit: number) => ({
    what: `${celsius} C is not ${fahrenheit} F`,
    remedy: "Write the pair as the code prints it",
  }),
  laxer: (rule: string, than: string) => ({
    what: `\`${rule}\` is laxer than \`${than}\``,
    remedy: "Write a stricter rule, or none",
  }),
});
