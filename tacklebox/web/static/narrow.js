"use strict";
// The list narrows while he types.
(() => {
  const form = byId("narrow");
  const rows = byId("rows");
  let asked = 0;
  const narrow = async () => {
    const mine = ++asked;
    const query = queryOf(form);
    const answer = await fetch(`${form.dataset.rows}?${query}`);
    const text = await answer.text();
    if (!answer.ok || mine !== asked) return;
    rows.innerHTML = text;
    here(query);
  };
  form.addEventListener("input", narrow);
})();
