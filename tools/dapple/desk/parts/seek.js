// Find it a place: the program tries places for the chosen thing and lays the best and most unlike
// dozen out; a click puts the thing there, as a change that can be undone.

const kNotMoved = ["region", "surface", "window", "door", "column", "room", "power"];
const kAround = 0.3; // m, of the bounds to begin with
const kPlainHint = element("hint").textContent;
const kAxes = [[0, "left/right", "x"], [2, "depth", "z"], [1, "height", "height"]];

function makeSeek(desk) {
  const place = element("seek");
  const box = (label, isOn) => {
    const input = make("input", { type: "checkbox", checked: isOn });
    return [input, make("label", {}, input, ` ${label}`)];
  };
  const [turn, turnLabel] = box("turn it", true), [tilt, tiltLabel] = box("tilt it", false);
  const ends = kAxes.map(([, words]) => ["from", "to"].map((end) => numberInput("", 0.05, `${words}, ${end}, m`, "m", () => takeEnds())));
  const tries = make("select", { "aria-label": "How many places" });
  tries.append(...[40, 120, 300, 1000].map((n) => new Option(`try ${n} places`, n, false, n === 120)));
  const start = make("button", { type: "button", id: "seek-start" }, "Find places");
  const stop = make("button", { type: "button", id: "seek-stop" }, "Stop");
  const close = make("button", { type: "button", id: "seek-close" }, "Back to its settings");
  const unfold = make("button", { type: "button", id: "seek-unfold" }, "Change the wishes");
  const told = make("p", { id: "seek-told", role: "status" });
  const found = make("div", { id: "seek-found", role: "group", "aria-label": "Places that were found" });
  const wanted = make("div", {});
  const asked = make("div", { id: "seek-asked" },
    make("div", { class: "seek-words" }, "within the dashed box of the drawings:",
      ...kAxes.map(([, words], i) => make("span", {}, `${words} `, ends[i][0], " to ", ends[i][1], " m")), turnLabel, tiltLabel), wanted);
  place.append(make("div", { class: "head" }, make("h2", { id: "seek-thing" }), unfold, tries, start, stop, close), asked, told, found);
  const wishes = makeWishes(wanted);
  stop.disabled = true;
  // `last`: the newest news, of whichever thing. The questions fold away to give room to the pictures.
  let isRunning = false, isOpen = false, isFolded = false, taken = null, boundsOf = null, last = null;

  const canSeek = () => Boolean(state.selected?.address && state.selected.name && Array.isArray(state.selected.keys.position) && !kNotMoved.includes(state.selected.kind));
  const whyNot = () => (state.selected && state.selected.keys.position && !Array.isArray(state.selected.keys.position) ? "It stands at another thing. Give it a place of its own first." : "Places are tried for lamps, glass, cloths, boards, figures and meters.");
  function refresh() {
    element("seek-open").disabled = !isOpen && !canSeek();
    element("seek-open").title = canSeek() ? "Tries many places, and shows the best" : whyNot();
    if (!isOpen) return;
    const thing = state.selected;
    element("seek-thing").textContent = canSeek() ? `A place for ${titleOf(thing)}` : whyNot();
    start.disabled = !canSeek() || isRunning;
    stop.disabled = !isRunning;
    turnLabel.hidden = !["glass", "stand_in"].includes(thing?.kind);
    tiltLabel.hidden = thing?.kind !== "glass";
    const identity = canSeek() ? thing.address : null;
    if (identity !== boundsOf) {
      boundsOf = identity;
      desk.bounds.set(identity ? boxAround(thing.keys.position) : null);
      fold(Boolean(last && last.thing === identity && last.places.length > 0));
      showFound();
    }
  }
  // Level with the thing, and inside the room.
  function boxAround(at) {
    const room = desk.drawing()?.room.box;
    const held = (x, i) => Number((room ? Math.min(room[1][i], Math.max(room[0][i], x)) : x).toFixed(2));
    return [-1, 1].map((sign) => at.map((x, i) => held(i === 1 ? x : x + sign * kAround, i)));
  }
  function showBounds() {
    const now = desk.bounds.box();
    kAxes.forEach(([axis], i) => ends[i].forEach((input, end) => {
      if (now && document.activeElement !== input) input.value = now[end][axis];
    }));
  }
  function takeEnds() {
    const now = desk.bounds.box();
    if (!now) return;
    kAxes.forEach(([axis], i) => {
      const typed = ends[i].map((input) => numberTyped(input.value, "m").value);
      if (typed.includes(undefined)) return;
      [now[0][axis], now[1][axis]] = typed.sort((p, q) => p - q);
    });
    desk.bounds.set(now);
  }

  function open(isWanted) {
    if (isWanted && element("judge").getAttribute("aria-pressed") === "true") element("judge").click();
    isOpen = isWanted;
    place.hidden = !isOpen;
    document.body.classList.toggle("seeking", isOpen);
    element("seek-open").setAttribute("aria-pressed", isOpen);
    setHint(isOpen ? "Drag the corners of the dashed box, or draw another one." : kPlainHint);
    boundsOf = null;
    if (!isOpen) desk.bounds.set(null);
    refresh();
    if (isOpen) place.scrollIntoView({ block: "nearest" });
  }
  function request() {
    const vary = [];
    const now = desk.bounds.box();
    for (const [axis, , name] of kAxes) {
      if (now[1][axis] > now[0][axis]) vary.push(`${name}=${now[0][axis]}..${now[1][axis]}`);
    }
    if (turn.checked && !turnLabel.hidden) vary.push("turn=-180..180");
    const tilted = Number(state.selected.keys.tilt_deg) || 0;
    if (tilt.checked && !tiltLabel.hidden) vary.push(`tilt=${tilted - 20}..${tilted + 20}`);
    return { do: "seek", thing: state.selected.address, vary, wants: wishes.words(), tries: Number(tries.value) };
  }

  function fold(isWanted) {
    isFolded = isWanted;
    asked.hidden = isFolded;
    unfold.hidden = !isFolded;
    tries.hidden = isFolded;
  }
  unfold.addEventListener("click", () => fold(false));

  function show(news) {
    const isNew = !last || last.run !== news.run;
    last = news;
    isRunning = news.running;
    refresh();
    if (isNew && isOpen && news.thing === state.selected?.address) fold(true);
    showFound();
  }
  // What was found for another thing is not shown beside this one.
  function showFound() {
    const news = last;
    if (!news) return;
    if (news.thing !== state.selected?.address) {
      found.replaceChildren();
      told.textContent = isRunning ? `Places are being tried for ${news.thing.replace(/^[^.]*\./, "")}; choose it to see them.` : "";
      return;
    }
    const leftOut = news.left_out ? `, ${news.left_out} left out (in a wall or another thing)` : "";
    const now = news.now ? ` Now: ${news.now}.` : "";
    const none = !news.running && news.better === 0 ? " None of them does better than now." : "";
    const hint = news.places.length > 0 && !news.running ? " Click a picture to put it there." : "";
    told.textContent = news.why || `${news.running ? "Trying" : "Tried"} ${news.tried} of ${news.tries} places${leftOut}.${now}${none}${hint}`;
    found.replaceChildren(...news.places.map((one) => {
      const id = `${news.run}.${one.number}`;
      const picture = make("img", { src: `seek.jpg?n=${one.number}&run=${news.run}`, alt: "" });
      const button = make("button", { type: "button", "aria-pressed": taken === id }, picture, make("strong", {}, one.measures), make("small", {}, one.words));
      button.dataset.number = one.number;
      button.addEventListener("click", () => {
        taken = id;
        changer.change(one.changes);
        found.querySelectorAll("button").forEach((other) => other.setAttribute("aria-pressed", other === button));
      });
      return button;
    }));
  }

  element("seek-open").addEventListener("click", () => open(!isOpen));
  close.addEventListener("click", () => open(false));
  start.addEventListener("click", async () => showTrouble(await act(request())));
  stop.addEventListener("click", async () => showTrouble(await act({ do: "seek_stop" })));
  return { close: () => isOpen && open(false), show, refresh, showBounds, showTables: (tables) => wishes.showTables(tables) };
}
