"use strict";
// What a page does beyond its forms: parts that come when they are ready, word of what was changed
// elsewhere, a reading while he types, a list dropped on the page. Without this all is there by buttons.

const byId = (id) => document.getElementById(id);
// The address of what is shown now, for the way back to it.
const here = (query) => {
  document.body.dataset.again ||= location.href;
  history.replaceState(null, "", `?${query}`);
};
// The answer anew, with those verdicts open that were, and with what was typed and ticked in it.
const keepOpen = (text) => {
  const shown = byId("answer");
  const kept = () => [...shown.querySelectorAll("[data-kept]")];
  const said = () => shown.querySelectorAll("input:not([type=hidden])");
  const open = kept().filter((one) => one.open).map((one) => one.dataset.kept);
  const was = Object.fromEntries([...said()].map((one) => [one.name, one]));
  shown.innerHTML = text;
  for (const one of said())
    ({ value: one.value, checked: one.checked } = was[one.name] ?? one);
  for (const one of kept()) one.open = open.includes(one.dataset.kept);
};
(() => {
  const body = document.body;
  const page = async (where) => {
    const answer = await fetch(where);
    return [answer.ok, new DOMParser().parseFromString(await answer.text(), "text/html")];
  };

  for (const part of document.querySelectorAll("[data-comes]")) {
    page(part.dataset.comes).then(([, made]) => {
      const main = made.querySelector("main");
      part.replaceChildren(...(main ?? made.body).childNodes);
      if (main) {
        document.querySelector("main").replaceChildren(...part.childNodes);
        body.dataset.shows = made.body.dataset.shows;
        body.dataset.state = made.body.dataset.state;
      }
    }).catch(() => { part.textContent = "It did not come. Load the page again."; });
  }

  const tell = (words, again) => {
    const word = byId("changed");
    word.hidden = false;
    word.firstElementChild.textContent = words;
    word.querySelector("a").hidden = !again;
  };
  // What was sent may wait for another program; this page says so meanwhile.
  document.addEventListener("submit", (event) => {
    if (/\/(labels|print)$/.test(event.submitter?.formAction || event.target.action)) return; // a file comes
    setTimeout(tell, 2000,
      "It takes longer than usual: the box is in use elsewhere, or it is long work.", false);
  });
  window.addEventListener("pageshow", () => { byId("changed").hidden = true; });
  let asking = false;
  const look = async () => {
    if (asking || document.hidden || !body.dataset.state) return;
    asking = true;
    try {
      const state = await (await fetch("/state")).text();
      if (state === body.dataset.state) return;
      body.dataset.state = state;
      if (!body.dataset.shows) {
        tell("The box was changed since this page was made.", false);
        return;
      }
      const [there, now] = await page(body.dataset.again || location.href);
      if (!there || now.body.dataset.shows !== body.dataset.shows) {
        tell("What this page shows was changed since, elsewhere.", true);
      }
    } catch {
      tell("The bench is closed. Open Tacklebox again; what you typed is still here.", false);
    } finally {
      asking = false;
    }
  };
  if (body.dataset.state) {
    setInterval(look, 15000);
    for (const when of ["visibilitychange", "pageshow"]) document.addEventListener(when, look);
    window.addEventListener("focus", look);
  }

  for (const field of document.querySelectorAll("[data-reading]")) {
    const shown = byId(field.dataset.into);
    let asked = 0;
    field.addEventListener("input", async () => {
      const mine = ++asked;
      const query = new URLSearchParams({ words: field.value });
      const answer = await fetch(`${field.dataset.reading}?${query}`);
      if (mine === asked) shown.innerHTML = await answer.text();
    });
  }

  // A rig that is ticked has its fields at once; else when the form comes back.
  const blank = byId("rig-fields");
  if (blank) document.addEventListener("change", ({ target: box }) => {
    if (!box.name?.startsWith("along-") || "later" in box.dataset) return;
    const code = box.name.slice(6);
    byId(`of-${code}`)?.remove();
    if (box.checked) box.closest("details").insertAdjacentHTML("beforebegin",
      `<div id="of-${code}">${blank.innerHTML.replaceAll("%CODE%", code)}</div>`);
  });

  const drop = document.querySelector("form[data-drop]");
  if (drop) {
    document.addEventListener("dragover", (event) => event.preventDefault());
    document.addEventListener("drop", (event) => {
      event.preventDefault();
      if (!event.dataTransfer.files.length) return;
      drop.querySelector("[type=file]").files = event.dataTransfer.files;
      drop.requestSubmit();
    });
  }

  const list = document.querySelector("form[data-ticks]");
  if (list) {
    const kept = byId("kept");
    let sending = Promise.resolve();
    list.addEventListener("change", (event) => {
      const box = event.target, key = box.name.slice(3);
      sending = sending.then(async () => {
        const form = new FormData();
        for (const one of list.querySelectorAll("[type=hidden]:not([name^=was-])")) form.set(one.name, one.value);
        form.set(`${box.checked ? "in" : "was"}-${key}`, "1");
        try {
          const answer = await fetch(list.action, { method: "POST", body: form });
          if (!answer.ok) throw answer;
          for (const one of list.querySelectorAll("[name^=was-]")) if (one.name === `was-${key}`) one.remove();
          if (box.checked) list.insertAdjacentElement("afterbegin", Object.assign(
            document.createElement("input"), { type: "hidden", name: `was-${key}`, value: "1" }));
          kept.textContent = "✓ Kept as you tick.";
        } catch {
          kept.textContent = "✗ The last tick is not kept: press Keep the ticks.";
        }
      });
    });
  }
})();
