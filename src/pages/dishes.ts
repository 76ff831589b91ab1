import type { Plan } from "../contract/index.js";
import type { Dish, RecipeLine, StapleLine } from "../kitchen/index.js";
import { Decimal, grams, NO_WEIGHT, roundTogether, scale, total, type Weight } from "../quantity/index.js";
import { criticalSteps, holdingLines } from "../safety/index.js";
import { allergenWords } from "./allergen-words.js";
import { lotWords } from "./lots.js";
import type { PageMaker } from "./page.js";
import { stapleAmount } from "./shopping.js";
import { type View, type Warning, warningsAbout } from "./view.js";
import { capital, counted, listed, once } from "./writing.js";

type Dishes = { readonly sheets: readonly DishSheet[]; readonly holding: string };

type DishSheet = {
  readonly dish: string;
  readonly id: string;
  readonly service: string;
  readonly date: string;
  readonly course: string;
  readonly portions: string;
  /** What the weight is of: the portion, or its weighed parts where a staple has no weight. */
  readonly portionLabel: string;
  readonly portionWeight: string;
  readonly batches: string;
  readonly batchColumn: readonly string[];
  readonly portioning: string;
  /** Columns from a line's name to the end of its row. */
  readonly lineColumns: string;
  readonly served: string;
  readonly allergens: string;
  readonly diets: string;
  readonly lines: readonly Line[];
  readonly staples: readonly StapleRow[];
  readonly rawTotal: { readonly batch: readonly string[]; readonly all: string };
  readonly treatments: readonly { readonly part: string; readonly text: string; readonly source: string }[];
  readonly method: readonly string[];
  readonly card: readonly { readonly name: string; readonly value: string; readonly fill: string }[];
  readonly cost: string;
  readonly costInAll: string;
  readonly ceiling: string;
  readonly warnings: readonly Warning[];
};

type StapleRow = { readonly name: string; readonly batch: readonly string[]; readonly all: string };

type Line = {
  readonly name: string;
  readonly cooked: string;
  readonly sources: readonly Source[];
};

type Source = {
  readonly part: string;
  readonly about: string;
  readonly batch: readonly string[];
  readonly all: string;
};

type Going = Plan["goings"][number] & { readonly printed: Weight };
type Cooking = Plan["dishes"][number];

/** One sheet a cooking: what goes in by the batch, how it is made, how hot, who may eat it, what it costs. */
export const dishesPage: PageMaker = { slug: "dishes", title: "Dish sheets", data: dishesData };

export function dishesData(view: View): Dishes {
  return {
    holding: holdingLines(view.scenario.rules).join(" "),
    sheets: view.plan.dishes.flatMap((cooking, index) => {
      const dish = view.scenario.dishes.find(({ name }) => name === cooking.dish);
      return dish === undefined || cooking.portions === 0 ? [] : [sheet(cooking, dish, index, view)];
    }),
  };
}

function sheet(cooking: Cooking, dish: Dish, index: number, view: View): DishSheet {
  const { plan, scenario, writing, movements } = view;
  const goings = plan.goings.flatMap((going, index) => {
    const weight = movements.goings[index] ?? NO_WEIGHT;
    const mine = going.dish === dish.name && going.service === cooking.service && weight > 0n;
    return mine ? [{ ...going, printed: weight }] : [];
  });
  const batches = dish.batch === null ? null : new Decimal(cooking.portions).div(dish.batch.portions);
  const parts = once(goings.map(({ part }) => part));
  return {
    dish: capital(dish.name),
    id: `dish-${index + 1}`,
    service: cooking.service,
    date: writing.date(
      scenario.services.find(({ name }) => name === cooking.service)?.date ?? scenario.firstDate,
    ),
    course: cooking.course ?? "",
    portions: writing.count(cooking.portions),
    portionLabel: dish.staples.every(({ amount }) => amount?.unit === "g")
      ? "A portion"
      : "Weighed parts of a portion",
    portionWeight: writing.weight(portionWeight(cooking, dish)),
    batches:
      dish.batch === null || batches === null
        ? ""
        : `${writing.decimal(batches, 2)} × ${dish.batch.vessel}, ${counted(writing, dish.batch.portions, "portion")} each`,
    portioning: dish.cooking.portioning ?? "",
    served: servedWords(cooking, view),
    allergens: allergenWords(dish, scenario),
    diets: listed(dish.diets),
    ...ingredients(goings, dish, batches, cooking, view),
    treatments: criticalSteps(scenario, dish).map(({ part, text, source }) => ({ part, text, source })),
    method: dish.method,
    card: cookingCard(dish),
    cost: writing.money(cooking.costPerPortion),
    costInAll: writing.money(cooking.cost),
    ceiling: cooking.ceiling === null ? "" : writing.money(cooking.ceiling),
    warnings: warningsAbout({ dishes: [dish.name], parts }, view),
  };
}

/** Everything on the plate that has a weight: parts as the ledger counts them, and staples in grams. */
function portionWeight({ weight, portions }: Cooking, { staples }: Dish): Weight {
  const parts = scale(weight, new Decimal(1).div(portions));
  const added = staples.flatMap(({ amount }) => (amount?.unit === "g" ? [grams(amount.value)] : []));
  return total([parts, ...added]);
}

/** Who eats when, where not all is eaten at once. */
function servedWords({ dish, service, served, spare, useBy }: Cooking, { plan, writing }: View): string {
  const later = served.filter((each) => each.service !== service);
  const here = served.filter((each) => each.service === service);
  const destinations = once(
    plan.leftovers
      .filter(({ kind, part }) => kind === "portions" && part === `${dish} @ ${service}`)
      .map(({ destination }) => destination),
  );
  const words = [
    ...(later.length === 0
      ? []
      : [
          ...here.map(({ portions }) => `${counted(writing, portions, "portion")} now`),
          ...later.map(
            ({ service: when, portions }) => `${counted(writing, portions, "portion")} kept for ${when}`,
          ),
          ...(useBy === null ? [] : [`use by ${writing.shortDate(useBy)}`]),
        ]),
    ...(spare === 0 ? [] : [`${counted(writing, spare, "portion")} spare, to ${listed(destinations)}`]),
  ];
  return capital(words.join("; "));
}

function ingredients(
  goings: readonly Going[],
  dish: Dish,
  batches: Decimal | null,
  cooking: Cooking,
  view: View,
): Pick<DishSheet, "lines" | "staples" | "rawTotal" | "batchColumn" | "lineColumns"> {
  const { writing, scenario } = view;
  const raw = goings.map(({ printed }) => printed);
  const severalBatches = batches !== null && !batches.equals(1);
  const batch = severalBatches
    ? roundTogether(
        raw.map((weight) => scale(weight, new Decimal(1).div(batches))),
        scenario.scaleStep,
      )
    : [];
  const inBatch = (value: string) => (severalBatches ? [value] : []);
  const lines = dish.lines.map((line): Line => {
    const mine = goings.flatMap((going, index) => (going.line === line.name ? [{ going, index }] : []));
    return {
      name: line.name,
      cooked: cookedWords(
        line,
        mine.map(({ going }) => going.printed),
        view,
      ),
      sources: mine.map(({ going, index }, place) => ({
        part: going.part,
        about: [place === 0 ? statedWords(line, view) : "", sourceWords(going, view)]
          .filter((text) => text !== "")
          .join("; "),
        batch: inBatch(writing.shown(batch[index] ?? NO_WEIGHT)),
        all: writing.shown(going.printed),
      })),
    };
  });
  return {
    lines: lines.filter(({ sources }) => sources.length > 0),
    lineColumns: severalBatches ? "3" : "2",
    batchColumn: inBatch(`One ${dish.batch?.vessel ?? "batch"}`),
    staples: dish.staples.map((staple) => {
      const amountFor = (portions: number) =>
        staple.amount === null
          ? NOT_WEIGHED
          : stapleCell(staple.amount.value.times(portions), staple.amount.unit, view);
      return {
        name: stapleWords(staple),
        batch: inBatch(amountFor(dish.batch?.portions ?? cooking.portions)),
        all: amountFor(cooking.portions),
      };
    }),
    rawTotal: { batch: inBatch(writing.shown(total(batch))), all: writing.shown(total(raw)) },
  };
}

/** A weight bare, for the column names its unit; any other measure with its own. */
function stapleCell(amount: Decimal, unit: string, view: View): string {
  return unit === "g" ? view.writing.shown(grams(amount)) : stapleAmount(amount, unit, view);
}

/** For staples that have a cost a portion and no amount. */
const NOT_WEIGHED = "–";

function statedWords({ least, most, stated }: RecipeLine, { writing }: View): string {
  const amount =
    least === most ? writing.exactly(least) : `${writing.exactly(least)} to ${writing.exactly(most)}`;
  return `${amount} ${stated} a portion`;
}

function cookedWords(
  { stated, cookingYield }: RecipeLine,
  raw: readonly Weight[],
  { writing }: View,
): string {
  if (stated === "raw") return "";
  const sum = total(raw);
  return `${writing.weight(sum)} raw gives ${writing.weight(scale(sum, cookingYield))} cooked, ${writing.rate(cookingYield)}`;
}

function sourceWords({ part, cutFor, useBy, pieces }: Going, view: View): string {
  const { writing } = view;
  return [
    pieces === null ? "" : counted(writing, pieces, "piece"),
    lotWords(part, cutFor, view),
    useBy === null ? "" : `use by ${writing.shortDate(useBy)}`,
  ]
    .filter((text) => text !== "")
    .join(", ");
}

function stapleWords({ name, allergens }: StapleLine): string {
  const others = allergens.filter((allergen) => allergen.toLowerCase() !== name.toLowerCase());
  return others.length === 0 ? name : `${name} (${listed(others)})`;
}

function cookingCard({ cooking }: Dish): DishSheet["card"] {
  const { equipment, time, coreTemperature } = cooking;
  return [
    { name: "Equipment", value: equipment ?? "", fill: "" },
    { name: "Time", value: time ?? "", fill: "Out at" },
    { name: "Core temperature", value: coreTemperature ?? "", fill: "Reached" },
  ].filter(({ value }) => value !== "");
}
