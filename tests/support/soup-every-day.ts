/** Invented. One dish day after day for so many days, of heads that come fresh every day and keep for some. */
export function soupEveryDay(days: number): string {
  const each = Array.from({ length: days }, (_, day) =>
    new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10),
  );
  return `scenario: Soup every day
currency: EUR
services:
${each.map((date, day) => `  - {name: L${day}, date: ${date}}`).join("\n")}
items:
  broccoli: {form: untrimmed head, price: 1.10 / head, deliveries: [${each.join(", ")}]}
dishes:
  soup:
    portions: 8
    lines: [{amount: 100 g, from: [broccoli floret, broccoli stem]}]
    services: [${each.map((_, day) => `L${day}`).join(", ")}]
`;
}
