/** Fruit, nuts and spices that a hazard row speaks of, with the names people use for them. From memory. */
export const FRUITS = {
  apricot:
    "apricot, Aprikose, Marille, abricot, albaricoque, damasco, chabacano, albicocca, albicocche, alperce, abrikoos, abrikozen, aprikos, abrikos, aprikoosi, morela, moreli, meruňka, sárgabarack, kajsija, caisă, kayısı, anzu, khubani, абрикос, абрикоса, абрикосовая, 杏, 杏子, アンズ, あんず, 살구",
  peach:
    "peach, Pfirsich, peche, melocoton, durazno, pesca, pesche, pessego, perzik, perziken, persika, fersken, persikka, brzoskwinia, brzoskwini, broskev, şeftali, персик, персика, 桃, 桃子, モモ, 복숭아",
  nectarine: "nectarine, Nektarine, nectarina, brugnon, nektarin, нектарин, 油桃",
  plum: "plum, cherry plum, prune, mirabelle, greengage, gage, damson, bullace, sloe, victoria plum, Pflaume, Zwetschge, Zwetsche, Schlehe, ciruela, endrina, susina, prugna, ameixa, pruim, pruimen, plommon, blomme, luumu, śliwka, śliwki, švestka, erik, слива, сливы, алыча, 李, 李子, 梅, スモモ, うめ, 자두, 매실, quetsche, reine claude, prunelle",
  cherry:
    "cherry, sour cherry, sweet cherry, morello, morello cherry, bing cherry, griotte, Kirsche, Kirsch, Süßkirsche, Süßkirsch, Sauerkirsche, Sauerkirsch, cerise, bigarreau, cereza, guinda, ciliegia, ciliegie, amarena, cereja, ginja, kers, kersen, körsbär, kirsebær, kirsikka, wiśnia, wiśni, czereśnia, třešeň, kiraz, вишня, вишни, вишневая, черешня, черешни, 樱桃, サクランボ, 체리",
  bitterAlmond:
    "bitter almond, Bittermandel, bittere Mandel, amande amere, almendra amarga, mandorla amara, mandorle amare, amendoa amarga, bittere amandel, bittermandel, gorzki migdał, gorzkie migdały, bittere Mandeln, bittere amandelen, bitter Mandeln, acı badem, 苦扁桃, горький миндаль",
  almond: "almond, almond tree, Mandel, mandorlo, almendro, amandier",
  apple:
    "apple, cooking apple, crab apple, crabapple, bramley, granny smith, Apfel, Äpfel, pomme, manzana, mela, mele, maça, appel, äpple, æble, eple, omena, jabłko, jabłka, jablko, alma, elma, яблоко, яблока, 苹果, 蘋果, リンゴ, りんご, 사과",
  pear: "pear, nashi, asian pear, Birne, poire, pera, pere, peer, päron, pære, päärynä, gruszka, hruška, körte, armut, груша, груши, 梨, ナシ, 배",
  quince: "quince, Quitte, coing, membrillo, mela cotogna, cotogna, marmelo, kweepeer, kvitten, pigwa, айва",
  loquat:
    "loquat, japanese medlar, nispero, nespola giapponese, nespolo, nespera, neflier du japon, Wollmispel, мушмула, 枇杷, ビワ",
  avocado:
    "avocado, avocado pear, alligator pear, avo, hass, avocat, aguacate, palta, abacate, Avokado, awokado, авокадо, 牛油果, 鳄梨, アボカド, 아보카도",
  ackee: "ackee, akee, achee, aki, blighia, blighia sapida, ackee apple, seso vegetal",
  lychee: "lychee, litchi, lichee, lichi, leechee, Litschi, litchi chinensis, liči, личи, 荔枝, ライチ, 리치",
  longan: "longan, dragon eye fruit, longyan, mata kucing, 龙眼, 龍眼, rambutan, pulasan, 红毛丹",
  mango: "mango, mangue, manga, mangga, aam, mangifera, манго, 芒果, マンゴー, 망고",
  citrus:
    "lemon, lime, orange, blood orange, seville orange, bitter orange, mandarin, clementine, satsuma, tangerine, grapefruit, pomelo, bergamot, yuzu, citron, makrut, makrut lime, kaffir lime, kaffir, kumquat, " +
    "Zitrone, Limette, Orange, Apfelsine, citron, citron vert, pamplemousse, limon, naranja, pomelo, toronja, limone, arancia, arance, pompelmo, limao, laranja, citroen, sinaasappel, limoen, citrus, лимон, апельсин, 柠檬, 橙, 柚子, レモン, ユズ",
  starFruit:
    "star fruit, starfruit, carambola, carambole, Sternfrucht, belimbing, 杨桃, スターフルーツ, bilimbi",
  ginkgo: "ginkgo, gingko, ginkgo nut, ginkgo seed, maidenhair tree nut, ginnan, 白果, 银杏, ギンナン, 은행",
  cashew:
    "cashew, cashew nut, cashew apple, caju, anacardium, Cashew, noix de cajou, anacardo, anacardio, кешью",
  papaya: "papaya, pawpaw, papaw, papaye, lechosa, fruta bomba, mamao, 木瓜, パパイア",
  annona:
    "soursop, sour sop, guanabana, graviola, cherimoya, chirimoya, sugar apple, sweetsop, custard apple, bullock s heart, atemoya, annona, ata, corossol, nona, american pawpaw, asimina, 番荔枝",
  sapote:
    "mamey, mamey sapote, sapote, sapodilla, chikoo, zapote, white sapote, black sapote, naseberry, mammee apple",
  passionFruit:
    "passion fruit, passionfruit, granadilla, maracuja, Passionsfrucht, fruit de la passion, maracuya, frutto della passione, passiflora, 百香果",
  elder:
    "elder, elder tree, elder bush, elderbush, sambucus, Holunder, Holler, sureau, sauco, sambuco, sabugueiro, vlier, fläder, hyld, hyll, selja, dziki bez, czarny bez, bezu czarnego, bez černý, bez czarny, bzu czarnego, mürver, bodza, бузина, бузины, 接骨木, ニワトコ",
  elderberry:
    "elderberry, elder berry, Holunderbeere, Hollerbeere, baie de sureau, baya de sauco, bacca di sambuco, baga de sabugueiro, owoce bzu, vlierbes, vlierbessen, fläderbär, hyldebær, jagody bzu, ягоды бузины",
  nutmeg:
    "nutmeg, mace, Muskatnuss, Muskat, noix de muscade, muscade, nuez moscada, noce moscata, noz moscada, nootmuskaat, muskot, muskotnöt, мускатный орех, 肉豆蔻, ナツメグ",
  japaneseStarAnise:
    "japanese star anise, illicium anisatum, shikimi, badiane du japon, anis estrellado japonés, anice stellato giapponese, bastard star anise, japanischer Sternanis, シキミ",
  tonka: "tonka, tonka bean, tonka nut, Tonkabohne, feve tonka, haba tonka, cumaru, fava tonka",
  sassafras: "sassafras, ague tree",
  calamus: "calamus, acorus calamus, sweet flag, sweet sedge, Kalmus",
  flax: "flaxseed, flax seed, flax, linseed, Leinsamen, graine de lin, linaza, semi di lino, linhaça, lijnzaad, linfrö, 亚麻籽",
  horseChestnut:
    "horse chestnut, buckeye, conker, aesculus, Rosskastanie, marron d inde, marronnier d inde, castaño de indias, castaña de indias, castagna d india, castanha da india, castanheiro da india, kasztanowca, at kestanesi, ippocastano, paardenkastanje, hästkastanj, kasztanowiec, конский каштан",
  acorn: "acorn, oak nut, Eichel, gland de chene, bellota, ghianda, bolota, eikel, ekollon, жёлудь",
  arecaNut: "areca nut, areca, betel nut, supari, pinang, noix d arec, nuez de areca, 槟榔, buah pinang",
  aloe: "aloe, aloe vera, sabila, babosa, 芦荟, アロエ",
  monstera: "monstera, swiss cheese plant, ceriman, mexican breadfruit, monstera deliciosa",
  mayApple: "may apple, mayapple, american mandrake, podophyllum",
  jackfruit:
    "jackfruit, jack fruit, kathal, nangka, langka, artocarpus heterophyllus, jaca, Jackfrucht, jacquier, 菠萝蜜, 波羅蜜",
  durian: "durian, durio, Zibetfrucht, 榴莲, 榴槤, ドリアン",
} as const satisfies Record<string, string>;
