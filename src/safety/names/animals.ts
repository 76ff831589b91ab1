/** Animals and what comes of them that a hazard row speaks of, with the names people use for them. From memory. */
export const ANIMALS = {
  pufferfish:
    "pufferfish, puffer fish, puffer, blowfish, fugu, globefish, swellfish, porcupine fish, Kugelfisch, poisson globe, pez globo, pesce palla, kogelvis, blåsfisk, baiacu, rozdymka, balon balığı, samak al qarrad, qarrad, torafugu, mafugu, рыба фугу, фугу, 河豚, フグ, ふぐ, 복어, tetraodon",
  escolar:
    "escolar, oilfish, oil fish, snake mackerel, ruvettus, lepidocybium, butterfish escolar, Buttermakrele",
  reefFish:
    "barracuda, moray, moray eel, amberjack, red snapper, coral trout, grouper, giant trevally, humphead wrasse, napoleon wrasse, hogfish, king mackerel",
  toxicRoeFish:
    "gar, barbel, cabezon, marinka, garfish roe, alligator gar, longnose gar, spotted gar, garpike, Barbe, Flussbarbe, barbeau, barbo, barbo comune, brzana, barbeel, kaimanvis",
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
    "blue ringed octopus, hapalochlaena, Blauringkrake, poulpe à anneaux bleus, hyōmondako, ヒョウモンダコ, 蓝环章鱼, cone snail, cone shell, horseshoe crab, mangrove horseshoe crab, xanthid crab, toxic reef crab, sea hare, stonefish, sunfish mola",
  beef: "beef, ox, cattle, cow, steer, bullock, heifer, bull, bovine, Rind, bovin, bydło, nötkreatur, Rindfleisch, Ochse, boeuf, vaca, buey, res, ternera añeja, manzo, bovino, rund, rundvlees, nöt, nötkött, okse, wołowina, wołowy, говядина, говяжий, 牛肉, 牛, 소고기",
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
    "polar bear, bearded seal, husky, shark, seal, walrus liver, sled dog, dog, greenland shark, whale, arctic fox, Eisbär, Eisbären, Bartrobbe, Robbe, Schlittenhund, Hai, Haifisch, ours polaire, ours blanc, phoque, requin, oso polar, oso blanco, foca barbuda, tiburon, orso polare, orso bianco, squalo, ijsbeer, baardrob, haai, urso polar, tubarão, niedźwiedź polarny, niedźwiedzia polarnego, rekin, isbjörn, storsäl, haj, kutup ayısı, köpek balığı, hokkyokuguma, 北极熊, 鲨鱼, ホッキョクグマ",
  toxicLiverFish: "ishinagi, aobudai, striped jewfish, stereolepis, scarus ovifrons, イシナギ, アオブダイ",
  poisonAmphibian:
    "toad, cane toad, marine toad, rhinella marina, bufo, newt, rough skinned newt, taricha, fire salamander, poison dart frog, poison arrow frog, dendrobates, Kröte, Aga Kröte, Feuersalamander, Pfeilgiftfrosch, crapaud, crapaud buffle, sapo de caña, sapo cururu, rospo, padde, ropucha, padda, hikigaeru, 蟾蜍, ヒキガエル",
  spanishFly:
    "spanish fly, blister beetle, cantharis, cantharides, lytta vesicatoria, Spanische Fliege, cantharide, mosca española, cantaride, 斑蝥",
  specifiedRiskMaterial:
    "specified risk material, SRM, specified risk materials of cattle, spezifiziertes Risikomaterial, Risikomaterial, matériel à risque spécifié, matériels à risque spécifiés, material especificado de riesgo, materiale specifico a rischio, gespecificeerd risicomateriaal, matéria de risco especificada, material szczególnego ryzyka, specificerat riskmaterial",
  egg: "egg, hen egg, hen s egg, shell egg, chicken egg, duck egg, quail egg, goose egg, Ei, Eier, Hühnerei, oeuf, huevo, uovo, uova, ovo, eieren, ägg, æg, jajko, jajka, яйцо, яйца, 鸡蛋, 卵, たまご",
  honey: "honey, raw honey, honeycomb, Honig, miel, miele, mel, honing, honung, miód, мёд, 蜂蜜, はちみつ",
  rawMilk:
    "raw milk, unpasteurised milk, unpasteurized milk, raw cream, Rohmilch, lait cru, leche cruda, latte crudo, leite cru, rauwe melk, opastöriserad mjölk",
} as const satisfies Record<string, string>;
