/** Wild and garden plants and fungi that a hazard row speaks of, with the names people use for them. From memory. */
export const WILD = {
  cherryLaurel:
    "cherry laurel, laurel cherry, english laurel, common laurel, prunus laurocerasus, laurocerasus, Kirschlorbeer, Lorbeerkirsche, laurier cerise, laurier palme, laurocerezo, laurel cerezo, lauroceraso, louro cerejo, laurierkers, lagerhägg, лавровишня",
  laurelLookAlike:
    "mountain laurel, kalmia, spurge laurel, daphne, sheep laurel, japanese laurel, aucuba, laurel of california, oleander, rose laurel, rose bay, rosebay, nerium, Oleander, laurier rose, adelfa, oleandro, loendro, олеандр, 夹竹桃",
  lilyOfTheValley:
    "lily of the valley, lily of valley, convallaria, Maiglöckchen, muguet, lirio de los valles, mughetto, lelietje van dalen, liljekonvalj, konwalia, ландыш, 铃兰, スズラン",
  autumnCrocus:
    "autumn crocus, meadow saffron, naked lady, colchicum, Herbstzeitlose, colchique, colchico, herfsttijloos, tidlösa, zimowit, безвременник, イヌサフラン",
  falseHellebore:
    "false hellebore, veratrum, white hellebore, indian poke, death camas, deathcamas, zigadenus, Germer, vératre, бай чемерица",
  arum: "arum, cuckoo pint, lords and ladies, jack in the pulpit, Aronstab, gouet, calla, calla lily, arum lily, caladium, dieffenbachia, dumb cane, dumbcane, philodendron, peace lily, skunk cabbage",
  giantTaro:
    "alocasia, giant alocasia, giant taro, giant elephant ear, elephant ear, wild taro, wild dasheen, alocasia macrorrhizos, alocasia odora, 海芋, 野芋, クワズイモ, kuwazuimo",
  foxglove:
    "foxglove, digitalis, Fingerhut, digitale, dedalera, vingerhoedskruid, fingerborgsblomma, naparstnica, наперстянка, ジギタリス",
  monkshood:
    "monkshood, wolfsbane, aconite, aconitum, Eisenhut, aconit, acónito, aconito, monnikskap, stormhatt, tojad, аконит, 乌头, 附子, トリカブト, larkspur, delphinium, Rittersporn",
  daffodil:
    "daffodil, narcissus, jonquil, daffodil bulb, Narzisse, Osterglocke, jonquille, narciso, narcis, påsklilja, żonkil, нарцисс, 水仙, スイセン, snowdrop, Schneeglöckchen, bluebell, amaryllis, hyacinth bulb, Hyazinthe, tulip bulb",
  gardenPoison:
    "hydrangea, Hortensie, hortensia, ortensia, 紫陽花, アジサイ, rhododendron, azalea, wisteria, glycine de chine, laburnum, golden chain, golden rain, Goldregen, lantana, hellebore, christmas rose, lenten rose, Christrose, cyclamen, clematis, anemone, pasque flower, adonis, privet, Liguster, snowberry, boxwood, spindle tree, Pfaffenhütchen, holly berry, holly, Stechpalme, ivy, Efeu, lierre, hiedra, edera, mistletoe, Mistel, yew, Eibe, if commun, tejo, taxus, тис, poinsettia, morning glory, lathyrus odoratus, everlasting pea, yellow jessamine, gelsemium, allamanda, angel wing begonia, black locust bark, robinia bark, castor bean, castor oil plant, ricinus, Wunderbaum, rosary pea, jequirity, abrus",
  deadlyNightshade:
    "deadly nightshade, belladonna, atropa, black nightshade, woody nightshade, bittersweet nightshade, henbane, mandrake, mandragora, datura, jimsonweed, jimson weed, thorn apple, thornapple, moonflower, angel s trumpet, angels trumpet, brugmansia, scopolia, Tollkirsche, Stechapfel, Bilsenkraut, Engelstrompete, Nachtschatten, belladone, stramoine, estramonio, beleño, stramonio, giusquiamo, wolfskers, doornappel, белладонна, белена, дурман, 曼陀罗, チョウセンアサガオ, Jerusalem cherry, tree tobacco, nicotiana, tobacco leaf",
  hemlock:
    "hemlock, poison hemlock, water hemlock, cowbane, water dropwort, hemlock water dropwort, oenanthe crocata, conium, cicuta, fools parsley, fool s parsley, aethusa, dead tongue, Schierling, Wasserschierling, cigue, bolnik, szalej, gevlekte scheerling, odört, болиголов, цикута, 毒芹, ドクゼリ",
  giantHogweed:
    "giant hogweed, wild parsnip, heracleum mantegazzianum, Riesenbärenklau, berce du caucase, panace di mantegazza, jättebjörnloka, борщевик",
  bracken:
    "bracken, pteridium, Adlerfarn, fougere aigle, helecho comun, felce aquilina, adelaarsvaren, orlica, орляк, 蕨菜, ワラビ, warabi, gosari, 고사리",
  fiddlehead:
    "fiddlehead, fiddlehead fern, ostrich fern, matteuccia, crosse de fougere, tête de violon, Straußfarn, kogomi, コゴミ",
  pokeweed:
    "pokeweed, poke weed, pokeberry, poke berry, poke root, pokeroot, poke sallet, poke salad, polk salad, phytolacca, Kermesbeere, raisin d amerique, 商陆",
  toxicHerb:
    "comfrey, symphytum, Beinwell, consoude, consuelda, ragwort, senecio, Jakobskreuzkraut, groundsel, coltsfoot, tussilago, Huflattich, tansy, Rainfarn, tanaisie, pennyroyal, Poleiminze, birthwort, aristolochia, Osterluzei, heliotrope, greater celandine, chelidonium, milkweed, spurge, euphorbia, white snakeroot",
  borage: "borage, Borretsch, bourrache, borraja, borragine, bernagie",
  daylily: "daylily, day lily, golden needle, lily flower, hemerocallis, lily bud, 黄花菜, 金针菜",
  wildWatercress: "wild watercress, foraged watercress",
  moonseed: "moonseed, canada moonseed, menispermum, Mondsame, ménisperme",
  rowan:
    "rowan, rowan berry, rowanberry, mountain ash, sorbus aucuparia, Vogelbeere, Eberesche, sorbier des oiseleurs, serbal, rönn, rönnbär, pihlajanmarja, jarzębina, рябина",
  hijiki: "hijiki, hiziki, ヒジキ, ひじき, 羊栖菜",
  deadlyMushroom:
    "death cap, deathcap, amanita phalloides, destroying angel, fly agaric, panther cap, amanita muscaria, funeral bell, galerina, webcap, deadly webcap, fools webcap, cortinarius, lepiota dapperling, brown roll rim, roll rim, paxillus, livid entoloma, fools funnel, ivory funnel, jack o lantern mushroom, angel wing mushroom, Knollenblätterpilz, Fliegenpilz, Pantherpilz, Gifthäubling, amanite phalloide, amanite tue mouches, oronja verde, tignosa, groene knolamaniet, lömsk flugsvamp, muchomor, бледная поганка, мухомор, 毒鹤鹅膏",
  falseMorel:
    "false morel, gyromitra, beefsteak morel, turban fungus, Frühjahrslorchel, Lorchel, gyromitre, bonete, stenmurkla, korvasieni, piestrzenica, строчок",
  morel:
    "morel, true morel, morchella, Morchel, morille, colmenilla, spugnola, morielje, murkla, huhtasieni, smardz, сморчок, 羊肚菌, アミガサタケ",
  shiitake: "shiitake, shitake, lentinula, 香菇, シイタケ, しいたけ, 표고",
  cookOnlyMushroom:
    "honey fungus, honey mushroom, armillaria, wild mushroom, foraged mushroom, foraged fungi, wood blewit, chicken of the woods, blusher, Hallimasch, Waldpilz, armillaire, champignon sauvage, seta silvestre, fungo selvatico, enoki, enokitake, エノキ, 金针菇",
  inkCap: "ink cap, inkcap, inky cap, common ink cap, coprinopsis atramentaria, Faltentintling",
} as const satisfies Record<string, string>;
