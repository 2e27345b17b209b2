// The set file: a new set from a few questions, a name for it, and the versions that are kept.

// Opens a form; `send(values)` returns "" or what is wrong, which the form then shows.
function makeForm(id, send) {
  const dialog = element(id);
  const form = dialog.querySelector("form");
  const wrong = dialog.querySelector(".wrong");
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    wrong.textContent = await send(Object.fromEntries(new FormData(form)));
    wrong.hidden = !wrong.textContent;
    if (!wrong.textContent) dialog.close();
  });
  dialog.querySelector(".cancel").addEventListener("click", () => dialog.close());
  return {
    open() {
      wrong.hidden = true;
      dialog.showModal();
    },
  };
}

function answersOf(form) {
  const number = (key) => {
    const typed = numberTyped(String(form[key]), key === "lens" ? "mm" : "m");
    if (typed.wrong) throw typed.wrong;
    return typed.value;
  };
  return {
    do: "new",
    title: form.title || "A small room",
    room: [number("width"), number("depth"), number("height")],
    distance: number("distance"),
    lens: number("lens"),
    figure: form.pose === "none" ? null : number("figure"),
    seated: form.pose === "seated",
    walls: Number(form.walls),
    portrait: form.format === "portrait",
  };
}

function makeFile() {
  const newForm = makeForm("new-form", (form) => {
    try {
      return act(answersOf(form));
    } catch (wrong) {
      return wrong; // a line about a number
    }
  });
  const nameForm = makeForm("name-form", (form) => act({ do: "save_as", name: form.name, folder: form.folder }));
  const wrongForm = makeForm("wrong-form", () => write());
  let hasAsked = false;

  const pick = element("versions");
  pick.addEventListener("change", async () => {
    const name = pick.value;
    pick.value = "";
    if (name) showTrouble(await act({ do: "open_version", name }));
  });
  element("new").addEventListener("click", newForm.open);
  element("save-as").addEventListener("click", askName);

  function askName() {
    const title = /^\s*title\s*=\s*"(.*)"/m.exec(state.set.text);
    const name = state.set.has_file ? state.set.file.replace(/\.toml$/, "") : title ? title[1] : "";
    const form = element("name-form");
    form.querySelector("[name=name]").value = name;
    form.querySelector("[name=folder]").value = state.set.folder;
    nameForm.open();
  }
  function write() {
    if (state.set.has_file) return act({ do: "save" });
    askName();
    return "";
  }

  return {
    save() {
      if (!troubles.set) return write();
      element("mistakes").textContent = troubles.set;
      wrongForm.open();
      return "";
    },
    askName,
    showVersions({ names }) {
      pick.replaceChildren(new Option(names.length > 0 ? "kept versions …" : "no versions kept yet", ""), ...names.map((name) => new Option(name, name)));
      pick.disabled = names.length === 0;
    },
    // A desk without a set asks for the room first.
    showSet(set) {
      element("new").hidden = set.has_file;
      element("save-as").hidden = !set.has_file;
      if (hasAsked || set.has_file || !set.untouched || set.left_over) return;
      hasAsked = true;
      newForm.open();
    },
  };
}
