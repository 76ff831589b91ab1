/**
 * Leeks in two forms, for three tarts of 200 g white: invented. Untrimmed, 400 g at 1.00: 200 g white, 160 g green,
 * 40 g root. Trimmed, 210 g at 1.60: 200 g white, 10 g root. Nothing takes the green, so that with k untrimmed and
 * 3 - k trimmed the green of k is wasted:
 *   k = 0:   0 g, 3 x 1.60          = 4.80
 *   k = 1: 160 g, 1.00 + 2 x 1.60   = 4.20
 *   k = 2: 320 g, 2.00 + 1.60       = 3.60
 *   k = 3: 480 g, 3 x 1.00          = 3.00
 * Any plan that buys more has more of both.
 */
export const TWO_LEEKS = `scenario: Two leeks
invented: yes
currency: EUR
services:
  - {name: Lunch, date: 2026-10-08, sitting: lunch}
items:
  leek:
    form: untrimmed
    price: 1.00 / leek
    buy: 0 to 5
    unit_weight: 400 g
    cut: [cleaned]
    breakdowns:
      cleaned: {parts: {white: 200 g, green: 160 g, root: {weight: 40 g, class: inedible}}}
  trimmed leek:
    of: leek
    form: trimmed
    price: 1.60 / leek
    buy: 0 to 5
    unit_weight: 210 g
    cut: [cleaned]
    breakdowns:
      cleaned: {parts: {white: 200 g, root: {weight: 10 g, class: inedible}}}
dishes:
  tart:
    portions: 3
    lines:
      - {amount: 200 g, from: leek white}
`;
