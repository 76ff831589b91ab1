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
01123 | 12 | egg | hen, extra large | separated | shell
01123 | 12 | egg | hen, jumbo | separated | shell
01123 | 12 | egg | hen, large | separated | shell
01123 | 12 | egg | hen, medium | separated | shell
01123 | 12 | egg | hen, small | separated | shell
01138 | 12 | duck egg | whole | shelled whole | shell
01139 | 13 | goose egg | whole | shelled whole | shell
01140 | 8 | quail egg | whole | shelled whole | shell
02044 | 36 | basil | bunch | leaves and stems | stem, trim
02045 | 41 | dill | bunch | fronds and stems | stem, trim
02049 | 32 | thyme | bunch | leaves | woody stem
02063 | 35 | rosemary | bunch | leaves | woody stem
02065 | 59 | mint | spearmint, bunch | leaves and stems | stem, trim
05080 | 43 | chicken | legs, bone in | meat only | skin, fat, leg bones | one point of cutting loss that the record does not count
05125 | 50 | hen | stewing, without giblets | meat, skin and bone | skin, fat, bones | one point of cutting loss that the record does not count
05141 | 66 | duck | whole, with giblets | meat, skin and bone | fat and skin, bones | one point of cutting loss that the record does not count
05148 | 53 | goose | oven-ready | meat, fat and bone | fat and skin, bones | one point of cutting loss that the record does not count
05152 | 36 | guinea fowl | oven-ready | meat only | skin and fat, bones | one point of cutting loss that the record does not count
05154 | 24 | pheasant | oven-ready | meat only | skin, bones | one point of cutting loss that the record does not count
05158 | 24 | quail | oven-ready | meat only | skin, bones | one point of cutting loss that the record does not count
05161 | 35 | pigeon | oven-ready | meat only | skin, bones | one point of cutting loss that the record does not count
05165 | 29 | turkey | whole, with giblets | boned out | bones
05309 | 57 | poussin | oven-ready | meat only | skin, fat, bones | one point of cutting loss that the record does not count
05710 | 25 | turkey | breast, bone in | meat only | skin and fat, breast bone
05732 | 14 | turkey | breast, bone in | boned | breast bone
05734 | 38 | turkey | wings | boned | wing bones
05736 | 33 | turkey | drumsticks | boned | drumstick bones
05742 | 19 | turkey | thighs, bone in | boned | thigh bones
09003 | 10 | apple | eating | cored, skin on | core
09004 | 23 | apple | eating | peeled and cored | peel, core
09021 | 7 | apricot | ripe | stoned | stone
09037 | 26 | avocado | ripe | flesh | stone, skin
09040 | 36 | banana | ripe | peeled | skin
09059 | 22 | breadfruit | mature | peeled and cored | core, skin
09060 | 3 | starfruit | ripe | sliced | trim
09062 | 31 | cherimoya | ripe | flesh | rind, seed
09063 | 10 | cherry | sour, with stalks | stoned | stone, stalk
09070 | 8 | cherry | sweet, with stalks | stoned | stone, stalk
09084 | 2 | redcurrant | on the stalk | stripped | stalk
09111 | 50 | grapefruit | pink or white | segments | peel, membrane and core, seeds
09131 | 42 | grape | slip-skin, on the stem | pulp, skins and seeds | skins, seeds, stem
09132 | 4 | grape | seedless, on the stem | picked | stem
09139 | 22 | guava | ripe | peeled | skin
09144 | 72 | jackfruit | whole, ripe | bulbs and seeds | seed, skin and core
09148 | 24 | kiwi fruit | green | peeled | skin
09149 | 7 | kumquat | whole | sliced and seeded | seeds
09150 | 47 | lemon | unwaxed | segments | peel, seeds | one point of cutting loss that the record does not count
09159 | 16 | lime | unwaxed | segments | peel, seeds
09164 | 40 | lychee | in the shell | shelled | shell, seed
09174 | 35 | loquat | ripe | peeled and seeded | skin, seed
09176 | 29 | mango | ripe | cheeks and trimmings | skin, stone
09181 | 49 | cantaloupe melon | whole | peeled | rind, seeds
09183 | 40 | casaba melon | whole | peeled | rind, seeds
09184 | 54 | honeydew melon | whole | peeled | rind, seeds
09191 | 9 | nectarine | ripe | stoned | stone
09200 | 27 | orange | unwaxed | peeled | peel, seeds
09202 | 32 | orange | navel | peeled | peel, navel
09218 | 26 | mandarin | tangerine | peeled | peel, seeds
09226 | 38 | papaya | ripe | peeled | skin, seeds
09231 | 48 | passion fruit | ripe, purple | pulp | shell
09236 | 4 | peach | ripe | stoned, skin on | stone
09252 | 10 | pear | dessert | cored, skin on | core
09263 | 16 | persimmon | firm | peeled | skin, calyx
09266 | 49 | pineapple | with crown | flesh and core | core, crown, parings | the record's own parts make 50 %
09277 | 35 | plantain | green or ripe | peeled | skin, ends
09279 | 6 | plum | ripe | stoned | stone
09286 | 44 | pomegranate | whole | arils | skin and membrane
09287 | 25 | prickly pear | whole | peeled | skin, seeds
09295 | 44 | pomelo | whole | flesh | peel, membrane, seeds
09296 | 39 | quince | whole | peeled and cored | peel, core
09302 | 4 | raspberry | punnet | picked over | trim
09307 | 25 | rhubarb | stalks with leaves | trimmed | ends, leaf
09316 | 6 | strawberry | with caps | hulled | caps
09322 | 66 | tamarind | pods | pulp | pod, seeds
09326 | 48 | watermelon | whole | flesh and white rind | white rind, skin and seeds
09334 | 43 | feijoa | ripe | flesh | skin
09429 | 42 | pineapple | traditional variety, with crown | flesh and core | core, crown, parings | the record's own parts make 43 %
09433 | 23 | mandarin | clementine | peeled | peel
10010 | 35 | pork leg | whole, bone in, rind on | boned in muscles | rind, bone, fat trim | one point of cutting loss that the record does not count
10036 | 25 | pork loin | centre, bone in, no rind | boned | bone, sinew
10072 | 39 | pork shoulder | bone in, skin on | boned, diced | skin, bone, fat trim | one point of cutting loss that the record does not count
10074 | 22 | pork shoulder | picnic, bone in | boned | bone, sinew
10192 | 37 | pork back ribs | rack | boned | bone, sinew
10218 | 5 | pork tenderloin | untrimmed | trimmed | silver skin
11003 | 6 | amaranth | leaf, bunch | picked | trim
11007 | 60 | artichoke | globe | hearts | leaf, choke, trim | the record counts as edible the flesh that is scraped off the leaves with the teeth
11011 | 47 | asparagus | green, bunch | spears | butt
11024 | 17 | bitter gourd | whole | seeded | seeds and pith, ends | the record names tough stems and leaves, not the seeds and pith that are scraped out
11026 | 71 | bamboo shoot | fresh, in sheath | peeled | sheath, trim
11031 | 56 | lima bean | in the pod | shelled | pod, trim
11052 | 12 | green bean | whole | topped and tailed | ends
11080 | 33 | beet | with part tops | peeled raw | stem, peel, trim
11086 | 44 | beet greens | bunch without roots | leaf and stem | stem, trim
11090 | 39 | broccoli | untrimmed head | florets | stem, leaf, trim
11098 | 10 | Brussels sprout | loose | trimmed | outer leaf, trim
11104 | 25 | burdock | whole root | peeled | peel, ends
11109 | 20 | cabbage | white, untrimmed head | shredded | core, outer leaf, trim
11112 | 20 | cabbage | red, head | shredded | core, outer leaf, trim
11114 | 20 | cabbage | savoy, head | shredded | core, outer leaf, trim
11116 | 12 | pak choi | head | leaf and stalk | base, trim
11119 | 7 | Chinese leaf | head | shredded | outer leaf, base
11122 | 51 | cardoon | bunch | stalks | trim
11124 | 11 | carrot | without tops | peeled | peel, trim
11134 | 16 | cassava | sweet, whole root | peeled | peel
11135 | 61 | cauliflower | untrimmed head | florets | leaf, core, trim
11141 | 14 | celeriac | without leaves | thinly peeled | peel, trim
11143 | 11 | celery | head with leaves | sticks | root end
11145 | 25 | celtuce | with leaves | peeled stem and tip | peel, trim
11147 | 8 | chard | bunch | leaf and stem | trim
11149 | 1 | chayote | whole | skin on | stem end
11151 | 11 | chicory | witloof | leaves | core and base
11157 | 4 | garland chrysanthemum | bunch | leaf and stem | trim
11161 | 43 | collards | bunch | leaf and stem | stem, trim
11165 | 15 | coriander | bunch with roots | leaf, stem and root | root, trim
11167 | 64 | sweetcorn | ear in husk | kernels | husk, cob
11191 | 49 | black-eyed bean | in the pod | shelled | pod
11199 | 5 | yardlong bean | bunch | cut | ends
11203 | 29 | cress | garden, with roots | tops | trim
11205 | 3 | cucumber | whole | sliced, skin on | ends
11206 | 27 | cucumber | whole | peeled | peel, ends
11209 | 19 | aubergine | whole | peeled | peel, cap
11213 | 14 | endive | curly, head | pale heart and green leaves | trim
11215 | 13 | garlic | dry bulb | cloves | skin
11216 | 7 | ginger | fresh root | scraped | peel
11218 | 30 | bottle gourd | whole | peeled | peel, seeds, ends
11226 | 31 | Jerusalem artichoke | tubers | peeled | peel
11233 | 28 | kale | curly, bunch | leaf and stem | stem, trim
11241 | 54 | kohlrabi | with leaves | peeled | leaf, stem, peel, trim
11246 | 56 | leek | untrimmed | whites | green top, trim
11250 | 26 | lettuce | butterhead | leaves | outer leaf, core
11251 | 6 | lettuce | cos, head | leaves | core
11252 | 5 | lettuce | iceberg, head | leaves | core
11253 | 36 | lettuce | green leaf | leaves | outer leaf, core
11254 | 21 | lotus root | whole | peeled | peel, ends
11257 | 20 | lettuce | red leaf | leaves | trim, core
11260 | 3 | mushroom | white or brown, closed | sliced | trim
11265 | 3 | mushroom | portobello | caps and stalks | trim
11270 | 7 | mustard greens | bunch | leaf and stem | base
11276 | 28 | New Zealand spinach | bunch | leaves | trim
11278 | 14 | okra | whole | topped and tailed | crowns and tips
11282 | 10 | onion | dry, brown | peeled | skin and ends
11291 | 4 | spring onion | bunch | white and green | rootlets
11293 | 35 | Welsh onion | bunch with tops | white and green | green top, trim
11294 | 16 | onion | sweet, large | peeled | outer layers, skin and ends
11298 | 15 | parsnip | without tops | peeled | peel, trim
11300 | 6 | mangetout | whole | topped and strung | ends and strings
11304 | 62 | pea | in the pod | shelled | pod, trim
11333 | 18 | pepper | sweet | strips | core and seeds
11352 | 25 | potato | maincrop | peeled | peel, eyes and green skin
11416 | 65 | courgette flower | with stalk | petals | calyx and pistil
11422 | 30 | pumpkin | whole | peeled | seeds, strings, rind, stem end
11427 | 24 | purslane | bunch | picked | trim
11430 | 21 | daikon | with short tops | peeled | leaf, peel
11435 | 15 | swede | whole | peeled | peel
11437 | 13 | salsify | without tops | scraped | scrapings
11450 | 47 | edamame | in the pod | shelled | pod
11457 | 28 | spinach | bunch with roots | leaves | stem, roots
11475 | 2 | patty pan squash | whole | trimmed | stem ends
11477 | 5 | courgette | whole | sliced | ends
11482 | 24 | acorn squash | whole | peeled | seeds, strings, peel, trim
11485 | 16 | butternut squash | whole | peeled | seeds, strings, peel, trim
11489 | 36 | hubbard squash | whole | peeled | seeds, strings, rind, trim
11492 | 29 | spaghetti squash | whole | raw flesh | seeds, strings, rind
11503 | 23 | water spinach | bunch | leaf and tender stem | tough stem
11505 | 6 | sweet potato leaf | bunch | picked | trim
11507 | 28 | sweet potato | whole | peeled | peel, trim
11518 | 14 | taro | corms | peeled | peel
11520 | 40 | taro leaf | bunch | leaf | stem and midrib
11527 | 9 | tomato | green, unripe | cored | core
11529 | 9 | tomato | round | cored | core
11564 | 19 | turnip | without tops | peeled | peel
11568 | 30 | turnip greens | bunch | leaf and stem | stem, trim
11588 | 23 | water chestnut | fresh corms | peeled | peel
11591 | 8 | watercress | bunch | tops and stems | trim
11593 | 29 | wax gourd | whole | peeled | skin, centre, stem end
11601 | 14 | yam | whole | peeled | peel
11603 | 8 | jicama | whole | peeled | peel
11616 | 30 | sorrel | bunch | leaves | stalk
11670 | 27 | chilli | hot, fresh | seeded | seeds and core, stem ends
11677 | 12 | shallot | dry | peeled | skin and ends
11950 | 16 | mushroom | enoki, packet | cut | base
11952 | 9 | radicchio | head | leaves | core
11953 | 13 | courgette | baby | trimmed | ends
11957 | 28 | fennel | bulb with stalks | sliced | stalk, frond, core, trim
11959 | 40 | rocket | bunch with roots | leaves | stem, roots
11963 | 4 | nopal | pads with spines | despined | spines and edge
11965 | 39 | romanesco | untrimmed head | florets | core, leaf, trim
11972 | 35 | lemongrass | bunch | heart and stalk | tough stalk
11974 | 5 | grape leaf | fresh | stemmed | trim
11979 | 8 | jalapeño | fresh | seeded | stems and seeds
11987 | 11 | mushroom | oyster | torn | tough stem
11994 | 12 | Chinese broccoli | bunch | leaf and stem | trim
12097 | 26 | chestnut | in the shell | peeled | shell and skin
12104 | 48 | coconut | mature, husked | water, meat and shell | water, shell, brown skin
13023 | 30 | beef brisket | whole, boneless, untrimmed | trimmed close | fat trim | one point of cutting loss that the record does not count
17104 | 29 | veal loin | bone in | boned | bone
17128 | 22 | veal shoulder | blade, bone in | boned, diced | bone, sinew
17435 | 49 | veal shank | bone in | boned | sinew, bone
23005 | 25 | beef sirloin | bone in, short loin | boned | bone
23128 | 7 | beef short ribs | boneless, untrimmed | trimmed | silver skin
23192 | 14 | beef rib | bone in, three ribs | boned and rolled | bone
23236 | 52 | beef back ribs | bone in | boned | bone
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
