import type { Need, Uses } from "../contract/index.js";
import type { Scenario } from "../kitchen/index.js";
import { type Decimal, grams, money } from "../quantity/index.js";
import { allergensOfPart } from "../safety/index.js";
import type { Document } from "./document.js";
import { capital, counted, listed, type Writing, writingFor } from "./writing.js";

/** What can be made of an offcut before it must be used, and what else it is good for. */
export function usesDocument(uses: Uses, scenario: Scenario): Document {
  const writing = writingFor(scenario);
  const weightOf = (value: Decimal): string => writing.weight(grams(value));
  const usable = (day: string | null): string =>
    day === null ? "keeps longer than this plan" : `use by ${writing.date(day)}`;
  const { allergens, others } = allergensOfPart(scenario, uses.part);
  const carried = listed([...allergens, ...others]);
  return {
    slug: "uses",
    title: "Uses for an offcut",
    head: [scenario.name, uses.part],
    blocks: [
      {
        kind: "words",
        text: "",
        strong: `${writing.weight(uses.weight)} of ${uses.part}, ${usable(uses.useBy)}`,
        look: "answer",
      },
      { kind: "words", text: carried === "" ? "" : `Allergens: ${carried}` },
      {
        kind: "words",
        text: uses.dishes.length === 0 ? "No dish of this scenario can take it before it must be used." : "",
      },
      {
        kind: "table",
        caption: "Dishes, those that take most of it first",
        of: "Dish",
        tight: true,
        columns: [
          { head: "Takes" },
          { head: "Makes", width: "rest" },
          { head: "All else costs at least, a portion", figures: true, width: "whole" },
        ],
        rows: uses.dishes.map((use) => ({
          name: use.dish,
          sub: listed(use.services.map((at) => scenario.services[at]?.name ?? "")),
          cells: [
            use.leaves.isZero()
              ? `all ${weightOf(use.takes)}`
              : `${weightOf(use.takes)}, leaves ${weightOf(use.leaves)}`,
            makesText(use, writing),
            writing.money(money(use.costPerPortion)),
          ],
          more: [
            { name: "First", text: listed(use.steps) },
            {
              name: "Needs beside",
              text: capital(use.needs.map((need) => needText(need, writing)).join("; ")),
            },
            { name: "Critical", text: use.critical.join(" ") },
            { name: "Allergens", text: listed(use.allergens) || "none known" },
          ],
        })),
      },
      {
        kind: "list",
        head: "Or else",
        items: [
          ...uses.resorts.map(
            ({ kind, part, steps, grams: weight, keepsUntil }) =>
              `${kind === "frozen" ? "Freeze" : "Boil to stock"}: ${listed(steps)}, ${weightOf(weight)} of ${part}, ${usable(keepsUntil)}`,
          ),
          ...uses.givenTo.map((name) => `Give away: ${name}`),
        ],
      },
      { kind: "list", head: "Beware", items: uses.cautions },
      {
        kind: "words",
        text: "Each dish stands for itself, as if it had all of the offcut. What it needs beside is priced at the least it can cost; the offcut costs no more. Check every label.",
        look: "quiet",
      },
    ],
  };
}

function makesText({ portions, cooked }: Uses["dishes"][number], writing: Writing): string {
  if (cooked === portions) return counted(writing, portions, "portion");
  const enough =
    portions === 0
      ? "none with all it may have of it"
      : `${writing.count(portions)} with all they may have of it`;
  return `${counted(writing, cooked, "portion")}, ${enough}`;
}

function needText(need: Need, writing: Writing): string {
  if (need.kind === "part") return `${writing.weight(grams(need.grams))} of ${need.parts.join(" or ")}`;
  if (need.amount === null) return need.name;
  const { value, unit } = need.amount;
  if (unit === "g") return `${writing.weight(grams(value))} of ${need.name}`;
  return unit === "each"
    ? `${writing.decimal(value, 1)} ${need.name}`
    : `${writing.decimal(value, 0)} ${unit} of ${need.name}`;
}
