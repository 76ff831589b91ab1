/** Animals and what comes of them that a hazard row speaks of, with the names people use for them. From memory. */
export const ANIMALS = {
  pufferfish:
    "pufferfish, puffer fish, puffer, blowfish, fugu, globefish, swellfish, porcupine fish, Kugelfisch, poisson globe, pez globo, pesce palla, kogelvis, blåsfisk, рыба фугу, фугу, 河豚, フグ, ふぐ, 복어, tetraodon",
  escolar:
    "escolar, oilfish, oil fish, snake mackerel, ruvettus, lepidocybium, butterfish escolar, Buttermakrele",
  reefFish:
    "barracuda, moray, moray eel, amberjack, red snapper, coral trout, grouper, giant trevally, humphead wrasse, napoleon wrasse, hogfish, king mackerel",
  toxicRoeFish:
    "gar, garfish roe, alligator gar, longnose gar, cabezon, barbel, Barbe, marinka, barbeau, barbo",
  gallFish:
    "carp, grass carp, common carp, silver carp, bighead carp, black carp, catla, rohu, Karpfen, carpe, carpa, 草鱼, 鲤鱼",
  lobster:
    "lobster, american lobster, spiny lobster, crayfish, crawfish, Hummer, homard, langouste, bogavante, langosta, astice, aragosta, lagosta, kreeft, омар, 龙虾, ロブスター",
  crab: "crab, brown crab, dungeness crab, blue crab, spider crab, king crab, Krabbe, Taschenkrebs, crabe, tourteau, cangrejo, buey de mar, granchio, caranguejo, krab, krabba, краб, 螃蟹, 蟹, カニ",
  scallop:
    "scallop, king scallop, queen scallop, queenie, Jakobsmuschel, coquille saint jacques, coquille st jacques, noix de saint jacques, vieira, capesante, capasanta, sint jakobsschelp, pilgrimsmussla, гребешок, 扇贝, ホタテ",
  whelk:
    "whelk, red whelk, buccinum, neptunea, Wellhornschnecke, bulot, buccin, caracola, wulk, valthornssnäcka, ツブ貝, つぶ, tsubugai",
  toxicSeaAnimal:
    "blue ringed octopus, cone snail, cone shell, horseshoe crab, mangrove horseshoe crab, xanthid crab, toxic reef crab, sea hare, stonefish, sunfish mola",
  beef: "beef, ox, cattle, cow, steer, bullock, heifer, bull, bovine, Rind, Rindfleisch, Ochse, boeuf, vaca, buey, res, ternera añeja, manzo, bovino, rund, rundvlees, nöt, nötkött, okse, wołowina, wołowy, говядина, говяжий, 牛肉, 牛, 소고기",
  veal: "veal, calf, Kalb, Kalbfleisch, veau, ternera, vitello, vitela, kalf, kalfsvlees, kalv, cielęcina, телятина, 小牛",
  sheep:
    "mutton, sheep, ewe, ram mutton, hogget, goat, nanny goat, Hammel, Schaf, Ziege, mouton, brebis, chevre, oveja, carnero, cabra, montone, pecora, capra, schaap, geit, får, get, баранина, 羊肉, 羊",
  lamb: "lamb, kid, kid goat, Lamm, Zicklein, agneau, chevreau, cordero, cabrito, agnello, capretto, lam, ягнятина",
  pig: "pig, pork, hog, swine, sow, Schwein, Schweinefleisch, porc, cochon, cerdo, puerco, maiale, suino, porco, varken, varkensvlees, fläsk, gris, wieprzowina, свинина, 猪肉, 豚肉",
  poultry:
    "chicken, hen, turkey, duck, goose, guinea fowl, quail, pigeon, poultry, Huhn, Hähnchen, Pute, Ente, Gans, poulet, poule, dinde, canard, oie, pollo, gallina, pavo, pato, ganso, tacchino, anatra, oca, frango, kip, kalkoen, eend, gans, kyckling",
  parasiteGame:
    "bear, bear meat, wild boar, feral pig, walrus, Wildschwein, Bärenfleisch, sanglier, jabali, cinghiale, javali, wild zwijn, vildsvin, кабан, медвежатина",
  polarAnimal:
    "polar bear, bearded seal, seal, walrus liver, husky, sled dog, shark, greenland shark, whale, arctic fox",
  egg: "egg, hen egg, hen s egg, shell egg, chicken egg, duck egg, quail egg, goose egg, Ei, Eier, Hühnerei, oeuf, huevo, uovo, uova, ovo, eieren, ägg, æg, jajko, jajka, яйцо, яйца, 鸡蛋, 卵, たまご",
  honey: "honey, raw honey, honeycomb, Honig, miel, miele, mel, honing, honung, miód, мёд, 蜂蜜, はちみつ",
  rawMilk:
    "raw milk, unpasteurised milk, unpasteurized milk, raw cream, Rohmilch, lait cru, leche cruda, latte crudo, leite cru, rauwe melk, opastöriserad mjölk",
} as const satisfies Record<string, string>;
