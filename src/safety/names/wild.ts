/** Wild and garden plants that a hazard row speaks of, with the names people use for them. From memory. */
export const WILD = {
  cherryLaurel:
    "cherry laurel, laurel cherry, english laurel, common laurel, prunus laurocerasus, laurocerasus, Kirschlorbeer, Lorbeerkirsche, laurier cerise, laurier palme, laurocerezo, laurel cerezo, lauroceraso, louro cerejo, laurierkers, lagerhägg, laurowiśnia, karayemiş yaprağı, лавровишня",
  laurelLookAlike:
    "mountain laurel, kalmia, spurge laurel, daphne, sheep laurel, japanese laurel, aucuba, laurel of california, oleander, rose laurel, rose bay, rosebay, nerium, Oleander, laurier rose, adelfa, oleandro, loendro, espirradeira, zakkum, kyochikuto, kyōchikutō, kaner, difla, олеандр, 夹竹桃",
  lilyOfTheValley:
    "lily of the valley, lily of valley, convallaria, Maiglöckchen, muguet, lirio de los valles, mughetto, lelietje van dalen, liljekonvalj, konwalia, konwalii, lírio do vale, inci çiçeği, suzuran, ландыш, 铃兰, スズラン",
  autumnCrocus:
    "autumn crocus, meadow saffron, naked lady, colchicum, Herbstzeitlose, colchique, colchico, herfsttijloos, tidlösa, zimowit, cólquico, acı çiğdem, inusafuran, inu safuran, безвременник, イヌサフラン",
  falseHellebore:
    "false hellebore, veratrum, white hellebore, indian poke, death camas, deathcamas, zigadenus, Germer, vératre, ciemiężyca, baikeisō, baikeiso, nieswurz weisser, eléboro blanco, veratro, nysrot, бай чемерица",
  arum: "arum, cuckoo pint, lords and ladies, jack in the pulpit, Aronstab, gouet, calla, calla lily, arum lily, caladium, dieffenbachia, dumb cane, dumbcane, comigo ninguém pode, philodendron, peace lily, skunk cabbage",
  giantTaro:
    "alocasia, giant alocasia, giant taro, giant elephant ear, elephant ear, wild taro, wild dasheen, alocasia macrorrhizos, alocasia odora, 海芋, 野芋, クワズイモ, kuwazuimo",
  foxglove:
    "foxglove, digitalis, Fingerhut, digitale, dedalera, vingerhoedskruid, fingerborgsblomma, naparstnica, dedaleira, yüksükotu, jigitarisu, наперстянка, ジギタリス",
  monkshood:
    "monkshood, wolfsbane, aconite, aconitum, Eisenhut, aconit, acónito, aconito, monnikskap, stormhatt, tojad, monk s hood, monks hood, acônito, boğanotu, kurtboğan, torikabuto, bachnag, vatsanabha, аконит, 乌头, 附子, トリカブト, larkspur, delphinium, Rittersporn",
  daffodil:
    "daffodil, narcissus, jonquil, daffodil bulb, Narzisse, Osterglocke, jonquille, narciso, narcis, påsklilja, żonkil, påsklilje, nergis, suisen, нарцисс, 水仙, スイセン, snowdrop, Schneeglöckchen, bluebell, amaryllis, hyacinth bulb, Hyazinthe, tulip bulb",
  gardenPoison:
    "hydrangea, Hortensie, hortensia, ortensia, 紫陽花, アジサイ, rhododendron, azalea, wisteria, glycine de chine, lantana, hellebore, christmas rose, lenten rose, Christrose, cyclamen, clematis, anemone, pasque flower, adonis, privet, Liguster, snowberry, boxwood, spindle tree, Pfaffenhütchen, troène, ligustro, aligustre, holly berry, holly, Stechpalme, houx, acebo, agrifoglio, ivy, Efeu, lierre, hiedra, edera, mistletoe, Mistel, Glyzinie, glicine, glicinia, lathyrus odoratus, sweet pea flower, ornamental sweet pea, poinsettia, morning glory, everlasting pea, allamanda, angel wing begonia",
  deadlyNightshade:
    "deadly nightshade, belladonna, atropa, black nightshade, woody nightshade, bittersweet nightshade, henbane, mandrake, mandragora, datura, jimsonweed, jimson weed, thorn apple, thornapple, moonflower, angel s trumpet, angels trumpet, brugmansia, scopolia, Tollkirsche, Stechapfel, Bilsenkraut, Engelstrompete, Alraune, mandragore, Nachtschatten, belladone, stramoine, estramonio, beleño, stramonio, giusquiamo, wolfskers, doornappel, beladona, trombeteira, floripondio, toloache, bieluń, bieluń dziędzierzawa, spikklubba, şeytan elması, chosen asagao, chōsen asagao, dhatura, wilcza jagoda, pokrzyk wilcza jagoda, güzelavrat otu, hashiridokoro, jusquiame, bilzekruid, lulek czarny, bolmört, banotu, estramónio, белладонна, белена, дурман, 曼陀罗, チョウセンアサガオ, Jerusalem cherry, tree tobacco, nicotiana, tobacco leaf",
  hemlock:
    "hemlock, poison hemlock, water hemlock, cowbane, water dropwort, hemlock water dropwort, oenanthe crocata, conium, cicuta, Safranrebendolde, Hundspetersilie, oenanthe safranée, dead man s fingers root, waterscheerling, dodemansvingers, szczwół plamisty, sprängört, baldıran, dokuzeri, fools parsley, fool s parsley, aethusa, dead tongue, Schierling, Wasserschierling, cigue, bolnik, szalej, gevlekte scheerling, odört, болиголов, цикута, 毒芹, ドクゼリ",
  giantHogweed:
    "giant hogweed, wild parsnip, heracleum mantegazzianum, Riesenbärenklau, berce du caucase, panace di mantegazza, jättebjörnloka, борщевик",
  bracken:
    "bracken, pteridium, Adlerfarn, fougere aigle, helecho comun, felce aquilina, adelaarsvaren, orlica, орляк, 蕨菜, ワラビ, warabi, gosari, 고사리",
  fiddlehead:
    "fiddlehead, fiddlehead fern, ostrich fern, matteuccia, crosse de fougere, tête de violon, Straußfarn, kogomi, コゴミ",
  pokeweed:
    "pokeweed, poke weed, pokeberry, poke berry, poke root, pokeroot, poke sallet, poke salad, polk salad, phytolacca, yoshu yamagobo, Kermesbeere, raisin d amerique, 商陆",
  toxicHerb:
    "comfrey, symphytum, Beinwell, consoude, consuelda, ragwort, senecio, Jakobskreuzkraut, groundsel, coltsfoot, tussilago, Huflattich, tansy, Rainfarn, tanaisie, pennyroyal, Poleiminze, birthwort, aristolochia, Osterluzei, heliotrope, greater celandine, chelidonium, milkweed, spurge, euphorbia, white snakeroot",
  borage: "borage, Borretsch, bourrache, borraja, borragine, bernagie",
  daylily: "daylily, day lily, golden needle, lily flower, hemerocallis, lily bud, 黄花菜, 金针菜",
  wildWatercress: "wild watercress, foraged watercress",
  moonseed: "moonseed, canada moonseed, menispermum, Mondsame, ménisperme",
  rowan:
    "rowan, rowan berry, rowanberry, mountain ash, sorbus aucuparia, Vogelbeere, Eberesche, sorbier des oiseleurs, serbal, rönn, rönnbär, pihlajanmarja, jarzębina, рябина",
  hijiki: "hijiki, hiziki, ヒジキ, ひじき, 羊栖菜",
} as const satisfies Record<string, string>;
