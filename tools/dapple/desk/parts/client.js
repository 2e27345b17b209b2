// The frame only, with a slider for each fixture: for whoever stands behind you.

function makeClient(changer) {
  const place = element("client-sliders");
  const sliders = new Map(); // by address
  let shownFor = "";

  function makeRow(table, key) {
    const address = `${table.address}.${key}`;
    const [words, unit] = wordsOf(key);
    const [low, high, step] = kSlides[key];
    const output = make("output", {});
    const input = make("input", { type: "range", min: low, max: high, step, "aria-label": `${table.name}, ${words}` });
    let gesture = changer.newGesture();
    const tell = () => {
      output.textContent = key === "dimmer" ? `${Math.round(100 * input.value)} %` : `${input.value} ${unit}`;
      input.setAttribute("aria-valuetext", output.textContent);
    };
    const send = (isMoving) => {
      tell();
      changer.change([{ address, value: asFloat(Number(input.value)) }], gesture, isMoving);
      if (!isMoving) gesture = changer.newGesture();
    };
    input.addEventListener("input", () => send(true));
    input.addEventListener("change", () => send(false));
    sliders.set(address, { input, tell, key });
    return make("label", { class: "slide" }, make("span", {}, `${table.name || "fixture"}, ${words}`), input, output);
  }

  // An LED has a colour of its own.
  const allOf = (table) => ({ ...unwritten(table), ...table.keys });
  const keysOf = (table) => ["dimmer", ...(typeof allOf(table).cct_k === "number" && allOf(table).source === "led" ? ["cct_k"] : [])];

  return {
    show(tables) {
      const fixtures = tables.filter((table) => table.kind === "fixture");
      const identity = fixtures.map((table) => `${table.address}:${keysOf(table)}`).join("|");
      if (identity !== shownFor) {
        sliders.clear();
        place.replaceChildren(...fixtures.map((table) => make("div", { role: "group", "aria-label": table.name || "fixture" }, ...keysOf(table).map((key) => makeRow(table, key)))));
        shownFor = identity;
      }
      for (const table of fixtures) {
        for (const key of keysOf(table)) {
          const slider = sliders.get(`${table.address}.${key}`);
          if (changer.isMoving()) continue;
          const value = allOf(table)[key] ?? 1;
          slider.input.disabled = typeof value !== "number";
          slider.input.value = typeof value === "number" ? value : 1;
          slider.tell();
        }
      }
    },
  };
}
