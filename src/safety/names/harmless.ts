/**
 * Names that hold the name of something else ("Brussels sprout", "cherrystone clam"), and common foods that a
 * part may belong to in a blend ("tomato and basil leaf sauce"). No hazard row speaks of them. From memory.
 */
export const HARMLESS =
  "brussels sprout, brussel sprout, sprout top, sprouting broccoli, purple sprouting broccoli, Rosenkohl, chou de bruxelles, flower sprout, " +
  "rhubarb chard, swiss chard, chard, beetroot, beet, spinach, kale, cavolo nero, cabbage, chinese cabbage, lettuce, celtuce, rocket, arugula, endive, chicory, " +
  "radicchio, dandelion, sorrel, purslane, nettle, watercress, parsley, coriander, cilantro, mint, apple mint, lemon balm, lemon thyme, lemon verbena, " +
  "lemon basil, lemon grass, lemongrass, lemon myrtle, lemon sole, peppermint, black pepper, white pepper, peppercorn, sichuan pepper, sansho, kinome, " +
  "pepper dulse, bay, bay leaf, bay laurel, sweet bay, laurus nobilis, curry leaf, vine leaf, grape leaf, grape, raisin, banana, banana leaf, pandan, shiso, beefsteak plant, " +
  "carrot, orange carrot, fennel, dill, turnip, swede, kohlrabi, kohl rabi, cauliflower, leek, spring onion, green onion, scallion, onion sprout, garlic sprout, " +
  "salsify, burdock, lotus, lotus root, water chestnut, chestnut, sweet chestnut, jerusalem artichoke, artichoke, cardoon, okra, chayote, sweetcorn, " +
  "sweet corn, corn salad, orange squash, green curry, salsa verde, green sauce, pea shoot, snow pea, sugar snap, black eyed bean, " +
  "black eyed pea, cowpea, pigeon pea, cocoa bean, coffee bean, vanilla bean, coffee cherry, coffee, jelly bean, bean curd, soybean curd, tofu, soy sauce, soya sauce, soy milk, soya milk, " +
  "soybean oil, soy oil, soybean paste, miso, tempeh, natto, pineapple, rose apple, star apple, wood apple, oak apple, prickly pear, barbados cherry, " +
  "cornelian cherry, surinam cherry, date plum, hog plum, java plum, kakadu plum, natal plum, cherrystone, cherrystone clam, stone fruit, peach palm, strawberry, raspberry, " +
  "blackberry, gooseberry, currant, blackcurrant, redcurrant, blueberry, cranberry, juniper berry, juniper, rosehip, rose hip, melon, watermelon, cantaloupe, kiwi, date, " +
  "elderflower, elder flower, Holunderblüte, fleur de sureau, fior di sambuco, fläderblom, ground elder, ground ivy, ivy gourd, tree onion, " +
  "hyacinth flower, grape hyacinth, lily bulb, water lily, saffron, saffron crocus, crocus, oyster mushroom, lobster mushroom, lion s mane, " +
  "eye of round, beef eye of round, veal eye of round, eye round, rib eye, ribeye, eye fillet, eye roast, eye steak, eye muscle, gingerbread, " +
  "mangosteen, mango ginger, Mangold, sherry, sherry vinegar, apple cider vinegar, cider vinegar, tapioca, tapioca starch, garam, " +
  "wheatgrass, buttermilk, seabream, seabass, candied, caraway, medlar, mulberry, persimmon, pomegranate, dragon fruit, dragonfruit, hazel, " +
  "chestnut flour, poppy seed, sesame, sesame seed, pumpkin seed, pine nut, pepita, chia, hemp seed, caper, caperberry, olive, samphire, seaweed, kelp, nori, " +
  "vegetable oil, shellfish, feijoa, wasabi, black bean sauce, black bean paste, swamp cabbage, sea anemone, wheat germ, wheatgerm, rosebay willowherb, eggnog, snapper, castor sugar, caster sugar, beechnut, Vogelmiere, Kartoffelpuffer, holy basil, toad in the hole, sea buckthorn, seabuckthorn, " +
  "blue honeysuckle, haskap, amanita caesarea, amanite des césars, amanita dei cesari, caesar s mushroom, tamagotake, kuritake, zizania, wild rice, true star anise, chinese star anise, badiane de chine";

/** Words of the kitchen that are close in spelling to a name in the tables and mean nothing here. From memory. */
export const KITCHEN_WORDS =
  "pitted, stoned, seeded, deseeded, unseeded, seedless, pipless, peeled, unpeeled, shelled, boneless, skinless, trimmed, washed, chopped, sliced, " +
  "carton, shelf, potted, pottage, mandolin, bearnaise, bearing, plumage, sealed, sealing, poach, lapin, crouton, darne, roti, holy, area, more, moral, mora, brine, coin, nasi, duro, maze, theme, welk, hong";
