// Talks with the program.

const element = (id) => document.getElementById(id);

// Sends what to do. Returns "" or the line that says what is wrong.
async function act(request) {
  try {
    const answer = await fetch("act", {
      method: "POST",
      headers: { "Content-Type": "application/json" },
      body: JSON.stringify(request),
    });
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

// Sends changes one after another; while one is on its way, only the newest waits.
function makeChanger(onTrouble) {
  let waiting = null;
  let isBusy = false;
  let gestures = 0;
  async function send() {
    if (isBusy || !waiting) return;
    isBusy = true;
    const request = waiting;
    waiting = null;
    onTrouble(await act(request));
    isBusy = false;
    send();
  }
  return {
    newGesture: () => `${Date.now()}.${++gestures}`,
    change(changes, gesture = "", moving = false) {
      waiting = { do: "change", changes, gesture, moving };
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
