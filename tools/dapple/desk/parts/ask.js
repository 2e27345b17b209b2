// Talks with the program.

const element = (id) => document.getElementById(id);

// The drag or slide that goes on. Whatever else is done ends it; one that stops without an end, as when
// the pointer is lost, is ended by the clock.
const kDragEnds = 700; // ms
const dragging = { goesOn: false, ending: 0 };
function setDragging(goesOn, end) {
  dragging.goesOn = goesOn;
  clearTimeout(dragging.ending);
  if (goesOn) dragging.ending = setTimeout(end, kDragEnds);
}

// Says for a while, in the place of the drawings' hint, what was done beside what the hand did.
const kTold = 9000; // ms
const told = { hint: element("hint").textContent, ending: 0 };
function setHint(text) {
  told.hint = text;
  if (!told.ending) element("hint").textContent = text;
}
function tellNothing() {
  clearTimeout(told.ending);
  told.ending = 0;
  element("hint").textContent = told.hint;
}
function tellDone(text) {
  element("hint").textContent = text;
  clearTimeout(told.ending);
  told.ending = setTimeout(tellNothing, kTold);
}

// Sends what to do. Returns "" or the line that says what is wrong. `onVersion` gets the number of the
// set's text after it.
async function act(request, onVersion = () => {}) {
  if (request.do !== "change") setDragging(false);
  try {
    const answer = await fetch("act", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(request),
    });
    onVersion(Number(answer.headers.get("Set-Version")));
    return answer.ok ? "" : (await answer.text()) || `the program answered ${answer.status}`;
  } catch {
    return "the program does not answer; start dapple desk again. Nothing that was done is lost";
  }
}

// A value as TOML writes it.
function tomlOf(value) {
  if (Array.isArray(value)) return `[${value.map(tomlOf).join(", ")}]`;
  if (value && typeof value === "object") {
    return `{ ${Object.entries(value).map(([key, part]) => `${key} = ${tomlOf(part)}`).join(", ")} }`;
  }
  return JSON.stringify(value);
}

// Metres to a millimetre, angles and the like to six digits, without the dust of binary numbers.
const tidy = (x) => Number(x.toFixed(3));
// With a decimal point, so that a key that holds metres still does.
const asFloat = (x) => (Number.isInteger(x) ? `${x}.0` : String(x));
const tomlPoint = (point) => `[${point.map((x) => asFloat(tidy(x))).join(", ")}]`;

// Sends changes one after another; while one is on its way, only the newest waits. `show(changes,
// isMoving)` returns whether the page shows them by itself, `onSent(version)` hears that the program
// has all of them.

function makeChanger({ onTrouble, show, onSent }) {
  let waiting = null;
  let isBusy = false;
  let gestures = 0;
  async function send() {
    if (isBusy || !waiting) return;
    isBusy = true;
    const request = waiting;
    waiting = null;
    let version = 0;
    onTrouble(await act(request, (now) => (version = now)));
    isBusy = false;
    if (!waiting && !request.moving) onSent(version);
    send();
  }
  return {
    isMoving: () => dragging.goesOn,
    newGesture: () => `${Date.now()}.${++gestures}`,
    change(changes, gesture = "", moving = false) {
      setDragging(moving, () => this.change(changes, gesture, false));
      waiting = { do: "change", changes, gesture, moving, shown: show(changes, moving) };
      send();
    },
  };
}

function listenForNews(listeners, onLost) {
  const news = new EventSource("news");
  for (const [kind, listener] of Object.entries(listeners)) {
    news.addEventListener(kind, (event) => listener(JSON.parse(event.data)));
  }
  news.addEventListener("open", () => onLost(false));
  news.addEventListener("error", () => onLost(true));
}
