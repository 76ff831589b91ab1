import type { Scenario } from "../kitchen/index.js";
import { type Decimal, grams, money, type Weight } from "../quantity/index.js";
import { allergensOfPart } from "../safety/index.js";
import { documentPage } from "./document.js";
import type { Page, PageOptions } from "./render.js";
import { capital, counted, listed, type Writing, writingFor } from "./writing.js";

/** What can be done with an offcut, as `insight/` finds it; grams of it unless stated. */
export interface OffcutUses {
  readonly part: string;
  readonly weight: Weight;
  readonly useBy: string | null;
  readonly dishes: readonly {
    readonly dish: string;
    readonly services: readonly number[];
    readonly takes: Decimal;
    readonly leaves: Decimal;
    readonly portions: number;
    readonly cooked: number;
    readonly steps: readonly string[];
    readonly needs: readonly OffcutNeed[];
    readonly costPerPortion: Decimal;
    readonly allergens: readonly string[];
    readonly critical: readonly string[];
  }[];
  readonly resorts: readonly {
    readonly kind: "stock" | "frozen";
    readonly part: string;
    readonly steps: readonly string[];
    readonly grams: Decimal;
    readonly keepsUntil: string | null;
  }[];
  readonly cautions: readonly string[];
  readonly givenTo: readonly string[];
}

type OffcutNeed =
  | { readonly kind: "part"; readonly parts: readonly string[]; readonly grams: Decimal }
  | {
      readonly kind: "staple";
      readonly name: string;
      readonly amount: { readonly value: Decimal; readonly unit: string } | null;
    };

/** The uses in words, for the page and the terminal alike. */
export interface UsesText {
  readonly headline: string;
  readonly allergens: string;
  readonly dishes: readonly {
    readonly name: string;
    readonly when: string;
    readonly takes: string;
    readonly makes: string;
    readonly steps: string;
    readonly needs: string;
    readonly cost: string;
    readonly allergens: string;
    readonly critical: string;
  }[];
  readonly none: string;
  readonly resorts: readonly string[];
  readonly cautions: readonly string[];
}

export function usesText(uses: OffcutUses, scenario: Scenario): UsesText {
  const writing = writingFor(scenario);
  const weightOf = (value: Decimal): string => writing.weight(grams(value));
  const { allergens, others } = allergensOfPart(scenario, uses.part);
  const until = uses.useBy === null ? "keeps longer than this plan" : `use by ${writing.date(uses.useBy)}`;
  return {
    headline: `${writing.weight(uses.weight)} of ${uses.part}, ${until}`,
    allergens: listed([...allergens, ...others]),
    dishes: uses.dishes.map((use) => ({
      name: use.dish,
      when: listed(use.services.map((at) => scenario.services[at]?.name ?? "")),
      takes: use.leaves.isZero()
        ? `all ${weightOf(use.takes)}`
        : `${weightOf(use.takes)}, leaves ${weightOf(use.leaves)}`,
      makes: makesText(use, writing),
      steps: listed(use.steps),
      needs: capital(use.needs.map((need) => needText(need, writing)).join("; ")),
      cost: writing.money(money(use.costPerPortion)),
      allergens: listed(use.allergens),
      critical: use.critical.join(" "),
    })),
    none: uses.dishes.length === 0 ? "No dish of this scenario can take it before it must be used." : "",
    resorts: [
      ...uses.resorts.map(({ kind, part, steps, grams: weight, keepsUntil }) => {
        const keeps =
          keepsUntil === null ? "keeps longer than this plan" : `use by ${writing.date(keepsUntil)}`;
        return `${kind === "frozen" ? "Freeze" : "Boil to stock"}: ${listed(steps)}, ${weightOf(weight)} of ${part}, ${keeps}`;
      }),
      ...uses.givenTo.map((name) => `Give away: ${name}`),
    ],
    cautions: uses.cautions,
  };
}

function makesText({ portions, cooked }: OffcutUses["dishes"][number], writing: Writing): string {
  if (cooked === portions) return counted(writing, portions, "portion");
  const enough =
    portions === 0
      ? "none with all it may have of it"
      : `${writing.count(portions)} with all they may have of it`;
  return `${counted(writing, cooked, "portion")}, ${enough}`;
}

function needText(need: OffcutNeed, writing: Writing): string {
  if (need.kind === "part") return `${writing.weight(grams(need.grams))} of ${need.parts.join(" or ")}`;
  if (need.amount === null) return need.name;
  const { value, unit } = need.amount;
  if (unit === "g") return `${writing.weight(grams(value))} of ${need.name}`;
  return unit === "each"
    ? `${writing.decimal(value, 1)} ${need.name}`
    : `${writing.decimal(value, 0)} ${unit} of ${need.name}`;
}

/** The page of an offcut's uses. */
export function usesPage(uses: OffcutUses, scenario: Scenario, options: PageOptions = {}): Page {
  const text = usesText(uses, scenario);
  return documentPage(
    "uses",
    "Uses for an offcut",
    { ...text },
    { ...options, head: [scenario.name, uses.part] },
  );
}
