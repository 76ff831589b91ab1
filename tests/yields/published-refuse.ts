/**
 * Refuse in percent of the weight bought, as published in the USDA National Nutrient Database for Standard
 * Reference, release 28 (FOOD_DES, Refuse and Ref_desc), each with its NDB number; beside it, the breakdown of
 * ours that cuts the same way and those of its parts that the record's description counts as refuse.
 */
export interface PublishedRefuse {
  readonly ndb: string;
  readonly percent: number;
  readonly item: string;
  readonly form: string;
  readonly breakdown: string;
  readonly refuseParts: readonly string[];
  /** Why our parts do not meet the figure; absent where they do. */
  readonly because?: string;
}

const RECORDS = `
11090 | 39 | broccoli | untrimmed head | florets | stem, leaf, trim
11965 | 39 | romanesco | untrimmed head | florets | core, leaf, trim
11135 | 61 | cauliflower | untrimmed head | florets | leaf, core, trim
11109 | 20 | cabbage | white, untrimmed head | shredded | core, outer leaf, trim
11112 | 20 | cabbage | red, head | shredded | core, outer leaf, trim
11241 | 54 | kohlrabi | with leaves | peeled | leaf, stem, peel, trim
11124 | 11 | carrot | without tops | peeled | peel, trim
11080 | 33 | beet | with part tops | peeled raw | stem, peel, trim
11564 | 19 | turnip | without tops | peeled | peel
11141 | 14 | celeriac | without leaves | thinly peeled | peel, trim
11352 | 25 | potato | maincrop | peeled | peel, eyes and green skin
11282 | 10 | onion | dry, brown | peeled | skin and ends
11246 | 56 | leek | untrimmed | whites | green top, trim
11143 | 11 | celery | head with leaves | sticks | root end
11957 | 28 | fennel | bulb with stalks | sliced | stalk, frond, core, trim
11011 | 47 | asparagus | green, bunch | spears | butt
11007 | 60 | artichoke | globe | hearts | leaf, choke, trim | the record counts as edible the flesh that is scraped off the leaves with the teeth
11422 | 30 | pumpkin | whole | peeled | seeds, strings, rind, stem end
11485 | 16 | butternut squash | whole | peeled | seeds, strings, peel, trim
11482 | 24 | acorn squash | whole | peeled | seeds, strings, peel, trim
11477 | 5 | courgette | whole | sliced | ends
11209 | 19 | aubergine | whole | peeled | peel, cap
11529 | 9 | tomato | round | cored | core
11333 | 18 | pepper | sweet | strips | core and seeds
11167 | 64 | sweetcorn | ear in husk | kernels | husk, cob
11304 | 62 | pea | in the pod | shelled | pod, trim
11052 | 12 | green bean | whole | topped and tailed | ends
11147 | 8 | chard | bunch | leaf and stem | trim
11457 | 28 | spinach | bunch with roots | leaves | stem, roots
11591 | 8 | watercress | bunch | tops and stems | trim
11165 | 15 | coriander | bunch with roots | leaf, stem and root | root, trim
09003 | 10 | apple | eating | cored, skin on | core
09004 | 23 | apple | eating | peeled and cored | peel, core
09252 | 10 | pear | dessert | cored, skin on | core
09150 | 47 | lemon | unwaxed | segments | peel, seeds | one point of cutting loss that the record does not count
09200 | 27 | orange | unwaxed | peeled | peel, seeds
09266 | 49 | pineapple | with crown | flesh and core | core, crown, parings | the record's own parts make 50 %
09181 | 49 | cantaloupe melon | whole | peeled | rind, seeds
09326 | 48 | watermelon | whole | flesh and white rind | white rind, skin and seeds
09316 | 6 | strawberry | with caps | hulled | caps
09307 | 25 | rhubarb | stalks with leaves | trimmed | ends, leaf
05141 | 66 | duck | whole, with giblets | meat, skin and bone | fat and skin, bones | one point of cutting loss that the record does not count
05165 | 29 | turkey | whole, with giblets | boned out | bones
10072 | 39 | pork shoulder | bone in, skin on | boned, diced | skin, bone, fat trim | one point of cutting loss that the record does not count
23192 | 14 | beef rib | bone in, three ribs | boned and rolled | bone
01123 | 12 | egg | hen, large | shelled whole | shell
01123 | 12 | egg | hen, medium | separated | shell
`;

export const PUBLISHED_REFUSE: readonly PublishedRefuse[] = RECORDS.trim()
  .split("\n")
  .map((line) => {
    const [ndb = "", percent = "", item = "", form = "", breakdown = "", parts = "", because] = line
      .split("|")
      .map((cell) => cell.trim());
    const record = { ndb, percent: Number(percent), item, form, breakdown, refuseParts: parts.split(", ") };
    return because === undefined ? record : { ...record, because };
  });
