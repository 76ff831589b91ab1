const form = document.querySelector("form.yield-test");
const row = form?.querySelector(".missing");
if (row) {
  /** Milligrams of what is typed, as the server reads it: null where it is no weight. */
  const read = (name) => {
    const text = form.elements[name].value.trim();
    if (text === "") return 0;
    return /^\d{1,7}(\.\d{1,3})?$/.test(text) ? Math.round(Number(text) * 1000) : null;
  };
  const parts = [...form.elements].filter(({ name }) => name.startsWith("weight-")).map(({ name }) => name);
  const grams = (milligrams) => `${milligrams / 1000} g`;
  const words = () => {
    const bought = read("apWeight");
    const step = read("scaleStep");
    const weights = [...parts, "loss"].map(read);
    if (bought === null || step === null || weights.includes(null)) return "Digits, with a point";
    const gap = bought - weights.reduce((sum, each) => sum + each, 0);
    const readings = 1 + parts.length + (weights.at(-1) > 0 ? 1 : 0);
    if (2 * Math.abs(gap) > readings * step)
      return gap > 0 ? `${grams(gap)} missing` : `${grams(-gap)} too much`;
    return gap === 0 ? "Closes" : `Closes; the scale explains ${grams(Math.abs(gap))}`;
  };
  const show = () => {
    row.hidden = read("apWeight") === 0;
    row.querySelector("output").textContent = words();
  };
  form.addEventListener("input", show);
  show();
}
