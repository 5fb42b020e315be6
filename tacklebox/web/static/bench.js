"use strict";
// What a page does beyond its forms: parts that come when they are ready, word of what changed elsewhere,
// a reading while he types, a list dropped on it. Without this all is there by buttons.

const byId = (id) => document.getElementById(id);
const queryOf = (form) => new URLSearchParams(new FormData(form));
const textAt = async (where, sent) => (await fetch(where, sent)).text();
const pageAt = async (where, sent) => {
  const answer = await fetch(where, sent);
  return [answer, new DOMParser().parseFromString(await answer.text(), "text/html")];
};
// What is shown now, for the way back to it.
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
// The fault of what was asked, beside its field; none stands there that was before.
const beside = (form, fault) => {
  for (const one of form.querySelectorAll(".field")) {
    const wrong = one.contains(byId(fault?.dataset.at));
    one.classList.toggle("wrong", wrong);
    one.querySelector(".fault")?.remove();
    if (wrong) one.append(fault);
  }
};
(() => {
  const body = document.body;

  for (const part of document.querySelectorAll("[data-comes]")) {
    pageAt(part.dataset.comes).then(([, made]) => {
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
  // What was sent may take long: the page says so, unless a file is to come.
  let waits = 0;
  document.addEventListener("submit", (event) => {
    if (event.defaultPrevented || /\/(labels|print)$/.test(event.submitter?.formAction || event.target.action)) return;
    waits = setInterval(() => textAt("/long").then((words) => tell(words, false), () => 0), 2000);
  });
  window.addEventListener("pageshow", () => { clearInterval(waits); byId("changed").hidden = true; });
  let asking = false;
  const look = async () => {
    if (asking || document.hidden || !body.dataset.state) return;
    asking = true;
    try {
      const state = await textAt("/state");
      if (state === body.dataset.state) return;
      body.dataset.state = state;
      if (!body.dataset.shows) {
        tell("The box was changed since this page was made.", false);
        return;
      }
      const [{ ok }, now] = await pageAt(body.dataset.again || location.href);
      if (!ok || now.body.dataset.shows !== body.dataset.shows) {
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
      const text = await textAt(`${field.dataset.reading}?${query}`);
      if (mine === asked) shown.innerHTML = text;
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

  // A row is drawn to its place; the buttons do the same.
  let drawn = null;
  const under = ({ target }) => {
    const row = target.closest("[data-place]");
    return drawn && row !== drawn && row?.parentElement === drawn.parentElement ? row : null;
  };
  document.addEventListener("dragstart", (event) => { drawn = event.target.closest("[data-place]"); });
  document.addEventListener("dragover", (event) => { if (under(event)) event.preventDefault(); });
  document.addEventListener("drop", (event) => {
    const row = under(event);
    if (!row) return;
    event.preventDefault();
    const to = `to-${row.dataset.place.match(/\d+$/)} ${drawn.dataset.place}`;
    row.insertAdjacentHTML("beforeend", `<button name="move" value="${to}">`);
    row.lastElementChild.click();
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
          const [answer, made] = await pageAt(list.action, { method: "POST", body: form });
          if (!answer.ok) throw answer;
          Object.assign(body.dataset, made.body.dataset, { again: answer.url });
          list.elements[`was-${key}`]?.remove();
          if (box.checked) box.before(Object.assign(box.cloneNode(), { type: "hidden", name: `was-${key}` }));
          kept.textContent = "✓ Kept as you tick.";
        } catch {
          kept.textContent = "✗ The last tick is not kept: press Keep the ticks.";
        }
      });
    });
  }
})();
