// Find me a place: the program tries places for the chosen thing and lays the best and most unlike
// dozen out; a click puts the thing there, as a change that can be undone.

const kWanted = {
  region: [["texture", "texture (stops)"], ["patches", "patch size (cm)"], ["cover", "cover (share)"], ["brightness", "brightness (cd/m²)"]],
  meter: [["stops", "light (stops over the camera's setting)"], ["lux", "light (lx)"]],
};
const kNotMoved = ["region", "surface", "window", "door", "column", "room", "power"];

function seekNode(name, attributes = {}, ...inside) {
  const node = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  node.append(...inside);
  return node;
}

function makeSeek() {
  const place = element("seek");
  const select = (label) => seekNode("select", { "aria-label": label });
  const where = select("Where the light is judged"), what = select("What of the light"), how = select("More, less or about");
  how.append(new Option("more", "more"), new Option("less", "less"), new Option("about", "about"));
  const about = seekNode("input", { type: "number", step: "any", value: "0.5", "aria-label": "About how much" });
  const within = seekNode("input", { type: "number", step: "0.05", min: "0.01", value: "0.3", "aria-label": "Metres from where it is" });
  const box = (label, isOn) => {
    const input = seekNode("input", { type: "checkbox" });
    input.checked = isOn;
    return [input, seekNode("label", {}, input, ` ${label}`)];
  };
  const [height, heightLabel] = box("height too", false), [turn, turnLabel] = box("turn it", true), [tilt, tiltLabel] = box("tilt it", false);
  const tries = select("How many places");
  tries.append(...[40, 120, 300, 1000].map((n) => new Option(`${n} places`, n, false, n === 120)));
  const start = seekNode("button", { type: "button", id: "seek-start" }, "Find me a place");
  const stop = seekNode("button", { type: "button", id: "seek-stop" }, "Stop");
  const told = seekNode("p", { id: "seek-told", role: "status" });
  const found = seekNode("div", { id: "seek-found", role: "group", "aria-label": "Places that were found" });
  place.append(
    seekNode("h2", {}, "Find me a place"),
    seekNode("div", { class: "seek-words" }, seekNode("span", { id: "seek-thing" }), seekNode("label", {}, "within ", within, " m"), heightLabel, turnLabel, tiltLabel),
    seekNode("div", { class: "seek-words" }, seekNode("label", {}, "so that ", where), "has", how, about, what, tries, start, stop), told, found);
  stop.disabled = true;
  about.hidden = true;
  let isRunning = false;
  let taken = null;

  const canSeek = () => state.selected?.address && Array.isArray(state.selected.keys.position) && !kNotMoved.includes(state.selected.kind);
  function refresh() {
    const thing = state.selected;
    element("seek-thing").textContent = canSeek() ? `Move the ${thing.name || kindWord(thing.kind)}` : "Choose a thing that has a place.";
    start.disabled = !canSeek() || isRunning || where.options.length === 0;
    stop.disabled = !isRunning;
    turnLabel.hidden = !["glass", "stand_in"].includes(thing?.kind);
    tiltLabel.hidden = thing?.kind !== "glass";
  }
  function refreshWhat() {
    const kind = where.selectedOptions[0]?.dataset.kind === "meter" ? "meter" : "region";
    if (what.dataset.kind === kind) return;
    what.dataset.kind = kind;
    what.replaceChildren(...kWanted[kind].map(([key, words]) => new Option(words, key)));
  }
  function showTables(tables) {
    const before = where.value;
    const order = ["region", "meter", "surface"];
    const named = tables.filter((table) => table.name && order.includes(table.kind));
    const isTaken = (table) => table.kind === "surface" && named.some((other) => other !== table && other.name === table.name);
    named.sort((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
    where.replaceChildren(...named.filter((table) => !isTaken(table)).map((table) => {
      const value = `${table.kind}/${table.name}`;
      const option = new Option(`${table.name} (${kindWord(table.kind)})`, value, false, value === before);
      option.dataset.kind = table.kind;
      option.dataset.name = table.name;
      return option;
    }));
    refreshWhat();
    refresh();
  }
  function request() {
    const keys = state.selected.keys;
    const vary = [];
    const around = (name, at, by) => vary.push(`${name}=${tidy(at - by)}..${tidy(at + by)}`);
    if (height.checked) around("height", keys.position[1], Number(within.value));
    if (turn.checked && !turnLabel.hidden) vary.push("turn=-180..180");
    if (tilt.checked && !tiltLabel.hidden) around("tilt", Number(keys.tilt_deg) || 0, 20);
    const value = how.value === "about" ? about.value : how.value;
    return { do: "seek", thing: state.selected.address, within: Number(within.value), vary, wants: [`${where.selectedOptions[0].dataset.name}.${what.value}=${value}`], tries: Number(tries.value) };
  }

  function show(news) {
    isRunning = news.running;
    refresh();
    const leftOut = news.left_out ? `, ${news.left_out} left out (in a wall or another thing)` : "";
    const now = news.now ? ` Now: ${news.now}.` : "";
    told.textContent = news.why || `${news.running ? "Trying" : "Tried"} ${news.tried} of ${news.tries} places${leftOut}.${now}`;
    found.replaceChildren(...news.places.map((one) => {
      const id = `${news.run}.${one.number}`;
      const picture = seekNode("img", { src: `seek.jpg?n=${one.number}&run=${news.run}`, alt: "" });
      const button = seekNode("button", { type: "button", "aria-pressed": taken === id, "data-number": one.number }, picture, seekNode("strong", {}, one.measures), seekNode("small", {}, one.words));
      button.addEventListener("click", () => {
        taken = id;
        changer.change(one.changes);
        found.querySelectorAll("button").forEach((other) => other.setAttribute("aria-pressed", other === button));
      });
      return button;
    }));
  }

  where.addEventListener("change", refreshWhat);
  how.addEventListener("change", () => (about.hidden = how.value !== "about"));
  start.addEventListener("click", async () => showTrouble(await act(request())));
  stop.addEventListener("click", async () => showTrouble(await act({ do: "seek_stop" })));
  return { show, showTables, refresh };
}
