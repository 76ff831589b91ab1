/** Words for parts and cuts that cooks use for what is plainly food. From memory. */
export const FOOD_PARTS =
  "flesh, fruit flesh, pulp, juice, puree, mash, peeled, pitted, stoned, pipless, tuber, whole, half, quarter, wedge, slice, sliced, round, ring, coin, " +
  "dice, diced, cube, brunoise, julienne, baton, batonnet, stick, strip, ribbon, chip, fries, wafer, crisp, chunk, piece, segment, fillet, square, ball, spiral, " +
  "grated, shredded, chopped, trimmed, offcut, cut, end, core, heart, crown, cap, cheek, floret, spear, stalk, stem, rib, petiole, root, bulb, clove, corm, peel, skin, zest, rind, pith, " +
  "leaf, flower, seed, ash, powder, soup, stock, sauce, salad, compote, jam, crumble, gratin, rosti, cooked, boiled, roasted, steamed, baked, fried, raw, frozen, dried, " +
  "top, bottom, side, tip, middle, outside, inside, inner, outer, small, large, loss, gel, water, aril, confit, concasse, fondue, petal, shell, dauphinoise, hash, pave, " +
  "shred, strand, length, scooping, shaving, grating, duxelles, sprig, base, white, shelled, skinned, milk, paste, heel, crumb, crust, " +
  "meat, breast, leg, thigh, drumstick, wing, neck, giblet, shoulder, saddle, loin, shank, belly, flap, chain, joint, block, steak, chop, rasher, lardon, " +
  "bird, fish, tail, claw, tube, tentacle, fin, muscle, lean, fat, suet, yolk, split, crackling, scraping";
