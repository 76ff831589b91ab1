/**
 * Vegetables, roots and pulses that a hazard row speaks of, with the names people use for them: spellings,
 * other languages, cases. From memory.
 */
export const VEGETABLES = {
  rhubarb:
    "rhubarb, pie plant, pieplant, garden rhubarb, forced rhubarb, champagne rhubarb, rheum, rheum rhabarbarum, Rhabarber, " +
    "rhubarbe, ruibarbo, rabarbaro, rabarbari, rabarber, rabarbra, rebarbora, rebarbory, rebarborový, rebarborové, rabarbar, rabarbaru, rabarbara, raparperi, " +
    "raparperin, rebarbara, rubarbă, rhebarbora, revent, ravent, rewand, rawand, rubabu, ревень, ревеня, 大黄, 大黃, 食用大黄, ルバーブ, 루바브",
  potato:
    "potato, potatoe, spud, tater, tattie, new potato, seed potato, baking potato, jacket potato, white potato, irish potato, " +
    "maris piper, king edward, yukon gold, russet potato, fingerling, solanum tuberosum, Kartoffel, Erdapfel, Erdäpfel, Speisekartoffel, " +
    "Frühkartoffel, Pellkartoffel, pomme de terre, patate, papa, patata, batata inglesa, batatinha, aardappel, aardappelen, pieper, " +
    "potatis, potatisen, kartoffel, potet, peruna, perunan, ziemniak, ziemniaka, ziemniaki, ziemniaczane, ziemniaczany, ziemniaczana, batatis, jagaimo, kartofel, brambor, brambory, bramboru, " +
    "burgonya, krumpli, krumpir, krompir, cartof, cartofi, patates, картофель, картофеля, картошка, картошки, картоплi, 土豆, 马铃薯, 馬鈴薯, " +
    "洋芋, ジャガイモ, じゃがいも, 감자, aloo, alu, πατάτα, πατάτας",
  tomato:
    "tomato, tomatoe, cherry tomato, plum tomato, pear tomato, grape tomato, beef tomato, beefsteak tomato, green tomato, " +
    "=vine tomato, =vine ripened tomato, =tomato on vine, =tomato on the vine, heirloom tomato, roma tomato, love apple, " +
    "solanum lycopersicum, lycopersicon, Tomate, Paradeiser, Kirschtomate, Strauchtomate, Fleischtomate, tomate, tomate cerise, jitomate, " +
    "pomodoro, pomodori, pomodorino, tomaat, tomaten, tomat, tomaatti, tomaatin, pomidor, pomidora, pomidory, rajče, paradicsom, rajčica, " +
    "paradajz, roșie, roșii, domates, domatesi, помидор, помидора, томат, томата, 番茄, 西红柿, トマト, 토마토, ντομάτα, ντομάτας, tamatar",
  aubergine:
    "aubergine, eggplant, egg plant, brinjal, baingan, melongene, garden egg, guinea squash, solanum melongena, Eierfrucht, Melanzani, " +
    "berenjena, melanzana, melanzane, beringela, berinjela, bakłażan, lilek, padlizsán, patlıcan, munakoiso, баклажан, баклажана, 茄子, ナス, なす, 가지, μελιτζάνα",
  pepper:
    "pepper, bell pepper, sweet pepper, red pepper, green pepper, yellow pepper, orange pepper, chilli, chili, chile, chilli pepper, " +
    "cherry pepper, cayenne, jalapeno, habanero, scotch bonnet, poblano, padron, capsicum, pimiento, pimento, pimentão, pimenta malagueta, " +
    "Paprika, Paprikaschote, Peperoni, Chili, poivron, piment, guindilla, peperone, peperoncino, paprik, papryka, papryki, paprikan, biber, " +
    "перец, перца, 辣椒, 甜椒, 青椒, ピーマン, トウガラシ, 고추, 피망",
  tomatillo:
    "tomatillo, husk tomato, tomate verde, tomate de cascara, miltomate, physalis ixocarpa, physalis philadelphica",
  capeGooseberry:
    "cape gooseberry, physalis, ground cherry, golden berry, goldenberry, winter cherry, inca berry, uchuva, Kapstachelbeere, Judenkirsche, groundcherry",
  parsnip:
    "parsnip, pastinaca, Pastinake, Pastinak, panais, chirivia, pastinaca sativa, pastinaak, palsternacka, pasternak, пастернак, palsternakka",
  celery:
    "celery, celery stalk, Staudensellerie, Stangensellerie, Bleichsellerie, celeri branche, apio, sedano, aipo, bleekselderij, selderij",
  celeriac:
    "celeriac, celery root, turnip rooted celery, Knollensellerie, Sellerie, celeri rave, apionabo, sedano rapa, knolselderij, rotselleri",
  courgette:
    "courgette, zucchini, Zucchini, calabacin, zucchina, zucchine, abobrinha, baby marrow, marrow, cukinia, кабачок",
  squash:
    "squash, summer squash, winter squash, butternut squash, butternut, acorn squash, winter acorn squash, hubbard, kabocha, pumpkin, patty pan, pattypan, gourd, " +
    "bottle gourd, Kürbis, courge, potiron, potimarron, calabaza, zucca, abobora, pompoen, pumpa, dynia, тыква, 南瓜, 葫芦",
  ornamentalGourd: "ornamental gourd, decorative gourd, ornamental pumpkin, Zierkürbis, coloquinte",
  cucumber:
    "cucumber, gherkin, lemon cucumber, apple cucumber, Gurke, concombre, pepino, cetriolo, komkommer, gurka, ogórek, огурец, 黄瓜, キュウリ",
  bitterGourd: "bitter gourd, bitter melon, balsam pear, karela, goya, ampalaya, 苦瓜, ゴーヤ",
  asparagus:
    "asparagus, Spargel, asperge, esparrago, asparago, asparagi, aspargo, asperges, sparris, szparag, спаржа",
  sweetPotato:
    "sweet potato, sweetpotato, orange sweet potato, Süßkartoffel, patate douce, batata, boniato, camote, batata doce, patata dolce, patata americana, " +
    "zoete aardappel, bataat, sötpotatis, bataatti, batat, batata dulce, papa dulce, kumara, kamote, kumala, батат, 红薯, 番薯, 地瓜, サツマイモ, さつまいも, 고구마",
  buckwheat:
    "buckwheat, Buchweizen, sarrasin, blé noir, alforfon, trigo sarraceno, grano saraceno, boekweit, bovete",
  garlic:
    "garlic, garlic clove, Knoblauch, ail, ajo, aglio, alho, knoflook, vitlök, czosnek, чеснок, 大蒜, ニンニク",
  mushroom:
    "mushroom, button mushroom, chestnut mushroom, portobello, champignon, Pilz, champignon de Paris, seta, fungo, funghi, cogumelo, paddenstoel, svamp, гриб, 蘑菇",
  aromaticTrim:
    "herb, basil, thyme, rosemary, oregano, sage, tarragon, chive, shallot, onion, vegetable, vegetable trim, ginger, sun dried tomato, wild garlic, ramson",
  cassava:
    "cassava, sweet cassava, manioc, mandioca, yuca, macaxeira, aipim, manihot, manihot esculenta, Maniok, manioca, maniok, singkong, kamoteng kahoy, " +
    "маниок, 木薯, キャッサバ, 카사바",
  bitterCassava:
    "bitter cassava, bitter manioc, wild cassava, yuca amarga, yuca brava, mandioca brava, manioc amer, bitter yuca",
  bambooShoot:
    "bamboo shoot, bamboo, Bambussprossen, Bambus, pousse de bambou, brote de bambu, germoglio di bambu, bamboe, bamboescheut, rebung, takenoko, 竹笋, 笋, タケノコ, たけのこ, 죽순",
  taro: "taro, dasheen, eddo, eddoe, cocoyam, kalo, malanga, yautia, colocasia, colocasia esculenta, arbi, arvi, gabi, satoimo, inhame coco, 芋头, 芋頭, サトイモ, 토란",
  yam: "yam, white yam, yellow yam, water yam, purple yam, ube, dioscorea, air potato, igname, ñame, Yamswurzel, inhame",
  jicama: "jicama, yam bean, mexican turnip, sengkuang, bengkoang, singkamas, pachyrhizus",
  konjac: "konjac, konjak, konnyaku, elephant yam, elephant foot yam, suran, amorphophallus",
  cycad: "cycad, cycas, sago palm, king sago, zamia, coontie, cycad nut, cycad seed",
  sorghum: "sorghum, great millet, jowar, durra, Sorghumhirse, sorgho, sorgo",
  chaya: "chaya, tree spinach, cnidoscolus",
  kidneyBean:
    "kidney bean, red kidney bean, white kidney bean, cannellini, cannellini bean, rajma, Kidneybohne, Kidneybohnen, haricot rouge, " +
    "judia roja, frijol rojo, frijol colorado, habichuela roja, alubia roja, fagiolo rosso, fagioli rossi, cannellino, feijao vermelho, kidneyboon, rode kidneyboon, kidneyböna, 红腰豆, 紅腰豆, 金時豆",
  dryBean:
    "dry bean, dried bean, navy bean, haricot bean, white bean, pinto bean, pinto, black bean, black turtle bean, turtle bean, borlotti, borlotti bean, " +
    "cranberry bean, great northern bean, flageolet, pea bean, tepary bean, pink bean, yellow eye bean, phaseolus, phaseolus bean, weisse Bohne, " +
    "haricot blanc, haricot sec, haricot noir, judia, alubia, alubia blanca, frijol, frijol negro, frijoles, poroto, feijao, feijao preto, fagiolo, fagiolo bianco, fagioli borlotti, witte boon, bruine boon, 白芸豆, いんげん豆",
  greenBean:
    "green bean, runner bean, scarlet runner bean, french bean, string bean, snap bean, wax bean, fine bean, bobby bean, romano bean, haricot vert, " +
    "grüne Bohne, Gartenbohne, Stangenbohne, Buschbohne, Brechbohne, judia verde, ejote, vagem, vainita, fagiolino, fagiolini, feijao verde, sperzieboon, haricotvert, fasolka szparagowa, стручковая фасоль, 四季豆, 豆角, さやいんげん",
  limaBean:
    "lima bean, butter bean, butterbean, madagascar bean, sieva bean, phaseolus lunatus, Limabohne, Mondbohne, haricot de lima, garrofon, pallar, judion, fagiolo di lima, feijao manteiga, limaboon",
  lupin:
    "lupin, lupine, lupin bean, lupini, lupini bean, tremoco, altramuz, chocho, tarwi, Lupine, lupino, lupinus",
  soybean: "soybean, soya bean, soy bean, edamame, Sojabohne, graine de soja, sojaboon, 大豆, 黄豆, 枝豆",
  broadBean:
    "broad bean, fava, fava bean, faba bean, field bean, horse bean, vicia faba, dicke Bohne, Ackerbohne, Saubohne, feve, haba, tuinboon, bondböna, боб, 蚕豆, ソラマメ",
  hyacinthBean:
    "hyacinth bean, lablab, lablab bean, dolichos bean, indian bean, bonavist bean, egyptian bean, 扁豆, フジマメ",
  jackBean: "jack bean, jackbean, sword bean, canavalia, 刀豆",
  velvetBean: "velvet bean, mucuna, cowhage, mucuna pruriens",
  grassPea:
    "grass pea, chickling vetch, chickling pea, khesari, khesari dal, almorta, cicerchia, lathyrus sativus, indian pea",
  podSeed:
    "alfalfa, lucerne, mung, mung bean, clover, radish, daikon, broccoli, lentil, chickpea, fenugreek, mustard, cress, sunflower, bean, pea, adzuki, wheat, quinoa, Mungobohne, Luzerne",
  grainOrNut:
    "peanut, groundnut, monkey nut, maize, corn, walnut, hazelnut, pecan, brazil nut, pistachio, almond, sweet almond, barley, rye, wheat berry, rice, oat, cashew nut, fig, dried fig",
} as const satisfies Record<string, string>;
