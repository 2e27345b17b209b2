// What of the light is wished for at a place: up to three rows of "so that WHERE has MORE of WHAT".

const kWanted = {
  region: [["texture", "texture, in stops"], ["patches", "patch size, in cm"], ["cover", "cover, as a share"], ["brightness", "brightness, in cd/m²"], ["burnt", "white, as a share"], ["deep shadow", "deep shadow, as a share"]],
  meter: [["stops", "stops over the camera's setting"], ["lux", "light, in lx"]],
  figure: [["key:fill", "key to fill, to 1"], ["lit:shadow", "lit to shadow side, to 1"]],
  frame: [["burnt", "white, as a share"], ["deep shadow", "deep shadow, as a share"]],
};
const kMostWishes = 3;
const kUsualNumbers = { texture: 0.5, patches: 5, cover: 0.5, brightness: 20, burnt: 0, "deep shadow": 0.1, stops: 0, lux: 300, "key:fill": 4, "lit:shadow": 4 };

// { value, words, name, kind } of all in the set that can be measured.
function measuredPlaces(tables) {
  const order = ["region", "meter", "surface"];
  const named = tables.filter((table) => table.name && order.includes(table.kind));
  const isTaken = (table) => table.kind === "surface" && named.some((other) => other !== table && other.name === table.name);
  named.sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
  const places = named.filter((table) => !isTaken(table))
    .map((table) => ({ name: table.name, words: `${table.name} (${kindWord(table.kind)})`, kind: table.kind === "meter" ? "meter" : "region" }));
  if (tables.some((table) => table.kind === "stand_in")) {
    places.push({ name: "", words: "the figure", kind: "figure" });
    places.push({ name: "lit side", words: "the figure's lit side", kind: "region" }, { name: "shadow side", words: "the figure's shadow side", kind: "region" });
  }
  return [...places, { name: "frame", words: "the whole frame", kind: "frame" }];
}

function makeWishes(place) {
  const rows = [];
  let places = [];
  const more = make("button", { type: "button" }, "and …");
  more.addEventListener("click", add);

  function fill(row) {
    const before = row.where.value;
    row.where.replaceChildren(...places.map((one) => new Option(one.words, `${one.kind}/${one.name}`, false, `${one.kind}/${one.name}` === before)));
    fillWhat(row);
  }
  function fillWhat(row) {
    const [kind] = row.where.value.split("/");
    if (row.what.dataset.kind !== kind) {
      row.what.dataset.kind = kind;
      row.what.replaceChildren(...(kWanted[kind] || []).map(([key, words]) => new Option(words, key)));
      if (kind === "figure") row.how.value = "about";
      fillNumber(row);
    }
  }
  function fillNumber(row) {
    row.about.hidden = row.how.value !== "about";
    row.about.value = kUsualNumbers[row.what.value] ?? 1;
  }
  function add() {
    const select = (label) => make("select", { "aria-label": label });
    const row = { where: select("Where the light is judged"), how: select("More, less or about"), about: numberInput(1, "any", "About how much", "", () => {}), what: select("What of the light") };
    row.how.append(new Option("more", "more"), new Option("less", "less"), new Option("about", "about"));
    row.where.addEventListener("change", () => fillWhat(row));
    row.what.addEventListener("change", () => fillNumber(row));
    row.how.addEventListener("change", () => fillNumber(row));
    const out = make("button", { type: "button", "aria-label": "Leave this wish out", hidden: rows.length === 0 }, "×");
    row.line = make("div", { class: "seek-words" }, rows.length === 0 ? "so that" : "and", row.where, "has", row.how, row.about, row.what, out);
    out.addEventListener("click", () => {
      rows.splice(rows.indexOf(row), 1);
      row.line.remove();
      more.hidden = false;
    });
    rows.push(row);
    place.append(row.line);
    rows[0].line.append(more);
    more.hidden = rows.length === kMostWishes;
    fill(row);
    row.what.selectedIndex = Math.min(rows.length - 1, row.what.options.length - 1); // not the same twice
    fillNumber(row);
  }
  add();
  return {
    showTables(tables) {
      places = measuredPlaces(tables);
      rows.forEach(fill);
    },
    // As dapple search writes them: "back wall.texture=more".
    words: () => rows.map(({ where, how, about, what }) => {
      const name = where.value.slice(where.value.indexOf("/") + 1);
      return `${name}${name ? "." : ""}${what.value}=${how.value === "about" ? about.value : how.value}`;
    }),
  };
}
