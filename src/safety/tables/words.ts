import type { Wording } from "../../reading/index.js";

export function strayFile(names: readonly string[]): Wording {
  return { what: "this is none of the safety tables", remedy: `They are: ${names.join(", ")}` };
}

export function ofNothing(): Wording {
  return { what: "`item` and `part` are both empty", remedy: "Write what the names stand for" };
}

export function noWord(name: string): Wording {
  return {
    what: `\`${name}\` has no word that tells it from others`,
    remedy: "Write it out, or take it out of the row",
  };
}

export function idle(column: string, rule: string): Wording {
  return {
    what: `\`${column}\` is filled, and a rule \`${rule}\` asks for none`,
    remedy: "Write the rule `only if`, or empty the cell",
  };
}

export function noDeed(treatment: string): Wording {
  return { what: `\`${treatment}\` says nothing that could be done`, remedy: "Write what the dish must do" };
}

export function noPair(celsius: number, fahrenheit: number): Wording {
  return { what: `${celsius} C is not ${fahrenheit} F`, remedy: "Write the pair as the code prints it" };
}

export function laxer(rule: string, than: string): Wording {
  return { what: `\`${rule}\` is laxer than \`${than}\``, remedy: "Write a stricter rule, or none" };
}
