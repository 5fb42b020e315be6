"use strict";
// The answer keeps up with what is typed.
(() => {
  const form = byId("workbench");
  if (!form) return; // this is looked at from a phone
  let asked = 0, waiting = 0;

  const send = async (more) => {
    const body = queryOf(form);
    for (const [name, value] of Object.entries(more)) body.set(name, value);
    const mine = ++asked;
    const text = await textAt(form.getAttribute("action"), { method: "POST", body });
    return mine === asked ? text : null;
  };
  // Each fault beside its field.
  const mark = () => {
    for (const one of form.querySelectorAll(".fault[id]")) one.textContent = "";
    for (const one of form.querySelectorAll(".wrong")) one.classList.remove("wrong");
    for (const one of form.querySelectorAll("[data-at]")) {
      const place = byId(`${one.dataset.at}-fault`);
      if (!place) continue;
      place.textContent = `✗ ${one.querySelector("span").textContent}`;
      place.closest(".field").classList.add("wrong");
    }
  };
  const look = async () => {
    const text = await send({ look: "1", only: "answer" });
    if (text === null) return;
    keepOpen(text);
    mark();
  };
  // A row is known by its place; one that was moved, by its name.
  const known = (row, focus) => (focus ? row.closest("li").id : row.querySelector("strong").textContent);
  const anew = async (more, focus) => {
    clearTimeout(waiting);
    const open = [...form.querySelectorAll(".rung > [open] > summary")].map((one) => known(one, focus));
    const text = await send(more);
    if (text === null) return;
    const page = new DOMParser().parseFromString(text, "text/html");
    byId("rows").replaceWith(document.adoptNode(page.getElementById("rows")));
    keepOpen(page.getElementById("answer").innerHTML);
    for (const one of form.querySelectorAll(".rung summary"))
      if (open.includes(known(one, focus))) one.parentElement.open = true;
    const here = byId(focus) || form.querySelector("[autofocus]");
    here?.focus();
    if (here?.type === "text") here.setSelectionRange(here.value.length, here.value.length);
  };

  form.addEventListener("input", (event) => {
    if (event.target.dataset.anew !== undefined) return;
    clearTimeout(waiting);
    waiting = setTimeout(look, 250);
  });
  form.addEventListener("change", (event) => {
    if (event.target.dataset.anew !== undefined) anew({ look: "1" }, event.target.id);
  });
  form.addEventListener("submit", (event) => {
    const button = event.submitter;
    if (!button || button.name === "save") return;
    event.preventDefault();
    anew({ [button.name]: button.value }, button.name === "look" ? document.activeElement.id : "");
  });
  form.addEventListener("click", (event) => {
    const link = event.target.closest("#answer a[href^='#']");
    const row = link && byId(link.hash.slice(1));
    for (let one = row; one; one = one.parentElement) if (one.tagName === "DETAILS") one.open = true;
  });
})();
