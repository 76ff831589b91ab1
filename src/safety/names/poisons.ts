/** Plants grown or gathered that poison, with the names people use for them. From memory. */
export const POISONS = {
  yew: "yew, english yew, taxus baccata, taxus, japanese yew, Eibe, if commun, if à baies, aiguille d if, =if graine, =if feuille, =if baie, =if aiguille, baie d if, tejo, =tasso aghi, =tasso semi, =tasso bacca, =tasso foglia, bacca di tasso, tasso comune, venijnboom, teixo, =cis igły, =cis nasiona, =cis igła, cis pospolity, idegran, idegranen, barrlind, porsuk ağacı, тис, 红豆杉, 紫杉, イチイの種, ichii no tane",
  castor:
    "castor bean, castor oil plant, castor seed, castor, ricinus, ricinus communis, Rizinus, Rizinussamen, Wunderbaum, ricin, ricino, higuerilla, wonderboom, wonderboon, wonderbonen, mamona, rícino, rącznik, ricinfrö, ricinfrön, keneotu, hint yağı tohumu, togoma, tōgoma, arandi, khirwa, клещевина, 蓖麻, 蓖麻子, トウゴマ, caster bean",
  jequirity:
    "jequirity, rosary pea, jequirity bean, crab s eye bean, abrus, abrus precatorius, crab s eye abrus, Paternostererbse, jéquirity, pois rouge abrus, jequiriti, regaliz americano, gunja, gunja seed, ratti beej, ratti seed, chanoti, 相思子, 相思豆, トウアズキ",
  laburnum:
    "laburnum, golden chain tree, golden chain, golden rain, Goldregen, cytise, faux ébénier, maggiociondolo, goudenregen, gouden regen, złotokap, gullregn, sarısalkım, codeso, lluvia de oro, бобовник, 毒豆, キングサリ",
  dwarfElder:
    "dwarf elder, danewort, daneworth, sambucus ebulus, Attich, Zwergholunder, sureau yèble, hièble, yezgo, ebbio, kruidvlier, bez hebd, hebd, sommarfläder",
  bryony:
    "bryony, white bryony, black bryony, bryonia, tamus communis, Zaunrübe, Schmerwurz, bryone, tamier, nueza, brionia, tamaro comune, heggenrank, przestęp, hundrova, переступень",
  mezereon:
    "mezereon, daphne mezereum, february daphne, mezereum, Seidelbast, bois joli, bois gentil, mezereón, fior di stecco, peperboompje, wawrzynek, wawrzynek wilczełyko, tibast, волчник",
  herbParis:
    "=herb paris, paris quadrifolia, truelove herb, Einbeere, parisette, uva de raposa, uva di volpe, czworolist, ormbär, eenbes, вороний глаз",
  baneberry:
    "baneberry, doll s eyes, actaea, white baneberry, red baneberry, Christophskraut, actée, hierba de san cristóbal, actea, christoffelkruid, czerniec, trolldruva, воронец",
  strychnine:
    "strychnine tree, nux vomica, strychnos, poison nut tree, quaker button, strychnine, Brechnuss, Brechnussbaum, noix vomique, nuez vómica, noce vomica, braaknoot, kulczyba, rävkaka, kargabüken, kuchla, kupilu, 马钱子, 番木鳖, マチン",
  purgingCroton:
    "jamalgota, purging croton, croton tiglium, croton tiglium seed, croton seed, Purgierkroton, purgernoot, jamal gota, 巴豆, ハズ",
  calotropis:
    "calotropis, giant milkweed, crown flower calotropis, sodom apple calotropis, aak, madar, =aak doodh, mudar",
  calabarBean:
    "calabar bean, ordeal bean, physostigma, Kalabarbohne, fève de calabar, haba de calabar, fava del calabar",
  sandboxTree:
    "sandbox tree, hura crepitans, possumwood, monkey no climb, sablier élastique, arbol del diablo",
  tungNut:
    "tung nut, tung oil tree, vernicia fordii, =tung seed, tung tree, Tungnuss, noix de toung, 油桐, 桐子, aburagiri",
  chinaberry:
    "chinaberry, bead tree, melia azedarach, persian lilac, Zedrachbaum, margousier, cinamomo fruto, 苦楝, 苦楝子",
  manchineel:
    "manchineel, hippomane, beach apple manchineel, manzanillo de la muerte, mancenillier, manzanillo de playa, Manchinelbaum",
  cerbera:
    "suicide tree, pong pong tree, cerbera odollam, cerbera, pong pong, othalam, pong pong seed, 海芒果, 海檬果",
  yellowOleander:
    "yellow oleander, thevetia, cascabela, be still tree, lucky nut thevetia, peeli kaner, gelber Oleander, laurier jaune, 黄花夹竹桃",
  coriaria: "coriaria, doku utsugi, dokuutsugi, redoul, Gerberstrauch, emborrachacabras, 马桑, ドクウツギ",
  corncockle:
    "corncockle, agrostemma, corn cockle, corncockle seed, Kornrade, nielle des blés, neguilla agrostemma, gittaione, bolderik, kąkol, klätt, куколь",
  darnel:
    "darnel, lolium temulentum, darnel grass, poison ryegrass, Taumellolch, ivraie enivrante, cizaña, dolik, życica roczna, dårrepe, плевел опьяняющий",
  flyHoneysuckle:
    "fly honeysuckle, lonicera xylosteum, tatarian honeysuckle, rote Heckenkirsche, Heckenkirsche, chèvrefeuille des haies, camérisier, rode kamperfoelie, wiciokrzew suchodrzew, skogstry",
  buckthorn:
    "buckthorn, rhamnus cathartica, purging buckthorn, alder buckthorn, frangula alnus, Kreuzdorn, Faulbaum, nerprun, bourdaine, espino cerval, spino cervino, wegedoorn, szakłak, kruszyna, getapel, brakved, крушина",
  poisonIvy:
    "poison ivy, poison oak, poison sumac, toxicodendron, Giftsumach, Giftefeu, sumac vénéneux, herbe à puce, hiedra venenosa, edera velenosa, gifsumak, trujący bluszcz, 毒漆藤",
  gelsemium:
    "yellow jessamine, gelsemium, heartbreak grass, carolina jessamine, gelsemium elegans, carolina jasmine, 断肠草, 钩吻, ゲルセミウム",
  gloryLily:
    "glory lily, gloriosa, flame lily, gloriosa superba, kalihari, Ruhmeskrone, Prachtlilie, 嘉兰, グロリオサ",
  redSquill:
    "red squill, sea squill, drimia maritima, sea onion squill, urginea maritima, Meerzwiebel, scille maritime, cebolla albarrana, scilla marittima, zeeajuin, ada soğanı",
  squirtingCucumber:
    "squirting cucumber, exploding cucumber, ecballium, ecballium elaterium, Spritzgurke, concombre d âne, pepinillo del diablo, cocomero asinino, springkomkommer, tryskawiec, eşek hıyarı",
  blackLocust:
    "black locust, robinia, robinia pseudoacacia, false acacia, Robinie, Scheinakazie, robinier, faux acacia, falsa acacia, robinia akacjowa, witte acacia, 刺槐, ハリエンジュ",
} as const satisfies Record<string, string>;
