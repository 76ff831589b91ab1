/** Words for the parts and states that hazard rows speak of. The first is the one printed. From memory. */
export const PARTS = {
  leaf:
    "leaf, leavs, leef, leeves, leaf blade, leafy, leaflet, blade, foliage, greens, greenery, frond, leafage, Blatt, Blätter, Blattgrün, Blattwerk, Laub, Kraut, feuille, feuillage, fane, hoja, follaje, foglia, foglie, fogliame, folha, " +
    "folhagem, rama, blad, bladen, bladeren, bladet, needle, Nadel, naald, naalden, aiguille, aghi, agulha, igła, igły, barr, patta, patte, waraq, awraq, no ha, bladeneren, loof, blader, lehti, lehdet, lehtiä, liść, liście, liści, list, listy, listí, levél, lišće, frunză, frunze, yaprak, yaprağı, yaprakları, лист, листья, листьев, ботва, ботвы, 叶, 葉, 叶子, 葉っぱ, 잎, φύλλο, φύλλα, daun, dahon",
  top: "top, leafy top, leaf top, head of leaves",
  stem: "stem, stalk, petiole, twig, branch, Stiel, Stängel, Zweig, tige, tallo, rama tierna, ramita, gambo, stelo, caule, talo, steel, tak, stengel, stjälk, stilk, varsi, łodyga, łodygi, stonek, stébla, стебель, стебли, 茎, 줄기, βλαστός",
  vine: "vine, haulm, plant, whole plant, Ranke, Staude, Pflanze, łęty, łęta, plante, planta, pianta, растение, 藤, つる",
  root: "root, rhizome, Wurzel, kłącze, kök, kökü, jad, no ne, racine, raiz, radice, wortel, rot, korzeń, корень, 根",
  bark: "bark, Rinde, ecorce, corteza, corteccia, casca da arvore, schors, kora, кора, 树皮",
  flower:
    "flower, blossom, bloom, petal, bud, Blüte, Blume, Knospe, fleur, flor, fiore, fiori, bloem, bloesem, blomma, kwiat, цветок, цветы, 花",
  berry:
    "berry, seed ball, seedball, fruit ball, fruit, true seed, Beere, Frucht, baie, owoce, owoc, meyve, fruto, frutto, phal, baya, bacca, bacche, baga, bes, bessen, bär, jagoda, jagody, ягода, ягоды, плод, 果",
  sprout:
    "sprout, sprouted, sprouting, shoot, eye, chit, chitted, germ, germinated, sprowt, Augen, Keim, Keimling, Trieb, Auge, germe, pousse, yeux, brote, ojo, germoglio, germogli, occhio, occhi, broto, brotos, rebento, olho, spruit, scheut, uitloper, grodd, spire, øje, öga, itu, idut, kiełek, kiełki, oczko, klíček, klíčky, očko, csíra, klica, germen, filiz, filizi, ankur, bara im, no me, grelo, росток, ростки, глазок, глазки, 芽, 발아, 싹, φύτρα, φύτρο",
  greened:
    "green, greened, greening, green skin, green peel, green part, green patch, green flesh, sun greened, grün, grüne, grünen, grüner, vert, verte, verdi, verde, verdecido, reverdecido, groen, groene, grön, gröna, grønn, grøn, vihreä, zielony, zelený, зелёный, зеленая, зелёная, 绿, 緑, 초록",
  spongy:
    "spongy, shrivelled, shriveled, wrinkled, wizened, shrunken, old and spongy, old and soft, schrumpelig, flétri, arrugado, avvizzito",
  peel: "peel, peeling, skin, rind, paring, zest, jacket, parings, Schale, Haut, pelure, peau, epluchure, zeste, ecorce, piel, cascara, monda, ralladura, buccia, scorza, pelle, casca, pele, raspa, schil, schillen, skal, kuori, skórka, skórki, obierki, slupka, héj, kožica, kabuk, кожура, кожуры, шкурка, 皮, 껍질, φλούδα",
  seed: "seed, pip, core seed, Kern, Kerne, Samen, graine, pepin, semilla, pepita de fruta, pipa, seme, semi, semente, zaad, zaden, pit, pitje, pitten, frö, kärna, kärnor, frø, kjerne, siemen, nasiono, nasiona, pestka, pestki, pitjes, beej, budhur, no tane, semínko, jádro, mag, sjemenka, tohum, çekirdek, семя, семена, семечко, косточка, 籽, 种子, 種, 核, 씨",
  pit: "pit, stone, kernel, kernal, pip, seed, endocarp, Kern, Stein, Fruchtstein, Samen, noyau, noyaux, hueso, carozo, cuesco, semilla, nocciolo, noccioli, osso, seme, armellina, armelline, caroço, semente, pitten, steen, kärna, kärnor, sten, kerne, kivi, siemen, pestka, pestki, pecka, pecky, jadérko, mag, koštica, sâmbure, sâmburi, çekirdek, çekirdeği, beej, no tane, косточка, косточки, ядро, ядра, 核, 仁, 种子, 種, 씨",
  unripe:
    "unripe, immature, underripe, green fruit, unripened, not ripe, unopened, forced open, unreif, unreife, pas mûr, immature, inmaduro, acerbo, acerba, acerbi, imaturo, verde, onrijp, omogen, niedojrzały, незрелый, 未熟, 未熟な",
  husk: "husk, pod, calyx, papery husk, lantern, Kelch, Hülse, calice, caliz, cascarilla",
  shell:
    "shell, shell liquid, nut shell, shell oil, in shell, hull, Nussschale, coque, coquille de noix, guscio, cascara dura",
  sap: "sap, latex, aloin, yellow latex, resin, Saft der Rinde, Milchsaft, lattice, savia, linfa, sève, seiva, 汁液",
  aril: "aril, flesh, arillus, pulp, Arillus, Samenmantel",
  raphe: "raphe, membrane, red membrane, vein, pink membrane, Nabel, membrana",
  water:
    "cooking water, boiling water, water, broth of the peel, Kochwasser, eau de cuisson, agua de coccion, acqua di cottura, kookwater, kokvatten",
  oil: "oil, in oil, infused oil, confit, oil infusion, Öl, huile, aceite, olio, azeite, oleo, olie, olja, масло, 油",
  damaged:
    "damaged, diseased, rotten, decayed, bruised and browned, pink rot, sclerotinia, faul, pourri, podrido, marcio",
  mouldy:
    "mouldy, moldy, mould, mold, mildewed, schimmlig, verschimmelt, moisi, mohoso, ammuffito, beschimmeld, möglig, заплесневелый, 发霉",
  bitter: "bitter, bitter tasting, bitter flesh, amer, amargo, amaro, bittere, gorzki, горький, 苦",
  frosted:
    "frosted, frostbitten, frost bitten, frost damaged, frost hit, frost nipped, frost killed, frosty, erfroren, gelé au champ, gelato dal freddo",
  rawHull: "fleshy coat, fruit flesh, fleshy seed coat, outer flesh, sarcotesta",
  brain:
    "brain, brains, Hirn, Gehirn, cervelle, seso, sesos, cervello, cervella, miolos, hersenen, hjärna, mózg, мозг, 脑, 脳",
  skull: "skull, cranium, Schädel, crane, craneo, cranio, schedel",
  eyeball: "eyeball, eye, Augen, Auge, ojo, occhio, oog, öga",
  spinalCord:
    "spinal cord, spinal marrow, ganglion, dorsal root ganglion, trigeminal ganglion, ganglia, dorsal root ganglia, trigeminal ganglia, rdzeń kręgowy, Rückenmark, moelle epiniere, medula espinal, midollo spinale, ruggenmerg, ryggmärg",
  spine:
    "vertebra, vertebral column, backbone, spine, neck bone, chine, chine bone, Wirbelsäule, colonne vertebrale, columna vertebral",
  tonsil: "tonsil, Mandeln, amygdale, amigdala, tonsille, amandelen, tonsill",
  ileum:
    "ileum, distal ileum, small intestine, Dünndarm, iléon, ileon, ileo, intestino delgado, dunne darm, tunntarm",
  thyroid:
    "thyroid, thyroid gland, larynx, laryngeal muscle, gullet trimming, Schilddrüse, Kehlkopf, thyroide, tiroides, tiroide, schildklier",
  lung: "lung, Lunge, poumon, mou de veau, mou de boeuf, pulmon, bofe, polmone, pulmao, lunga",
  liver:
    "liver, Leber, foie, higado, fegato, figado, lever, wątroba, karaciğer, karaciğeri, kanzo, kimo, no kimo, kabid, kibdat, печень, 肝",
  roe: "roe, roes, milt, soft roe, hard roe, egg, eggs, ovary, gonad, caviar, Rogen, Milch der Fische, laitance, oeufs, huevas, uova, uova di pesce, ransō, no ransō, ovas, kuit, rom, ikra, икра, 卵巢, 白子",
  gill: "gill, dead man s fingers, dead mans fingers, lung feather, sand sac, stomach sac, Kiemen, branchie, branquia, branchia, kieuwen",
  gut: "viscera, gut, guts, entrails, intestine, digestive gland, hepatopancreas, stomach, Eingeweide, Innereien, visceres, visceras, viscere, ingewanden, inälvor, 内脏, 内臓, ウロ",
  gland:
    "salivary gland, gland, fat gland, Speicheldrüse, glande salivaire, glandula, ghiandola salivare, speekselklier",
  gall: "gall, gall bladder, gallbladder, bile, Galle, Gallenblase, vesicule biliaire, fiel, vesicula biliar, cistifellea, gal, galla, желчь, 胆, 胆嚢",
  tomalley:
    "tomalley, liver, hepatopancreas, green meat, mustard of the lobster, kani miso, crab butter, brown meat of lobster, coral and tomalley",
  cracked: "cracked, broken shell, dirty, soiled, leaking, checked, angeschlagen, fêlé, cascado, incrinato",
  eggShell:
    "eggshell, egg shell, shell, shell powder, shell membrane, Eierschale, Schale, coquille, cascara, guscio, casca, eierschaal, äggskal",
  canned:
    "canned, tinned, jarred, can, tin, precooked, pre cooked, ready cooked, Dose, conserve, en lata, in scatola, enlatado, blik, konserv",
  flour: "flour, starch, meal, farina, Mehl, Stärke, farine, fecule, almidon, amido, fecula, meel",
} as const satisfies Record<string, string>;
