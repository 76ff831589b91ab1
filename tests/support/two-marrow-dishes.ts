/** A sound scenario that uses nearly every key of the file: invented. */
export const TWO_MARROW_DISHES = `scenario: Two dishes of one marrow
invented: yes
locale: en-GB
currency: GBP
aim: balanced
waste_price: 4.00 / kg
costing: edible weight
prices_include_tax: no
scale_step: 5 g
waste_counts: {avoidable_peel: 0 %}
vulnerable_diners: yes
units: {cup: metric}
limits: {chilled: 40 kg, hands: 6 h}
services:
  - name: Friday dinner
    date: 2026-10-02
    sitting: dinner
    covers: 61
    overage: 5 %
    hands: 90 min
    courses:
      main: 100 %
      side: {take_up: 90 %, dishes: 1 to 2}
    diets: {vegetarian: 14}
  - {name: Saturday lunch, date: 2026-10-03, sitting: lunch, covers: 40, courses: {main: 50 %}}
items:
  marrow:
    form: untrimmed
    grade: class 1
    supplier: Field & Co
    price: 1.35 / head
    tax: 20 %
    buy: 0 to 40
    deliveries: [2026-10-01, 2026-10-03]
    order_by: Thursday 14:00
    unit_weight: 1400 g
    keeps: 5 days
    on_hand: {amount: 2 head, value: 1.20, use_by: 2026-10-03}
    keep: {use: Monday soup, limit: 1 kg, value: 0.50 / kg}
    treatment: wash in cold running water
    reject_if: soft or cut
    substitute: courgette
    handling: plant
    allergens: [celery]
    cut: [rings, all dice]
    breakdowns:
      rings:
        parts:
          ring: 480 g
          dice: 500 g
          peel: {weight: 400 g, class: inedible}
        pieces: {ring: 4}
        loss: 20 g
        minutes: 3
        how: Cut across in 20 mm rings.
        source: own test
      all dice:
        parts: {dice: 70 %, peel: 28.5 %}
        loss: 1.5 %
  spinach:
    price: 6.20 / bag of 2 kg
    keeps: 3 days
    on_hand:
      - {amount: 1.2 kg, value: 2.00, use_by: 2026-10-02}
      - {amount: 0.5 kg, use_by: 2026-10-04}
    breakdowns:
      picked: {parts: {leaf: 720 g, stem: 280 g}}
parts:
  marrow ring:
    keeps: 2 days
    class: food
    credit: 3.00 / kg
    keep: {use: Monday soup, limit: 500 g, value: 0.40 / kg}
    container: 1/2 tray 65 mm
    on_hand: {weight: 640 g, value: 0.10, use_by: 2026-10-02}
  spinach stem: {class: inedible}
  marrow stock: {keeps: 3 days}
steps:
  dice the rings:
    from: marrow ring
    gives: {marrow dice: 98 %}
    loss: 2 %
  pot of stock:
    from: [marrow peel, spinach stem]
    gives:
      marrow stock: 100 %
      spent trim: {percent: 100 %, class: inedible}
    water: 100 %
    capacity: 4 kg
    minutes_per_kg: 4
    how: Simmer 1 h, strain.
dishes:
  marrow bake:
    course: main
    batch: {portions: 12, halves: yes, vessel: tray}
    ceiling: 0.95
    diets: [vegetarian]
    allergens: [milk]
    keeps: 2 days
    raw_egg: no
    lines:
      - amount: 150 to 170 g
        name: marrow
        from: marrow dice
      - amount: 30 g cooked
        cooking: {method: wilted, yield: 76 %}
        from: [spinach leaf]
    staples:
      olive oil: {amount: 2 metric tbsp, price: 4.00 / L}
      other staples: 0.32
      butter: {amount: 10 g, price: 9.00 / kg, allergens: [milk, butterfat]}
      egg: {amount: 1 each, price: 4.20 / tray of 30}
      dressing: {cost: 0.05, allergens: [mustard]}
    minutes: 25
    method: [Heat the oven to 190 C., Bake.]
    treatments: [boiled]
    cooking: {equipment: oven 190 C, time: 25 min, core: 75 C, portioning: one square}
  grilled rings:
    course: side
    services: [Friday dinner]
    lines:
      - amount: 1 to 2 each
        from:
          marrow ring: {rate: 1, share: 50 to 100 %}
  stock cup:
    portions: 20 to 30
    optional: yes
    lines: [{amount: 200 g, from: marrow stock}]
destinations:
  staff meal: {kind: given away, takes: [food, portions], limit: 3 kg}
  animal feed: {kind: animal feed, local_rules_allow: "County notice 12 of 2025"}
  compost: {kind: waste, limit: 20 kg}
`;
