import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { hazardsOf } from "../../src/safety/index.js";
import { first, HAZARDS, ITEM_NAMES, PARTS } from "../support/safety-tables.js";

const kinds = (item: string, part: string): string[] => hazardsOf(item, part).map(({ rule }) => rule.kind);

/** Item and part of every row that says never, in the table's first English name. */
const NEVER = HAZARDS.filter(({ rule }) => rule.kind === "never").flatMap(({ items, parts }) =>
  items.flatMap((item) =>
    (parts === "any" ? ["leaf"] : parts.map((part) => first(PARTS[part]))).map((part) => ({
      item: first(ITEM_NAMES[item]),
      part,
    })),
  ),
);

const IRREGULAR: Record<string, string> = { leaf: "leaves", berry: "berries", cherry: "cherries" };
const ADJECTIVES = ["green", "unripe", "spongy", "frosted", "bitter", "damaged", "mouldy", "cracked"];
const plural = (text: string): string => {
  if (ADJECTIVES.includes(text)) return text;
  const last = text.split(" ").at(-1) ?? "";
  const many =
    IRREGULAR[last] ??
    last.replace(/(?:(ch|sh|x|ss|o)|([^aeiou])y|([^s]))$/, (end) =>
      /(ch|sh|x|ss|o)$/.test(end) ? `${end}es` : end.endsWith("y") ? `${end.slice(0, -1)}ies` : `${end}s`,
    );
  return [...text.split(" ").slice(0, -1), many].join(" ");
};
const accented = (text: string): string =>
  text.replace(/[aeiou]/g, (vowel) => ({ a: "â", e: "é", i: "ï", o: "ó", u: "ü" })[vowel] ?? vowel);
const capitals = (text: string): string => text.toUpperCase();
const title = (text: string): string => text.replace(/\b\p{L}/gu, (letter) => letter.toUpperCase());

describe("a name that must never be eaten", () => {
  it("is found in any number, case, accent, order and joining, with fillers around it", () => {
    const spelling = fc.constantFrom((text: string) => text, capitals, title, accented);
    const number = fc.constantFrom((text: string) => text, plural);
    const order = fc.constantFrom(
      (item: string, part: string) => `${item} ${part}`,
      (item: string, part: string) => `${part} of ${item}`,
      (item: string, part: string) => `${part} of the ${item}`,
      (item: string, part: string) => `${item}, ${part}`,
      // "Vine, tomato" is a tomato sold on the vine.
      (item: string, part: string) => (part.startsWith("vine") ? `${item} ${part}` : `${part}, ${item}`),
      (item: string, part: string) => `${item} (${part})`,
      (item: string, part: string) => `${item} - ${part}`,
      (item: string, part: string) => `${item}_${part}`,
      (item: string, part: string) => `${item}'s ${part}`,
      (item: string, part: string) => `  ${item}\u00a0${part} `,
    );
    const filler = fc.constantFrom(
      "",
      "fresh ",
      "chopped ",
      "young ",
      "organic ",
      "tender ",
      "dried ",
      "2nd grade ",
    );
    const tail = fc.constantFrom(
      "",
      " chopped",
      ", washed",
      " (raw)",
      " puree",
      " for pesto",
      " mix",
      " 500 g",
    );
    fc.assert(
      fc.property(
        fc.constantFrom(...NEVER),
        spelling,
        number,
        number,
        order,
        filler,
        tail,
        ({ item, part }, spell, one, other, arrange, before, after) => {
          const name = spell(`${before}${arrange(one(item), other(part))}${after}`);
          expect(kinds("", name), name).toContain("never");
          expect(kinds(item, name), `${item}: ${name}`).toContain("never");
        },
      ),
      { seed: 20261002, numRuns: 4000 },
    );
  });

  it("is found where item and part are told apart, whatever the part's name repeats", () => {
    for (const { item, part } of NEVER) {
      for (const name of [
        part,
        plural(part),
        `${item} ${part}`,
        capitals(`${item} ${part}`),
        `${part} of ${item}`,
      ])
        expect(kinds(item, name), `${item}: ${name}`).toContain("never");
      expect(kinds(plural(item), part), `${plural(item)}: ${part}`).toContain("never");
    }
  });

  it("is found with a slip of the pen in the item's name", () => {
    const long = NEVER.filter(({ item }) => !item.includes(" ") && item.length >= 7);
    expect(long.length).toBeGreaterThan(20);
    fc.assert(
      fc.property(
        fc.constantFrom(...long),
        fc.nat(),
        fc.constantFrom("drop", "double", "swap", "change"),
        ({ item, part }, place, slip) => {
          const at = 2 + (place % (item.length - 3));
          const [a, b] = [item[at] ?? "", item[at + 1] ?? ""];
          const changed = { drop: b, double: a + a + b, swap: b + a, change: `x${b}` }[slip];
          const name = `${item.slice(0, at)}${changed}${item.slice(at + 2)} ${part}`;
          // A slip that makes "oe" reads as an umlaut.
          fc.pre(!/[aou]e/.test(name) || /[aou]e/.test(item));
          expect(kinds("", name), `${item}: ${name}`).toContain("never");
        },
      ),
      { seed: 7, numRuns: 1500 },
    );
  });

  it("is found with a letter dropped, doubled or swapped in any word of six letters or more of the item's name", () => {
    const through = NEVER.filter(({ item, part }) => item !== part).flatMap(({ item, part }) =>
      item.split(" ").flatMap((word, index, words) =>
        word.length < 6 || words.length > 3
          ? []
          : [...word].flatMap((letter, at) => {
              const [before, after] = [word.slice(0, at), word.slice(at + 1)];
              const swapped = `${before}${after.slice(0, 1)}${letter}${after.slice(1)}`;
              const slips =
                at === 0 ? [] : [`${before}${after}`, `${before}${letter}${letter}${after}`, swapped];
              return slips.map((slip) =>
                [...words.slice(0, index), slip, ...words.slice(index + 1), part].join(" "),
              );
            }),
      ),
    );
    const missed = through.filter((name) => !kinds("", name).includes("never"));
    // What reads as another word of the kitchen: "darne", a steak of fish.
    expect(missed.filter((name) => !name.startsWith("darne "))).toEqual([]);
    expect(through.length).toBeGreaterThan(1000);
  });

  // Names as people write them, from memory; common practice, no source.
  it.each(
    `
    Rhabarberblatt; Rhabarberblätter; Rhabarberblaetter; Blätter vom Rhabarber; Rhabarberblattpulver; feuilles de rhubarbe
    la feuille de la rhubarbe; hojas de ruibarbo; foglia di rabarbaro; folhas do ruibarbo; rabarberblad; blad van rabarber
    rabarberbladeren; rabarberblader; liście rabarbaru; raparperinlehti; rebarborové listy; frunze de rubarbă; листья ревеня
    大黄叶; 大黃葉; Gartenrhabarber Blätter; spinach, leaf of rhubarb; ルバーブの葉; 루바브 잎; rhubarb greens; rhubarb tops; rhubarb foliage; pie plant leaves; rhubarbLeaf; rhubarb leef
    potato eyes; chitted potatoes; sprouted potatoes; green potatoes; potatoes, green; green-skinned potato; potato haulm
    Kartoffelkeime; Kartoffelaugen; grüne Kartoffelschale; Kartoffelkraut; germes de pommes de terre; œil de pomme de terre
    brotes de patata; patatas verdes; papas con brotes; germogli di patate; aardappelspruiten; potatisgroddar; kartoffelspirer
    ростки картофеля; глазки картошки; 土豆芽; 馬鈴薯の芽; ジャガイモの芽; 감자싹; tomato vine; cherry tomato leaves; Tomatenblätter
    feuilles de tomate; hojas de jitomate; foglie di pomodoro; aubergine leaves; brinjal leaf; noyaux d'abricot
    amande d'abricot; apricot kernals; apricot stones; Aprikosenkerne; Marillenkern; huesos de albaricoque; hueso de durazno
    noccioli di albicocca; armelline; caroço de pêssego; Pfirsichkerne; Zwetschgensteine; Kirschkerne; abrikozenpitten; kersenpit
    aprikoskärnor; косточки абрикоса; абрикосовые косточки; 苦杏仁; 桃核; plum stones; sloe pits; damson kernel; cherry pip
    bitter almonds; Bittermandeln; amandes amères; mandorle amare; avocado stone; Avocadokern; noyau d'avocat; hueso de aguacate
    ackee seeds; unripe ackee; lychee stones; litchi seed; Holunderblätter; feuilles de sureau; elder twigs; elderberry stems
    cherry laurel leaves; Kirschlorbeer; laurier-cerise; oleander flowers; Oleanderblüten; laurier rose; lily of the valley
    Maiglöckchen; muguet; Herbstzeitlose; foxglove leaves; Fingerhut; digitale; monkshood; Eisenhut; daffodil bulbs; Narzissen
    hydrangea leaf; rhododendron flowers; Goldregen; yew berries; Eibe; deadly nightshade berries; Tollkirsche; datura seeds
    poison hemlock; water hemlock; Schierling; hemlock water dropwort; death cap; Knollenblätterpilz; Fliegenpilz; мухомор
    false morels; fugu; フグ; puffer fish liver; beef spinal cord; ox brain; Rinderhirn; cervelle de boeuf; mutton eyes
    cassava peel; Maniokschale; bitter cassava; soursop seeds; cherimoya seeds; horse chestnuts; conkers; marrons d'Inde
    ornamental gourd; bitter courgette; asparagus berries; jicama seeds; areca nut; comfrey leaves; pokeweed; giant hogweed
    unripe passion fruit; loquat seeds; crab gills; dead man's fingers of crab; scallop guts; cracked eggs; grass carp gall bladder
  `
      .split(/[;\n]/)
      .map((name) => name.trim())
      .filter((name) => name !== ""),
  )("%s is refused", (name) => {
    expect(kinds("", name)).toContain("never");
  });
});

describe("a name that may be eaten", () => {
  // Plainly food, from memory and from the plant parts that USDA SR28 lists as foods; common practice otherwise.
  it.each(
    `
    rhubarb stalk; rhubarb; rhubarb ends; Rhabarberstange; rhubarb chard leaf; potato; potatoes; potato wedge; peeled potato; new potatoes
    potato starch; baked potato; sweet potato leaf; sweet potato leaves; potato, sweet, leaf; sweet potato sprouts; Süßkartoffelblätter; sweetpotato leaves
    feuilles de patate douce; potato and leek soup; potato and Brussels sprout hash; tomato; cherry tomato; cherry tomatoes, halved
    vine tomatoes; tomatoes on the vine; plum tomato; green tomato; tomato skin; tomato seeds; tomato top; tomato and basil leaf sauce
    aubergine peel; eggplant top; pepper core and seeds; bell pepper top; red pepper strip; peppermint leaf; black pepper; Sichuan pepper
    apricot flesh; dried apricot; pitted cherries; cherry flesh; cherry stem; stoned plums; plum tomato seeds; peach skin; stone fruit
    cherrystone clam; apple core; apple peel; pineapple core; pineapple; apple mint leaf; custard; prickly pear; almonds; ground almonds
    avocado flesh; avocado skin; elderflower; elderflower cordial; Holunderblüten; ground elder; bay leaf; bay laurel leaf; vine leaf
    chilli leaves; castor sugar; caster sugar; holy basil leaves; sea buckthorn berries; toad in the hole; croutons; wild rice; all areas; rinse once more; mustard seeds in brine; carrot coins; nasi goreng; broccoli leaf; broccoli stem; cauliflower leaf; beet greens; turnip greens; pumpkin leaves; pumpkin flower; squash blossom
    cowpea leafy tips; carrot tops; celery leaf; celeriac peel; radish leaves; leek green top; fennel frond; spinach; kale stem; chard stem
    Brussels sprouts; purple sprouting broccoli; pea shoots; courgette; courgette flower; cucumber peel; watermelon rind; melon seeds
    squash seed kernels; grape leaves; strawberry leaf; mango flesh; banana peel; tapioca; olive oil; vegetable oil; sherry vinegar
    beef eye of round; ribeye steak; beef cheek; oxtail; tasso ham; chicken carcass; chicken skin; salmon head; salmon roe; fish frames
    crab claw meat; scallop muscle; squid ink; egg yolk; egg white; eggs; sea anemone; oyster mushroom; shiitake; green lentils
    pumpkin seeds; sunflower seeds; pine nuts; chestnuts; sweet chestnut; water chestnut; wheatgrass; corn cob; corn silk; hyacinth flower bread
  `
      .split(/[;\n]/)
      .map((name) => name.trim())
      .filter((name) => name !== ""),
  )("%s is not refused", (name) => {
    expect(hazardsOf("", name).filter(({ rule }) => rule.kind === "never")).toEqual([]);
  });

  it.each([
    ["potato", "potato"],
    ["potato", "peeled flesh"],
    ["tomato", "tomato flesh"],
    ["apple", "apple core"],
    ["rhubarb", "stalk"],
    ["rhubarb with leaves", "rhubarb with leaves stalk"],
    ["apricots, stone-in", "flesh"],
    ["apricots with stones", "flesh"],
    ["cherry", "pitted flesh"],
    ["beetroot", "beetroot leaf"],
    ["sweet potato", "leaf"],
    ["broccoli", "broccoli leaf"],
    ["cauliflower", "cauliflower leaf"],
    ["avocado", "avocado flesh"],
    ["pumpkin", "pumpkin flesh"],
    ["leek", "leek green top"],
    ["tomato", "tomato and basil sauce"],
    ["carrot", "carrot top"],
    ["egg", "egg yolk"],
    ["chicken", "chicken breast"],
  ])("%s: %s carries no hazard", (item, part) => {
    expect(hazardsOf(item, part)).toEqual([]);
  });

  it("is only warned of where the rule is a caution", () => {
    expect(kinds("potato", "potato peel")).toEqual(["warn"]);
    expect(kinds("mango", "mango peel")).toEqual(["warn"]);
    expect(kinds("lemon", "zest")).toEqual(["warn"]);
  });

  it("is told from its kin in a tin", () => {
    expect(kinds("", "red kidney beans")).toEqual(["only if"]);
    expect(kinds("", "beans, kidney, red")).toEqual(["only if"]);
    expect(kinds("", "canned kidney beans")).toEqual([]);
  });
});
