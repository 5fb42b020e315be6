"use strict";
// Drawing, parts and verdicts keep up while the choices move; without this the button does the same.
(() => {
  const form = document.getElementById("choices");
  const shown = document.getElementById("answer");
  let asked = 0;
  const keepUp = async () => {
    const mine = ++asked;
    const query = new URLSearchParams(new FormData(form));
    const answer = await fetch(`${form.dataset.answer}?${query}`);
    const text = await answer.text();
    if (mine === asked) shown.innerHTML = text;
  };
  form.addEventListener("input", keepUp);
})();
