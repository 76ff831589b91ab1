import { type Hazard, never, onlyIf, warn } from "./types.js";

/** Fungi, and the ergot of grain. */
export const FUNGUS_HAZARDS: readonly Hazard[] = [
  {
    id: "deadly mushrooms",
    items: ["deadlyMushroom"],
    parts: "any",
    hazard: "amatoxins, orellanine, muscimol or muscarine",
    rule: never("Never food."),
    authority: "FDA Bad Bug Book, mushroom toxins, from memory",
    basis: "memory",
  },
  {
    id: "ergot",
    items: ["ergot"],
    parts: "any",
    hazard: "ergot alkaloids",
    rule: never("Never food: sieve and pick it out of grain, and refuse grain that holds it."),
    authority: "EFSA Journal 2012;10(7):2798, from memory",
    basis: "memory",
  },
  {
    id: "false morel",
    items: ["falseMorel"],
    parts: "any",
    hazard: "gyromitrin, which turns to a rocket fuel in the body",
    rule: never("Not served here, parboiled or not."),
    authority: "FDA Bad Bug Book, mushroom toxins, from memory",
    basis: "memory",
  },
  {
    id: "morel",
    items: ["morel"],
    parts: "any",
    hazard: "toxins not fully known, in raw and half-cooked morels",
    rule: onlyIf(
      ["cooked thoroughly"],
      "Cook through; never raw, pickled raw or merely wilted by a hot sauce.",
    ),
    authority: "FDA, Investigation of Illnesses: Morel Mushrooms (2023: 51 ill and 2 dead at one restaurant)",
    basis: "read",
  },
  {
    id: "raw shiitake",
    items: ["shiitake"],
    parts: "any",
    hazard: "lentinan, which raises a whip-like rash when raw",
    rule: warn("Cook through."),
    authority: "BfR (Germany), from memory",
    basis: "memory",
  },
  {
    id: "wild mushrooms and others never eaten raw",
    items: ["cookOnlyMushroom"],
    parts: "any",
    hazard: "toxins that heat destroys, or Listeria (enoki)",
    rule: onlyIf(
      ["cooked thoroughly"],
      "Cook through; wild mushrooms only as identified by an approved expert, Food Code 3-201.16.",
    ),
    authority: "FDA Food Code 3-201.16; CDC on enoki (2020); both from memory",
    basis: "memory",
  },
  {
    id: "ink cap with alcohol",
    items: ["inkCap"],
    parts: "any",
    hazard: "coprine, which poisons with alcohol for days",
    rule: warn("Not with alcohol, nor for three days on either side of it."),
    authority: "FDA Bad Bug Book, mushroom toxins, from memory",
    basis: "memory",
  },
];
