// Talks with the program.

const element = (id) => document.getElementById(id);

// Sends what to do. Returns "" or the line that says what is wrong. `onVersion` gets the number of the
// set's text after it.
async function act(request, onVersion = () => {}) {
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
// has all of them. A drag that stops without an end, as when the pointer is lost, is ended.
const kDragEnds = 700; // ms

function makeChanger({ onTrouble, show, onSent }) {
  let waiting = null;
  let isBusy = false;
  let gestures = 0;
  let ending = 0;
  let isMoving = false;
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
    // A drag or a slide goes on.
    isMoving: () => isMoving,
    newGesture: () => `${Date.now()}.${++gestures}`,
    change(changes, gesture = "", moving = false) {
      clearTimeout(ending);
      isMoving = moving;
      waiting = { do: "change", changes, gesture, moving, shown: show(changes, moving) };
      if (moving) ending = setTimeout(() => this.change(changes, gesture, false), kDragEnds);
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
