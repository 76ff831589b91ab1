import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A scenario that plans in milliseconds: one invented item, one dish. `ceiling` under 0.50 makes it impossible. */
export function marrowBake({ name = "Marrow bake", portions = 8, ceiling = "1.00" } = {}): string {
  return `scenario: ${name}
invented: yes
currency: EUR
services:
  - {name: Lunch, date: 2026-10-08, sitting: lunch}
items:
  marrow:
    form: test
    price: 1.60 / head
    unit_weight: 1000 g
    breakdowns:
      dice:
        parts: {dice: 800 g, peel: {weight: 180 g, class: inedible}}
        loss: 20 g
dishes:
  marrow bake:
    portions: ${portions}
    ceiling: ${ceiling}
    lines:
      - {amount: 200 g, from: marrow dice}
    staples: {cream: 0.10}
`;
}

/** Eight mistakes of different kinds, one a line; the comment at the end of each names what it is. */
export const EIGHT_MISTAKES = `scenario: Marrow bake
currency: EUR
aim: thrift                                   # no such aim
services:
  - {name: Lunch, date: 2026-02-30, sitting: lunch}   # no such day
items:
  marrow:
    form: test
    price: 1.60                               # for what?
    unit_weight: 1000 g
    breakdowns:
      dice:
        parts: {dice: 800 g, peel: {weight: 150 g, class: inedible}}   # 30 g are missing
        loss: 20 g
dishes:
  marrow bake:
    portions: eight                           # no number
    ceilling: 1.00                            # misspelt key
    lines:
      - {amount: 200 g, from: marrow dise}    # misspelt part
    staples:
      cream: {amount: 15 stone, price: 4.00 / kg}     # unknown unit
`;

/** A folder of the test's own, removed by the returned function. */
export function scratchFolder(files: Readonly<Record<string, string>> = {}): {
  path: string;
  remove(): void;
} {
  const path = mkdtempSync(join(tmpdir(), "trim-to-use-test-"));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(path, name), text);
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) };
}

/** Invented. Ten marrows cut on Thursday give 4 kg of ring, for Thursday, and 4 kg of dice, for Friday. */
export const TWO_EVENINGS = `scenario: Two evenings
currency: EUR
services:
  - {name: Thursday, date: 2026-10-08, sitting: dinner, covers: 20}
  - {name: Friday, date: 2026-10-09, sitting: dinner, covers: 20, courses: {main: 100 %}}
items:
  marrow:
    form: test
    price: 2.00 / head
    unit_weight: 1000 g
    keeps: 5 days
    cut: [rings]
    breakdowns:
      rings: {parts: {ring: 400 g, dice: 400 g, peel: {weight: 150 g, class: inedible}}, loss: 50 g}
parts:
  marrow ring: {keeps: 3 days}
  marrow dice: {keeps: 3 days}
dishes:
  ring plate: {services: Thursday, portions: 20, lines: [{amount: 200 g, from: marrow ring}]}
  dice pot:
    course: main
    services: Friday
    lines: [{amount: 150 to 200 g, from: marrow dice}]
    staples: {bread: 0.10}
`;

/** Invented. A pot of thirty on Thursday, of which ten portions wait for Friday. */
export const WAITING_POT = `scenario: Waiting soup
currency: EUR
services:
  - {name: Thursday, date: 2026-10-08, sitting: dinner, covers: 20, courses: {main: 100 %}}
  - {name: Friday, date: 2026-10-09, sitting: dinner, covers: 20, courses: {main: {take_up: 100 %, dishes: 1 to 2}, side: 80 %}, diets: {vegetarian: 4}}
items:
  marrow:
    form: test
    price: 2.00 / head
    unit_weight: 1000 g
    keeps: 5 days
    cut: [rings]
    breakdowns:
      rings: {parts: {dice: 800 g, peel: {weight: 150 g, class: inedible}}, loss: 50 g}
parts:
  marrow dice: {keeps: 3 days}
destinations:
  staff meal: {kind: given away, limit: 3 kg}
dishes:
  pot:
    course: main
    keeps: 3 days
    diets: [vegetarian]
    services: [Thursday, Friday]
    batch: {vessel: pot, portions: 30}
    lines: [{amount: 200 g, from: marrow dice}]
  side dish: {course: side, services: Friday, diets: [vegetarian], lines: [{amount: 100 g, from: marrow dice}]}
  roast: {course: main, services: Friday, lines: [{amount: 300 g, from: marrow dice}]}
`;
