import type { Item, Part } from "../kitchen/index.js";
import { makeLexicon } from "./names/lexicon.js";
import { animalKindsIn } from "./of-animals.js";

/** Why a food needs temperature control for safety (TCS), and who says so. */
export interface Tcs {
  readonly kind: TcsKind;
  readonly text: string;
  readonly source: string;
  readonly basis: "read" | "memory";
}

type TcsKind =
  | "cut melon"
  | "cut leafy greens"
  | "cut tomato"
  | "seed sprouts"
  | "in oil"
  | "cooked"
  | "animal"
  | "mixture";

const DEFINITION = "FDA Food Code 1-201.10, definition of TCS food, as given by FDA and by state codes";

const KINDS: Record<TcsKind, Tcs> = {
  "cut melon": { kind: "cut melon", text: "melon, once cut", source: DEFINITION, basis: "read" },
  "cut leafy greens": {
    kind: "cut leafy greens",
    text: "leafy greens, once cut, shredded, chopped or torn",
    source: `${DEFINITION}; which leaves count, from memory`,
    basis: "read",
  },
  "cut tomato": {
    kind: "cut tomato",
    text: "tomato, once cut, and mixtures of it",
    source: DEFINITION,
    basis: "read",
  },
  "seed sprouts": {
    kind: "seed sprouts",
    text: "raw seed sprouts, cut or not",
    source: DEFINITION,
    basis: "read",
  },
  "in oil": { kind: "in oil", text: "garlic, herbs or vegetables in oil", source: DEFINITION, basis: "read" },
  cooked: { kind: "cooked", text: "cooked food, plants too", source: DEFINITION, basis: "read" },
  animal: { kind: "animal", text: "food of animals, raw or cooked", source: DEFINITION, basis: "read" },
  mixture: {
    kind: "mixture",
    text: "a mixture made in the kitchen, taken to need it unless it is dried, pickled or preserved",
    source: "caution of this program, after FDA Food Code 3-501.17(D)",
    basis: "memory",
  },
};

type NameKey =
  | "melon"
  | "leafy"
  | "leaf"
  | "tomato"
  | "sprout"
  | "oil"
  | "cooked"
  | "herb"
  | "preserved"
  | "other";

/** From memory, after the Food Code's own list of leafy greens; other leaves of vegetables are counted with them. */
const NAMES: Record<NameKey, string> = {
  melon:
    "melon, cantaloupe, cantaloup, honeydew, watermelon, galia, charentais, casaba, crenshaw, muskmelon, piel de sapo, canary melon, Melone, Wassermelone, pasteque, sandia, melone, anguria, melancia, melao, watermeloen",
  leafy:
    "lettuce, iceberg, romaine, cos lettuce, butterhead, little gem, lollo rosso, leafy green, salad leaf, salad green, baby leaf, mixed leaf, spring mix, mesclun, escarole, endive, frisee, spinach, cabbage, napa, kale, cavolo nero, arugula, rocket, chard, swiss chard, collard, collard green, spring green, pak choi, bok choy, choy sum, tatsoi, mizuna, radicchio, watercress, lamb s lettuce, corn salad, dandelion, sorrel, purslane, Salat, Kopfsalat, Spinat, Kohl, Grünkohl, laitue, epinard, chou, lechuga, espinaca, col, lattuga, spinaci, cavolo, alface, couve, sla, spinazie, kool, sallad, spenat, kål",
  leaf: "leaf, leaves, greens, frond, beet top, beetroot top, turnip top, radish top, Blatt, feuille, hoja, foglia, folha, blad",
  tomato:
    "tomato, cherry tomato, Tomate, tomate, jitomate, pomodoro, pomodori, tomaat, tomat, salsa, pico de gallo",
  sprout:
    "bean sprout, beansprout, alfalfa sprout, mung bean sprout, mung sprout, radish sprout, clover sprout, broccoli sprout, seed sprout, sprouted seed, sprouted lentil, sprouted bean, sprouted chickpea",
  oil: "garlic oil, garlic in oil, garlic confit, herb oil, basil oil, chive oil, parsley oil, mushroom in oil, tomato in oil, confit",
  cooked:
    "stock, broth, bouillon, soup, sauce, puree, mash, custard, gravy, stew, porridge, risotto, cooked, boiled, blanched, roasted, roast, steamed, braised, fried, grilled, poached, baked, sauteed, wilted, stewed, simmered, confit, caramelised, caramelized",
  herb: "herb, parsley, coriander, cilantro, basil, mint, dill, chive, tarragon, chervil, thyme, rosemary, sage, oregano, marjoram, bay, curry leaf, lime leaf, lemon leaf, vine leaf, banana leaf, fig leaf, carrot top, fennel frond, celery leaf, lovage, shiso",
  preserved:
    "dried, dehydrated, powder, pickle, pickled, jam, marmalade, chutney, candied, crystallised, crystallized, vinegar, sauerkraut, kimchi, salted, freeze dried",
  other:
    "brussels sprout, sprouting broccoli, bitter melon, winter melon, melon seed, watermelon seed, tomatillo, tree tomato",
};

const lexicon = makeLexicon<{ kind: "item"; key: NameKey }>(
  (Object.keys(NAMES) as NameKey[]).map((key) => ({ meanings: [{ kind: "item", key }], names: NAMES[key] })),
);

/** Why an item, by its name, needs temperature control once it is cut; null where cutting does not bring that. */
export function tcsOnceCut(name: string): Tcs | null {
  const keys = keysIn(name);
  if (keys.has("sprout")) return KINDS["seed sprouts"];
  if (keys.has("oil")) return KINDS["in oil"];
  if (keys.has("preserved")) return null;
  if (keys.has("cooked")) return KINDS.cooked;
  if (keys.has("melon")) return KINDS["cut melon"];
  if (keys.has("tomato")) return KINDS["cut tomato"];
  return keys.has("leafy") || (keys.has("leaf") && !keys.has("herb")) ? KINDS["cut leafy greens"] : null;
}

/** Whether a name says that a food is dried, pickled or otherwise preserved. */
export function isPreserved(name: string): boolean {
  return keysIn(name).has("preserved");
}

/**
 * Why a part, cut or made, needs temperature control; `item` is null for a blend. Null where it does not. An item
 * that no table holds counts as food of animals where its name says so, however it is said to be handled.
 */
export function tcsOf(part: Part, item: Item | null): Tcs | null {
  if (item !== null && (item.handling !== "plant" || isOfAnimalsByName(item, part))) return KINDS.animal;
  if (part.state === "cooked") return KINDS.cooked;
  const byName = tcsOnceCut(`${item?.name ?? ""} ${part.name}`);
  if (byName !== null || item !== null) return byName;
  return isPreserved(part.name) ? null : KINDS.mixture;
}

function isOfAnimalsByName({ name, inTables }: Item, part: Part): boolean {
  return !inTables && animalKindsIn(`${name} ${part.name}`).length > 0;
}

function keysIn(name: string): Set<NameKey> {
  return new Set(lexicon.read(name).found.flatMap(({ meanings }) => meanings.map(({ key }) => key)));
}
