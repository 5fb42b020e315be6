"use strict";
// The list narrows while he types; without this the button does the same.
(() => {
  const form = byId("narrow");
  const rows = byId("rows");
  let asked = 0;
  const narrow = async () => {
    const mine = ++asked;
    const query = new URLSearchParams(new FormData(form));
    const answer = await fetch(`${form.dataset.rows}?${query}`);
    if (answer.ok && mine === asked) rows.innerHTML = await answer.text();
  };
  form.addEventListener("input", narrow);
})();
