import fc from "fast-check";
import { Dice } from "./random-scenario/dice.js";

/** A kitchen's file, and which of the parts that must never be eaten it asks to serve. */
export interface RandomKitchen {
  readonly text: string;
  readonly serves: readonly string[];
}

/** Parts that must never be eaten, typed here from NC State Extension, MedlinePlus and BfR. */
const NEVER = [
  "rhubarb leaf",
  "rhubarb root",
  "tomato leaf",
  "tomato stem",
  "potato sprout",
  "potato leaf",
  "potato stem",
];
const ITEMS = ["rhubarb", "tomato", "potato", "celery", "leek", "squash", "spinach"] as const;
const PARTS = ["heart", "leaf", "stem", "sprout", "root", "peel", "dice"] as const;
const ALLERGENS = ["celery", "mustard", "milk", "fish", "sesame", "Sellerie", "kiwi"] as const;
const RULES = ["us", "uk", "eu", "france", "australia"] as const;

/** Files of small kitchens over up to ten days: items cut, boiled, frozen, kept, shared and offered again. */
export function randomKitchens(): fc.Arbitrary<RandomKitchen> {
  return fc.gen().map((draw) => kitchen(new Dice(draw)));
}

function kitchen(dice: Dice): RandomKitchen {
  const services = servicesOf(dice);
  const items: Record<string, object> = {};
  const parts: Record<string, object> = {};
  const names: string[] = [];
  const inedible = new Set<string>();
  const first = dice.between(0, ITEMS.length - 1);
  const chosen = [ITEMS[first], ...(dice.chance(40) ? [ITEMS[(first + 3) % ITEMS.length]] : [])];
  for (const item of chosen) {
    const [one = "", two = ""] = partsOf(item ?? "leek", dice);
    const share = dice.between(2, 7) * 10;
    if (dice.chance(30)) inedible.add(`${item} ${two}`);
    items[item ?? "leek"] = {
      form: "whole",
      price: `${dice.between(1, 9)}.50 / head`,
      unit_weight: `${dice.between(2, 6) * 100} g`,
      buy: "0 to 6",
      keeps: `${dice.between(1, 9)} days`,
      deliveries: [services[0]?.date, ...(dice.chance(40) ? [services.at(-1)?.date] : [])],
      allergens: dice.chance(40) ? [dice.oneOf(...ALLERGENS)] : [],
      may_contain: dice.chance(15) ? ["peanuts"] : [],
      cut: ["own"],
      breakdowns: {
        own: {
          parts: {
            [one]: `${share} %`,
            [two]: inedible.has(`${item} ${two}`)
              ? { weight: `${90 - share} %`, class: "inedible" }
              : `${90 - share} %`,
          },
          loss: "10 %",
        },
      },
    };
    for (const part of [one, two]) {
      const name = `${item} ${part}`;
      names.push(name);
      parts[name] = {
        ...(dice.chance(70) ? { keeps: `${dice.between(1, 9)} days` } : {}),
        ...(NEVER.includes(name) && dice.chance(80) ? { class: "inedible" } : {}),
        ...(dice.chance(25) && !NEVER.includes(name)
          ? { on_hand: { weight: "300 g", use_by: services[dice.between(0, services.length - 1)]?.date } }
          : {}),
      };
    }
  }
  const { steps, made } = stepsOf(names, dice);
  for (const name of made)
    parts[name] = {
      keeps: `${dice.between(1, 9)} days`,
      ...(name.endsWith("frozen") ? { state: "frozen" } : {}),
    };
  const eaten = [...names, ...made].filter((name) => !inedible.has(name));
  const served = dice.chance(92) ? eaten.filter((name) => !NEVER.includes(name)) : eaten;
  const dishes = dishesOf(served.length > 0 ? served : names, services, dice);
  const file = {
    scenario: "random kitchen",
    currency: "EUR",
    aim: dice.oneOf("cost", "waste"),
    rules: dice.oneOf(...RULES),
    allergen_list: dice.oneOf("both", "us nine", "eu and uk fourteen"),
    services,
    items,
    parts,
    steps,
    dishes,
  };
  const serves = Object.values(dishes).flatMap(({ lines }) =>
    lines.flatMap(({ from }) => from.filter((name) => NEVER.includes(name))),
  );
  return { text: JSON.stringify(file, null, 1), serves };
}

function servicesOf(dice: Dice): { name: string; date: string }[] {
  let day = 2;
  return Array.from({ length: dice.between(1, 3) }, (_, index) => {
    if (index > 0) day += dice.between(0, 4);
    return { name: `service ${index + 1}`, date: `2026-10-${String(day).padStart(2, "0")}` };
  });
}

/** Two different parts of an item, by names that cooks use. */
function partsOf(item: string, dice: Dice): string[] {
  const usual = PARTS[dice.between(0, PARTS.length - 1)] ?? "heart";
  const other = PARTS[(PARTS.indexOf(usual) + dice.between(1, PARTS.length - 1)) % PARTS.length] ?? "leaf";
  return item === "spinach" ? ["leaf", "stem"] : [usual, other];
}

function stepsOf(names: readonly string[], dice: Dice): { steps: Record<string, object>; made: string[] } {
  const steps: Record<string, object> = {};
  const made: string[] = [];
  const sound = names.filter((name) => !NEVER.includes(name));
  const [first] = sound;
  if (first === undefined) return { steps, made };
  if (dice.chance(35)) {
    steps["boil a stock"] = { from: sound, gives: { "house stock": "100 %" }, loss: "50 %", water: "50 %" };
    made.push("house stock");
  }
  if (dice.chance(35)) {
    steps["freeze it"] = { from: first, gives: { [`${first} frozen`]: "100 %" } };
    made.push(`${first} frozen`);
  }
  return { steps, made };
}

type RandomDish = {
  readonly lines: readonly { readonly amount: string; readonly from: readonly string[] }[];
};

function dishesOf(
  served: readonly string[],
  services: readonly { name: string }[],
  dice: Dice,
): Record<string, RandomDish> {
  const dishes: Record<string, RandomDish> = {};
  for (let index = 0; index < dice.between(1, 3); index++) {
    const pick = () => served[dice.between(0, served.length - 1)] ?? "";
    const from = [...new Set(dice.chance(50) ? [pick(), pick()] : [pick()])];
    const at = services.map(({ name }) => name).filter(() => dice.chance(60));
    dishes[`dish ${index + 1}`] = {
      ...{
        portions: dice.between(1, 3),
        services: at.length > 0 ? at : [services[0]?.name],
        ...(dice.chance(60) ? { keeps: `${dice.between(2, 9)} days` } : {}),
        ...(dice.chance(25)
          ? {
              staples: {
                [dice.oneOf("double cream", "soy sauce", "salt")]: { cost: 0.1, allergens: ["mustard"] },
              },
            }
          : {}),
        ...(dice.chance(25) ? { shares: ["fryer"] } : {}),
        treatments: ["cooked thoroughly"],
      },
      lines: [{ amount: `${dice.between(1, 4) * 20} g`, from }],
    };
  }
  return dishes;
}
