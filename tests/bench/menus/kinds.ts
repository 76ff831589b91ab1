import type { Handling, Item } from "../../../src/kitchen/index.js";

/** What a recipe line may want a part for. */
export type Role = "main" | "piece" | "vegetable" | "leaf" | "trim" | "sharp" | "bread" | "waste";

/** A kind of item as kitchens buy it. Every figure is invented, of a size seen in kitchens. */
export interface Kind {
  readonly name: string;
  readonly handling: Handling;
  readonly measure: Item["measure"];
  /** Grams of one unit, least and most. */
  readonly unit: readonly [number, number];
  /** Pence for a kilogram as purchased, least and most. */
  readonly pence: readonly [number, number];
  readonly keepsDays: number;
  readonly partKeepsDays: number;
  readonly caseOf?: number;
  readonly roles: Readonly<Record<string, Role>>;
  /** Per cent of the item that each part is; the rest is cutting loss. */
  readonly cuts: Readonly<Record<string, Readonly<Record<string, number>>>>;
  /** Further work on a part: what a hundred grams give. */
  readonly steps?: Readonly<
    Record<string, { readonly from: string; readonly gives: Readonly<Record<string, number>> }>
  >;
  /** Grams of parts that move whole. */
  readonly pieces?: Readonly<Record<string, number>>;
}

export const KINDS: readonly Kind[] = [
  {
    name: "brassica",
    handling: "plant",
    measure: "whole",
    unit: [520, 880],
    pence: [130, 220],
    keepsDays: 6,
    partKeepsDays: 3,
    roles: {
      floret: "vegetable",
      stem: "trim",
      "peeled stem": "vegetable",
      leaf: "leaf",
      "stem peel": "waste",
      butt: "waste",
    },
    cuts: {
      florets: { floret: 46, stem: 31, leaf: 19 },
      "cut long": { floret: 61, leaf: 18, butt: 17 },
    },
    steps: { "peel stem": { from: "stem", gives: { "peeled stem": 72, "stem peel": 25 } } },
  },
  {
    name: "squash",
    handling: "plant",
    measure: "whole",
    unit: [1100, 1800],
    pence: [120, 200],
    keepsDays: 21,
    partKeepsDays: 4,
    caseOf: 6,
    roles: { ring: "piece", dice: "vegetable", skin: "waste" },
    cuts: { rings: { ring: 36, dice: 35, skin: 26 }, diced: { dice: 75, skin: 23 } },
    steps: { "dice rings": { from: "ring", gives: { dice: 100 } } },
    pieces: { ring: 126 },
  },
  {
    name: "root",
    handling: "plant",
    measure: "whole",
    unit: [430, 720],
    pence: [180, 320],
    keepsDays: 8,
    partKeepsDays: 3,
    roles: { flesh: "vegetable", scrubbed: "vegetable", tops: "leaf", peel: "waste" },
    cuts: { peeled: { flesh: 53, tops: 29, peel: 15 }, scrubbed: { scrubbed: 66, tops: 29, peel: 2 } },
  },
  {
    name: "leafy head",
    handling: "plant",
    measure: "whole",
    unit: [360, 760],
    pence: [190, 360],
    keepsDays: 5,
    partKeepsDays: 2,
    roles: { heart: "vegetable", "outer leaf": "leaf", shreds: "leaf", core: "waste" },
    cuts: { hearts: { heart: 44, "outer leaf": 39, core: 14 }, shredded: { shreds: 81, core: 15 } },
  },
  {
    name: "bird",
    handling: "poultry",
    measure: "whole",
    unit: [1500, 2200],
    pence: [340, 560],
    keepsDays: 4,
    partKeepsDays: 2,
    roles: { breast: "main", leg: "main", "leg meat": "main", wing: "trim", carcass: "waste", bone: "waste" },
    cuts: {
      jointed: { breast: 26, leg: 31, wing: 11, carcass: 29 },
      "legs boned": { breast: 26, "leg meat": 20, wing: 11, carcass: 39 },
    },
    steps: { "pick legs": { from: "leg", gives: { "leg meat": 66, bone: 22 } } },
  },
  {
    name: "fish",
    handling: "fish",
    measure: "whole",
    unit: [800, 2600],
    pence: [700, 1400],
    keepsDays: 3,
    partKeepsDays: 2,
    roles: { fillet: "main", steak: "main", belly: "trim", frame: "waste" },
    cuts: { filleted: { fillet: 47, belly: 9, frame: 39 }, steaks: { steak: 61, belly: 4, frame: 30 } },
  },
  {
    name: "citrus",
    handling: "plant",
    measure: "whole",
    unit: [120, 220],
    pence: [190, 310],
    keepsDays: 20,
    partKeepsDays: 4,
    caseOf: 12,
    roles: { segment: "sharp", juice: "sharp", zest: "trim", hull: "waste" },
    cuts: {
      segments: { segment: 47, juice: 13, zest: 5, hull: 32 },
      juiced: { juice: 39, zest: 6, hull: 53 },
    },
  },
  {
    name: "leaves",
    handling: "plant",
    measure: "loose",
    unit: [1000, 1000],
    pence: [380, 720],
    keepsDays: 4,
    partKeepsDays: 2,
    roles: { leaf: "leaf", stalk: "trim" },
    cuts: { picked: { leaf: 69, stalk: 28 } },
  },
  {
    name: "loaf",
    handling: "plant",
    measure: "whole",
    unit: [640, 900],
    pence: [210, 380],
    keepsDays: 4,
    partKeepsDays: 3,
    roles: { slice: "bread", crust: "trim", crumb: "trim" },
    cuts: { sliced: { slice: 71, crust: 26 }, crumbed: { crumb: 96 } },
    steps: { "crumb crusts": { from: "crust", gives: { crumb: 97 } } },
  },
  {
    name: "stalk",
    handling: "plant",
    measure: "whole",
    unit: [190, 360],
    pence: [150, 290],
    keepsDays: 9,
    partKeepsDays: 3,
    roles: { white: "vegetable", "light green": "vegetable", "green top": "trim", beard: "waste" },
    cuts: {
      "white only": { white: 41, "light green": 25, "green top": 24, beard: 6 },
      "cut long": { "light green": 67, "green top": 24, beard: 6 },
    },
  },
  {
    name: "joint",
    handling: "meat",
    measure: "whole",
    unit: [2400, 4400],
    pence: [650, 1250],
    keepsDays: 6,
    partKeepsDays: 3,
    roles: { loin: "main", "lean trim": "trim", fat: "waste" },
    cuts: {
      trimmed: { loin: 63, "lean trim": 19, fat: 14 },
      "cut whole": { loin: 74, "lean trim": 8, fat: 14 },
    },
  },
];
